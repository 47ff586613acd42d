#pragma once
// Estimates of what pressure does to a sealed cylinder. Never a permission: see kPressureCaution.
#include <array>
#include <pondtrim/boat.hpp>
#include <string_view>
#include <vector>

namespace pondtrim {

/// Goes wherever a figure of this header goes.
inline constexpr std::string_view kPressureCaution =
    "An estimate for a perfect tube and cap, not a permission. Joints, holes, scratches, age, heat and "
    "knocks "
    "take away most of it. Test with water in the cylinder, never with air alone, behind cover, and keep to "
    "the makers' limits and local rules.";

/// All estimates are divided by this where they say so: polymers creep and crack (common practice; at least
/// 4).
inline constexpr double kStrengthFactor = 4.0;

// Thin tube: D mean diameter, t wall, L unsupported length [m], p pressure difference [Pa], E, nu elastic.

struct TubeStress {
  double hoop = 0.0, axial = 0.0, von_mises = 0.0;  ///< [Pa]
};
/// Closed thin tube: p D/2t, p D/4t.
[[nodiscard]] TubeStress tubeStress(double pressure, double diameter, double wall);

/// Outside pressure at which a short tube buckles [Pa]: Windenburg and Trilling 1934, Trans. ASME APM-56-20:
/// 2.42 E (t/D)^2.5 / ((1 - nu^2)^0.75 (L/D - 0.45 (t/D)^0.5)).
[[nodiscard]] double shortTubeCollapse(double modulus, double poisson, double diameter, double wall,
                                       double length);
/// The same for a very long tube: E / (4 (1 - nu^2)) (t/r)^3 (Roark, table 35, case 19a).
[[nodiscard]] double longTubeCollapse(double modulus, double poisson, double radius, double wall);

struct PlateStress {
  double stress = 0.0;      ///< greatest [Pa]: centre when supported, rim when clamped
  double deflection = 0.0;  ///< of the centre [m]
};
/// Flat round cap under even pressure (Mechanical Engineer's Data Handbook, p. 53; Roark).
[[nodiscard]] PlateStress supportedCap(double pressure, double radius, double thickness, double modulus,
                                       double poisson);
[[nodiscard]] PlateStress clampedCap(double pressure, double radius, double thickness, double modulus,
                                     double poisson);

/// What data sheets say, low to high [Pa].
struct TubeMaterial {
  std::string_view name;
  double modulus_low = 0.0, modulus_high = 0.0;
  double strength_low = 0.0, strength_high = 0.0;  ///< tensile strength; metals: yield stress
  double poisson = 0.35;
  std::string_view source;
};
inline constexpr int kTubeMaterials = 7;
[[nodiscard]] const std::array<TubeMaterial, kTubeMaterials>& tubeMaterials();
/// What comes after a comma only describes it ("PVC, rigid"). Null: not known.
[[nodiscard]] const TubeMaterial* findTubeMaterial(std::string_view name);

/// A range of estimates from the material's low and high values.
struct EstimateRange {
  double low = 0.0, high = 0.0;
};

/// One cylinder under the water's pressure and, from the ballast system, its own air's.
struct StrengthEstimate {
  std::string_view caution = kPressureCaution;
  std::string_view material;  ///< of tubeMaterials(), or "as given in the boat file"
  double factor = kStrengthFactor;
  double outside_pressure = 0.0, inside_pressure = 0.0;  ///< above the atmosphere [Pa]
  TubeStress outside_stress, inside_stress;              ///< under each of them alone
  double tube_length = 0.0;                              ///< between the caps [m]
  double unsupported_length = 0.0;                       ///< longest between caps, tank ends, bulkheads [m]
  /// Perfect tube, no factor [Pa]. Low: lowest modulus, discs inside not counted on; high: highest, counted.
  EstimateRange collapse_pressure;
  EstimateRange collapse_depth;                           ///< the same as a depth of this water [m]
  double collapse_depth_over_factor = 0.0;                ///< the low one over the factor [m]
  std::optional<PlateStress> supported_cap, clamped_cap;  ///< flat caps, under the greater pressure
  EstimateRange strength;                                 ///< of the material [Pa]
  /// The greatest stress here (cap supported) over the lowest strength; above 1 / factor: too much.
  double share_of_strength = 0.0;
  bool within_factor = false;  ///< both estimates keep the factor; still only an estimate
  bool flexes =
      false;  ///< cap deflection above half its thickness: the plate formulas are outside their range
};

/// Error: "cylinders[i]" not there; "depth" outside 0 to 100; a cylinder with neither material data nor a
/// known `material` ("cylinders[i].material", allowed: the names); as waterDensity.
[[nodiscard]] Result<StrengthEstimate> estimateStrength(const Boat& boat, std::size_t cylinder,
                                                        const Water& water, double depth,
                                                        double inside_pressure = 0.0);

}  // namespace pondtrim
