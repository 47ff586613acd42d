#pragma once
// Triangle meshes as drawing programs write them: STL, binary and as text, and OBJ. Bytes in, mesh out.
// STL is a convention without a standard: a head of 80 bytes, the number of triangles, and 50 bytes each of
// little-endian single-precision numbers; or text of "facet normal ... outer loop vertex ... endloop
// endfacet". Of OBJ, "v" and "f" lines are read; common practice, no source.
#include <memory>
#include <pondtrim/hydrostatics.hpp>
#include <pondtrim/result.hpp>
#include <string>
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

/// The same in steps, for a page that must stay alive meanwhile. About 0.3 s for a million triangles of a
/// binary STL.
class MeshReader {
 public:
  explicit MeshReader(std::string bytes);
  MeshReader(MeshReader&&) noexcept;
  MeshReader& operator=(MeshReader&&) noexcept;
  ~MeshReader();

  /// Reads on through about so many bytes; false when there is nothing more to read.
  bool step(std::size_t bytes);
  [[nodiscard]] double share() const;  ///< read so far, 0 to 1
  /// Once `step` has said false; error as readMeshFile.
  [[nodiscard]] Result<MeshFile> take();

 private:
  friend Result<MeshFile> readMeshFile(std::string_view bytes);
  MeshReader();
  struct Work;
  std::unique_ptr<Work> work_;
};

/// What is said of a file of more than kMostMeshBytes.
[[nodiscard]] Error tooManyMeshBytes();

}  // namespace pondtrim::file
