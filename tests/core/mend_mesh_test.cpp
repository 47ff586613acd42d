#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <pondtrim/hull_mesh.hpp>

#include "support/mesh_files.hpp"
#include "support/meshes.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

const Mesh kBox = boxMesh({10, 0, 5}, {4, 3, 2});

Mesh sphereMesh(double radius, int bands) { return lumpySphereMesh({0, 0, 0}, radius, 0, bands, 1); }

bool nothingDone(const MeshRepair& r) {
  return r.joined + r.degenerate + r.duplicate + r.turned + r.inside_out == 0;
}

Mesh without(Mesh mesh, std::size_t triangle) {
  const auto at = mesh.triangles.begin() + std::ptrdiff_t(3 * triangle);
  mesh.triangles.erase(at, at + 3);
  return mesh;
}

Mesh with(Mesh mesh, std::initializer_list<std::uint32_t> triangle) {
  mesh.triangles.insert(mesh.triangles.end(), triangle);
  return mesh;
}

void checkAsBox(const MendedMesh& m) {
  CHECK(m.found.closed);
  CHECK(m.found.triangles == 12);
  CHECK(m.found.vertices == 8);
  CHECK(m.found.volume == doctest::Approx(24).epsilon(1e-12));
  CHECK(m.found.area == doctest::Approx(52).epsilon(1e-12));
}

}  // namespace

TEST_CASE("a box of loose triangles is welded: 8 vertices, closed, its own volume, area and extent") {
  const MendedMesh m = mendMesh(loose(kBox));
  checkAsBox(m);
  CHECK(nothingDone(m.done));
  CHECK(m.found.pieces == 1);
  CHECK(m.found.open_edges == 0);
  CHECK(glm::distance(m.found.low, Vec3(8, -1.5, 4)) < 1e-12);
  CHECK(glm::distance(m.found.high, Vec3(12, 1.5, 6)) < 1e-12);
}

TEST_CASE("spheres and rings come near their closed forms as their facets shrink") {
  for (const int n : {16, 64, 256}) {
    CAPTURE(n);
    const double share = 6.0 / (n * n);
    const MendedMesh sphere = mendMesh(loose(sphereMesh(0.3, n)));
    CHECK(sphere.found.closed);
    CHECK(std::abs(sphere.found.volume / (4 * kPi / 3 * 0.027) - 1) < share);
    CHECK(std::abs(sphere.found.area / (4 * kPi * 0.09) - 1) < share);
    const MendedMesh ring = mendMesh(loose(torusMesh(0.3, 0.1, 2 * n, n)));
    CHECK(ring.found.closed);
    CHECK(ring.found.pieces == 1);
    CHECK(std::abs(ring.found.volume / (2 * kPi * kPi * 0.3 * 0.01) - 1) < 10.0 / (n * n));
    CHECK(std::abs(ring.found.area / (4 * kPi * kPi * 0.03) - 1) < 10.0 / (n * n));
  }
}

TEST_CASE("triangles turned the wrong way are turned back, and a piece inside out is turned whole") {
  const std::size_t count = kBox.triangles.size() / 3;
  for (const std::size_t every : {2U, 3U, 5U, 12U}) {
    CAPTURE(every);
    const MendedMesh m = mendMesh(withTurned(kBox, every));
    checkAsBox(m);
    CHECK(m.done.turned == (count + every - 1) / every);
    CHECK(m.done.inside_out == 0);
  }
  const MendedMesh m = mendMesh(withTurned(kBox, 1));
  checkAsBox(m);
  CHECK(m.done.turned == 0);
  CHECK(m.done.inside_out == 1);
}

