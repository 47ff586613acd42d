// The fast kernel against a slow, obvious second method that shares no code with it (tests/support/slow_*).
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <vector>

#include "support/compare.hpp"
#include "support/meshes.hpp"
#include "support/random.hpp"
#include "support/slow_cylinder.hpp"
#include "support/slow_tets.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

// Worst measured over 200,000 cylinders: 2.2e-11, at water that just touches a tube beside a long dome, where
// the kernel's own quadrature ends (see cylinder_cut.cpp). A wrong formula is off by 1e-3 and more.
constexpr double kVolume = 1e-10;
// Near a touching plane the waterplane is small and its edge moves as the root of the rounding: compared with
// volume / length, 1e-9 is what double precision leaves.
constexpr double kWaterplane = 1e-8;
// Skins on end are cut square across their thickness (SkinGatherer in cut_mesh.cpp): 1.2e-10 at worst.
constexpr double kSkinVolume = 1e-9;

void checkAgainst(const Cut& cut, const Cut& slow, const CutScale& scale, const Plane& plane,
                  double volume = kVolume) {
  INFO("plane " << describe(plane));
  INFO("got  " << describe(cut));
  INFO("want " << describe(slow));
  CHECK(volumeDifference(cut, slow, scale) < volume);
  CHECK(cutDifference(cut, slow, scale) < kWaterplane);
}

CylinderSolid randomCylinder(Random& random) {
  CylinderSolid c;
  c.centre = random.inBox(Vec3{-0.3}, Vec3{0.3});
  c.axis = random.chance(0.3) ? Vec3{1, 0, 0} : random.direction();
  c.radius = random.scale(0.005, 0.2);
  c.length = random.chance(0.1) ? 0.0 : random.scale(0.01, 1.0);
  const auto dome = [&] { return random.chance(0.5) ? 0.0 : random.scale(0.002, 0.2); };
  c.fore_dome = dome();
  c.aft_dome = dome();
  if (c.length == 0.0 && c.fore_dome + c.aft_dome == 0.0) c.fore_dome = c.radius;
  return c;
}

CutScale scaleOf(const CylinderSolid& c) {
  const double v = kPi * c.radius * c.radius * (c.length + 2.0 / 3.0 * (c.fore_dome + c.aft_dome));
  return {v, glm::length(c.centre) + c.length / 2 + std::max(c.fore_dome, c.aft_dome) + c.radius};
}

// How far the body reaches from its centre along u.
double support(const CylinderSolid& c, const Vec3& u) {
  const double along = glm::dot(u, c.axis), across = std::sqrt(std::max(0.0, 1 - along * along));
  const double dome = along > 0 ? c.fore_dome : c.aft_dome;
  return std::abs(along) * c.length / 2 + std::hypot(along * dome, across * c.radius);
}

Vec3 randomUp(Random& random, const Vec3& axis) {
  const int kind = random.index(10);
  if (kind == 0) return axis;
  if (kind == 1) return -axis;
  if (kind <= 3) return glm::normalize(glm::cross(axis, random.direction()));
  if (kind == 4) return glm::normalize(axis + random.direction() * random.scale(1e-9, 1e-2));
  if (kind == 5) {
    const Vec3 across = glm::normalize(glm::cross(axis, random.direction()));
    return glm::normalize(across + axis * random.scale(1e-9, 1e-2));
  }
  return random.direction();
}

StripSolid randomStrip(Random& random) {
  StripSolid s;
  s.centre = random.inBox(Vec3{-0.3}, Vec3{0.3});
  s.length = random.scale(0.01, 1.0);
  s.aft_half_breadth = random.scale(0.001, 0.2);
  s.aft_half_height = random.scale(0.001, 0.2);
  const bool box = random.chance(0.3);
  const auto fore = [&](double aft) {
    return box ? aft : (random.chance(0.15) ? 0.0 : (random.chance(0.2) ? aft : random.scale(0.001, 0.2)));
  };
  s.fore_half_breadth = fore(s.aft_half_breadth);
  s.fore_half_height = fore(s.aft_half_height);
  return s;
}

Vec3 randomAxisOrDirection(Random& random) {
  Vec3 e{0.0};
  e[random.index(3)] = random.chance(0.5) ? 1.0 : -1.0;
  const int kind = random.index(6);
  if (kind == 0) return e;
  if (kind == 1) return glm::normalize(e + random.direction() * random.scale(1e-9, 1e-2));
  return random.direction();
}

// A level somewhere in the mesh: anywhere, or exactly through one of its vertices.
double randomLevel(Random& random, const Mesh& mesh, const Vec3& up) {
  double low = 1e9, high = -1e9;
  for (const Vec3& v : mesh.vertices) {
    low = std::min(low, glm::dot(up, v));
    high = std::max(high, glm::dot(up, v));
  }
  return low + (high - low) * random.between(-0.1, 1.1);
}

