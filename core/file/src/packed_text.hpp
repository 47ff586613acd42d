#pragma once
// A packed mesh as one word of the boat file: "1." and base64url of little-endian numbers: how many vertices
// and triangles (32 bits each), then the corners and the triangles (16 bits each). Another layout gets
// another number.
#include <memory>
#include <pondtrim/packed_mesh.hpp>
#include <string>
#include <string_view>

namespace pondtrim::file {

[[nodiscard]] std::string packedText(const PackedMesh& mesh);
/// Error: what is wrong; the field is the caller's to fill in.
[[nodiscard]] Result<std::shared_ptr<const PackedMesh>> packedFromText(std::string_view text);

/// For a list: how many triangles, and a mark by which two meshes are told apart.
[[nodiscard]] std::string packedTitle(const PackedMesh& mesh);

}  // namespace pondtrim::file
