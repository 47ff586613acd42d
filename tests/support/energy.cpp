#include "support/energy.hpp"

#include <cmath>
#include <glm/geometric.hpp>

namespace pondtrim::test {

Turns turnsAt(const Attitude& a) {
  const double ct = std::cos(a.trim), st = std::sin(a.trim), ch = std::cos(a.heel), sh = std::sin(a.heel);
  return {{ct, -st * sh, -st * ch}, {0.0, ch, -sh}};
}

Vec3 turned(const Vec3& up, const Turns& turns, double trim, double heel) {
  const double angle = std::hypot(trim, heel);
  if (angle == 0.0) return up;
  const Vec3 way = (turns.trim * trim + turns.heel * heel) / angle;
  return up * std::cos(angle) + way * std::sin(angle);
}

Energy::Energy(const Model& model, const Condition& condition, bool submerged)
    : model_(model),
      condition_(condition),
      submerged_(submerged),
      density_(waterDensity(condition.water).value()) {
  mass_ = model.mass + density_ * settleTank(model, condition.tank_fill, {0, 0, 1}).value().volume;
}

double Energy::depthOf(const Plane& plane) const {
  return plane.level - glm::dot(plane.up, model_.whole_centroid);
}

Energy::Loads Energy::loads(const Vec3& up, double depth) const {
  const Vec3& o = model_.whole_centroid;
  Cut cut;
  if (submerged_) {
    for (const Displacer& d : model_.displacers) cut += d.whole;
  } else {
    cut = cutModel(model_, {up, depth + glm::dot(up, o)});
  }
  const TankWater tank = settleTank(model_, condition_.tank_fill, up).value();
  Loads out{mass_ - density_ * cut.volume, Vec3{0.0}};
  for (const Weight& w : model_.weights) out.turning += w.mass * (w.position - o);
  out.turning += density_ * (tank.moment - o * tank.volume);
  out.turning -= density_ * (cut.moment - o * cut.volume);
  return out;
}

// Every weight at its height above the water, every drop of displaced water at its depth below it.
double Energy::at(const Vec3& up, double depth) const {
  const Loads l = loads(up, depth);
  return glm::dot(up, l.turning) - (submerged_ ? 0.0 : depth * l.lack);
}

std::array<double, 3> Energy::gradient(const Vec3& up, double depth, const Turns& turns) const {
  const Loads l = loads(up, depth);
  return {submerged_ ? 0.0 : -l.lack, glm::dot(l.turning, turns.trim), glm::dot(l.turning, turns.heel)};
}

}  // namespace pondtrim::test
