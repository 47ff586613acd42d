#pragma once
// The slow, obvious way to cut a round body: slice it across its axis into discs, take the part of each disc
// below the water (a circle's segment), and integrate along the axis with many Gauss points.
#include <pondtrim/hydrostatics.hpp>

namespace pondtrim::test {

/// About 1e-12 of the whole: between the points where the water meets the outline the integrand is smooth but
/// for square roots at the ends, which a sine substitution takes away.
Cut slowCylinderCut(const CylinderSolid& solid, const Plane& plane);

}  // namespace pondtrim::test
