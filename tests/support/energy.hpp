#pragma once
// The potential energy of a boat in the water, and its gradient, from cutModel and settleTank alone: what the
// solver's answers are held against.
#include <array>
#include <pondtrim/equilibrium.hpp>

namespace pondtrim::test {

/// Unit directions in which `up` moves with trim (bow up) and heel (to starboard), from Attitude::up().
struct Turns {
  Vec3 trim, heel;
};
Turns turnsAt(const Attitude& attitude);

/// `up` turned by small angles along the two directions.
Vec3 turned(const Vec3& up, const Turns& turns, double trim, double heel);

/// One boat in one condition. Depths are those of the centroid of everything that displaces.
class Energy {
 public:
  /// `submerged`: everything displaces, whatever the depth.
  Energy(const Model& model, const Condition& condition, bool submerged);
  /// Over g [kg m], up to a constant.
  [[nodiscard]] double at(const Vec3& up, double depth) const;
  /// Over depth [kg] and the two turns [kg m].
  [[nodiscard]] std::array<double, 3> gradient(const Vec3& up, double depth, const Turns& turns) const;
  [[nodiscard]] double depthOf(const Plane& plane) const;
  [[nodiscard]] double mass() const { return mass_; }

 private:
  struct Loads {
    double lack;   // mass less displaced mass
    Vec3 turning;  // moment of mass less moment of displaced mass, about the centroid
  };
  [[nodiscard]] Loads loads(const Vec3& up, double depth) const;

  const Model& model_;
  Condition condition_;
  bool submerged_;
  double density_, mass_;
};

}  // namespace pondtrim::test
