// Meshes thinned: how far off, still closed, rims and thin walls kept.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <map>
#include <pondtrim/hull_mesh.hpp>
#include <pondtrim/thin_mesh.hpp>
#include <utility>

#include "support/meshes.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

/// A hull 900 long, in millimetres.
Mesh hullMesh(int rings = 60, int sides = 48) {
  std::vector<std::pair<double, double>> stations;
  for (int i = 0; i <= rings; ++i) {
    const double t = double(i) / rings;
    stations.emplace_back(900 * t, 55 * std::sqrt(std::max(0.0, 4 * t * (1 - t))));
  }
  return revolutionMesh(stations, sides);
}

double volumeOf(const Mesh& mesh) { return CutMesh::solid(mesh).whole().volume; }

Mesh insideOut(Mesh mesh) {
  for (std::size_t i = 0; i < mesh.triangles.size(); i += 3)
    std::swap(mesh.triangles[i], mesh.triangles[i + 1]);
  return mesh;
}

/// Every edge is passed as often one way as the other.
bool isClosed(const Mesh& mesh) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> sums;
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    const std::uint32_t a = mesh.triangles[i], b = mesh.triangles[i % 3 == 2 ? i - 2 : i + 1];
    sums[std::minmax(a, b)] += a < b ? 1 : -1;
  }
  return std::all_of(sums.begin(), sums.end(), [](const auto& edge) { return edge.second == 0; });
}

}  // namespace

TEST_CASE(
    "a hull thinned is nearly the hull: area, volume and distance, and no more triangles than asked for") {
  const Mesh drawn = hullMesh();
  struct Row {
    std::size_t most;
    double farthest, area, volume;  // [mm], shares
  };
  // As measured, with a third to spare: nearly all of the distance is at the tips, where one vertex stands
  // for a cone.
  for (const Row& row :
       {Row{4000, 0.65, 0.0005, 0.002}, Row{2000, 4.7, 0.001, 0.011}, Row{600, 5, 0.007, 0.031}}) {
    CAPTURE(row.most);
    const ThinnedMesh thin = thinMesh(drawn, row.most);
    CHECK(thin.mesh.triangles.size() / 3 <= row.most);
    CHECK(thin.mesh.triangles.size() / 3 > row.most / 2);
    CHECK(thin.farthest < row.farthest);
    CHECK(surfaceArea(thin.mesh) == doctest::Approx(surfaceArea(drawn)).epsilon(row.area));
    CHECK(volumeOf(thin.mesh) == doctest::Approx(volumeOf(drawn)).epsilon(row.volume));
    CHECK(thin.area_change == doctest::Approx(surfaceArea(thin.mesh) / surfaceArea(drawn) - 1));
    CHECK(thin.volume_change == doctest::Approx(volumeOf(thin.mesh) / volumeOf(drawn) - 1));
  }
  const ThinnedMesh same = thinMesh(drawn, drawn.triangles.size() / 3);
  CHECK(same.farthest == 0);
  CHECK(same.mesh.triangles == drawn.triangles);
}

TEST_CASE(
    "what is stated as the greatest distance holds: every drawn vertex lies within it of what is kept") {
  const Mesh drawn = hullMesh(30, 24);
  const ThinnedMesh thin = thinMesh(drawn, 400);
  CHECK(thin.farthest > 0);
  double worst = 0;
  for (const Vec3& v : drawn.vertices) {  // by sampling the thinned triangles densely
    double nearest = 1e9;
    for (std::size_t t = 0; t < thin.mesh.triangles.size(); t += 3)
      for (int a = 0; a <= 8; ++a)
        for (int b = 0; a + b <= 8; ++b) {
          const Vec3 p = (thin.mesh.vertices[thin.mesh.triangles[t]] * double(a) +
                          thin.mesh.vertices[thin.mesh.triangles[t + 1]] * double(b) +
                          thin.mesh.vertices[thin.mesh.triangles[t + 2]] * double(8 - a - b)) /
                         8.0;
          nearest = std::min(nearest, glm::length(p - v));
        }
    worst = std::max(worst, nearest);
  }
  CHECK(worst < thin.farthest + 6);  // samples are up to 12 mm apart
}

TEST_CASE("what is closed stays closed, also the two sides of a thin wall") {
  const Mesh ball = lumpySphereMesh(Vec3(0.0), 1, 0.0, 40, 1);
  const Mesh wall = joined(ball, insideOut(lumpySphereMesh(Vec3(0.0), 0.97, 0.0, 40, 1)));
  const ThinnedMesh thin = thinMesh(wall, 1500);
  CHECK(isClosed(thin.mesh));
  CHECK(thin.mesh.triangles.size() / 3 <= 1500);
  CHECK(volumeOf(thin.mesh) == doctest::Approx(volumeOf(wall)).epsilon(0.1));
  for (int i = 0; i < effort(20); ++i) {
    const Mesh lumpy = lumpySphereMesh(Vec3(0.0), 1, 0.05, 20, std::uint64_t(i));
    const ThinnedMesh t = thinMesh(lumpy, 300);
    CHECK(isClosed(t.mesh));
    CHECK(volumeOf(t.mesh) == doctest::Approx(volumeOf(lumpy)).epsilon(0.06));
    // Lumps larger than the cells are lost, and with them volume: but never a hole.
    CHECK(isClosed(thinMesh(lumpySphereMesh(Vec3(0.0), 1, 0.2, 20, std::uint64_t(i)), 300).mesh));
  }
}

TEST_CASE("rims stay where they are") {
  const Mesh tube = revolutionMesh({{0, 50}, {25, 50}, {50, 50}, {75, 50}, {100, 50}}, 200, false);
  const ThinnedMesh thin = thinMesh(tube, 300);
  const MeshFindings found = mendMesh(thin.mesh).found;
  CHECK(found.open_loops == 2);
  CHECK(std::abs(found.low.x) < 0.01);
  CHECK(std::abs(found.high.x - 100) < 0.01);
}
