#pragma once
// weldMesh (hull_mesh.hpp) in steps.
#include <memory>
#include <pondtrim/hull_mesh.hpp>

namespace pondtrim {

class MeshWelder {
 public:
  /// `mesh` must outlive this.
  MeshWelder(const Mesh& mesh, double reach);
  MeshWelder(const MeshWelder&) = delete;
  MeshWelder& operator=(const MeshWelder&) = delete;
  ~MeshWelder();

  /// Welds so many triangles more; false when all are.
  bool step(std::size_t triangles);
  [[nodiscard]] double share() const;  ///< welded so far, 0 to 1
  [[nodiscard]] WeldedMesh take();

 private:
  struct Work;
  std::unique_ptr<Work> work_;
};

}  // namespace pondtrim
