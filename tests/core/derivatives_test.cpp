// The waterplane is the derivative of the volume: checked by finite differences on every kind of body.
#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <glm/geometric.hpp>
#include <string>
#include <vector>

#include "support/compare.hpp"
#include "support/meshes.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

struct Kind {
  std::string name;
  std::function<Cut(const Plane&)> cut;
  CutScale scale;
};

std::vector<Kind> kinds() {
  const CylinderSolid c{{0.02, 0.01, -0.03}, glm::normalize(Vec3{3, 1, 0.5}), 0.06, 0.3, 0.04, 0.0};
  const StripSolid s{{0.0, 0.02, 0.01}, 0.4, 0.08, 0.05, 0.03, 0.07};
  const Mesh lump = lumpySphereMesh({0.03, 0, 0}, 0.15, 0.05, 24, 9);
  const CutMesh solid = CutMesh::solid(lump), skin = CutMesh::skin(lump, 0.004);
  return {
      {"cylinder", [c](const Plane& p) { return cutCylinder(c, p); }, {4e-3, 0.3}},
      {"strip", [s](const Plane& p) { return cutStrip(s, p); }, {5e-3, 0.3}},
      {"mesh solid", [solid](const Plane& p) { return solid.cut(p); }, {1.4e-2, 0.2}},
      {"mesh skin", [skin](const Plane& p) { return skin.cut(p); }, {1.2e-3, 0.2}},
  };
}

}  // namespace

TEST_SUITE("the waterplane is the derivative of the volume") {
  // Central differences over h: the error is h^2 times a third derivative, which jumps where the plane passes
  // a corner. With h = 1e-6 m and rounding 1e-16 / 1e-6 the worst seen is some 1e-6 of area; a wrong factor
  // or sign would show at once.
  constexpr double kStep = 1e-6, kTolerance = 2e-5;

  TEST_CASE("rising water adds area, its moment and second moment") {
    Random random(8201);
    int checks = 0;
    for (const Kind& kind : kinds()) {
      for (int k = 0; k < 100; ++k) {
        const Plane p{random.direction(), random.between(-0.1, 0.1)};
        const Cut at = kind.cut(p), lo = kind.cut({p.up, p.level - kStep}),
                  hi = kind.cut({p.up, p.level + kStep});
        if (at.plane_area < 0.05 * kind.scale.volume / kind.scale.length) continue;
        CAPTURE(kind.name);
        CAPTURE(k);
        INFO(describe(p));
        const double area = (hi.volume - lo.volume) / (2 * kStep);
        CHECK(std::abs(area - at.plane_area) < kTolerance * at.plane_area);
        const Vec3 moment = (hi.moment - lo.moment) / (2 * kStep);
        CHECK(glm::length(moment - at.plane_moment) < kTolerance * at.plane_area * kind.scale.length);
        ++checks;
      }
    }
    CHECK(checks > 200);
  }

  TEST_CASE("turning the water moves volume and its moment by the waterplane's moments") {
    // V(u, c) with u free: dV = A dc - (plane moment).du, and dM = a dc - P du for du across u.
    Random random(8202);
    int checks = 0;
    for (const Kind& kind : kinds()) {
      for (int k = 0; k < 100; ++k) {
        const Plane p{random.direction(), random.between(-0.1, 0.1)};
        const Vec3 across = glm::normalize(glm::cross(p.up, random.direction()));
        const Vec3 du = across * kStep;
        const Cut at = kind.cut(p);
        const Cut hi = kind.cut({glm::normalize(p.up + du), p.level});
        const Cut lo = kind.cut({glm::normalize(p.up - du), p.level});
        if (at.plane_area < 0.05 * kind.scale.volume / kind.scale.length) continue;
        CAPTURE(kind.name);
        CAPTURE(k);
        const double dv = (hi.volume - lo.volume) / (2 * kStep);
        const double size = at.plane_area * kind.scale.length;
        CHECK(std::abs(dv + glm::dot(at.plane_moment, across)) < kTolerance * size);
        const Vec3 dm = (hi.moment - lo.moment) / (2 * kStep);
        for (int axis = 0; axis < 3; ++axis) {
          Vec3 e{0.0};
          e[axis] = 1.0;
          CHECK(std::abs(dm[axis] + product(at.plane_second, e, across)) <
                kTolerance * size * kind.scale.length);
        }
        ++checks;
      }
    }
    CHECK(checks > 200);
  }

  TEST_CASE("every point of the waterplane lies in the water's surface") {
    // So u.a = c A and P u = c a, to rounding.
    Random random(8203);
    for (const Kind& kind : kinds()) {
      for (int k = 0; k < 100; ++k) {
        const Plane p{random.direction(), random.between(-0.1, 0.1)};
        const Cut at = kind.cut(p);
        const double size = at.plane_area * kind.scale.length + 1e-300;
        CAPTURE(kind.name);
        CHECK(std::abs(glm::dot(p.up, at.plane_moment) - p.level * at.plane_area) <= 1e-11 * size);
        for (int axis = 0; axis < 3; ++axis) {
          Vec3 e{0.0};
          e[axis] = 1.0;
          const double got = product(at.plane_second, e, p.up), want = p.level * at.plane_moment[axis];
          CHECK(std::abs(got - want) <= 1e-11 * size * kind.scale.length);
        }
      }
    }
  }
}
