#pragma once
// Writes meshes as drawing programs do.
#include <cstdint>
#include <cstring>
#include <pondtrim/hydrostatics.hpp>
#include <string>

namespace pondtrim::test {

/// The bits of a number; Emscripten's library lacks bit_cast.
inline std::uint32_t bitsOf(float value) {
  std::uint32_t bits = 0;
  std::memcpy(&bits, &value, sizeof bits);
  return bits;
}

std::string binaryStl(const Mesh& mesh, const std::string& head = "made for a test");
std::string textStl(const Mesh& mesh);
std::string objOf(const Mesh& mesh);

/// Turns every n-th triangle round.
Mesh withTurned(Mesh mesh, std::size_t every);
/// Each triangle with vertices of its own, as in an STL.
Mesh loose(const Mesh& mesh);

}  // namespace pondtrim::test
