#include "widgets/ui.hpp"

#include <imgui_internal.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <iterator>

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
      return {theme::faded(theme::kPlate, 225), theme::kKeyDown, theme::kInk};
    case Look::Plain:
      break;
  }
  return {theme::kKey, theme::kKeyDown, theme::kInk};
}

float widthOf(std::string_view text) { return ImGui::CalcTextSize(text.data(), text.data() + text.size()).x; }

/// How much of a word without a space fits, at least one letter.
std::size_t fittingLetters(std::string_view word, float width) {
  std::size_t end = 0;
  for (std::size_t next = 1; next <= word.size(); ++next) {
    if (next < word.size() && (static_cast<unsigned char>(word[next]) & 0xc0) == 0x80)
      continue;  // inside UTF-8
    if (end > 0 && widthOf(word.substr(0, next)) > width) break;
    end = next;
  }
  return end;
}

float lineStep() { return std::ceil(1.18f * ImGui::GetFontSize()); }

/// Text centred in a rectangle, in as many lines as it needs.
void centredText(const std::string& text, ImVec2 low, ImVec2 high, Colour ink) {
  const auto lines = wrapLines(text, high.x - low.x);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const float step = ImGui::GetFontSize();
  float y = (low.y + high.y - step * static_cast<float>(lines.size())) / 2;
  for (const std::string_view line : lines) {
    draw->AddText({(low.x + high.x - widthOf(line)) / 2, y}, ImGui::GetColorU32(ink), line.data(),
                  line.data() + line.size());
    y += step;
  }
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

/// True of the space between a number and its unit, or after a plus-minus sign: there no line ends.
bool bindsUnit(std::string_view text, std::size_t space) {
  constexpr std::string_view kUnits[] = {
      "%",  "mm", "mL", "g",  "kg",  "m",  "L",  "V", "A",   "W",   "mA",  "Ah", "s",       "min",    "h",
      "in", "fl", "oz", "lb", "psi", "Pa", "Nm", "N", "bar", "kPa", "MPa", "ft", "\u00b0C", "\u00b0F"};
  constexpr std::string_view kPlusMinus = "\u00b1";
  const std::string_view before = text.substr(0, space), after = text.substr(space + 1);
  if (before.ends_with(kPlusMinus) || (before.ends_with("fl") && after.starts_with("oz"))) return true;
  if (space == 0 || text[space] != ' ' || text[space - 1] < '0' || text[space - 1] > '9') return false;
  return std::any_of(std::begin(kUnits), std::end(kUnits), [&](std::string_view unit) {
    if (after.substr(0, unit.size()) != unit) return false;
    return after.size() == unit.size() ||
           std::string_view(" .,;:)/\n").find(after[unit.size()]) != std::string_view::npos;
  });
}

/// Where the word that begins at `at` ends: at a space where a line may end, at a new line, at the end.
std::size_t endOfWord(std::string_view text, std::size_t at) {
  std::size_t stop = text.find_first_of(" \n", at);
  while (stop < text.size() && bindsUnit(text, stop)) stop = text.find_first_of(" \n", stop + 1);
  return std::min(stop, text.size());
}

}  // namespace

std::vector<std::string_view> wrapLines(std::string_view text, float width) {
  std::vector<std::string_view> lines;
  std::size_t start = 0, end = 0;  // of the line being filled
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t stop = endOfWord(text, at);
    if (stop > at && end > start && widthOf(text.substr(start, stop - start)) > width) {
      lines.push_back(text.substr(start, end - start));
      start = at;
    }
    end = stop;
    while (widthOf(text.substr(start, end - start)) > width && end - start > 1) {  // one word too wide
      const std::size_t fits = fittingLetters(text.substr(start, end - start), width);
      if (fits >= end - start) break;
      lines.push_back(text.substr(start, fits));
      start += fits;
    }
    if (stop < text.size() && text[stop] == '\n') {
      lines.push_back(text.substr(start, end - start));
      start = end = stop + 1;
    }
    at = stop + 1;
  }
  if (end > start) lines.push_back(text.substr(start, end - start));
  return lines;
}

float drawLines(ImDrawList* draw, const std::vector<std::string_view>& lines, ImVec2 at, Colour ink) {
  const float step = lineStep();
  float y = at.y;
  for (const std::string_view line : lines) {
    draw->AddText({at.x, y}, ImGui::GetColorU32(ink), line.data(), line.data() + line.size());
    y += step;
  }
  return step * static_cast<float>(lines.size());
}

std::string shortened(const std::string& text, float width) {
  if (widthOf(text) <= width) return text;
  const float room = width - widthOf("\u2026");
  std::string cut = text.substr(0, fittingLetters(text, room));
  while (!cut.empty() && cut.back() == ' ') cut.pop_back();
  return cut + "\u2026";
}

