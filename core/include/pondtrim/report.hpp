#pragma once
// The front door: one condition solved, and what a builder wants to know of it.
#include <optional>
#include <pondtrim/equilibrium.hpp>

namespace pondtrim {

/// What a reader with a ruler sees at one mark, on the centreline, measured along the boat's z.
struct MarkReading {
  double draft = 0.0;             ///< baseline to water [m]
  double line_above_water = 0.0;  ///< painted line above (+) or below (-) the water [m]
};

/// How the drafts answer to a small added mass w at station x on the centreline, at the height of the water
/// there (which to first order does not matter when she is level): d(draft) = w (at_origin + per_metre x)
/// [m/kg, m/kg/m].
struct MarkEffect {
  double at_origin = 0.0;
  double per_metre = 0.0;
};

/// Units SI, signs as in equilibrium.hpp. Values that have no meaning in the outcome are empty:
/// marks need the boat within 60 degrees of upright, waterplane values need a waterplane.
struct Report {
  Equilibrium rest;

  std::optional<MarkReading> bow, stern;
  double sail_showing = 0.0;      ///< sail top above water, vertically; negative: under
  double displaced_volume = 0.0;  ///< [m^3]
  double displaced_mass = 0.0;    ///< [kg]
  double total_mass = 0.0;        ///< with tank water [kg]
  double carry_mass = 0.0;        ///< out of the water, tank drained [kg]
  double tank_water_mass = 0.0;
  double reserve_buoyancy_volume = 0.0;  ///< displacing volume still above water [m^3]
  double net_buoyancy_submerged = 0.0;   ///< all under water: displaced mass - total mass [kg]

  Vec3 centre_of_buoyancy{0.0};  ///< LCB, TCB, VCB
  Vec3 centre_of_gravity{0.0};   ///< LCG, TCG, VCG, tank water included

  double waterplane_area = 0.0;                          ///< [m^2]
  std::optional<double> lcf;                             ///< centroid of the waterplane, x [m]
  std::optional<double> bm_transverse, bm_longitudinal;  ///< [m]
  double gm_transverse = 0.0, gm_longitudinal = 0.0;     ///< free surface in [m]
  double free_surface_rise_transverse = 0.0;             ///< virtual rise of G [m]
  double free_surface_rise_longitudinal = 0.0;
  double bg_submerged =
      0.0;  ///< all under water: B above G along the vertical of this attitude, +: stable [m]

  double mass_per_immersion = 0.0;     ///< [kg/m]
  double moment_to_change_trim = 0.0;  ///< weight x GM_L [N.m/rad]
  std::optional<MarkEffect> bow_effect, stern_effect;
};

/// Solves the condition and reports. Error: as findEquilibrium.
[[nodiscard]] Result<Report> evaluate(const Model& model, const Condition& condition);

/// The same, starting from a known rest position nearby.
[[nodiscard]] Result<Report> evaluateNear(const Model& model, const Condition& condition, const Plane& start);

/// How much of the sail shows when she lies level with the tank full and is as the aims want her [m]: their
/// sail_showing, or where they name a net buoyancy, what leaves that much displacement above the water; the
/// water not below the painted line. `density` of the water [kg/m^3].
[[nodiscard]] double wantedSail(const Model& model, double density, const Aims& aims);

}  // namespace pondtrim
