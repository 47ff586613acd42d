#include "mesh_edges.hpp"

namespace pondtrim {

std::vector<std::uint32_t> halvesByEdge(const Mesh& mesh) {
  return ordered(
      mesh.triangles.size(), mesh.vertices.size(), [&](std::uint32_t h) { return lowEnd(mesh, h); },
      [&](std::uint32_t h) { return highEnd(mesh, h); });
}

}  // namespace pondtrim
