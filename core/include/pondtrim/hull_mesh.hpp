#pragma once
// Triangle meshes from outside (a drawing program, a scanner): what such a mesh is, and the repair that is
// safe. Lengths, areas and volumes in the mesh's own unit; nothing here cares which that is.
#include <memory>
#include <pondtrim/boat.hpp>
#include <pondtrim/hydrostatics.hpp>

namespace pondtrim {

/// What a mesh is after mending. A piece is what hangs together by edges that two triangles share. That
/// triangles cut through each other is not looked for.
struct MeshFindings {
  std::size_t triangles = 0, vertices = 0;
  std::size_t pieces = 0;
  std::size_t open_pieces = 0;
  std::size_t inner_pieces = 0;  ///< closed, inside another closed piece: a hollow, or a body in a body
  std::size_t one_sided = 0;     ///< pieces that have no outside, as a Moebius band
  std::size_t open_edges = 0;    ///< of one triangle alone
  std::size_t open_loops = 0;    ///< rings of open edges: holes and rims
  double longest_loop = 0.0;     ///< its length, and the middle of its vertices
  Vec3 longest_loop_middle{0.0};
  std::size_t crowded_edges = 0;  ///< of more than two triangles
  std::size_t needles = 0;        ///< triangles without area whose corners differ; they do no harm
  std::size_t back_to_back = 0;   ///< triangles on the corners of another one, turned the other way
  /// No open edge, nothing one-sided, and at every crowded edge as many triangles turn one way as the other:
  /// the mesh has an inside, and a volume.
  bool closed = false;
  double area = 0.0;
  double volume = 0.0;  ///< what it encloses; of open pieces with each closed to the middle of its open edges
  Vec3 low{0.0}, high{0.0};
};

/// What mending did. Nothing of it changes the surface by more than the weld's reach.
struct MeshRepair {
  std::size_t joined = 0;  ///< vertices moved onto another one close by (one at the same place is no repair)
  std::size_t degenerate = 0;  ///< triangles dropped that have two corners at one place
  std::size_t duplicate = 0;   ///< triangles dropped that were there twice
  std::size_t turned = 0;      ///< triangles turned to agree with their neighbours
  std::size_t inside_out = 0;  ///< whole pieces turned
};

struct MendedMesh {
  Mesh mesh;
  MeshFindings found;
  MeshRepair done;
};

/// Makes one vertex of those closer than `reach`; drops what no triangle uses and triangles whose corners
/// then fall together.
struct WeldedMesh {
  Mesh mesh;
  std::size_t joined = 0, degenerate = 0;
};
[[nodiscard]] WeldedMesh weldMesh(const Mesh& mesh, double reach);

/// Welds within a millionth of the mesh's extent (or what single precision leaves of its coordinates), drops
/// degenerate and duplicate triangles, turns the triangles of each piece alike and closed pieces outward;
/// pieces inside another are turned as the file turns them beside it. `mesh`: finite coordinates, indices
/// in range. About 1 s for a million triangles.
[[nodiscard]] MendedMesh mendMesh(const Mesh& mesh);

/// The same in steps, for a page that must stay alive meanwhile.
class MeshMender {
 public:
  explicit MeshMender(Mesh mesh);
  MeshMender(MeshMender&&) noexcept;
  MeshMender& operator=(MeshMender&&) noexcept;
  ~MeshMender();

  /// The next step, of a million triangles at most 0.2 s; false when nothing is left to do.
  bool step();
  [[nodiscard]] double share() const;  ///< done so far, 0 to 1
  /// Once `step` has said false.
  [[nodiscard]] MendedMesh take();

 private:
  struct Work;
  std::unique_ptr<Work> work_;
};

/// Along which axis of a file something points.
enum class Facing { PlusX, MinusX, PlusY, MinusY, PlusZ, MinusZ };

/// How a file's axes lie in the boat.
struct MeshPlacing {
  double unit = 0.001;  ///< of the file [m]
  Facing forward = Facing::PlusX, up = Facing::PlusZ;
  bool mirrored = false;  ///< port and starboard change places
};
/// The mesh as a form of skin, its box where MeshForm has it. Error: forward and up along one axis; more
/// triangles or vertices than a form may have, or no area (packed_mesh.hpp).
[[nodiscard]] Result<MeshForm> packMesh(const Mesh& mesh, const MeshPlacing& placing);
/// In the form's frame [m].
[[nodiscard]] Mesh unpackMesh(const MeshForm& form);

}  // namespace pondtrim
