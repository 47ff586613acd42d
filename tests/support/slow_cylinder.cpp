#include "support/slow_cylinder.hpp"

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <vector>

#include "support/compare.hpp"

namespace pondtrim::test {
namespace {

struct Rule {
  std::vector<double> x, w;
};

// Gauss-Legendre on [-1, 1], nodes by Newton on the three-term recurrence (Abramowitz and Stegun 25.4.29).
Rule gaussLegendre(int n) {
  Rule rule;
  for (int i = 0; i < n; ++i) {
    double x = std::cos(kPi * (i + 0.75) / (n + 0.5)), slope = 1.0;
    for (int k = 0; k < 100; ++k) {
      double p0 = 1.0, p1 = x;
      for (int j = 2; j <= n; ++j) {
        const double p2 = ((2.0 * j - 1.0) * x * p1 - (j - 1.0) * p0) / j;
        p0 = p1;
        p1 = p2;
      }
      slope = n * (x * p1 - p0) / (x * x - 1.0);
      const double step = p1 / slope;
      x -= step;
      if (std::abs(step) < 1e-16) break;
    }
    rule.x.push_back(x);
    rule.w.push_back(2.0 / ((1.0 - x * x) * slope * slope));
  }
  return rule;
}

double radiusAt(const CylinderSolid& c, double t) {
  const double half = c.length / 2.0;
  const double beyond = t > half ? t - half : (t < -half ? -half - t : 0.0);
  const double dome = t > half ? c.fore_dome : c.aft_dome;
  if (beyond <= 0.0) return c.radius;
  const double f = beyond / dome;
  return c.radius * std::sqrt(std::max(0.0, 1.0 - f * f));
}

// Roots of (q0 + q1 t)^2 = R^2 (1 - ((t - t0) / h)^2): where the water meets a dome's outline.
void addDomeRoots(std::vector<double>& out, double q0, double q1, double r, double t0, double h) {
  const double a = q1 * q1 + r * r / (h * h), half_b = q0 * q1 - r * r * t0 / (h * h);
  const double c = q0 * q0 - r * r + r * r * t0 * t0 / (h * h);
  const double disc = half_b * half_b - a * c;
  if (disc < 0.0) return;
  for (double sign : {-1.0, 1.0}) out.push_back((-half_b + sign * std::sqrt(disc)) / a);
}

struct Slicer {
  const CylinderSolid& solid;
  Plane plane;
  Vec3 across;        // unit, in the disc, the way up
  double tilt, rise;  // tilt: length of `up` within the disc; rise: along the axis
  // Stations t are counted from `origin` on the axis: where the water crosses it when the body is more on end
  // than lying, so that the thin stretch of cut discs keeps all its digits.
  double origin, q0, q1;  // height of the water in the disc at t: q0 + q1 t