namespace {

/// Of a button as wide as its label, if a line has room for that [device px].
float labelWidth(const Ui& ui, const std::string& label) {
  const ImGuiWindow& window = *ImGui::GetCurrentWindow();
  const bool grows = window.Flags & ImGuiWindowFlags_AlwaysAutoResize;
  const float most = grows ? 1e6f : window.WorkRect.GetWidth();
  return std::clamp(widthOf(label) + 2 * ui.px(12), ui.px(theme::kTouch),
                    std::max(most, ui.px(theme::kTouch)));
}

/// The widest of what may not be broken [device px].
float widestWord(std::string_view text) {
  float widest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = endOfWord(text, at);
    widest = std::max(widest, widthOf(text.substr(at, end - at)));
    at = end + 1;
  }
  return widest;
}

}  // namespace

void besideIfRoom(const Ui& ui, float width_css, float gap_css) {
  ImGui::SameLine(0, ui.px(gap_css));
  if (ImGui::GetContentRegionAvail().x < ui.px(width_css) - 1) ImGui::NewLine();
}

namespace {

/// `width`, `height` in device px.
bool buttonOfSize(Ui& ui, const std::string& name, const std::string& label, float width, float height,
                  Look look) {
  const float inset = width < widthOf(label) + 2 * ui.px(12) ? ui.px(3) : 0;
  const float inside = std::max(width, ui.px(theme::kTouch)) - 2 * inset;
  // Rather smaller letters (the usual ones at least) than a word cut in two.
  const float shrunk = std::clamp(inside / std::max(widestWord(label), 1.0f), 1 / ui.text_scale, 1.0f);
  ImGui::SetWindowFontScale(shrunk);
  const float lines = static_cast<float>(wrapLines(label, inside).size());
  const ImVec2 size(std::max(width, ui.px(theme::kTouch)),
                    std::max(height, lines * ImGui::GetFontSize() + ui.px(6)));
  const bool tapped = ImGui::InvisibleButton(name.c_str(), size);
  const bool pressed = ui.takePress(name) || tapped;
  const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
  const LookColours colours = coloursOf(look);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(low, high, ImGui::GetColorU32(ImGui::IsItemActive() ? colours.down : colours.ground),
                      ui.px(10));
  if (look == Look::Quiet) draw->AddRect(low, high, theme::kTrack, ui.px(10), 0, ui.px(1));
  centredText(label, {low.x + inset, low.y}, {high.x - inset, high.y}, colours.ink);
  ImGui::SetWindowFontScale(1);
  focusRing(ui);
  ui.record(name, "button", label);
  ui.controls.back().chosen = look == Look::Accent;
  return pressed;
}

}  // namespace

bool button(Ui& ui, const std::string& name, const std::string& label, float width_css, Look look,
            float height_css) {
  const float width = width_css > 0 ? ui.px(width_css) : labelWidth(ui, label);
  return buttonOfSize(ui, name, label, width, ui.px(height_css), look);
}

bool buttonBeside(Ui& ui, const std::string& name, const std::string& label, Look look) {
  const float width = labelWidth(ui, label);
  besideIfRoom(ui, width / ui.ratio);
  return buttonOfSize(ui, name, label, width, ui.px(theme::kTouch), look);
}

int chooser(Ui& ui, const std::string& name, const std::vector<Choice>& choices, int chosen) {
  constexpr float kGap = 6;
  const float n = static_cast<float>(choices.size());
  const float room = ImGui::GetContentRegionAvail().x / ui.ratio, share = (room - (n - 1) * kGap) / n;
  const bool row = std::all_of(choices.begin(), choices.end(),
                               [&](const Choice& c) { return widestWord(c.label) <= ui.px(share - 6); });
  const float width = row ? share : room;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    if (i > 0 && row) ImGui::SameLine(0, ui.px(kGap));
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
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  const float height = drawLines(ImGui::GetWindowDrawList(), wrapLines(text, width), at, ink);
  ImGui::Dummy({width, height});
  ui.record({}, "words", text);
}

