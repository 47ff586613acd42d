#pragma once
// The potential energy of a boat in the water, its gradient and its stiffness.
//
// Notation. Everything is per unit of g. Energy of the boat in the water, about a fixed point o of the boat:
//   E(d, u) = u.D - d (m - rho V) with  d = c - u.o  (depth of o),
//   D = m G + tank moment - rho M  (moments about o),  V, M volume and moment under water,
// because the displaced water's energy is the integral of depth, d V - u.M, and tank water lies at its own
// lowest level (its share changes at fixed volume, so the envelope theorem leaves only its moment).
//   dE/dd = -(m - rho V),   dE/du = D,
//   d2E/dd2 = rho A,   d2E/dd du = -rho a,   d2E/du2 = rho P - rho_tank (P_t - a_t a_t^T / A_t),
// A, a, P area and moments of the waterplane about o. On the unit sphere of u the second derivative loses
// (u.D) times the identity. E is convex in d, so a rest position is a minimum over d and a stationary point
// over u; it is kept only when it is a minimum there too.
#include <Eigen/Dense>
#include <glm/geometric.hpp>
#include <optional>
#include <pondtrim/equilibrium.hpp>

#include "tangent.hpp"

namespace pondtrim {

/// What does not change while the boat moves.
struct Problem {
  const Model* model;
  double density;
  double fill;
  double mass;                      ///< with tank water
  Vec3 origin;                      ///< o: near the middle, for round-off and to loosen depth from attitude
  Vec3 mass_moment;                 ///< boat without tank water, about o
  double scale;                     ///< length that makes angles and depths alike [m]
  bool afloat;                      ///< else fully under: depth does not matter
  std::optional<TankWater> frozen;  ///< tank water that cannot move: what she would do without a free surface
};

/// A point of the search and everything known there.
struct State {
  Vec3 up{0, 0, 1};
  double depth = 0;  ///< d
  Cut cut;           ///< about o
  TankWater tank;
  Vec3 turning{0.0};  ///< D
  double lack = 0;    ///< m - rho V
  double energy = 0;
};

/// Error: condition outside its range (fields "water.*", "tank_fill").
Result<Problem> pose(const Model& model, const Condition& condition);

State look(const Problem& p, const Vec3& up, double depth);

/// Depth of o under a plane; 0 for a boat that is fully under.
inline double depthUnder(const Problem& p, const Plane& plane) {
  return p.afloat ? plane.level - glm::dot(plane.up, p.origin) : 0.0;
}

/// Depth at which the buoyancy carries the mass, attitude fixed: Newton inside a shrinking bracket.
/// `enough`: share of the mass that may still be lacking.
State settleDepth(const Problem& p, State s, double enough = 1e-13);

/// Energy differences below this are rounding.
double energyNoise(const Problem& p, const State& s);

/// In (depth / scale, trim, heel): [kg m].
Eigen::Vector3d gradient(const Problem& p, const State& s, const Tangent& t);
Eigen::Matrix3d stiffness(const Problem& p, const State& s, const Tangent& t);

/// The rest position that a search from `start` finds: see findEquilibrium (equilibrium.cpp).
Equilibrium restFrom(const Problem& p, const State& start);
/// The same from a plane nearby.
Equilibrium restNear(const Problem& p, const Plane& start);

}  // namespace pondtrim
