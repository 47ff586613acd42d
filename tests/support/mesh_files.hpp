#pragma once
// Writes meshes as drawing programs do.
#include <pondtrim/hydrostatics.hpp>
#include <string>

namespace pondtrim::test {

std::string binaryStl(const Mesh& mesh, const std::string& head = "made for a test");
std::string textStl(const Mesh& mesh);
std::string objOf(const Mesh& mesh);

/// Turns every n-th triangle round.
Mesh withTurned(Mesh mesh, std::size_t every);
/// Each triangle with vertices of its own, as in an STL.
Mesh loose(const Mesh& mesh);

}  // namespace pondtrim::test
