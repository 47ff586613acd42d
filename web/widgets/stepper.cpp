#include "widgets/stepper.hpp"

namespace pondtrim {
namespace {

constexpr float kHeight = 68, kKey = 74, kGap = 6;  // CSS px

void centred(ImFont* font, const std::string& text, float x, float y, Colour ink) {
  ImGui::PushFont(font);
  const ImVec2 size = ImGui::CalcTextSize(text.c_str());
  ImGui::GetWindowDrawList()->AddText({x - size.x / 2, y - size.y / 2}, ink, text.c_str());
  ImGui::PopFont();
}

}  // namespace

NumberRowAnswer::What stepper(Ui& ui, const Stepper& spec) {
  using What = NumberRowAnswer::What;
  What what = What::Nothing;
  const float width = ImGui::GetContentRegionAvail().x / ui.ratio - 2 * (kKey + kGap);
  ImGui::PushButtonRepeat(true);
  ImGui::PushFont(ui.fonts.number);
  if (button(ui, spec.name + ".down", spec.less, kKey, Look::Plain, kHeight)) what = What::Down;
  ImGui::PopFont();
  ImGui::PopButtonRepeat();
  ImGui::SameLine(0, ui.px(kGap));
  if (ImGui::InvisibleButton(spec.name.c_str(), {ui.px(width), ui.px(kHeight)}) || ui.takePress(spec.name))
    what = What::Type;
  focusRing(ui);
  ui.record(spec.name, "button", spec.label, spec.value);
  const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
  ImGui::GetWindowDrawList()->AddRectFilled(low, high, theme::kPlate, ui.px(10));
  const float x = (low.x + high.x) / 2;
  centred(ui.fonts.text, spec.label + (spec.value.empty() ? ": not read" : ""), x, low.y + ui.px(13),
          theme::kQuietInk);
  if (spec.value.empty()) {
    centred(ui.fonts.text, spec.beside, x, low.y + ui.px(43), theme::kInk);
  } else {
    centred(ui.fonts.number, spec.value, x, low.y + ui.px(34), theme::kInk);
    centred(ui.fonts.text, spec.beside, x, high.y - ui.px(11), theme::kQuietInk);
  }
  ImGui::SameLine(0, ui.px(kGap));
  ImGui::PushButtonRepeat(true);
  ImGui::PushFont(ui.fonts.number);
  if (button(ui, spec.name + ".up", spec.more, kKey, Look::Plain, kHeight)) what = What::Up;
  ImGui::PopFont();
  ImGui::PopButtonRepeat();
  return what;
}

}  // namespace pondtrim
