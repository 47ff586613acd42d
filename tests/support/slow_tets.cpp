#include "support/slow_tets.hpp"

#include <array>
#include <cmath>
#include <glm/geometric.hpp>
#include <vector>

#include "support/compare.hpp"

namespace pondtrim::test {
namespace {

double signedVolume(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
  return glm::dot(glm::cross(b - a, c - a), d - a) / 6.0;
}

void addWhole(Cut& sum, double sign, const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
  const double v = sign * std::abs(signedVolume(a, b, c, d));
  sum.volume += v;
  sum.moment += v * (a + b + c + d) / 4.0;
}

void addTriangle(Cut& sum, double sign, const Vec3& a, const Vec3& b, const Vec3& c) {
  const double area = sign * glm::length(glm::cross(b - a, c - a)) / 2.0;
  const Vec3 total = a + b + c;
  sum.plane_area += area;
  sum.plane_moment += area * total / 3.0;
  // Exact for a triangle: A/12 (sum p p^T + (sum p)(sum p)^T).
  Sym3 s = plus(plus(outer(a, 1.0), outer(b, 1.0)), plus(outer(c, 1.0), outer(total, 1.0)));
  const double k = area / 12.0;
  sum.plane_second = plus(sum.plane_second, {k * s.xx, k * s.yy, k * s.zz, k * s.xy, k * s.xz, k * s.yz});
}

struct Corner {
  Vec3 p;
  double depth;
};

Vec3 crossing(const Corner& under, const Corner& over) {
  return under.p + (over.p - under.p) * (under.depth / (under.depth - over.depth));
}

// A corner under, three over: a small tetrahedron. With `sign` reversed: what three under, one over lack.
void addTip(Cut& sum, double sign, double plane_sign, const Corner& tip, const std::vector<Corner>& rest,
            bool tip_is_under) {
  std::array<Vec3, 3> x;
  for (std::size_t i = 0; i < 3; ++i) {
    x[i] = tip_is_under ? crossing(tip, rest[i]) : crossing(rest[i], tip);
  }
  addWhole(sum, sign, tip.p, x[0], x[1], x[2]);
  addTriangle(sum, plane_sign, x[0], x[1], x[2]);
}

// Two under, two over: a wedge of three tetrahedra.
void addWedge(Cut& sum, double sign, const std::vector<Corner>& under, const std::vector<Corner>& over) {
  const Vec3 a0 = under[0].p, a1 = crossing(under[0], over[0]), a2 = crossing(under[0], over[1]);
  const Vec3 b0 = under[1].p, b1 = crossing(under[1], over[0]), b2 = crossing(under[1], over[1]);
  addWhole(sum, sign, a0, a1, a2, b2);
  addWhole(sum, sign, a0, a1, b2, b1);
  addWhole(sum, sign, a0, b1, b2, b0);
  addTriangle(sum, sign, a1, a2, b2);
  addTriangle(sum, sign, a1, b2, b1);
}

}  // namespace

Cut cutTetrahedron(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d, const Plane& plane) {
  Cut sum;
  const double volume = signedVolume(a, b, c, d);
  if (volume == 0.0) return sum;
  const double sign = volume < 0.0 ? -1.0 : 1.0;
  std::vector<Corner> under, over;
  for (const Vec3& p : {a, b, c, d}) {
    const double depth = plane.level - glm::dot(plane.up, p);
    (depth > 0.0 ? under : over).push_back({p, depth});
  }
  if (under.size() == 4) addWhole(sum, sign, a, b, c, d);
  if (under.size() == 1) addTip(sum, sign, sign, under[0], over, true);
  if (under.size() == 2) addWedge(sum, sign, under, over);
  if (under.size() == 3) {
    addWhole(sum, sign, a, b, c, d);
    addTip(sum, -sign, sign, over[0], under, false);
  }
  return sum;
}

Cut slowSolidCut(const Mesh& mesh, const Vec3& apex, const Plane& plane) {
  Cut sum;
  for (std::size_t t = 0; t < mesh.triangles.size(); t += 3) {
    const Vec3& a = mesh.vertices[mesh.triangles[t]];
    const Vec3& b = mesh.vertices[mesh.triangles[t + 1]];
    const Vec3& c = mesh.vertices[mesh.triangles[t + 2]];
    // Counter-clockwise from outside: the apex inside sees it clockwise, so (apex, a, b, c) is right-handed.
    sum += cutTetrahedron(apex, a, b, c, plane);
  }
  return sum;
}

Cut slowSkinCut(const Mesh& mesh, double thickness, const Plane& plane) {
  Cut sum;
  for (std::size_t t = 0; t < mesh.triangles.size(); t += 3) {
    const Vec3& a = mesh.vertices[mesh.triangles[t]];
    const Vec3& b = mesh.vertices[mesh.triangles[t + 1]];
    const Vec3& c = mesh.vertices[mesh.triangles[t + 2]];
    const Vec3 n = glm::cross(b - a, c - a);
    if (glm::length(n) == 0.0) continue;
    const Vec3 h = n * (thickness / 2.0 / glm::length(n));
    // Right-handed: the normal points from the lower triangle (at -h) to the upper.
    sum += cutTetrahedron(a - h, b - h, c - h, c + h, plane);
    sum += cutTetrahedron(a - h, b - h, c + h, b + h, plane);
    sum += cutTetrahedron(a - h, b + h, c + h, a + h, plane);
  }
  return sum;
}

}  // namespace pondtrim::test