  void addSlice(Cut& sum, double t, double dt) const {
    const double r = radiusAt(solid, origin + t);
    const Vec3 c = solid.centre + solid.axis * (origin + t);
    if (r <= 0.0) return;
    const double q = std::clamp((q0 + q1 * t) / r, -1.0, 1.0);
    const double k = std::sqrt(1.0 - q * q);
    const double area = r * r * (kPi / 2.0 + std::asin(q) + q * k);
    sum.volume += area * dt;
    sum.moment += (c * area - across * (2.0 / 3.0 * r * r * r * k * k * k)) * dt;
    if (k <= 0.0) return;
    const Vec3 side = glm::cross(solid.axis, across);
    const Vec3 middle = c + across * (q * r);
    const double chord = 2.0 * r * k, da = chord * dt / tilt;
    sum.plane_area += da;
    sum.plane_moment += middle * da;
    sum.plane_second =
        plus(sum.plane_second, plus(outer(middle, da), outer(side, da * chord * chord / 12.0)));
  }
};

std::vector<double> breaks(const Slicer& s) {
  const CylinderSolid& c = s.solid;
  const double half = c.length / 2.0;
  const double low = -half - c.aft_dome - s.origin, high = half + c.fore_dome - s.origin;
  std::vector<double> all{low, -half - s.origin, half - s.origin, high};
  if (s.q1 != 0.0) {
    for (double r : {-c.radius, c.radius}) all.push_back((r - s.q0) / s.q1);
  }
  if (c.fore_dome > 0.0) addDomeRoots(all, s.q0, s.q1, c.radius, half - s.origin, c.fore_dome);
  if (c.aft_dome > 0.0) addDomeRoots(all, s.q0, s.q1, c.radius, -half - s.origin, c.aft_dome);
  for (double& t : all) t = std::clamp(t, low, high);
  std::sort(all.begin(), all.end());
  return all;
}

// The axis upright: every disc is wholly under or wholly over.
Cut uprightCut(const CylinderSolid& c, const Plane& plane) {
  static const Rule rule = gaussLegendre(60);
  const double half = c.length / 2.0, rise = glm::dot(plane.up, c.axis);
  const double water = (plane.level - glm::dot(plane.up, c.centre)) / rise;
  const double low = -half - c.aft_dome, high = half + c.fore_dome;
  Cut sum;
  const double from = rise > 0.0 ? low : std::clamp(water, low, high);
  const double to = rise > 0.0 ? std::clamp(water, low, high) : high;
  std::vector<double> cuts{from, std::clamp(-half, from, to), std::clamp(half, from, to), to};
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    for (std::size_t j = 0; j < rule.x.size(); ++j) {
      const double h = (cuts[i + 1] - cuts[i]) / 2.0, t = (cuts[i + 1] + cuts[i]) / 2.0 + h * rule.x[j];
      const double r = radiusAt(c, t), dv = kPi * r * r * h * rule.w[j];
      sum.volume += dv;
      sum.moment += (c.centre + c.axis * t) * dv;
    }
  }
  if (water > low && water < high) {
    const double r = radiusAt(c, water), area = kPi * r * r;
    const Vec3 middle = c.centre + c.axis * water;
    sum.plane_area = area;
    sum.plane_moment = middle * area;
    const Sym3 all{1, 1, 1, 0, 0, 0};
    const double k = area * r * r / 4.0;
    Sym3 disc = outer(c.axis, -k);
    disc = plus(disc, {k * all.xx, k * all.yy, k * all.zz, 0, 0, 0});
    sum.plane_second = plus(disc, outer(middle, area));
  }
  return sum;
}

}  // namespace

Cut slowCylinderCut(const CylinderSolid& solid, const Plane& plane) {
  static const Rule rule = gaussLegendre(120);
  const double rise = glm::dot(plane.up, solid.axis);
  const Vec3 in_disc = plane.up - solid.axis * rise;
  const double tilt = glm::length(in_disc);
  if (tilt < 1e-12) return uprightCut(solid, plane);
  const double base = plane.level - glm::dot(plane.up, solid.centre);
  const bool on_end = std::abs(rise) > tilt;
  const Slicer slicer{
      solid,       plane, in_disc / tilt, tilt, rise, on_end ? base / rise : 0.0, on_end ? 0.0 : base / tilt,
      -rise / tilt};
  const std::vector<double> b = breaks(slicer);
  Cut sum;
  for (std::size_t i = 0; i + 1 < b.size(); ++i) {
    const double h = (b[i + 1] - b[i]) / 2.0, m = (b[i + 1] + b[i]) / 2.0;
    if (h <= 0.0) continue;
    for (std::size_t j = 0; j < rule.x.size(); ++j) {
      const double a = kPi / 2.0 * rule.x[j];
      slicer.addSlice(sum, m + h * std::sin(a), h * std::cos(a) * kPi / 2.0 * rule.w[j]);
    }
  }
  return sum;
}

}  // namespace pondtrim::test
