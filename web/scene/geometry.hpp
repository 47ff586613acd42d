#pragma once
// Triangles of the boat in the boat frame, made once per edit. No GL.
#include <cstdint>
#include <glm/vec3.hpp>
#include <pondtrim/boat.hpp>
#include <pondtrim/model.hpp>
#include <vector>

#include "session/session.hpp"

namespace pondtrim {

/// Red in the lowest byte, then green, blue, opacity.
using Colour = std::uint32_t;
constexpr Colour colour(unsigned rgb, unsigned opacity = 255) {
  return ((rgb >> 16) & 255u) | (rgb & 0xff00u) | ((rgb & 255u) << 16) | (opacity << 24);
}

struct Vertex {
  glm::vec3 position;  ///< [m]
  glm::vec3 normal;    ///< unit, outwards
  Colour colour;
};

/// Triangle lists (three vertices each).
struct BoatGeometry {
  std::vector<Vertex> parts;      ///< opaque: weights, foam, lead
  std::vector<Vertex> cylinders;  ///< glass: the sealed cylinders
  std::vector<Vertex> skins;      ///< glass: the outer hull
};

/// What a part is, in the picture's colours and words.
enum class Kind { Foam, Lead, Inside, Outside, Air };
[[nodiscard]] Kind kindOf(const Part& part);
[[nodiscard]] const char* kindWord(Kind kind);
[[nodiscard]] unsigned kindRgb(Kind kind);

[[nodiscard]] BoatGeometry makeGeometry(const Boat& boat, const Model& model,
                                        const std::optional<Selection>& selection);

}  // namespace pondtrim
