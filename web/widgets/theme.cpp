#include "widgets/theme.hpp"

#include <algorithm>

#include "widgets/letters.hpp"

namespace pondtrim::theme {
namespace {

// Unicode points that the screens use, each pair from and to: Latin, Latin-1 and Latin Extended-A (people's
// and boats' names), Greek letters and signs of the trade, dashes and quotes, arrows, marks.
constexpr ImWchar kAllGlyphs[] = {
    0x0020, 0x007E, 0x00A0, 0x017F, 0x0394, 0x0394, 0x03A3, 0x03A3, 0x03B1, 0x03B1, 0x03B2, 0x03B2, 0x03B8,
    0x03B8, 0x03C0, 0x03C0, 0x03C1, 0x03C1, 0x03C6, 0x03C6, 0x2013, 0x2013, 0x2014, 0x2014, 0x2018, 0x2018,
    0x2019, 0x2019, 0x201C, 0x201C, 0x201D, 0x201D, 0x2022, 0x2022, 0x2026, 0x2026, 0x2032, 0x2032, 0x2033,
    0x2033, 0x2044, 0x2044, 0x2070, 0x2070, 0x2074, 0x2074, 0x2153, 0x215E, 0x2190, 0x2195, 0x21BA, 0x21BA,
    0x21BB, 0x21BB, 0x2206, 0x2206, 0x2207, 0x2207, 0x2212, 0x2212, 0x221A, 0x221A, 0x221E, 0x221E, 0x2248,
    0x2248, 0x2260, 0x2260, 0x2264, 0x2264, 0x2265, 0x2265, 0x22A5, 0x22A5, 0x2295, 0x2295, 0x25A0, 0x25A0,
    0x25A1, 0x25A1, 0x25B2, 0x25B2, 0x25B3, 0x25B3, 0x25B6, 0x25B6, 0x25B7, 0x25B7, 0x25BC, 0x25BC, 0x25BD,
    0x25BD, 0x25C0, 0x25C0, 0x25CB, 0x25CB, 0x25CF, 0x25CF, 0x2605, 0x2605, 0x2610, 0x2612, 0x26A0, 0x26A0,
    0x2713, 0x2713, 0x2717, 0x2717, 0x2795, 0x2795, 0x2796, 0x2796, 0x2B06, 0x2B06, 0x2B07, 0x2B07, 0};
// For numbers and short headings.
constexpr ImWchar kNumberGlyphs[] = {0x0020, 0x007E, 0x00A0, 0x00D7, 0x2013, 0x2013,
                                     0x2212, 0x2212, 0x25B2, 0x25BC, 0};

ImVec4 rgba(Colour c) { return ImGui::ColorConvertU32ToFloat4(c); }

void setColours(ImGuiStyle& style) {
  ImGui::StyleColorsLight(&style);
  ImVec4* c = style.Colors;
  c[ImGuiCol_Text] = rgba(kInk);
  c[ImGuiCol_TextDisabled] = rgba(kQuietInk);
  c[ImGuiCol_WindowBg] = c[ImGuiCol_ChildBg] = rgba(kPaper);
  c[ImGuiCol_FrameBg] = c[ImGuiCol_FrameBgHovered] = c[ImGuiCol_FrameBgActive] = rgba(kPlate);
  c[ImGuiCol_Button] = c[ImGuiCol_ButtonHovered] = rgba(kKey);
  c[ImGuiCol_ButtonActive] = rgba(kKeyDown);
  c[ImGuiCol_Border] = rgba(kTrack);
  c[ImGuiCol_Separator] = rgba(kTrack);
  c[ImGuiCol_ScrollbarBg] = ImVec4(0, 0, 0, 0);
  c[ImGuiCol_ScrollbarGrab] = rgba(kTrack);
  c[ImGuiCol_NavHighlight] = rgba(kAccent);
}

}  // namespace

Fonts apply(float ratio, float text_scale) {
  ImGuiStyle style;
  setColours(style);
  style.WindowPadding = ImVec2(14, 10);
  style.FramePadding = ImVec2(12, 12);
  style.ItemSpacing = ImVec2(8, 8);
  style.ScrollbarSize = 6;
  style.FrameRounding = style.ChildRounding = style.ScrollbarRounding = 10;
  style.WindowRounding = 0;
  style.WindowBorderSize = style.ChildBorderSize = 0;
  style.ScaleAllSizes(ratio);
  ImGui::GetStyle() = style;
  const float text = kTextSize * text_scale * ratio;
  const float number = kNumberSize * std::min(text_scale, kMostNumberScale) * ratio;
  LetterAtlas letters;
  Fonts fonts;
  fonts.text = letters.add(text, LetterAtlas::Weight::Normal, kAllGlyphs);
  fonts.bold = letters.add(text, LetterAtlas::Weight::Bold, kNumberGlyphs);
  fonts.number = letters.add(number, LetterAtlas::Weight::Bold, kNumberGlyphs);
  letters.draw();
  return fonts;
}

}  // namespace pondtrim::theme
