#pragma once
// Fewer triangles for the same surface, so that a hull from a drawing program fits a boat file or a link.
#include <memory>
#include <pondtrim/hydrostatics.hpp>

namespace pondtrim {

struct ThinnedMesh {
  Mesh mesh;
  double farthest = 0.0;       ///< no vertex that was drawn lies farther than this from the thinned mesh
  double area_change = 0.0;    ///< thinned less drawn, as a share of what was drawn
  double volume_change = 0.0;  ///< the same of what a closed mesh encloses; means nothing of an open one
};

/// The mesh with at most `most` triangles, by clustering of vertices: those in one cell of a grid where the
/// surface faces about the same way become one, where their planes meet best (Rossignac and Borrel 1993;
/// Garland and Heckbert 1997, SIGGRAPH, for the planes; Lindstrom 2000, SIGGRAPH, for both together). What
/// was closed stays closed, rims stay in place, and the two sides of a thin wall stay apart. As it is when it
/// has no more triangles than that. `mesh`: finite coordinates, indices in range.
[[nodiscard]] ThinnedMesh thinMesh(const Mesh& mesh, std::size_t most);

/// The same in steps, for a page that must stay alive meanwhile.
class MeshThinner {
 public:
  /// `mesh` must outlive this.
  MeshThinner(const Mesh& mesh, std::size_t most);
  MeshThinner(MeshThinner&&) noexcept;
  MeshThinner& operator=(MeshThinner&&) noexcept;
  ~MeshThinner();

  /// The next step; false when nothing is left to do.
  bool step();
  [[nodiscard]] double share() const;  ///< done so far, 0 to 1
  /// Once `step` has said false.
  [[nodiscard]] ThinnedMesh take();

 private:
  struct Work;
  std::unique_ptr<Work> work_;
};

}  // namespace pondtrim
