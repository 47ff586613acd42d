#include "widgets/ui.hpp"

#include <imgui_internal.h>

#include <algorithm>
#include <cstdlib>

namespace pondtrim {
namespace {

struct LookColours {
  Colour ground, down, ink;
};

LookColours coloursOf(Look look) {
  switch (look) {
    case Look::Accent:
    case Look::Primary:
      return {theme::kAccent, theme::kAccentDown, theme::kPlate};
    case Look::Quiet:
      return {colour(0xffffff, 225), theme::kKeyDown, theme::kInk};
    case Look::Plain:
      break;
  }
  return {theme::kKey, theme::kKeyDown, theme::kInk};
}

/// Text centred in a rectangle, in as many lines as it needs.
void centredText(const std::string& text, ImVec2 low, ImVec2 high, Colour ink) {
  ImFont* font = ImGui::GetFont();
  const float size = ImGui::GetFontSize(), width = high.x - low.x;
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImVec2 whole = ImGui::CalcTextSize(text.c_str());
  if (whole.x <= width) {
    draw->AddText({(low.x + high.x - whole.x) / 2, (low.y + high.y - whole.y) / 2}, ImGui::GetColorU32(ink),
                  text.c_str());
    return;
  }
  const char* end = text.c_str() + text.size();
  std::vector<std::pair<const char*, const char*>> lines;
  for (const char* at = text.c_str(); at < end;) {
    const char* stop = font->CalcWordWrapPositionA(size / font->FontSize, at, end, width);
    if (stop == at) stop = end;
    lines.emplace_back(at, stop);
    for (at = stop; at < end && *at == ' ';) ++at;
  }
  float y = (low.y + high.y - size * static_cast<float>(lines.size())) / 2;
  for (const auto& [from, to] : lines) {
    const float w = ImGui::CalcTextSize(from, to).x;
    draw->AddText({(low.x + high.x - w) / 2, y}, ink, from, to);
    y += size;
  }
}

/// Text from the left, in at most two lines, middle at the rectangle's middle.
void labelText(const std::string& text, ImVec2 low, ImVec2 high) {
  const ImVec2 size = ImGui::CalcTextSize(text.c_str(), nullptr, false, high.x - low.x);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImVec4 clip(low.x, low.y, high.x, high.y);
  draw->AddText(ImGui::GetFont(), ImGui::GetFontSize(),
                {low.x, std::max(low.y, (low.y + high.y - size.y) / 2)}, theme::kInk, text.c_str(), nullptr,
                high.x - low.x, &clip);
}

/// A chevron: points right when closed, down when open.
void chevron(ImVec2 centre, float r, bool open) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImVec2 closed[] = {
      {centre.x - r / 2, centre.y - r}, {centre.x + r / 2, centre.y}, {centre.x - r / 2, centre.y + r}};
  const ImVec2 opened[] = {
      {centre.x - r, centre.y - r / 2}, {centre.x, centre.y + r / 2}, {centre.x + r, centre.y - r / 2}};
  draw->AddPolyline(open ? opened : closed, 3, theme::kQuietInk, 0, r / 2.5f);
}

}  // namespace

bool button(Ui& ui, const std::string& name, const std::string& label, float width_css, Look look,
            float height_css) {
  const float pad = ui.px(12);
  const float width = width_css > 0 ? ui.px(width_css) : ImGui::CalcTextSize(label.c_str()).x + 2 * pad;
  const ImVec2 size(std::max(width, ui.px(theme::kTouch)), ui.px(height_css));
  const bool tapped = ImGui::InvisibleButton(name.c_str(), size);
  const bool pressed = ui.takePress(name) || tapped;
  const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
  const LookColours colours = coloursOf(look);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(low, high, ImGui::GetColorU32(ImGui::IsItemActive() ? colours.down : colours.ground),
                      ui.px(10));
  if (look == Look::Quiet) draw->AddRect(low, high, theme::kTrack, ui.px(10), 0, ui.px(1));
  const float inset = width_css > 0 ? ui.px(3) : 0;
  centredText(label, {low.x + inset, low.y}, {high.x - inset, high.y}, colours.ink);
  focusRing(ui);
  ui.record(name, "button", label);
  ui.controls.back().chosen = look == Look::Accent;
  return pressed;
}

int chooser(Ui& ui, const std::string& name, const std::vector<Choice>& choices, int chosen) {
  constexpr float kGap = 6;
  const float n = static_cast<float>(choices.size());
  const float width = (ImGui::GetContentRegionAvail().x / ui.ratio - (n - 1) * kGap) / n;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    if (i > 0) ImGui::SameLine(0, ui.px(kGap));
    const bool here = static_cast<int>(i) == chosen;
    if (button(ui, name + "." + choices[i].id, choices[i].label, width, here ? Look::Accent : Look::Quiet))
      chosen = static_cast<int>(i);
  }
  return chosen;
}

