#pragma once
// Words in the picture, placed so that none covers another.
#include <functional>
#include <glm/vec2.hpp>
#include <string>
#include <vector>

#include "scene/geometry.hpp"

namespace pondtrim {

struct Label {
  std::string text;
  glm::vec2 anchor{0.0f};  ///< what it speaks of, device px
  bool above = true;       ///< wanted side of the anchor
  Colour colour = 0;       ///< of its mark
  glm::vec2 corner{0.0f};  ///< top left of its plate, set by placeLabels
  glm::vec2 size{0.0f};    ///< of its plate, set by placeLabels
};

/// A part of the picture that labels keep clear of [device px].
struct Obstacle {
  glm::vec2 low{0.0f}, high{0.0f};
};

/// Width and height of a text [device px].
using MeasureText = std::function<glm::vec2(const std::string&)>;

/// Sets corner and size of each label: next to its anchor, pushed away from the middle until it covers no
/// other label, inside the picture. A label that finds no room is dropped; earlier ones have the first
/// choice.
[[nodiscard]] std::vector<Label> placeLabels(std::vector<Label> labels, glm::vec2 picture, float gap,
                                             const std::vector<Obstacle>& obstacles,
                                             const MeasureText& measure);

}  // namespace pondtrim
