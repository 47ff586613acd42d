#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <pondtrim/report.hpp>

#include "moments.hpp"
#include "tangent.hpp"

namespace pondtrim {

namespace {

/// Depth of a point of the boat, in the water of `plane`.
double depthOf(const Plane& plane, const Vec3& p) { return plane.level - glm::dot(plane.up, p); }

constexpr double kReadable = 0.5;  // cosine of 60 degrees: beyond it a ruler along z reads nothing useful

MarkReading readMark(const Plane& plane, double x, double line_height) {
  const double draft = (plane.level - plane.up.x * x) / plane.up.z;
  return {draft, line_height - draft};
}

/// Second moments of the waterplane about its centroid, along t.
double planeInertia(const Cut& cut, const Vec3& t) {
  const double first = glm::dot(cut.plane_moment, t);
  return glm::dot(times(cut.plane_second, t), t) - first * first / cut.plane_area;
}

void fillWaterplane(Report& r, const Tangent& d) {
  const Equilibrium& e = r.rest;
  const bool has_plane = e.outcome != Outcome::Sinks && e.cut.plane_area > 0;
  r.waterplane_area = has_plane ? e.cut.plane_area : 0.0;
  r.mass_per_immersion = e.density * r.waterplane_area;
  if (!has_plane) return;
  r.lcf = e.cut.plane_moment.x / e.cut.plane_area;
  r.bm_transverse = planeInertia(e.cut, d.heel) / e.cut.volume;
  r.bm_longitudinal = planeInertia(e.cut, d.trim) / e.cut.volume;
}

/// GM = BM + BG - free surface, with BG along the vertical.
void fillStability(Report& r, const Tangent& d) {
  const Equilibrium& e = r.rest;
  const double bg = glm::dot(e.plane.up, r.centre_of_buoyancy - r.centre_of_gravity);
  const auto rise = [&](const Vec3& t) {
    return e.density * glm::dot(times(e.tank.stiffness_loss, t), t) / e.mass;
  };
  r.free_surface_rise_transverse = rise(d.heel);
  r.free_surface_rise_longitudinal = rise(d.trim);
  r.gm_transverse = r.bm_transverse.value_or(0.0) + bg - r.free_surface_rise_transverse;
  r.gm_longitudinal = r.bm_longitudinal.value_or(0.0) + bg - r.free_surface_rise_longitudinal;
  r.moment_to_change_trim = e.mass * kGravity * r.gm_longitudinal;
}

/// Drafts' answer to a small mass: solve the stiffness for the load (1, x along trim) and read the marks.
void fillEffects(Report& r, const Model& model, const Tangent& d) {
  const Equilibrium& e = r.rest;
  if (!r.lcf || !r.bow) return;
  Eigen::Matrix3d k;
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) k(i, j) = e.stiffness[i][j];
  }
  // The stiffness was formed for depth at the boat's reference point o (equilibrium.cpp).
  const Vec3 o = model.whole_centroid;
  const Eigen::FullPivLU<Eigen::Matrix3d> solver(k);
  if (!solver.isInvertible()) return;
  // A mass w at p adds -w to the gradient over depth and w (p - o) to the turning moment.
  const auto answer = [&](double x) {
    const Vec3 p = Vec3(x, 0.0, (e.plane.level - e.plane.up.x * x) / e.plane.up.z) - o;  // at the water
    const Eigen::Vector3d load(1.0, -glm::dot(p, d.trim), -glm::dot(p, d.heel));
    return Eigen::Vector3d(solver.solve(load));
  };
  const auto draftChange = [&](const Eigen::Vector3d& move, double mark, double draft) {
    const Vec3 point = Vec3(mark, 0, draft) - o;
    const Vec3 turn = d.trim * move(1) + d.heel * move(2);
    return (move(0) - glm::dot(turn, point)) / e.plane.up.z;
  };
  const auto effect = [&](double mark, double draft) {
    const double at0 = draftChange(answer(0), mark, draft), at1 = draftChange(answer(1), mark, draft);
    return MarkEffect{at0, at1 - at0};
  };
  r.bow_effect = effect(model.marks.bow_x, r.bow->draft);
  r.stern_effect = effect(model.marks.stern_x, r.stern->draft);
}

Report reportOn(const Model& model, Equilibrium rest) {
  Report r;
  r.rest = std::move(rest);
  const Equilibrium& e = r.rest;
  const Plane& plane = e.plane;
  const bool afloat = e.outcome != Outcome::Sinks;
  if (afloat && plane.up.z >= kReadable) {
    r.bow = readMark(plane, model.marks.bow_x, model.marks.line_height);
    r.stern = readMark(plane, model.marks.stern_x, model.marks.line_height);
  }
  r.displaced_volume = e.cut.volume;
  r.displaced_mass = e.density * e.cut.volume;
  r.total_mass = e.mass;
  r.carry_mass = model.mass;
  r.tank_water_mass = e.mass - model.mass;
  r.reserve_buoyancy_volume = std::max(0.0, model.whole_volume - e.cut.volume);
  r.net_buoyancy_submerged = e.density * model.whole_volume - e.mass;
  r.sail_showing = -depthOf(plane, model.marks.sail_top);
  r.centre_of_buoyancy = e.cut.moment / e.cut.volume;
  r.centre_of_gravity = e.centre_of_gravity;
  r.bg_submerged = glm::dot(plane.up, model.whole_centroid - e.centre_of_gravity);
  const Tangent d = tangentAt(plane.up);
  fillWaterplane(r, d);
  fillStability(r, d);
  fillEffects(r, model, d);
  return r;
}

}  // namespace

Result<Report> evaluate(const Model& model, const Condition& condition) {
  auto rest = findEquilibrium(model, condition);
  if (!rest) return fail(rest.error());
  return reportOn(model, std::move(*rest));
}

Result<Report> evaluateNear(const Model& model, const Condition& condition, const Plane& start) {
  auto rest = findEquilibriumNear(model, condition, start);
  if (!rest) return fail(rest.error());
  return reportOn(model, std::move(*rest));
}

}  // namespace pondtrim