bool slider(Ui& ui, const std::string& name, const std::string& label, double& share,
            const std::string& value, float width_css, float lower_css) {
  const float width = width_css > 0 ? ui.px(width_css) : ImGui::GetContentRegionAvail().x;
  const float height = ui.px(theme::kTouch), r = ui.px(14);
  ImGui::InvisibleButton(name.c_str(), {width, height});
  const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
  const float from = low.x + r, to = high.x - r, middle = (low.y + high.y) / 2 + ui.px(lower_css);
  bool changed = false;
  if (ImGui::IsItemActive()) {
    const double wanted =
        std::clamp(static_cast<double>((ImGui::GetIO().MousePos.x - from) / (to - from)), 0.0, 1.0);
    changed = wanted != share;
    share = wanted;
  }
  if (const auto set = ui.takeSet(name)) {
    const double wanted = std::clamp(std::strtod(set->c_str(), nullptr), 0.0, 1.0);
    changed = wanted != share;
    share = wanted;
  }
  const float x = from + (to - from) * static_cast<float>(std::clamp(share, 0.0, 1.0));
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const float half = ui.px(5);
  draw->AddRectFilled({from - half, middle - half}, {to + half, middle + half}, theme::kTrack, half);
  draw->AddRectFilled({from - half, middle - half}, {x, middle + half}, theme::kAccent, half);
  draw->AddCircleFilled({x, middle}, r, theme::kAccent);
  draw->AddCircleFilled({x, middle}, r - ui.px(ImGui::IsItemActive() ? 6 : 4), theme::kPlate);
  focusRing(ui);
  ui.record(name, "slider", label, value);
  ui.controls.back().share = std::clamp(share, 0.0, 1.0);
  return changed;
}

void paragraph(Ui& ui, const std::string& text, Colour ink) {
  ImGui::PushStyleColor(ImGuiCol_Text, ink);
  ImGui::PushTextWrapPos(0);
  ImGui::TextUnformatted(text.c_str());
  ImGui::PopTextWrapPos();
  ImGui::PopStyleColor();
  ui.record({}, "words", text);
}

void heading(Ui& ui, const char* text) {
  ImGui::Dummy({0, ui.px(2)});
  ImGui::PushFont(ui.fonts.bold);
  ImGui::TextUnformatted(text);
  ImGui::PopFont();
  ui.record({}, "heading", text);
}

bool textField(Ui& ui, const std::string& name, const char* label, std::string& text) {
  char buffer[256];
  const auto set = ui.takeSet(name);
  const std::string& shown = set ? *set : ui.draft_name == name ? ui.draft : text;
  const std::size_t n = std::min(shown.size(), sizeof buffer - 1);
  std::copy_n(shown.data(), n, buffer);
  buffer[n] = '\0';
  ImGui::TextUnformatted(label);
  ImGui::SetNextItemWidth(-1);
  ImGui::PushStyleVar(ImGuiStyleVar_FrameBorderSize, ui.px(1));
  ImGui::InputText(("##" + name).c_str(), buffer, sizeof buffer);
  ImGui::PopStyleVar();
  ui.record(name, "text", label, buffer);
  const bool done = (ImGui::IsItemDeactivatedAfterEdit() || set) && text != buffer;
  if (ImGui::IsItemActive() || done) text = buffer;
  return done;
}

NumberRowAnswer numberRow(Ui& ui, const NumberRow& row) {
  NumberRowAnswer answer;
  ImGui::PushID(row.name.c_str());
  const float touch = ui.px(theme::kTouch), gap = ui.px(6);
  const float value_width = ui.px(112);
  const float side = row.nudges ? touch + gap : 0;
  const float label_width = ImGui::GetContentRegionAvail().x - value_width - 2 * side - gap;

  const ImVec2 start = ImGui::GetCursorScreenPos();
  if (!row.opens) ImGui::Dummy({label_width, touch});
  if (row.opens) {
    const bool tapped = ImGui::InvisibleButton("label", {label_width, touch});
    const bool opened = ui.takePress(row.name + ".open") || tapped;
    focusRing(ui);
    ui.record(row.name + ".open", "button", row.label, row.open ? "open" : "closed");
    chevron({start.x + ui.px(9), start.y + touch / 2}, ui.px(6), row.open);
    if (opened) answer.what = NumberRowAnswer::What::Open;
  }
  float indent = row.opens ? ui.px(22) : 0;
  if (row.chip != 0) {
    const ImVec2 at(start.x + indent, start.y + touch / 2);
    ImGui::GetWindowDrawList()->AddRectFilled({at.x, at.y - ui.px(7)}, {at.x + ui.px(14), at.y + ui.px(7)},
                                              row.chip, ui.px(3));
    ImGui::GetWindowDrawList()->AddRect({at.x, at.y - ui.px(7)}, {at.x + ui.px(14), at.y + ui.px(7)},
                                        theme::kQuietInk, ui.px(3), 0, ui.px(1));
    indent += ui.px(21);
  }
  labelText(row.label, {start.x + indent, start.y}, {start.x + label_width, start.y + touch});

  ImGui::SameLine(0, gap);
  ImGui::PushButtonRepeat(true);
  if (row.nudges) {
    if (button(ui, row.name + ".down", "\u2212", theme::kTouch)) answer.what = NumberRowAnswer::What::Down;
    ui.speak(row.label + ", less");
    ImGui::SameLine(0, gap);
  }
  ImGui::PopButtonRepeat();
  if (button(ui, row.name, row.value, value_width / ui.ratio, Look::Quiet))
    answer.what = NumberRowAnswer::What::Type;
  ui.speak(row.label + ": " + row.value + ", type");
  if (row.nudges) {
    ImGui::SameLine(0, gap);
    ImGui::PushButtonRepeat(true);
    if (button(ui, row.name + ".up", "+", theme::kTouch)) answer.what = NumberRowAnswer::What::Up;
    ui.speak(row.label + ", more");
    ImGui::PopButtonRepeat();
  }
  if (row.share != nullptr) {
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() - ui.px(6));  // the track's own air is enough
    double share = *row.share;
    if (slider(ui, row.name + ".slider", row.label, share, row.value)) {
      answer.what = NumberRowAnswer::What::Slide;
      answer.share = share;
    }
  }
  if (!row.fault.empty()) paragraph(ui, row.fault, theme::kWarning);
  ImGui::PopID();
  return answer;
}

}  // namespace pondtrim
