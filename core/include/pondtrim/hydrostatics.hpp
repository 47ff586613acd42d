#pragma once
// Bodies cut by the plane of the water.
//
// The water surface is u.p = c in the boat frame (u a unit vector, c in m); points with u.p < c are under
// water and their depth is s = c - u.p. Everything here is purely geometric: multiply by density for mass.
#include <cstdint>
#include <memory>
#include <pondtrim/vec.hpp>
#include <vector>

namespace pondtrim {

/// The water's surface seen from the boat.
struct Plane {
  Vec3 up{0.0, 0.0, 1.0};  ///< u, unit vector: world's vertical in the boat frame
  double level = 0.0;      ///< c [m]
};

/// Symmetric 3x3 matrix, upper triangle.
struct Sym3 {
  double xx = 0, yy = 0, zz = 0, xy = 0, xz = 0, yz = 0;
};

/// What lies under the plane. First moments, not centroids, because moments add.
struct Cut {
  double volume = 0.0;      ///< [m^3]
  Vec3 moment{0.0};         ///< integral of p dV [m^4]
  double plane_area = 0.0;  ///< of the waterplane [m^2]; it is d(volume)/d(level)
  Vec3 plane_moment{0.0};   ///< integral of p dA over the waterplane [m^3]
  Sym3 plane_second;        ///< integral of p p^T dA over the waterplane [m^4]

  Cut& operator+=(const Cut& o);
  Cut& operator*=(double k);
};

/// Triangle mesh. For a solid the triangles turn counter-clockwise seen from outside and close.
struct Mesh {
  std::vector<Vec3> vertices;
  std::vector<std::uint32_t> triangles;  ///< three indices a triangle
};

/// Right circular cylinder with half-ellipsoid domes, centre of the straight part at `centre`.
struct CylinderSolid {
  Vec3 centre{0.0};
  Vec3 axis{1.0, 0.0, 0.0};  ///< unit vector from the aft to the fore end
  double radius = 0.05, length = 0.1;
  double fore_dome = 0.0, aft_dome = 0.0;
};

/// Convex solid with six flat faces: box or tapered strip along x. Half-extents at its two ends.
struct StripSolid {
  Vec3 centre{0.0};
  double length = 0.1;
  double aft_half_breadth = 0.01, aft_half_height = 0.01;
  double fore_half_breadth = 0.01, fore_half_height = 0.01;
};

/// Closed-form cuts: no facets, any attitude. See core/src/cylinder_cut.cpp and strip_cut.cpp for accuracy.
[[nodiscard]] Cut cutCylinder(const CylinderSolid& solid, const Plane& plane);
[[nodiscard]] Cut cutStrip(const StripSolid& solid, const Plane& plane);

/// Mesh prepared for cutting: a tree whose branches hold the pre-summed integrals of their triangles, so that
/// a cut visits only the triangles near the water. Immutable and cheap to copy.
class CutMesh {
 public:
  /// A closed mesh that displaces its enclosed volume.
  [[nodiscard]] static CutMesh solid(const Mesh& mesh);
  /// An open or closed sheet that displaces area x thickness: each triangle is a prism of that thickness,
  /// half on either side. [m]
  [[nodiscard]] static CutMesh skin(const Mesh& mesh, double thickness);

  [[nodiscard]] Cut cut(const Plane& plane) const;
  /// Everything under water: total volume and first moment, no waterplane.
  [[nodiscard]] const Cut& whole() const;
  [[nodiscard]] double area() const;  ///< of the triangles [m^2]

 private:
  friend class CutMeshMaker;
  struct Tree;
  struct Work;
  explicit CutMesh(std::shared_ptr<const Tree> tree);
  static CutMesh make(const Mesh& mesh, double thickness);
  std::shared_ptr<const Tree> tree_;
};

/// A CutMesh made in steps, for a page that must stay alive meanwhile.
class CutMeshMaker {
 public:
  /// As CutMesh::skin; `thickness` 0: as CutMesh::solid.
  CutMeshMaker(Mesh mesh, double thickness);
  CutMeshMaker(CutMeshMaker&&) noexcept;
  CutMeshMaker& operator=(CutMeshMaker&&) noexcept;
  ~CutMeshMaker();

  /// The next step; false when nothing is left to do.
  bool step();
  [[nodiscard]] double share() const;  ///< done so far, 0 to 1
  /// Once `step` has said false.
  [[nodiscard]] CutMesh take();

 private:
  Mesh mesh_;
  std::unique_ptr<CutMesh::Work> work_;
};

}  // namespace pondtrim
