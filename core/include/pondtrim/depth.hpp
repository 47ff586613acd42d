#pragma once
// What depth does to buoyancy: foam and hull give way, trapped air and gas shrink.
#include <array>
#include <optional>
#include <pondtrim/model.hpp>
#include <vector>

namespace pondtrim {

/// Foam without a stated stiffness: a board that gives 10 % at 300 kPa (designation CS(10\Y)300 of EN 13164)
/// has at least this modulus [Pa]. Softer than the foam really is at small loads, so on the safe side.
inline constexpr double kSoftFoam = 3e6;

struct DepthPoint {
  double depth = 0.0;         ///< of the boat's centre of volume [m]
  double pressure = 0.0;      ///< above the atmosphere [Pa]
  double net_buoyancy = 0.0;  ///< displaced mass - mass, all under [kg]
  double foam_loss = 0.0;     ///< buoyancy lost since the surface: foam squeezed [kg]
  double air_loss = 0.0;      ///< trapped air [kg]
  double gas_loss = 0.0;      ///< gas in a tank that is open at the bottom [kg]
  double hull_loss = 0.0;     ///< sealed cylinders squeezed [kg]
};

struct DepthCurve {
  std::vector<DepthPoint> points;
  /// Depth below which she no longer comes up by herself [m]; 0: she sinks from the surface. Empty: still
  /// buoyant at the greatest depth asked for.
  std::optional<double> point_of_no_return;
  double soaked_loss = 0.0;      ///< buoyancy lost for good to water in the foam, counted in every point [kg]
  bool foam_assumed = false;     ///< some foam has no stated stiffness: kSoftFoam used
  bool hull_from_sheet = false;  ///< some cylinder gives way by its material's lowest modulus
  bool hull_assumed_rigid = false;  ///< some cylinder has neither flexibility nor modulus nor known material
};

/// Volume that a cylinder loses over the pressure [m^3/Pa]: `flexibility`, else thin-tube theory, dV/V = (5/2
/// - 2 nu) p r / (E t), E as given or the lowest that data sheets say of its material. Empty: nothing is
/// known of it.
[[nodiscard]] std::optional<double> flexibilityOf(const SealedCylinder& cylinder);

/// From the surface to `deepest` [m], `points` of them. Foam: V exp(-p/K). Trapped air and gas: Boyle,
/// isothermal. Cylinders: flexibilityOf.
/// Error: as waterDensity; "tank_fill"; "depth" not within 0.01 to 200; "points" not within 2 to 2000.
[[nodiscard]] Result<DepthCurve> depthCurve(const Boat& boat, const Model& model, const Condition& condition,
                                            double deepest, int points);

/// The waters a club boat meets, weights unchanged.
enum class NamedWater { WarmPool, ColdLake, WarmSea, ColdSea };
inline constexpr int kNamedWaters = 4;
/// 28 and 5 degC fresh, 25 and 8 degC at salinity 35.
[[nodiscard]] Water waterOf(NamedWater water);

struct WaterAnswer {
  NamedWater water = NamedWater::WarmPool;
  double net_buoyancy = 0.0;    ///< at the surface, all under, the same tank fill [kg]
  double ballast_change = 0.0;  ///< to be as heavy in this water as in the condition's: + add [kg]
  std::optional<double> point_of_no_return;  ///< as DepthCurve
};
[[nodiscard]] Result<std::array<WaterAnswer, kNamedWaters>> depthInWaters(const Boat& boat,
                                                                          const Model& model,
                                                                          const Condition& condition,
                                                                          double deepest);

/// Mass that keeps a boat of `mass` [kg] just as deep when it goes from one water to another: mass
/// (rho2 / rho1 - 1) [kg]. Error: as waterDensity.
[[nodiscard]] Result<double> massForWater(double mass, const Water& from, const Water& to);

}  // namespace pondtrim
