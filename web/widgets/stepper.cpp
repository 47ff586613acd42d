#include "widgets/stepper.hpp"

#include <algorithm>

namespace pondtrim {
namespace {

constexpr float kHeight = 68, kKey = 74, kGap = 6, kMargin = 6;  // CSS px

/// The largest of the fonts in which the text fits.
ImFont* fitting(const Ui& ui, const std::string& text, float width) {
  ImGui::PushFont(ui.fonts.number);
  const bool fits = ImGui::CalcTextSize(text.c_str()).x <= width;
  ImGui::PopFont();
  return fits ? ui.fonts.number : ui.fonts.bold;
}

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
  const float room = ImGui::GetContentRegionAvail().x / ui.ratio;
  const float key = std::clamp(0.2f * room, theme::kTouch, kKey), width = room - 2 * (key + kGap);
  const std::vector<std::string_view> beside = wrapLines(spec.beside, ui.px(width - 2 * kMargin));
  const float extra_lines = beside.empty() ? 0.0f : static_cast<float>(beside.size() - 1);
  const float height = kHeight * ui.text_scale + extra_lines * 1.18f * ImGui::GetFontSize() / ui.ratio;
  const auto stepKey = [&](const char* end, const std::string& sign) {
    ImGui::PushButtonRepeat(true);
    ImGui::PushFont(ui.fonts.number);
    const bool pressed = button(ui, spec.name + end, sign, key, Look::Plain, height);
    ImGui::PopFont();
    ImGui::PopButtonRepeat();
    return pressed;
  };
  if (stepKey(".down", spec.less)) what = What::Down;
  ImGui::SameLine(0, ui.px(kGap));
  if (ImGui::InvisibleButton(spec.name.c_str(), {ui.px(width), ui.px(height)}) || ui.takePress(spec.name))
    what = What::Type;
  focusRing(ui);
  ui.record(spec.name, "button", spec.label, spec.value);
  const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
  ImGui::GetWindowDrawList()->AddRectFilled(low, high, theme::kPlate, ui.px(10));
  const float x = (low.x + high.x) / 2;
  const bool read = !spec.value.empty();
  const std::string unread = spec.label + ": not read";
  const bool room_to_say = ImGui::CalcTextSize(unread.c_str()).x <= ui.px(width);
  centred(ui.fonts.text, !read && room_to_say ? unread : spec.label, x, low.y + ui.letters(13),
          theme::kQuietInk);
  if (read)
    centred(fitting(ui, spec.value, ui.px(width - 2 * kMargin)), spec.value, x, low.y + ui.letters(34),
            theme::kInk);
  float y = low.y + ui.letters(read ? 57.0f : 43.0f);
  for (const std::string_view line : beside) {
    centred(ui.fonts.text, std::string(line), x, y, read ? theme::kQuietInk : theme::kInk);
    y += 1.18f * ImGui::GetFontSize();
  }
  ImGui::SameLine(0, ui.px(kGap));
  if (stepKey(".up", spec.more)) what = What::Up;
  return what;
}

}  // namespace pondtrim
