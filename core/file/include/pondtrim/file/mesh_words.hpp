#pragma once
// What was found of a mesh from outside and what was repaired (hull_mesh.hpp), in words and as JSON text.
#include <pondtrim/file/mesh_file.hpp>
#include <pondtrim/hull_mesh.hpp>
#include <string>
#include <vector>

namespace pondtrim::file {

[[nodiscard]] const char* meshFormatWords(MeshFormat format);

/// Sentences, the most important first. Lengths in the file's own unit.
[[nodiscard]] std::vector<std::string> meshSentences(const MeshFindings& found, const MeshRepair& done);

[[nodiscard]] std::string meshJson(MeshFormat format, const MendedMesh& mesh);

}  // namespace pondtrim::file
