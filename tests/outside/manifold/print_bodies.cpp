// Prints bodies, planes and what our kernels find under each, for compare.mjs to hold against manifold-3d.
// One JSON object a line. print_bodies BOAT-FILE...
#include <cmath>
#include <cstdio>
#include <fstream>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/hull.hpp>
#include <pondtrim/hull_mesh.hpp>
#include <pondtrim/model.hpp>
#include <sstream>

#include "support/mesh_files.hpp"
#include "support/meshes.hpp"
#include "support/random.hpp"

namespace {

using namespace pondtrim;
using namespace pondtrim::test;

void printMesh(const Mesh& mesh) {
  std::printf("\"vertices\": [");
  for (std::size_t i = 0; i < mesh.vertices.size(); ++i)
    std::printf("%s%.17g,%.17g,%.17g", i > 0 ? "," : "", mesh.vertices[i].x, mesh.vertices[i].y,
                mesh.vertices[i].z);
  std::printf("], \"triangles\": [");
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i)
    std::printf("%s%u", i > 0 ? "," : "", mesh.triangles[i]);
  std::printf("]");
}

template <class CutAt>
void printCuts(Random& random, const Vec3& middle, double reach, const CutAt& cutAt) {
  std::printf(", \"cuts\": [");
  for (int k = 0; k < 5; ++k) {
    const Vec3 up = k == 0 ? Vec3(0, 0, 1) : random.direction();
    const Plane plane{up, glm::dot(up, middle) + (k == 0 ? 0.0 : random.between(-0.7, 0.7) * reach)};
    const Cut cut = cutAt(plane);
    std::printf(
        "%s{\"up\": [%.17g,%.17g,%.17g], \"level\": %.17g, \"volume\": %.17g, \"moment\": "
        "[%.17g,%.17g,%.17g]}",
        k > 0 ? "," : "", up.x, up.y, up.z, plane.level, cut.volume, cut.moment.x, cut.moment.y,
        cut.moment.z);
  }
  std::printf("]}\n");
}

void printSolid(Random& random, const char* name, const Mesh& mesh) {
  Vec3 low(1e9), high(-1e9);
  for (const Vec3& v : mesh.vertices) {
    low = glm::min(low, v);
    high = glm::max(high, v);
  }
  const CutMesh solid = CutMesh::solid(mesh);
  std::printf("{\"name\": \"%s\", ", name);
  printMesh(mesh);
  printCuts(random, (low + high) / 2.0, glm::length(high - low) / 4,
            [&](const Plane& plane) { return solid.cut(plane); });
}

void printStrip(Random& random) {
  const auto half = [&] { return random.scale(0.003, 0.1); };
  const StripSolid s{
      random.inBox(Vec3{-0.3}, Vec3{0.3}), random.scale(0.02, 1), half(), half(), half(), half()};
  std::printf("{\"name\": \"strip\", ");
  printMesh(stripMesh(s));
  printCuts(random, s.centre, s.length / 3, [&](const Plane& plane) { return cutStrip(s, plane); });
}

/// The other library makes its own cylinder, of many sides.
void printCylinder(Random& random) {
  const CylinderSolid c{
      random.inBox(Vec3{-0.3}, Vec3{0.3}), {1, 0, 0}, random.scale(0.01, 0.1), random.scale(0.05, 0.8), 0, 0};
  std::printf(
      "{\"name\": \"cylinder\", \"radius\": %.17g, \"length\": %.17g, \"centre\": [%.17g,%.17g,%.17g]",
      c.radius, c.length, c.centre.x, c.centre.y, c.centre.z);
  printCuts(random, c.centre, c.length / 3, [&](const Plane& plane) { return cutCylinder(c, plane); });
}

}  // namespace

int main(int count, char** words) {
  Random random(4711);
  for (int i = 1; i < count; ++i) {
    std::ifstream in(words[i]);
    std::stringstream text;
    text << in.rdbuf();
    const auto document = file::readBoatFile(text.str());
    if (!document) return 1;
    for (const Skin& skin : document->boat.skins) {
      if (hullSize(skin.form).x > 0)  // closed; a sail has no foot
        printSolid(random, (document->boat.name + ", " + skin.name).c_str(), meshSkin(skin));
    }
  }
  for (int k = 0; k < 20; ++k)
    printSolid(random, "lumpy body",
               lumpySphereMesh(random.inBox(Vec3{-0.2}, Vec3{0.2}), 0.1, 0.15, 10, 100 + k));
  for (int k = 0; k < 5; ++k) {
    const Mesh ring = torusMesh(random.scale(0.05, 0.2), random.scale(0.005, 0.04), 40, 16);
    printSolid(random, "ring", ring);
  }
  for (int k = 0; k < 20; ++k) printStrip(random);
  for (int k = 0; k < 20; ++k) printCylinder(random);
  // Loose triangles, every third turned the wrong way: the library refuses what is not closed and turned
  // alike.
  for (int k = 0; k < 5; ++k)
    printSolid(random, "mended body",
               mendMesh(loose(withTurned(lumpySphereMesh({0, 0, 0}, 0.1, 0.15, 10, 200 + k), 3))).mesh);
  return count > 1 ? 0 : 2;
}
