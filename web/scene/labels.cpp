#include "scene/labels.hpp"

#include <algorithm>

namespace pondtrim {
namespace {

bool overlap(const Label& label, const Obstacle& o, float gap) {
  return label.corner.x < o.high.x + gap && o.low.x < label.corner.x + label.size.x + gap &&
         label.corner.y < o.high.y + gap && o.low.y < label.corner.y + label.size.y + gap;
}

bool tryPlace(Label& label, const std::vector<Obstacle>& taken, glm::vec2 picture, float gap, bool above) {
  const float step = 0.25f * label.size.y;
  const float lead = 3.5f * gap;
  for (int i = 0; i < 80; ++i) {
    const float away = lead + step * static_cast<float>(i);
    label.corner.y = above ? label.anchor.y - away - label.size.y : label.anchor.y + away;
    if (label.corner.y < gap || label.corner.y + label.size.y > picture.y - gap) return false;
    if (std::none_of(taken.begin(), taken.end(), [&](const Obstacle& o) { return overlap(label, o, gap); }))
      return true;
  }
  return false;
}

}  // namespace

std::vector<Label> placeLabels(std::vector<Label> labels, glm::vec2 picture, float gap,
                               const std::vector<Obstacle>& obstacles, const MeasureText& measure) {
  std::vector<Label> placed;
  std::vector<Obstacle> taken = obstacles;
  for (Label& label : labels) {
    label.size = measure(label.text) + glm::vec2(3 * gap, gap);
    if (label.anchor.x < 0 || label.anchor.x > picture.x) continue;
    const float widest = std::max(gap, picture.x - gap - label.size.x);
    label.corner.x = std::clamp(label.anchor.x - label.size.x / 2, gap, widest);
    if (!tryPlace(label, taken, picture, gap, label.above) &&
        !tryPlace(label, taken, picture, gap, !label.above))
      continue;
    placed.push_back(label);
    taken.push_back({label.corner, label.corner + label.size});
  }
  return placed;
}

}  // namespace pondtrim
