#include "energy.hpp"

#include <cmath>

#include "moments.hpp"

namespace pondtrim {

Result<Problem> pose(const Model& model, const Condition& condition) {
  const auto density = waterDensity(condition.water);
  if (!density) return fail(density.error());
  const auto tank = settleTank(model, condition.tank_fill, Vec3(0, 0, 1));
  if (!tank) return fail(tank.error());
  Problem p{};
  p.model = &model;
  p.density = *density;
  p.fill = condition.tank_fill;
  p.mass = model.mass + p.density * tank->volume;
  p.origin = model.whole_centroid;
  p.mass_moment = (model.centre_of_gravity - p.origin) * model.mass;
  p.scale = model.length / 4;
  p.afloat = p.mass < p.density * model.whole_volume;
  return p;
}

State look(const Problem& p, const Vec3& up, double depth) {
  State s;
  s.up = up;
  s.depth = depth;
  if (p.afloat) {
    s.cut = shifted(cutModel(*p.model, {up, depth + glm::dot(up, p.origin)}), -p.origin);
  } else {
    s.cut.volume = p.model->whole_volume;
    s.cut.moment = (p.model->whole_centroid - p.origin) * s.cut.volume;
  }
  // The fill was checked when the problem was posed.
  s.tank = p.frozen ? *p.frozen : *settleTank(*p.model, p.fill, up);
  const Vec3 tank_moment = (s.tank.moment - p.origin * s.tank.volume) * p.density;
  s.turning = p.mass_moment + tank_moment - s.cut.moment * p.density;
  s.lack = p.afloat ? p.mass - p.density * s.cut.volume : 0.0;
  s.energy = glm::dot(up, s.turning) - depth * s.lack;
  return s;
}

State settleDepth(const Problem& p, State s, double enough) {
  if (!p.afloat) return s;
  const double reach = 2 * kReachLimit;
  double lo = -reach, hi = reach;
  for (int i = 0; i < 200 && std::abs(s.lack) > enough * p.mass; ++i) {
    (s.lack > 0 ? lo : hi) = s.depth;
    const double area = p.density * s.cut.plane_area;
    double next = area > 0 ? s.depth + s.lack / area : lo - 1;
    if (!(next > lo && next < hi)) next = (lo + hi) / 2;
    if (next == s.depth) break;
    s = look(p, s.up, next);
  }
  return s;
}

double energyNoise(const Problem& p, const State& s) {
  return 1e-14 * (p.mass * p.scale + std::abs(s.depth) * p.mass);
}

Eigen::Vector3d gradient(const Problem& p, const State& s, const Tangent& t) {
  return {-s.lack * p.scale, glm::dot(s.turning, t.trim), glm::dot(s.turning, t.heel)};
}

Eigen::Matrix3d stiffness(const Problem& p, const State& s, const Tangent& t) {
  Sym3 k;
  addScaled(k, s.cut.plane_second, p.density);
  addScaled(k, s.tank.stiffness_loss, -p.density);
  const double bend = glm::dot(s.up, s.turning);
  const Vec3 kt = times(k, t.trim), kh = times(k, t.heel);
  Eigen::Matrix3d h;
  h(0, 0) = p.density * s.cut.plane_area * p.scale * p.scale;
  h(0, 1) = h(1, 0) = -p.density * glm::dot(s.cut.plane_moment, t.trim) * p.scale;
  h(0, 2) = h(2, 0) = -p.density * glm::dot(s.cut.plane_moment, t.heel) * p.scale;
  h(1, 1) = glm::dot(kt, t.trim) - bend;
  h(1, 2) = h(2, 1) = glm::dot(kt, t.heel);
  h(2, 2) = glm::dot(kh, t.heel) - bend;
  return h;
}

}  // namespace pondtrim