// The tetrahedron between one triangle and a point inside: such spikes fill a star-shaped body.
Mesh spike(Mesh triangle, const Vec3& inside) {
  triangle.vertices.push_back(inside);
  triangle.triangles = {0, 1, 2, 1, 0, 3, 2, 1, 3, 0, 2, 3};
  return triangle;
}

double slowVolume(const Mesh& mesh) { return slowSolidCut(mesh, Vec3{0.0}, {{0, 0, 1}, 1e6}).volume; }

}  // namespace

TEST_SUITE("fast kernel against slow oracle") {
  TEST_CASE("random cylinders with every kind of dome") {
    constexpr std::uint64_t kSeed = 8101;
    MESSAGE("seed " << kSeed);
    Random random(kSeed);
    int crossed = 0, dry = 0, sunk = 0;
    for (int k = 0; k < effort(20000); ++k) {
      const CylinderSolid c = randomCylinder(random);
      const Vec3 up = randomUp(random, c.axis);
      const double high = support(c, up), low = -support(c, -up);
      const Plane plane{up, glm::dot(up, c.centre) + low + (high - low) * random.between(-0.05, 1.05)};
      const Cut cut = cutCylinder(c, plane), slow = slowCylinderCut(c, plane);
      CAPTURE(k);
      CAPTURE(c.radius);
      CAPTURE(c.length);
      CAPTURE(c.fore_dome);
      CAPTURE(c.aft_dome);
      CAPTURE(glm::dot(up, c.axis));
      checkAgainst(cut, slow, scaleOf(c), plane);
      ++(slow.volume == 0.0 ? dry : (slow.plane_area == 0.0 ? sunk : crossed));
    }
    CHECK(crossed > effort(10000));
    CHECK(dry + sunk > effort(500));
  }

  TEST_CASE("cylinders that the water only just touches") {
    constexpr std::uint64_t kSeed = 8102;
    MESSAGE("seed " << kSeed);
    Random random(kSeed);
    for (int k = 0; k < effort(4000); ++k) {
      const CylinderSolid c = randomCylinder(random);
      const Vec3 up = randomUp(random, c.axis);
      const double sign = random.chance(0.5) ? 1.0 : -1.0;
      const double edge = sign * support(c, sign * up);
      const double nudge =
          random.chance(0.3) ? 0.0 : random.scale(1e-15, 1e-4) * (random.chance(0.5) ? 1 : -1);
      const Plane plane{up, glm::dot(up, c.centre) + edge + nudge};
      CAPTURE(k);
      const Cut cut = cutCylinder(c, plane), slow = slowCylinderCut(c, plane);
      REQUIRE(isFinite(cut));
      CHECK(volumeDifference(cut, slow, scaleOf(c)) < kVolume);
      CHECK(cut.volume >= -1e-15 * scaleOf(c).volume);  // rounding of a sum that should be 0
      CHECK(cut.plane_area >= 0.0);
    }
  }

  TEST_CASE("random boxes and tapered strips, as tetrahedra and as a mesh") {
    constexpr std::uint64_t kSeed = 8103;
    MESSAGE("seed " << kSeed);
    Random random(kSeed);
    int crossed = 0;
    for (int k = 0; k < effort(40000); ++k) {
      const StripSolid s = randomStrip(random);
      const Mesh mesh = stripMesh(s);
      const Vec3 up = randomAxisOrDirection(random);
      const Plane plane{up, randomLevel(random, mesh, up)};
      const Cut slow = slowSolidCut(mesh, s.centre, plane);
      const CutScale scale{slowVolume(mesh), reach(mesh)};
      CAPTURE(k);
      checkAgainst(cutStrip(s, plane), slow, scale, plane);
      checkAgainst(CutMesh::solid(mesh).cut(plane), slow, scale, plane);
      if (slow.plane_area > 0.0) ++crossed;
    }
    CHECK(crossed > effort(20000));
  }

  TEST_CASE("water exactly in a face, an edge or a corner of a box") {
    // Small whole numbers, so that corners lie in the water's plane to the last bit.
    int cuts = 0;
    const StripSolid s{{3, 2, 1}, 4.0, 1.0, 2.0, 1.0, 2.0};
    const Mesh mesh = stripMesh(s);
    const CutMesh fast = CutMesh::solid(mesh);
    for (int x = -1; x <= 1; ++x) {
      for (int y = -1; y <= 1; ++y) {
        for (int z = -1; z <= 1; ++z) {
          if (x == 0 && y == 0 && z == 0) continue;
          const Vec3 n{x, y, z};
          for (const Vec3& v : mesh.vertices) {
            const Plane plane{n / glm::length(n), glm::dot(n, v) / glm::length(n)};
            const Cut slow = slowSolidCut(mesh, s.centre, plane);
            CHECK(volumeDifference(cutStrip(s, plane), slow, {32.0, 8.0}) < kVolume);
            CHECK(volumeDifference(fast.cut(plane), slow, {32.0, 8.0}) < kVolume);
            CHECK(isFinite(cutStrip(s, plane)));
            CHECK(isFinite(fast.cut(plane)));
            ++cuts;
          }
        }
      }
    }
    CHECK(cuts == 26 * 8);
  }

  TEST_CASE("random lumpy solids and rings") {
    constexpr std::uint64_t kSeed = 8104;
    MESSAGE("seed " << kSeed);
    Random random(kSeed);
    for (int body = 0; body < effort(60); ++body) {
      const Vec3 centre = random.inBox(Vec3{-0.5}, Vec3{0.5});
      Mesh mesh = lumpySphereMesh(centre, random.scale(0.05, 0.3), random.between(0, 0.3),
                                  6 + random.index(20), static_cast<unsigned long long>(body));
      if (body % 3 == 0) {
        const Mat3 r = rotation(random.direction(), random.between(0, 6));
        mesh = joined(mesh, moved(torusMesh(0.2, 0.03, 17, 11), r, random.inBox(Vec3{-0.5}, Vec3{0.5})));
      }
      const CutMesh fast = CutMesh::solid(mesh);
      const CutScale scale{slowVolume(mesh), reach(mesh)};
      CAPTURE(body);
      CHECK(volumeDifference(fast.whole(), slowSolidCut(mesh, centre, {{0, 0, 1}, 1e6}), scale) < kVolume);
      CHECK(fast.area() == doctest::Approx(surfaceArea(mesh)).epsilon(1e-12));
      for (int k = 0; k < 40; ++k) {
        const Vec3 up = randomAxisOrDirection(random);
        const Plane plane{up, randomLevel(random, mesh, up)};
        checkAgainst(fast.cut(plane), slowSolidCut(mesh, centre, plane), scale, plane);
      }
    }
  }

  TEST_CASE("a single quad of skin is a flat box") {
    const double t = 0.002;
    Mesh quad;
    quad.vertices = {{0, 0, 0}, {0.5, 0, 0}, {0.5, 0.2, 0}, {0, 0.2, 0}};
    quad.triangles = {0, 1, 2, 0, 2, 3};
    const StripSolid box{{0.25, 0.1, 0}, 0.5, 0.1, t / 2, 0.1, t / 2};
    const CutMesh skin = CutMesh::skin(quad, t);
    CHECK(skin.area() == doctest::Approx(0.1).epsilon(1e-13));
    Random random(5);
    int crossed = 0;
    for (int k = 0; k < 3000; ++k) {
      const Vec3 up = randomAxisOrDirection(random);
      const Plane plane{
          up, glm::dot(up, box.centre) + random.between(-0.3, 0.3) * (std::abs(up.z) > 0.999 ? 0.01 : 1.0)};
      CAPTURE(k);
      const Cut want = cutStrip(box, plane);
      checkAgainst(skin.cut(plane), want, {0.5 * 0.2 * t, 0.54}, plane, kSkinVolume);
      if (want.plane_area > 0) ++crossed;
    }
    CHECK(crossed > 1000);
  }

  TEST_CASE("random skins are cut as prisms of their thickness") {
    constexpr std::uint64_t kSeed = 8105;
    MESSAGE("seed " << kSeed);
    Random random(kSeed);
    for (int body = 0; body < effort(60); ++body) {
      const Mesh mesh = lumpySphereMesh(random.inBox(Vec3{-0.5}, Vec3{0.5}), random.scale(0.05, 0.3),
                                        random.between(0, 0.3), 4 + random.index(16), 77u);
      const double thickness = random.scale(0.0002, 0.01);
      const CutMesh fast = CutMesh::skin(mesh, thickness);
      const CutScale scale{surfaceArea(mesh) * thickness, reach(mesh)};
      CAPTURE(body);
      CHECK(fast.whole().volume == doctest::Approx(scale.volume).epsilon(1e-12));
      for (int k = 0; k < 20; ++k) {
        const Vec3 up = randomAxisOrDirection(random);
        const Plane plane{up, randomLevel(random, mesh, up)};
        checkAgainst(fast.cut(plane), slowSkinCut(mesh, thickness, plane), scale, plane, kSkinVolume);
      }
    }
  }

  TEST_CASE("the tree changes nothing: a big mesh is the sum of its single triangles") {
    Random random(8106);
    const Vec3 centre{0.1, -0.2, 0.05};
    const Mesh mesh = lumpySphereMesh(centre, 0.25, 0.1, 40, 3);
    const std::size_t count = mesh.triangles.size() / 3;
    REQUIRE(count > 5000);
    const CutMesh solid = CutMesh::solid(mesh), skin = CutMesh::skin(mesh, 0.003);
    std::vector<CutMesh> solids, skins;
    for (std::size_t t = 0; t < count; ++t) {
      solids.push_back(CutMesh::solid(spike(piece(mesh, t, t + 1), centre)));
      skins.push_back(CutMesh::skin(piece(mesh, t, t + 1), 0.003));
    }
    const CutScale solid_scale{slowVolume(mesh), reach(mesh)};
    const CutScale skin_scale{surfaceArea(mesh) * 0.003, reach(mesh)};
    for (int k = 0; k < 20; ++k) {
      const Vec3 up = random.direction();
      const Plane plane{up, randomLevel(random, mesh, up)};
      Cut solid_sum, skin_sum;
      for (const CutMesh& s : solids) solid_sum += s.cut(plane);
      for (const CutMesh& s : skins) skin_sum += s.cut(plane);
      CAPTURE(k);
      CHECK(cutDifference(solid.cut(plane), solid_sum, solid_scale) < 1e-11);
      CHECK(cutDifference(skin.cut(plane), skin_sum, skin_scale) < 1e-11);
    }
  }

  TEST_CASE("water far above or far below a mesh shows all of it or nothing") {
    const Mesh mesh = lumpySphereMesh({0.3, 0.1, -0.2}, 0.1, 0.1, 12, 4);
    const CutMesh solid = CutMesh::solid(mesh), skin = CutMesh::skin(mesh, 0.002);
    const CutScale solid_scale{slowVolume(mesh), reach(mesh)};
    const CutScale skin_scale{surfaceArea(mesh) * 0.002, reach(mesh)};
    Random random(8109);
    for (double level : {1.0, 10.0, 1e3, 1e6}) {
      CAPTURE(level);
      const Vec3 up = random.direction();
      CHECK(cutDifference(solid.cut({up, level}), solid.whole(), solid_scale) < 1e-12);
      CHECK(cutDifference(skin.cut({up, level}), skin.whole(), skin_scale) < 1e-12);
      CHECK(solid.cut({up, -level}).volume == 0.0);
      CHECK(skin.cut({up, -level}).volume == 0.0);
    }
  }

  TEST_CASE("halves of a body sum to the whole") {
    Random random(8107);
    for (int k = 0; k < effort(2000); ++k) {
      const Plane plane{random.direction(), random.between(-0.2, 0.2)};
      const CylinderSolid c{{0.05, 0, 0}, {1, 0, 0}, 0.08, 0.5, 0.05, 0.03};
      const CylinderSolid fore{{0.175, 0, 0}, {1, 0, 0}, 0.08, 0.25, 0.05, 0.0};
      const CylinderSolid aft{{-0.075, 0, 0}, {1, 0, 0}, 0.08, 0.25, 0.0, 0.03};
      Cut sum = cutCylinder(fore, plane);
      sum += cutCylinder(aft, plane);
      CAPTURE(k);
      CHECK(cutDifference(sum, cutCylinder(c, plane), scaleOf(c)) < 1e-10);

      const StripSolid s{Vec3{0.0}, 0.4, 0.05, 0.02, 0.01, 0.06};
      const StripSolid half1{{-0.1, 0, 0}, 0.2, 0.05, 0.02, 0.03, 0.04};
      const StripSolid half2{{0.1, 0, 0}, 0.2, 0.03, 0.04, 0.01, 0.06};
      Cut both = cutStrip(half1, plane);
      both += cutStrip(half2, plane);
      CHECK(cutDifference(both, cutStrip(s, plane), {0.002, 0.25}) < 1e-12);
    }
  }

  TEST_CASE("what lies under the plane and what lies under its reverse make the whole") {
    Random random(8108);
    for (int k = 0; k < effort(5000); ++k) {
      const CylinderSolid c = randomCylinder(random);
      const Plane plane{randomUp(random, c.axis), glm::dot(random.direction(), c.centre)};
      const Cut under = cutCylinder(c, plane), over = cutCylinder(c, {-plane.up, -plane.level});
      const CutScale scale = scaleOf(c);
      CAPTURE(k);
      CHECK(std::abs(under.volume + over.volume - scale.volume) < 1e-12 * scale.volume);
      CHECK(std::abs(under.plane_area - over.plane_area) <
            1e-9 * scale.volume / scale.length + 1e-9 * over.plane_area);
    }
  }
}
