#pragma once
// Fewer triangles for the same surface, so that a hull from a drawing program fits a boat file or a link.
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

}  // namespace pondtrim
