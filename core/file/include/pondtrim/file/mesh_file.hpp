#pragma once
// Triangle meshes as drawing programs write them: STL, binary and as text, and OBJ. Bytes in, mesh out.
// STL is a convention without a standard: a head of 80 bytes, the number of triangles, and 50 bytes each of
// little-endian single-precision numbers; or text of "facet normal ... outer loop vertex ... endloop
// endfacet". Of OBJ, "v" and "f" lines are read; common practice, no source.
#include <pondtrim/hydrostatics.hpp>
#include <pondtrim/result.hpp>
#include <string_view>

namespace pondtrim::file {

inline constexpr std::size_t kMostMeshBytes = std::size_t{256} << 20;
inline constexpr std::size_t kMostMeshTriangles = 2'000'000;
inline constexpr std::size_t kMostMeshCorners = 100;  ///< of a face of an OBJ that is not convex
inline constexpr double kMostMeshCoordinate = 1e9;

enum class MeshFormat { BinaryStl, TextStl, Obj };

struct MeshFile {
  MeshFormat format = MeshFormat::BinaryStl;
  /// In the file's unit, which it does not say. Three vertices of its own for each triangle of an STL: see
  /// mendMesh.
  Mesh mesh;
};

/// The format is found from the bytes, not from a name. Faces of an OBJ with more than three corners are cut
/// into triangles. Error: `field` says where (number of the triangle, or line), the message is a sentence.
[[nodiscard]] Result<MeshFile> readMeshFile(std::string_view bytes);

}  // namespace pondtrim::file