TEST_CASE("a hollow stays a hollow, whichever way the file turns both, and a body in a body stays one") {
  const Mesh outer = boxMesh({0, 0, 0}, {4, 4, 4}), inner = boxMesh({0.2, 0, 0}, {2, 2, 2});
  const auto volumeOf = [](const Mesh& mesh) {
    const MendedMesh m = mendMesh(mesh);
    CHECK(m.found.pieces == 2);
    CHECK(m.found.inner_pieces == 1);
    return m.found.volume;
  };
  CHECK(volumeOf(joined(outer, withTurned(inner, 1))) == doctest::Approx(56));
  CHECK(volumeOf(joined(withTurned(outer, 1), inner)) == doctest::Approx(56));
  CHECK(volumeOf(joined(inner, withTurned(outer, 1))) == doctest::Approx(56));
  CHECK(volumeOf(joined(outer, inner)) == doctest::Approx(72));
  const MendedMesh beside = mendMesh(joined(withTurned(outer, 1), boxMesh({9, 0, 0}, {2, 2, 2})));
  CHECK(beside.found.inner_pieces == 0);
  CHECK(beside.done.inside_out == 1);
  CHECK(beside.found.volume == doctest::Approx(72));
}

TEST_CASE("a piece that touches another from inside is in it, and mending again changes nothing") {
  // Half of its corners lie on a face of the other: seen from there the solid angle is all or nothing, by the
  // sign of a zero, which changes when the other is turned. Found by the fuzzer.
  const Mesh outer = boxMesh({0, 0, 0}, {4, 4, 4});
  for (const Vec3& at : {Vec3(1, 0, 0), Vec3(-1, 0, 0), Vec3(0, 1, 0), Vec3(1, -1, 1)})
    for (const std::size_t outer_turned : {0U, 1U, 2U})
      for (const std::size_t inner_turned : {0U, 1U, 3U}) {
        const auto turnedBy = [](const Mesh& mesh, std::size_t every) {
          return every > 0 ? withTurned(mesh, every) : mesh;
        };
        const Mesh inner = boxMesh(at, {2, 2, 2});
        const MendedMesh once =
            mendMesh(joined(turnedBy(inner, inner_turned), turnedBy(outer, outer_turned)));
        CHECK(once.found.inner_pieces == 1);
        const MendedMesh twice = mendMesh(once.mesh);
        CHECK(nothingDone(twice.done));
        CHECK(twice.found.volume == doctest::Approx(once.found.volume));
      }
}

TEST_CASE("an open box: its rim is measured, its area is right, and it is no solid") {
  const MendedMesh one = mendMesh(without(kBox, 3));
  CHECK_FALSE(one.found.closed);
  CHECK(one.found.open_pieces == 1);
  CHECK(one.found.open_edges == 3);
  CHECK(one.found.open_loops == 1);
  // A tube of two open ends: 5 long, of square section 2 x 2.
  Mesh tube;
  for (const double x : {0.0, 5.0})
    for (int k = 0; k < 4; ++k) tube.vertices.emplace_back(x, k == 1 || k == 2 ? 2 : 0, k >= 2 ? 2 : 0);
  for (std::uint32_t k = 0; k < 4; ++k) {
    const std::uint32_t n = (k + 1) % 4;
    tube.triangles.insert(tube.triangles.end(), {k, n, 4 + n, k, 4 + n, 4 + k});
  }
  const MendedMesh m = mendMesh(withTurned(tube, 3));
  CHECK(m.found.open_edges == 8);
  CHECK(m.found.open_loops == 2);
  CHECK(m.found.longest_loop == doctest::Approx(8));
  CHECK(m.found.area == doctest::Approx(40));
  CHECK(m.done.turned == 3);
}

TEST_CASE("the end of an open cup is closed for its volume by a cone to the middle of its rim") {
  const Mesh cup = revolutionMesh({{0, 0}, {0, 1}, {3, 1}}, 128, false);
  const MendedMesh m = mendMesh(withTurned(cup, 1));
  CHECK(m.found.open_loops == 1);
  CHECK(m.found.longest_loop == doctest::Approx(2 * kPi).epsilon(1e-3));
  CHECK(glm::distance(m.found.longest_loop_middle, Vec3(3, 0, 0)) < 1e-9);
  CHECK(m.found.volume == doctest::Approx(3 * kPi * polygonShare(128)));
}

