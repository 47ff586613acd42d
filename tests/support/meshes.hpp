#pragma once
// Meshes for the tests: triangles counter-clockwise seen from outside.
#include <functional>
#include <pondtrim/hydrostatics.hpp>
#include <vector>

namespace pondtrim::test {

Mesh boxMesh(const Vec3& centre, const Vec3& size);
/// The strip as twelve triangles.
Mesh stripMesh(const StripSolid& strip);
/// Body of revolution about x through the stations (x, radius), x rising; radius 0 at an end is a point, else
/// the end is closed by a flat disc when `closed`.
Mesh revolutionMesh(const std::vector<std::pair<double, double>>& stations, int sides, bool closed = true);
/// Torus about z in the plane z = 0.
Mesh torusMesh(double ring_radius, double tube_radius, int around_ring, int around_tube);
/// A sphere pushed in and out at random points: closed, not convex.
Mesh lumpySphereMesh(const Vec3& centre, double radius, double lumpiness, int bands, unsigned long long seed);

Mesh moved(Mesh mesh, const Mat3& r, const Vec3& shift);
/// Both in one mesh.
Mesh joined(const Mesh& a, const Mesh& b);
/// The triangles from `first` up to but not including `last`, sharing no vertices with the rest.
Mesh piece(const Mesh& mesh, std::size_t first, std::size_t last);
double surfaceArea(const Mesh& mesh);
/// Farthest vertex from the origin.
double reach(const Mesh& mesh);

/// What an inscribed regular n-gon keeps of its circle's area (check value H21: a 96-gon loses 0.071379 %).
double polygonShare(int sides);

}  // namespace pondtrim::test
