#include "panels/work_card.hpp"

#include <algorithm>

namespace pondtrim {
namespace {
constexpr float kDisc = 15;  // radius [CSS px]
}

bool workCard(Ui& ui, const WorkCard& card) {
  const float width = ImGui::GetContentRegionAvail().x, pad = ui.px(10), left = ui.px(2 * kDisc + 20);
  const float text_width = width - left - pad;
  const float tall = ImGui::CalcTextSize(card.words.c_str(), nullptr, false, text_width).y;
  const float height = std::max(tall, ui.px(theme::kTouch - 14)) + 2 * pad;
  const ImVec2 low = ImGui::GetCursorScreenPos();
  const bool tapped = ImGui::InvisibleButton(card.name.c_str(), {width, height}) || ui.takePress(card.name);
  focusRing(ui);
  ui.record(card.name, "button", card.words, card.done ? "done" : "");
  const ImVec2 high(low.x + width, low.y + height);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(low, high, theme::kPlate, ui.px(10));
  if (card.chosen) draw->AddRect(low, high, theme::kAccent, ui.px(10), 0, ui.px(2.5f));
  const ImVec2 disc(low.x + pad + ui.px(kDisc), (low.y + high.y) / 2);
  if (card.done) {
    draw->AddCircleFilled(disc, ui.px(kDisc), theme::kAccent);
    const ImVec2 tick[] = {{disc.x - ui.px(6), disc.y},
                           {disc.x - ui.px(1.5f), disc.y + ui.px(5)},
                           {disc.x + ui.px(7), disc.y - ui.px(6)}};
    draw->AddPolyline(tick, 3, theme::kPlate, 0, ui.px(3));
  } else {
    draw->AddCircle(disc, ui.px(kDisc), theme::kAccent, 0, ui.px(2));
    const ImVec2 size = ImGui::CalcTextSize(card.sign.c_str());
    draw->AddText({disc.x - size.x / 2, disc.y - size.y / 2}, theme::kAccent, card.sign.c_str());
  }
  draw->AddText(ImGui::GetFont(), ImGui::GetFontSize(), {low.x + left, (low.y + high.y - tall) / 2},
                theme::kInk, card.words.c_str(), nullptr, text_width);
  return tapped;
}

void cuttingCaution(Ui& ui) {
  const char* words =
      "Caution. Lead: wear gloves, wash your hands, no melting or sanding indoors. Cut away from you; no "
      "dust "
      "of foam or glue fumes in closed rooms. These are estimates: add or take a little at a time and try "
      "her "
      "in shallow water. Makers' advice and local rules come first.";
  paragraph(ui, words, theme::kQuietInk);
  ui.record("caution.cutting", "status", words);
}

}  // namespace pondtrim
