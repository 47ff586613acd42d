#include "widgets/theme.hpp"

#include <algorithm>
#include <cstring>

#include "embedded.hpp"

namespace pondtrim::theme {
namespace {

// All that the fonts hold; see web/fetch-sources.
constexpr ImWchar kAllGlyphs[] = {
#include <glyph_ranges.inc>
    0};
constexpr ImWchar kNumberGlyphs[] = {
#include <bold_glyph_ranges.inc>
    0};

ImFont* addFont(const char* name, float size, const ImWchar* glyphs) {
  ImFontConfig config;
  config.FontDataOwnedByAtlas = false;
  config.OversampleH = 1;  // at phone densities a texel is a pixel
  for (const EmbeddedFile* f = kFonts; f->name != nullptr; ++f)
    if (std::strcmp(f->name, name) == 0)
      return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(f->data),
                                                        static_cast<int>(f->size), size, &config, glyphs);
  return nullptr;
}

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
  ImGui::GetIO().Fonts->Clear();
  Fonts fonts;
  fonts.text = addFont("DejaVuSans.ttf", kTextSize * text_scale * ratio, kAllGlyphs);
  fonts.bold = addFont("DejaVuSans-Bold.ttf", kTextSize * text_scale * ratio, kNumberGlyphs);
  fonts.number = addFont("DejaVuSans-Bold.ttf", kNumberSize * std::min(text_scale, kMostNumberScale) * ratio,
                         kNumberGlyphs);
  ImGui::GetIO().Fonts->Build();
  return fonts;
}

}  // namespace pondtrim::theme