TEST_CASE("what is there twice, has no area or was drawn on both sides") {
  const auto& t = kBox.triangles;
  const MendedMesh twice = mendMesh(with(with(kBox, {t[1], t[2], t[0]}), {t[9], t[10], t[11]}));
  checkAsBox(twice);
  CHECK(twice.done.duplicate == 2);
  const MendedMesh thin = mendMesh(with(with(kBox, {t[0], t[0], t[1]}), {t[4], t[4], t[4]}));
  checkAsBox(thin);
  CHECK(thin.done.degenerate == 2);
  const MendedMesh back = mendMesh(with(kBox, {t[1], t[0], t[2]}));
  CHECK_FALSE(back.found.closed);
  CHECK(back.found.back_to_back == 1);
  CHECK(back.found.crowded_edges == 3);
  Mesh needle = kBox;
  needle.vertices.push_back((needle.vertices[t[0]] + needle.vertices[t[1]]) / 2.0);
  CHECK(mendMesh(with(needle, {t[0], t[1], 8})).found.needles == 1);
}

TEST_CASE("bodies that touch along an edge are closed; a wall inside one is not") {
  const MendedMesh touching = mendMesh(joined(boxMesh({0, 0, 0}, {2, 2, 2}), boxMesh({2, 2, 0}, {2, 2, 2})));
  CHECK(touching.found.crowded_edges == 1);
  CHECK(touching.found.pieces == 2);
  CHECK(touching.found.open_pieces == 0);
  CHECK(touching.found.closed);
  CHECK(touching.found.volume == doctest::Approx(16));
  const auto& t = kBox.triangles;  // a wall across: along the far sides of two triangles that meet
  const MendedMesh walled = mendMesh(with(kBox, {0, 2, 4}));
  CHECK(t.size() == 36);
  CHECK_FALSE(walled.found.closed);
}

TEST_CASE("a twisted band has no outside and is left as it is") {
  Mesh band;
  constexpr std::uint32_t kSteps = 24;
  for (std::uint32_t i = 0; i < kSteps; ++i) {
    const double a = 2 * kPi * i / kSteps;
    for (const double s : {-0.2, 0.2})
      band.vertices.emplace_back((1 + s * std::cos(a / 2)) * std::cos(a),
                                 (1 + s * std::cos(a / 2)) * std::sin(a), s * std::sin(a / 2));
  }
  for (std::uint32_t i = 0; i < kSteps; ++i) {
    const bool last = i + 1 == kSteps;
    const std::uint32_t a = 2 * i, b = a + 1, c = last ? 1 : a + 2, d = last ? 0 : a + 3;
    band.triangles.insert(band.triangles.end(), {a, b, d, a, d, c});
  }
  const MendedMesh m = mendMesh(band);
  CHECK(m.found.one_sided == 1);
  CHECK(m.found.open_loops == 1);
  CHECK(m.done.turned == 0);
  CHECK(m.mesh.triangles.size() == band.triangles.size());
}

TEST_CASE("vertices a hair apart are joined, those farther apart are not") {
  Mesh cracked = loose(kBox);
  for (std::size_t i = 0; i < cracked.vertices.size(); ++i)
    cracked.vertices[i] += Vec3(1, -1, 1) * (i % 2 == 0 ? 1e-6 : -1e-6);  // box 4 long, 12 from the origin
  const MendedMesh m = mendMesh(cracked);
  CHECK(m.found.closed);
  CHECK(m.found.vertices == 8);
  CHECK(m.done.joined > 0);
  for (std::size_t i = 0; i < cracked.vertices.size(); i += 3) cracked.vertices[i] += Vec3(1e-3, 0, 0);
  CHECK_FALSE(mendMesh(cracked).found.closed);
}

TEST_CASE("mending twice does no more than once; nothing is nothing") {
  Mesh mesh =
      joined(withTurned(lumpySphereMesh({0, 0, 0}, 1, 0.2, 12, 7), 3), withTurned(torusMesh(5, 1, 20, 9), 4));
  mesh = joined(mesh, withTurned(without(moved(kBox, Mat3(1.0), {20, 0, 0}), 2), 5));
  const MendedMesh once = mendMesh(loose(mesh));
  const MendedMesh twice = mendMesh(once.mesh);
  CHECK(once.done.turned > 0);
  CHECK(nothingDone(twice.done));
  CHECK(twice.found.volume == doctest::Approx(once.found.volume));
  CHECK(once.found.pieces == 3);
  CHECK(mendMesh({}).found.triangles == 0);
  CHECK(mendMesh({{Vec3(1, 2, 3)}, {0, 0, 0}}).found.triangles == 0);
}
