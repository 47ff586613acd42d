// The line of the reading in hand, over the picture.
#include <cmath>

#include "panels/screen.hpp"
#include "session/dips.hpp"

namespace pondtrim {
namespace {

/// A waterline on the middle plane: height over the keel at a station, and its rise towards the bow.
struct ReadLine {
  double x = 0, z = 0, slope = 0;
};

double expectedTrim(const Session& session, const Reading& r) {
  const double capacity = session.model().tank_capacity;
  const auto expected = evaluate(session.model(), {r.water, fillOf(r, capacity) * capacity});
  return expected ? expected->rest.attitude.trim : 0.0;
}

std::optional<ReadLine> lineOf(const Session& session, const Reading& r) {
  const Marks& marks = session.boat().marks;
  if (r.bow && r.stern)
    return ReadLine{marks.stern_x, marks.line_height - r.stern->value,
                    (r.stern->value - r.bow->value) / (marks.bow_x - marks.stern_x)};
  if (!r.sail_showing) return std::nullopt;
  const double trim = r.trim ? r.trim->value : expectedTrim(session, r);
  return ReadLine{marks.sail_top.x, marks.sail_top.z - r.sail_showing->value, -std::tan(trim)};
}

void drawDashes(const Ui& ui, ImDrawList* draw, ImVec2 from, ImVec2 to) {
  constexpr int kDashes = 28;
  for (int k = 0; k < kDashes; ++k) {
    const float a = static_cast<float>(k) / kDashes, b = a + 0.6f / kDashes;
    draw->AddLine({from.x + a * (to.x - from.x), from.y + a * (to.y - from.y)},
                  {from.x + b * (to.x - from.x), from.y + b * (to.y - from.y)}, theme::kWarning, ui.px(3));
  }
}

}  // namespace

bool drawReadLine(const Session& session, const Screen& screen) {
  const auto& open = screen.pond.open;
  if (screen.section != Section::Pond || !open || *open >= session.boat().log.size()) return false;
  if (screen.camera.view == Camera::View::End) return false;
  const auto line = lineOf(session, session.boat().log[*open]);
  if (!line) return false;
  const Ui& ui = screen.ui;
  const Rect& rect = screen.layout.picture;
  const auto at = [&](double x) {
    const glm::vec2 p = screen.scene.projection.boatToPicture({x, 0, line->z + line->slope * (x - line->x)});
    return ImVec2(p.x + ui.px(rect.left), p.y + ui.px(rect.top));
  };
  const double length = session.boat().length;
  drawDashes(ui, ImGui::GetBackgroundDrawList(), at(-0.04 * length), at(1.04 * length));
  return true;
}

}  // namespace pondtrim
