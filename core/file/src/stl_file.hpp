#pragma once
// The formats behind readMeshFile (mesh_file.hpp), each read in steps.
#include <memory>
#include <pondtrim/hydrostatics.hpp>
#include <pondtrim/result.hpp>
#include <string_view>

namespace pondtrim::file {

class MeshSource {
 public:
  virtual ~MeshSource() = default;
  /// Reads on through about so many bytes; false when all is read or something is wrong.
  virtual bool step(std::size_t bytes) = 0;
  [[nodiscard]] virtual std::size_t position() const = 0;  ///< bytes read so far
  /// Once `step` has said false.
  [[nodiscard]] virtual Result<Mesh> take() = 0;
};

/// The bytes are as many as a binary STL's head says, give or take less than one triangle at the end.
[[nodiscard]] bool fitsBinaryStl(std::string_view bytes);
[[nodiscard]] std::unique_ptr<MeshSource> openBinaryStl(std::string_view bytes);
[[nodiscard]] std::unique_ptr<MeshSource> openTextStl(std::string_view text);
[[nodiscard]] std::unique_ptr<MeshSource> openObj(std::string_view text);

}  // namespace pondtrim::file