void heading(Ui& ui, const char* text) {
  ImGui::Dummy({0, ui.px(2)});
  ImGui::PushFont(ui.fonts.bold);
  const float width = ImGui::GetContentRegionAvail().x;
  const auto lines = wrapLines(text, width);
  if (lines.size() < 2)
    ImGui::TextUnformatted(text);
  else
    ImGui::Dummy(
        {width, drawLines(ImGui::GetWindowDrawList(), lines, ImGui::GetCursorScreenPos(), theme::kInk)});
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

namespace {

/// Chevron, chip and label of a row, a button if the row opens. As high as its lines need.
bool rowHead(Ui& ui, const NumberRow& row, float width) {
  const float indent = (row.opens ? ui.px(22) : 0) + (row.chip != 0 ? ui.px(21) : 0);
  const auto lines = wrapLines(row.label, width - indent);
  const float text = lineStep() * static_cast<float>(lines.size());
  const float height = std::max(ui.px(theme::kTouch), text);
  const ImVec2 start = ImGui::GetCursorScreenPos();
  const float middle = start.y + height / 2;
  bool opened = false;
  ImDrawList* draw = ImGui::GetWindowDrawList();
  if (!row.opens) ImGui::Dummy({width, height});
  if (row.opens) {
    const bool tapped = ImGui::InvisibleButton("label", {width, height});
    opened = ui.takePress(row.name + ".open") || tapped;
    focusRing(ui);
    ui.record(row.name + ".open", "button", row.label, row.open ? "open" : "closed");
    chevron({start.x + ui.px(9), middle}, ui.px(6), row.open);
  }
  if (row.chip != 0) {
    const ImVec2 at(start.x + (row.opens ? ui.px(22) : 0), middle - ui.px(7));
    draw->AddRectFilled(at, {at.x + ui.px(14), at.y + ui.px(14)}, row.chip, ui.px(3));
    draw->AddRect(at, {at.x + ui.px(14), at.y + ui.px(14)}, theme::kQuietInk, ui.px(3), 0, ui.px(1));
  }
  drawLines(draw, lines, {start.x + indent, middle - text / 2}, theme::kInk);
  return opened;
}

/// A sign that repeats while held; `spoken` is for those who do not see what it stands beside.
bool nudgeButton(Ui& ui, const std::string& name, const char* sign, const std::string& spoken) {
  ImGui::PushButtonRepeat(true);
  const bool pressed = button(ui, name, sign, theme::kTouch);
  ImGui::PopButtonRepeat();
  ui.speak(spoken);
  return pressed;
}

}  // namespace

NumberRowAnswer numberRow(Ui& ui, const NumberRow& row) {
  using What = NumberRowAnswer::What;
  NumberRowAnswer answer;
  ImGui::PushID(row.name.c_str());
  const float touch = ui.px(theme::kTouch), gap = ui.px(6);
  const float value_width = std::max(ui.px(112), widthOf(row.value) + ui.px(12));
  // With a slider the nudges stand at its ends, under the label; without one they stand beside the number.
  const bool beside = row.nudges && row.share == nullptr;
  const float taken = value_width + gap + (beside ? 2 * (touch + gap) : 0);
  const float room = ImGui::GetContentRegionAvail().x;
  if (ui.large()) {  // the label has a line of its own
    if (rowHead(ui, row, room)) answer.what = What::Open;
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + std::max(0.0f, room + gap - taken));
  }
  const float top = ImGui::GetCursorPosY();
  if (!ui.large() && rowHead(ui, row, room - taken)) answer.what = What::Open;
  const float height = ui.large() ? touch : ImGui::GetItemRectSize().y, down = top + (height - touch) / 2;
  if (!ui.large()) ImGui::SameLine(0, gap);
  ImGui::SetCursorPosY(down);
  if (beside) {
    if (nudgeButton(ui, row.name + ".down", "\u2212", row.label + ", less")) answer.what = What::Down;
    ImGui::SameLine(0, gap);
    ImGui::SetCursorPosY(down);
  }
  if (button(ui, row.name, row.value, value_width / ui.ratio, Look::Quiet)) answer.what = What::Type;
  ui.speak(row.label + ": " + row.value + ", type");
  if (beside) {
    ImGui::SameLine(0, gap);
    ImGui::SetCursorPosY(down);
    if (nudgeButton(ui, row.name + ".up", "+", row.label + ", more")) answer.what = What::Up;
  }
  if (row.share != nullptr) {
    ImGui::SetCursorPosY(top + height + ui.px(2));
    if (row.nudges) {
      if (nudgeButton(ui, row.name + ".down", "\u2212", row.label + ", less")) answer.what = What::Down;
      ImGui::SameLine(0, gap);
    }
    const float track = ImGui::GetContentRegionAvail().x - (row.nudges ? touch + gap : 0);
    double share = *row.share;
    if (slider(ui, row.name + ".slider", row.label, share, row.value, track / ui.ratio)) {
      answer.what = What::Slide;
      answer.share = share;
    }
    if (row.nudges) {
      ImGui::SameLine(0, gap);
      if (nudgeButton(ui, row.name + ".up", "+", row.label + ", more")) answer.what = What::Up;
    }
  } else {
    ImGui::SetCursorPosY(std::max(top + height, down + touch) + ImGui::GetStyle().ItemSpacing.y);
  }
  if (!row.fault.empty()) paragraph(ui, row.fault, theme::kWarning);
  ImGui::PopID();
  return answer;
}

}  // namespace pondtrim
