#include "plane_tree.hpp"

#include <algorithm>
#include <cmath>
#include <glm/common.hpp>

namespace pondtrim {

namespace {

constexpr std::uint32_t kLeafTriangles = 6;  // measured: 4 to 8 is flat, 16 is slower
// In one step: some 20 ms of a million triangles, but for the first nodes, which look at all of them.
constexpr std::size_t kLoadedAtOnce = 200'000;
constexpr double kLookedAtAtOnce = 400'000;

Vec3 middle(const TreeTriangle& t) { return (t.p0 + t.p1 + t.p2) / 3.0; }

void bound(const TreeTriangle& t, Vec3& lo, Vec3& hi) {
  lo = glm::min(lo, glm::min(t.p0, glm::min(t.p1, t.p2)));
  hi = glm::max(hi, glm::max(t.p0, glm::max(t.p1, t.p2)));
}

/// Heights count double: waterplanes lie nearly level, and meet fewer branches that are low (a fifth less
/// time).
int longestSide(const std::vector<TreeTriangle>& triangles, std::uint32_t first, std::uint32_t last) {
  Vec3 lo(1e300), hi(-1e300);
  for (std::uint32_t i = first; i < last; ++i) {
    lo = glm::min(lo, middle(triangles[i]));
    hi = glm::max(hi, middle(triangles[i]));
  }
  const Vec3 side = (hi - lo) * Vec3(1, 1, 2);
  if (side.x >= side.y && side.x >= side.z) return 0;
  return side.y >= side.z ? 1 : 2;
}

}  // namespace

bool TreeGrower::step(const Mesh& mesh) {
  if (loaded_ + 2 < mesh.triangles.size()) {
    if (load(mesh)) return true;
    const double count = double(tree_.triangles.size());
    to_look_at_ = count * (1 + std::log2(std::max(1.0, count / kLeafTriangles)));
    if (count > 0) waiting_.push_back({0, std::uint32_t(tree_.triangles.size())});
    return !waiting_.empty();
  }
  if (split()) return true;
  closeBranches();
  return false;
}

double TreeGrower::share() const { return std::min(1.0, looked_at_ / to_look_at_); }

/// Triangles from the mesh; false when all are there.
bool TreeGrower::load(const Mesh& mesh) {
  if (loaded_ == 0) {
    Vec3 lo(1e300), hi(-1e300);
    for (const Vec3& v : mesh.vertices) {
      lo = glm::min(lo, v);
      hi = glm::max(hi, v);
    }
    tree_.origin = (lo + hi) / 2.0;
    tree_.triangles.reserve(mesh.triangles.size() / 3);
  }
  const std::size_t until = std::min(mesh.triangles.size(), loaded_ + 3 * kLoadedAtOnce);
  for (; loaded_ + 2 < until; loaded_ += 3) {
    const auto corner = [&](std::size_t k) {
      return mesh.vertices[mesh.triangles[loaded_ + k]] - tree_.origin;
    };
    TreeTriangle t{corner(0), corner(1), corner(2), Vec3(0.0), 0};
    t.area = 0.5 * glm::cross(t.p1 - t.p0, t.p2 - t.p0);
    t.size = glm::length(t.area);
    if (t.size > 0) tree_.triangles.push_back(t);
  }
  return loaded_ + 2 < mesh.triangles.size();
}

/// Nodes, depth first; false when there is none left to make.
bool TreeGrower::split() {
  for (double from = looked_at_; !waiting_.empty() && looked_at_ - from < kLookedAtAtOnce;) {
    const auto [first, last] = waiting_.back();
    waiting_.pop_back();
    looked_at_ += last - first;
    Vec3 lo(1e300), hi(-1e300);
    for (std::uint32_t i = first; i < last; ++i) bound(tree_.triangles[i], lo, hi);
    const bool leaf = last - first <= kLeafTriangles;
    tree_.nodes.push_back({(lo + hi) / 2.0, (hi - lo) / 2.0, first, last - first, 0, leaf});
    if (leaf) continue;
    const int axis = longestSide(tree_.triangles, first, last);
    const std::uint32_t half = first + (last - first) / 2;
    const auto begin = tree_.triangles.begin();
    std::nth_element(begin + first, begin + half, begin + last,
                     [axis](const auto& a, const auto& b) { return middle(a)[axis] < middle(b)[axis]; });
    waiting_.push_back({half, last});
    waiting_.push_back({first, half});
  }
  return !waiting_.empty();
}

/// Where each branch ends, from the last node on.
void TreeGrower::closeBranches() {
  for (std::size_t i = tree_.nodes.size(); i-- > 0;) {
    TreeNode& node = tree_.nodes[i];
    node.skip = node.leaf ? std::uint32_t(i + 1) : tree_.nodes[tree_.nodes[i + 1].skip].skip;
  }
}

}  // namespace pondtrim
