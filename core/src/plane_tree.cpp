#include "plane_tree.hpp"

#include <algorithm>
#include <glm/common.hpp>

namespace pondtrim {

namespace {

constexpr std::uint32_t kLeafTriangles = 6;  // measured: 4 to 8 is flat, 16 is slower

Vec3 middle(const TreeTriangle& t) { return (t.p0 + t.p1 + t.p2) / 3.0; }

void bound(const TreeTriangle& t, Vec3& lo, Vec3& hi) {
  lo = glm::min(lo, glm::min(t.p0, glm::min(t.p1, t.p2)));
  hi = glm::max(hi, glm::max(t.p0, glm::max(t.p1, t.p2)));
}

int longestSide(const std::vector<TreeTriangle>& triangles, std::uint32_t first, std::uint32_t last) {
  Vec3 lo(1e300), hi(-1e300);
  for (std::uint32_t i = first; i < last; ++i) {
    lo = glm::min(lo, middle(triangles[i]));
    hi = glm::max(hi, middle(triangles[i]));
  }
  const Vec3 side = hi - lo;
  if (side.x >= side.y && side.x >= side.z) return 0;
  return side.y >= side.z ? 1 : 2;
}

void growBranch(PlaneTree& tree, std::uint32_t first, std::uint32_t last) {
  const auto index = std::uint32_t(tree.nodes.size());
  tree.nodes.emplace_back();
  Vec3 lo(1e300), hi(-1e300);
  for (std::uint32_t i = first; i < last; ++i) bound(tree.triangles[i], lo, hi);
  const bool leaf = last - first <= kLeafTriangles;
  if (!leaf) {
    const int axis = longestSide(tree.triangles, first, last);
    const std::uint32_t split = first + (last - first) / 2;
    const auto begin = tree.triangles.begin();
    std::nth_element(begin + first, begin + split, begin + last,
                     [axis](const auto& a, const auto& b) { return middle(a)[axis] < middle(b)[axis]; });
    growBranch(tree, first, split);
    growBranch(tree, split, last);
  }
  TreeNode& node = tree.nodes[index];
  node.centre = (lo + hi) / 2.0;
  node.half = (hi - lo) / 2.0;
  node.first = first;
  node.count = last - first;
  node.leaf = leaf;
  node.skip = std::uint32_t(tree.nodes.size());
}

}  // namespace

PlaneTree growTree(const Mesh& mesh) {
  PlaneTree tree;
  Vec3 lo(1e300), hi(-1e300);
  for (const Vec3& v : mesh.vertices) {
    lo = glm::min(lo, v);
    hi = glm::max(hi, v);
  }
  if (!mesh.vertices.empty()) tree.origin = (lo + hi) / 2.0;
  tree.triangles.reserve(mesh.triangles.size() / 3);
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
    TreeTriangle t{mesh.vertices[mesh.triangles[i]] - tree.origin,
                   mesh.vertices[mesh.triangles[i + 1]] - tree.origin,
                   mesh.vertices[mesh.triangles[i + 2]] - tree.origin, Vec3(0.0)};
    t.area = 0.5 * glm::cross(t.p1 - t.p0, t.p2 - t.p0);
    if (glm::dot(t.area, t.area) > 0) tree.triangles.push_back(t);
  }
  if (!tree.triangles.empty()) growBranch(tree, 0, std::uint32_t(tree.triangles.size()));
  return tree;
}

}  // namespace pondtrim
