#pragma once
// The formats behind readMeshFile (mesh_file.hpp).
#include <pondtrim/hydrostatics.hpp>
#include <pondtrim/result.hpp>
#include <string_view>

namespace pondtrim::file {

/// The bytes are as many as a binary STL's head says, give or take less than one triangle at the end.
[[nodiscard]] bool fitsBinaryStl(std::string_view bytes);
[[nodiscard]] Result<Mesh> readBinaryStl(std::string_view bytes);
[[nodiscard]] Result<Mesh> readTextStl(std::string_view text);
[[nodiscard]] Result<Mesh> readObj(std::string_view text);

}  // namespace pondtrim::file
