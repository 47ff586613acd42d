#pragma once
// Where the boat comes to rest.
#include <pondtrim/condition.hpp>
#include <pondtrim/model.hpp>

namespace pondtrim {

/// Attitude and draft. Trim positive bow up, heel positive to starboard [rad]:
/// up = (sin trim, cos trim sin heel, cos trim cos heel).
struct Attitude {
  double trim = 0.0, heel = 0.0;
  [[nodiscard]] Vec3 up() const;
  [[nodiscard]] static Attitude of(const Vec3& up);
};

enum class Outcome {
  Floats,       ///< at rest with hull above water
  FloatsAwash,  ///< the deck is under at both marks: little but the sail shows
  Sinks,        ///< weighs more than it can displace
};

/// At rest. `plane` for Sinks is the attitude in which she hangs, with the level above everything.
struct Equilibrium {
  Outcome outcome = Outcome::Floats;
  Plane plane;
  Attitude attitude;
  Cut cut;  ///< displaced water
  TankWater tank;
  double density = 1000.0;        ///< of the water [kg/m^3]
  double mass = 0.0;              ///< with tank water [kg]
  Vec3 centre_of_gravity{0.0};    ///< with tank water
  double missing_buoyancy = 0.0;  ///< Sinks: mass that must go [kg]; else 0
  /// Stiffness of the potential energy over g, in (level [m], trim [rad], heel [rad]), at the rest position
  /// [kg/m, kg, kg; kg.m/rad...]: row-major 3x3. Fully submerged the first row and column are 0.
  double stiffness[3][3] = {};
  int iterations = 0;            ///< Newton steps taken
  double force_residual = 0.0;   ///< |weight - buoyancy| / weight
  double moment_residual = 0.0;  ///< |moment| / (weight x hull length)
};

/// The least potential energy near `start` (a minimum, never a saddle): damped Newton with the analytic
/// stiffness and a line search on the energy, on the plane's level and the unit sphere of `up`, so that no
/// attitude is singular. A boat that cannot float is an answer (Outcome::Sinks), not an Error.
/// Error: condition outside its range (fields "water.*", "tank_fill").
[[nodiscard]] Result<Equilibrium> findEquilibrium(const Model& model, const Condition& condition,
                                                  const Attitude& start = {});

/// The same from a known plane nearby (warm start; sliders, sweeps).
[[nodiscard]] Result<Equilibrium> findEquilibriumNear(const Model& model, const Condition& condition,
                                                      const Plane& start);

}  // namespace pondtrim
