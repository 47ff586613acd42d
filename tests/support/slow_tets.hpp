#pragma once
// The slow, obvious way to cut a body with flat faces: fill it with tetrahedra, cut each one at the plane
// into smaller tetrahedra, add them up. Shares no code and no formula with the core (which uses the
// divergence theorem over the surface and a tree).
#include <pondtrim/hydrostatics.hpp>

namespace pondtrim::test {

/// One tetrahedron; counts negative when d lies on the other side of abc than a right-handed one has it.
Cut cutTetrahedron(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d, const Plane& plane);

/// A closed mesh, as signed tetrahedra from `apex` (any point) to each triangle.
Cut slowSolidCut(const Mesh& mesh, const Vec3& apex, const Plane& plane);

/// A sheet: each triangle a right prism, half the thickness on either side.
Cut slowSkinCut(const Mesh& mesh, double thickness, const Plane& plane);

}  // namespace pondtrim::test
