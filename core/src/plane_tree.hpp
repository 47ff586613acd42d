#pragma once
// A tree over a mesh's triangles, for cutting by planes: branches wholly on one side of the plane are taken
// or left by their stored sums, so that the cost grows with the waterline, not with the mesh.
#include <vector>

#include "moments.hpp"

namespace pondtrim {

/// One node, in depth-first order: its left child follows it, `skip` is the next node outside its branch.
struct TreeNode {
  Vec3 centre, half;                   ///< bounding box
  std::uint32_t first = 0, count = 0;  ///< triangles (of the whole branch)
  std::uint32_t skip = 0;
  bool leaf = false;
};

struct TreeTriangle {
  Vec3 p0, p1, p2;
  Vec3 area;    ///< normal times area
  double size;  ///< area
};

struct PlaneTree {
  Vec3 origin{0.0};                     ///< positions are relative to it, for round-off
  std::vector<TreeTriangle> triangles;  ///< sorted so that every branch is a run
  std::vector<TreeNode> nodes;
};

/// Grows a tree in steps, as one of a million triangles takes a second. Triangles of no area are left out.
class TreeGrower {
 public:
  /// The next step, a small fraction of a second; false when nothing is left to do. `mesh`: the same each
  /// time.
  bool step(const Mesh& mesh);
  [[nodiscard]] double share() const;  ///< done so far, 0 to 1
  /// Once `step` has said false.
  [[nodiscard]] PlaneTree take() { return std::move(tree_); }

 private:
  struct Branch {
    std::uint32_t first, last;
  };
  bool load(const Mesh& mesh);
  bool split();
  void closeBranches();

  PlaneTree tree_;
  std::size_t loaded_ = 0;                 ///< of the mesh's indices
  std::vector<Branch> waiting_;            ///< to become nodes, the next one last
  double looked_at_ = 0, to_look_at_ = 1;  ///< triangles, once for each node above them
};

/// Calls wet(node index) for branches wholly deeper than `margin`, near(triangle) for the triangles of leaves
/// within `margin` of the plane. `plane` is relative to the tree's origin.
template <class Wet, class Near>
void walkTree(const PlaneTree& tree, const Plane& plane, double margin, Wet wet, Near near) {
  const Vec3 reach = glm::abs(plane.up);
  for (std::uint32_t i = 0; i < tree.nodes.size();) {
    const TreeNode& node = tree.nodes[i];
    const double depth = plane.level - glm::dot(plane.up, node.centre);
    const double spread = glm::dot(reach, node.half) + margin;
    if (depth <= -spread) {
      i = node.skip;
    } else if (depth > spread) {
      wet(i);
      i = node.skip;
    } else {
      if (node.leaf) {
        for (std::uint32_t t = node.first; t < node.first + node.count; ++t) near(tree.triangles[t]);
      }
      ++i;
    }
  }
}

}  // namespace pondtrim
