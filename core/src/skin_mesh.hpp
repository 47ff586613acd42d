#pragma once
// What meshing a skin takes away.
#include <pondtrim/boat.hpp>
#include <pondtrim/hydrostatics.hpp>

namespace pondtrim {

/// Area of the skin's form over that of its mesh (meshSkin, model.hpp), which is smaller as facets cut
/// corners: 1.0007 or so. Right to 0.002 %.
double facetFactor(const Skin& skin);

/// What the form encloses, an open foot closed, with what facets take away put back [m^3]. 0 of a plate.
double enclosedVolume(const Skin& skin);

/// Of a form with an open foot or edge: sail, casing, a mesh that is not closed.
bool openBelow(const SkinForm& form);
/// Vertices on open edges of the mesh, twice each.
std::vector<Vec3> openEdge(const Mesh& mesh);
/// The mesh with its open edge, one flat ring, closed.
Mesh closedMesh(Mesh mesh);

}  // namespace pondtrim
