#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <pondtrim/hull_mesh.hpp>

#include "mesh_edges.hpp"

namespace pondtrim {

namespace {

Error packError(const std::string& was, const std::string& allowed) {
  return {"mesh", was, allowed, "", "the mesh has " + was + "; allowed: " + allowed};
}

Mesh inSteps(const std::vector<std::uint16_t>& corners, const std::vector<std::uint16_t>& triangles) {
  Mesh mesh;
  for (std::size_t i = 0; i + 2 < corners.size(); i += 3)
    mesh.vertices.emplace_back(corners[i], corners[i + 1], corners[i + 2]);
  mesh.triangles.assign(triangles.begin(), triangles.end());
  return mesh;
}

struct Extent {
  double area = 0, volume = 0;
};
Extent extentOf(const Mesh& mesh) {
  Extent out;
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
    const Vec3& a = mesh.vertices[mesh.triangles[i]];
    const Vec3 area =
        glm::cross(mesh.vertices[mesh.triangles[i + 1]] - a, mesh.vertices[mesh.triangles[i + 2]] - a);
    out.area += glm::length(area) / 2;
    out.volume += glm::dot(a, area) / 6;
  }
  return out;
}

bool edgesBalance(const Mesh& mesh) {
  bool all = true;
  forEachEdge(mesh, [&](std::span<const std::uint32_t> halves) {
    long balance = 0;
    for (const std::uint32_t h : halves) balance += sameWay(mesh, h, halves[0]) ? 1 : -1;
    all = all && balance == 0;
  });
  return all;
}

Vec3 directionOf(Facing facing) {
  Vec3 out(0.0);
  const int i = static_cast<int>(facing);
  out[i / 2] = i % 2 == 0 ? 1 : -1;
  return out;
}

}  // namespace

Result<std::shared_ptr<const PackedMesh>> PackedMesh::make(std::vector<std::uint16_t> corners,
                                                           std::vector<std::uint16_t> triangles) {
  const std::size_t vertices = corners.size() / 3, count = triangles.size() / 3;
  if (corners.size() % 3 != 0 || vertices < 3 || vertices > kMostPackedVertices)
    return fail(
        packError(std::to_string(vertices) + " vertices", "3 to " + std::to_string(kMostPackedVertices)));
  if (triangles.size() % 3 != 0 || count < 1 || count > kMostPackedTriangles)
    return fail(
        packError(std::to_string(count) + " triangles", "1 to " + std::to_string(kMostPackedTriangles)));
  for (std::size_t i = 0; i < triangles.size(); ++i)
    if (triangles[i] >= vertices)
      return fail(
          packError("vertex " + std::to_string(triangles[i]) + " in triangle " + std::to_string(i / 3),
                    "0 to " + std::to_string(vertices - 1)));
  const Mesh mesh = inSteps(corners, triangles);
  const Extent extent = extentOf(mesh);
  if (extent.area < 1) return fail(packError("no area", "a mesh with an area"));
  constexpr double kWhole = double(kPackedSteps) * kPackedSteps * kPackedSteps;
  const std::shared_ptr<PackedMesh> out(new PackedMesh);
  out->closed_ = extent.volume > 1e-9 * kWhole && edgesBalance(mesh);
  out->corners_ = std::move(corners);
  out->triangles_ = std::move(triangles);
  return out;
}

Result<MeshForm> packMesh(const Mesh& mesh, const MeshPlacing& placing) {
  const Vec3 x = directionOf(placing.forward), z = directionOf(placing.up);
  if (glm::dot(x, z) != 0)
    return fail({"up", "along the same axis as forward", "another axis", "forward",
                 "up is along the same axis as forward; allowed: another axis"});
  if (mesh.vertices.size() > kMostPackedVertices)
    return fail(packError(std::to_string(mesh.vertices.size()) + " vertices",
                          "3 to " + std::to_string(kMostPackedVertices)));
  const Vec3 y = glm::cross(z, x) * (placing.mirrored ? -1.0 : 1.0);
  std::vector<Vec3> placed;
  Vec3 low(1e300), high(-1e300);
  for (const Vec3& v : mesh.vertices) {
    placed.push_back(Vec3(glm::dot(v, x), glm::dot(v, y), glm::dot(v, z)) * placing.unit);
    low = glm::min(low, placed.back());
    high = glm::max(high, placed.back());
  }
  std::vector<std::uint16_t> corners, triangles;
  const Vec3 size = high - low;
  for (const Vec3& v : placed)
    for (int k = 0; k < 3; ++k)
      corners.push_back(
          std::uint16_t(size[k] > 0 ? std::lround((v[k] - low[k]) / size[k] * kPackedSteps) : 0));
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
    const auto at = [&](std::size_t k) { return std::uint16_t(mesh.triangles[i + k]); };
    triangles.insert(triangles.end(), {at(0), at(placing.mirrored ? 2 : 1), at(placing.mirrored ? 1 : 2)});
  }
  auto packed = PackedMesh::make(std::move(corners), std::move(triangles));
  if (!packed) return fail(packed.error());
  return MeshForm{size, false, std::move(*packed)};
}

Mesh unpackMesh(const MeshForm& form) {
  if (!form.mesh) return {};
  Mesh mesh = inSteps(form.mesh->corners(), form.mesh->triangles());
  const Vec3 step = form.size / double(kPackedSteps), shift(0, -form.size.y / 2, 0);
  for (Vec3& v : mesh.vertices) v = v * step + shift;
  return mesh;
}

}  // namespace pondtrim
