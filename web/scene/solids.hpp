#pragma once
// Simple bodies as triangles, for drawing only (the core cuts the exact bodies).
#include <pondtrim/hydrostatics.hpp>

#include "scene/geometry.hpp"

namespace pondtrim {

void addBox(std::vector<Vertex>& out, const Vec3& centre, const Vec3& size, Colour colour);
void addStrip(std::vector<Vertex>& out, const StripSolid& strip, Colour colour);
/// Flat or domed ends as the solid says.
void addCylinder(std::vector<Vertex>& out, const CylinderSolid& cylinder, Colour colour);
/// A mesh with smooth normals, except across edges sharper than 40 degrees.
void addMesh(std::vector<Vertex>& out, const Mesh& mesh, Colour colour);
/// A mesh of flat quadrilaterals, four vertices each in turn, with their thickness.
void addPlates(std::vector<Vertex>& out, const Mesh& mesh, double thickness, Colour colour);

/// The part of a flat-ended cylinder under `plane`, closed by the water's surface.
void addWaterInCylinder(std::vector<Vertex>& out, const CylinderSolid& bore, const Plane& plane,
                        Colour colour, Colour surface_colour);

}  // namespace pondtrim
