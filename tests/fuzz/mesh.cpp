// Meshes from strangers: an error with a message, or a mesh that mending makes sound: mended again, nothing
// is left to do.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <pondtrim/file/mesh_words.hpp>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto read = pondtrim::file::readMeshFile({reinterpret_cast<const char*>(data), size});
  if (!read) {
    if (read.error().field.empty() || read.error().message.empty()) std::abort();
    return 0;
  }
  for (const std::uint32_t i : read->mesh.triangles)
    if (i >= read->mesh.vertices.size()) std::abort();
  const auto once = pondtrim::mendMesh(read->mesh), twice = pondtrim::mendMesh(once.mesh);
  const auto& r = twice.done;
  if (r.joined + r.degenerate + r.duplicate + r.turned + r.inside_out > 0) std::abort();
  if (twice.found.closed != once.found.closed || twice.found.pieces != once.found.pieces) std::abort();
  if (!std::isfinite(once.found.area) || !std::isfinite(once.found.volume)) std::abort();
  if (pondtrim::file::meshJson(read->format, once).empty()) std::abort();
  return 0;
}
