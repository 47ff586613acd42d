#pragma once
// A triangle mesh small enough for a boat file: corners in whole steps of a box, 65535 along each side (of a
// hull one metre long 15 micrometres).
#include <cstdint>
#include <memory>
#include <pondtrim/result.hpp>
#include <vector>

namespace pondtrim {

inline constexpr std::size_t kMostPackedTriangles = 40'000, kMostPackedVertices = 40'000;
inline constexpr int kPackedSteps = 65535;

/// Never changed once made, so that boats that differ elsewhere share it.
class PackedMesh {
 public:
  /// `corners`: x, y, z of each vertex; `triangles`: three indices each, counter-clockwise seen from outside.
  /// Error (field "mesh"): too many or none, an index without a vertex, no area.
  [[nodiscard]] static Result<std::shared_ptr<const PackedMesh>> make(std::vector<std::uint16_t> corners,
                                                                      std::vector<std::uint16_t> triangles);

  [[nodiscard]] const std::vector<std::uint16_t>& corners() const { return corners_; }
  [[nodiscard]] const std::vector<std::uint16_t>& triangles() const { return triangles_; }
  /// It can be a solid: at every edge as many triangles turn one way as the other, and it has a volume.
  [[nodiscard]] bool closed() const { return closed_; }
  bool operator==(const PackedMesh&) const = default;

 private:
  PackedMesh() = default;
  std::vector<std::uint16_t> corners_, triangles_;
  bool closed_ = false;
};

}  // namespace pondtrim
