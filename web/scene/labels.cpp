#include "scene/labels.hpp"

#include <algorithm>

namespace pondtrim {
namespace {

bool overlap(const Label& a, const Label& b, float gap) {
  return a.corner.x < b.corner.x + b.size.x + gap && b.corner.x < a.corner.x + a.size.x + gap &&
         a.corner.y < b.corner.y + b.size.y + gap && b.corner.y < a.corner.y + a.size.y + gap;
}

bool tryPlace(Label& label, const std::vector<Label>& placed, glm::vec2 picture, float gap, bool above) {
  const float step = 0.5f * label.size.y;
  const float lead = 2.5f * gap;
  for (int i = 0; i < 40; ++i) {
    const float away = lead + step * static_cast<float>(i);
    label.corner.y = above ? label.anchor.y - away - label.size.y : label.anchor.y + away;
    if (label.corner.y < gap || label.corner.y + label.size.y > picture.y - gap) return false;
    if (std::none_of(placed.begin(), placed.end(), [&](const Label& p) { return overlap(label, p, gap); }))
      return true;
  }
  return false;
}

}  // namespace

std::vector<Label> placeLabels(std::vector<Label> labels, glm::vec2 picture, float gap,
                               const MeasureText& measure) {
  std::vector<Label> placed;
  for (Label& label : labels) {
    label.size = measure(label.text) + glm::vec2(3 * gap, gap);
    if (label.anchor.x < 0 || label.anchor.x > picture.x) continue;
    const float widest = std::max(gap, picture.x - gap - label.size.x);
    label.corner.x = std::clamp(label.anchor.x - label.size.x / 2, gap, widest);
    if (tryPlace(label, placed, picture, gap, label.above) ||
        tryPlace(label, placed, picture, gap, !label.above))
      placed.push_back(label);
  }
  return placed;
}

}  // namespace pondtrim
