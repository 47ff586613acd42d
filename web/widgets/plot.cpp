#include "widgets/plot.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace pondtrim {
namespace {

constexpr float kLeastTick = 64;    // CSS px between ticks along
constexpr float kLeastTickUp = 34;  // and up

Colour inkOf(Stroke stroke) {
  const Colour inks[] = {theme::kAccent, theme::kWarning, theme::kInk, theme::kQuietInk};
  return inks[static_cast<int>(stroke)];
}

/// Lengths of ink and gap in turn [CSS px].
struct Dashes {
  float ink[4];
  int count;
};
Dashes dashesOf(Stroke stroke) {
  switch (stroke) {
    case Stroke::Dashed:
      return {{9, 5, 0, 0}, 2};
    case Stroke::Dotted:
      return {{2.5f, 4.5f, 0, 0}, 2};
    case Stroke::DashDot:
      return {{10, 4, 2.5f, 4}, 4};
    case Stroke::Solid:
      break;
  }
  return {{1, 0, 0, 0}, 0};
}

/// Draws a run of points; the dashes go on round its corners.
class Pen {
 public:
  Pen(const Ui& ui, Stroke stroke, bool ghost = false)
      : draw_(ImGui::GetWindowDrawList()),
        dashes_(dashesOf(stroke)),
        ink_(ghost ? theme::faded(theme::kInk, 170) : inkOf(stroke)),
        width_((ghost ? 1.8f : 2.6f) * ui.ratio),
        ratio_(ui.ratio) {}

  void lift() { down_ = false; }
  void to(ImVec2 at) {
    if (down_ && dashes_.count == 0) draw_->AddLine(last_, at, ink_, width());
    if (down_ && dashes_.count > 0) dashTo(at);
    last_ = at;
    down_ = true;
  }

 private:
  [[nodiscard]] float width() const { return width_; }
  void dashTo(ImVec2 at) {
    const float dx = at.x - last_.x, dy = at.y - last_.y, length = std::sqrt(dx * dx + dy * dy);
    for (float done = 0; done < length;) {
      const float left = dashes_.ink[piece_] * ratio_ - used_;
      const float step = std::min(left, length - done);
      if (piece_ % 2 == 0) {
        const float a = done / length, b = (done + step) / length;
        draw_->AddLine({last_.x + a * dx, last_.y + a * dy}, {last_.x + b * dx, last_.y + b * dy}, ink_,
                       width());
      }
      done += step;
      used_ += step;
      if (step >= left) {
        used_ = 0;
        piece_ = (piece_ + 1) % dashes_.count;
      }
    }
  }

  ImDrawList* draw_;
  Dashes dashes_;
  Colour ink_;
  float width_;
  float ratio_;
  ImVec2 last_{0, 0};
  bool down_ = false;
  int piece_ = 0;
  float used_ = 0;
};

/// From SI to the panel: axes in the person's unit, pixels.
struct Frame {
  ImVec2 low, high;  ///< corners of the paper, top left and bottom right
  Scale x, y;
  file::Unit x_unit, y_unit;

  [[nodiscard]] float across(double x_si) const { return at(file::fromSi(x_si, x_unit), x, low.x, high.x); }
  [[nodiscard]] float up(double y_si) const { return at(file::fromSi(y_si, y_unit), y, high.y, low.y); }
  [[nodiscard]] static float at(double value, const Scale& scale, float from, float to) {
    const double share = (value - scale.low) / (scale.high - scale.low);
    return from + static_cast<float>(share) * (to - from);
  }
  [[nodiscard]] double xAt(float pixel) const {
    const double share = std::clamp(static_cast<double>((pixel - low.x) / (high.x - low.x)), 0.0, 1.0);
    return file::toSi(x.low + share * (x.high - x.low), x_unit);
  }
};

std::string tickText(double value, int decimals) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  std::string out(text);
  if (out[0] == '-' && out.find_first_of("123456789") == std::string::npos) out.erase(0, 1);
  if (out[0] == '-') out.replace(0, 1, "\u2212");
  return out;
}

struct Span {
  double low, high;
  void take(double v) {
    if (!std::isfinite(v)) return;
    low = std::min(low, v);
    high = std::max(high, v);
  }
};

Span xSpan(const PlotSpec& spec) {
  Span span{spec.x.low, spec.x.high};
  for (const PlotLine& line : spec.lines)
    for (const PlotPoint& p : line.points) span.take(p.x);
  return span;
}

Span ySpan(const PlotSpec& spec) {
  Span span{spec.y.low, spec.y.high};
  if (span.low == span.high) span = {HUGE_VAL, -HUGE_VAL};
  for (const PlotLine& line : spec.lines)
    for (const PlotPoint& p : line.points) span.take(p.y);
  for (const PlotLevel& level : spec.levels) span.take(level.at);
  return span.low <= span.high ? span : Span{0, 1};
}

float widestTick(const Scale& scale) {
  float widest = 0;
  for (double v = scale.low; v <= scale.high + scale.step / 2; v += scale.step)
    widest = std::max(widest, ImGui::CalcTextSize(tickText(v, scale.decimals).c_str()).x);
  return widest;
}

/// Title in bold, then the unit, which the bold font may lack.
void drawTitle(Ui& ui, const PlotSpec& spec, const file::Unit& unit, const std::string& at) {
  ImGui::PushFont(ui.fonts.bold);
  ImGui::TextUnformatted(spec.title.c_str());
  ImGui::PopFont();
  if (*unit.symbol != '\0') {
    besideIfRoom(ui, ImGui::CalcTextSize(unit.symbol).x / ui.ratio, 6);
    ImGui::TextUnformatted(unit.symbol);
  }
  const float width = ImGui::CalcTextSize(at.c_str()).x;
  ImGui::SameLine();
  const float left = ImGui::GetContentRegionAvail().x - width;
  if (left < 0) ImGui::NewLine();
  ImGui::SetCursorPosX(ImGui::GetCursorPosX() + std::max(0.0f, ImGui::GetContentRegionAvail().x - width));
  ImGui::TextUnformatted(at.c_str());
}

/// A sample of each line, its name and its value at the cursor; as many in a row as fit.
std::string drawLegend(Ui& ui, const UnitSet& units, const PlotSpec& spec) {
  const float sample = ui.px(30), gap = ui.px(6), right = ImGui::GetContentRegionAvail().x;
  std::string spoken;
  float used = 0;
  bool ghost_named = false;
  for (const PlotLine& line : spec.lines) {
    if (line.ghost && ghost_named) continue;
    ghost_named = ghost_named || line.ghost;
    const auto value = valueAt(line.points, spec.cursor);
    const std::string text =
        line.ghost
            ? line.label
            : line.label + " " + (value ? valueText(*value, spec.y.quantity, units) : std::string("\u2013"));
    spoken += (spoken.empty() ? "" : " | ") + text;
    const float width = sample + gap + ImGui::CalcTextSize(text.c_str()).x;
    if (used > 0 && used + ui.px(14) + width <= right) {
      ImGui::SameLine(0, ui.px(14));
      used += ui.px(14) + width;
    } else {
      used = width;
    }
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float middle = at.y + ImGui::GetFontSize() / 2;
    Pen pen(ui, line.stroke, line.ghost);
    pen.to({at.x, middle});
    pen.to({at.x + sample, middle});
    ImGui::Dummy({sample, ImGui::GetFontSize()});
    ImGui::SameLine(0, gap);
    ImGui::TextUnformatted(text.c_str());
  }
  return spoken;
}

void drawPaper(const Ui& ui, const Frame& f) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(f.low, f.high, theme::kPlate);
  const float line = ImGui::GetFontSize(), hair = ui.px(1);
  for (double v = f.x.low; v <= f.x.high + f.x.step / 1000; v += f.x.step) {
    const float x = Frame::at(v, f.x, f.low.x, f.high.x);
    draw->AddLine({x, f.low.y}, {x, f.high.y}, theme::kTrack, hair);
    const std::string text = tickText(v, f.x.decimals);
    const float width = ImGui::CalcTextSize(text.c_str()).x;
    draw->AddText({std::min(x - width / 2, f.high.x - width), f.high.y + ui.px(3)}, theme::kInk,
                  text.c_str());
  }
  for (double v = f.y.low; v <= f.y.high + f.y.step / 2; v += f.y.step) {
    const float y = Frame::at(v, f.y, f.high.y, f.low.y);
    const bool zero = std::abs(v) < f.y.step / 1000;
    draw->AddLine({f.low.x, y}, {f.high.x, y}, zero ? theme::kQuietInk : theme::kTrack,
                  zero ? ui.px(1.5f) : hair);
    const std::string text = tickText(v, f.y.decimals);
    draw->AddText({f.low.x - ImGui::CalcTextSize(text.c_str()).x - ui.px(6), y - line / 2}, theme::kInk,
                  text.c_str());
  }
  draw->AddRect(f.low, f.high, theme::kQuietInk, 0, 0, hair);
}

/// Whether a line goes through the rectangle.
bool crosses(const Frame& f, const PlotLine& line, ImVec2 low, ImVec2 high) {
  for (float x = low.x; x <= high.x; x += (high.x - low.x) / 8) {
    const auto y = valueAt(line.points, f.xAt(x));
    if (y && f.up(*y) > low.y && f.up(*y) < high.y) return true;
  }
  return false;
}

/// The corner for a level's words that the fewest lines cross: at the right or left end, below or above it.
ImVec2 placeWords(const Ui& ui, const Frame& f, const PlotSpec& spec, float y, ImVec2 size) {
  ImVec2 best{f.high.x - size.x - ui.px(6), y + ui.px(2)};
  std::size_t fewest = spec.lines.size() + 1;
  for (const float x : {f.high.x - size.x - ui.px(6), f.low.x + ui.px(6)}) {
    for (const float top : {y + ui.px(2), y - size.y - ui.px(2)}) {
      if (top < f.low.y || top + size.y > f.high.y) continue;
      std::size_t crossed = 0;
      for (const PlotLine& line : spec.lines)
        if (crosses(f, line, {x, top}, {x + size.x, top + size.y})) ++crossed;
      if (crossed >= fewest) continue;
      fewest = crossed;
      best = {x, top};
    }
  }
  return best;
}

void drawLevel(const Ui& ui, const Frame& f, const PlotSpec& spec, const PlotLevel& level) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const float y = f.up(level.at);
  draw->AddLine({f.low.x, y}, {f.high.x, y}, theme::kInk, ui.px(1.2f));
  const ImVec2 size = ImGui::CalcTextSize(level.label.c_str());
  const ImVec2 at = placeWords(ui, f, spec, y, size);
  draw->AddRectFilled({at.x - ui.px(2), at.y}, {at.x + size.x + ui.px(2), at.y + size.y},
                      theme::faded(theme::kPlate, 220));
  draw->AddText(at, theme::kInk, level.label.c_str());
}

void drawSpot(const Ui& ui, ImVec2 at, PlotSpot::Kind kind) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const float r = ui.px(kind == PlotSpot::Kind::Cross ? 4.0f : 5.5f), width = ui.px(2);
  if (kind == PlotSpot::Kind::Cross) {
    draw->AddLine({at.x - r, at.y - r}, {at.x + r, at.y + r}, theme::kInk, width);
    draw->AddLine({at.x - r, at.y + r}, {at.x + r, at.y - r}, theme::kInk, width);
    return;
  }
  draw->AddCircleFilled(at, r, kind == PlotSpot::Kind::Rest ? theme::kInk : theme::kPlate);
  draw->AddCircle(at, r, theme::kInk, 0, width);
}

void drawLines(const Ui& ui, const Frame& f, const PlotSpec& spec) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const float edge = ui.px(2);
  draw->PushClipRect({f.low.x - edge, f.low.y - edge}, {f.high.x + edge, f.high.y + edge}, true);
  for (const bool ghost : {true, false}) {  // ghosts lie below
    for (const PlotLine& line : spec.lines) {
      if (line.ghost != ghost) continue;
      Pen pen(ui, line.stroke, ghost);
      for (const PlotPoint& p : line.points)
        std::isfinite(p.y) ? pen.to({f.across(p.x), f.up(p.y)}) : pen.lift();
      if (!line.dots) continue;
      for (const PlotPoint& p : line.points)
        if (std::isfinite(p.y))
          draw->AddCircleFilled({f.across(p.x), f.up(p.y)}, ui.px(4), inkOf(line.stroke));
    }
  }
  const float x = f.across(spec.cursor);
  draw->AddLine({x, f.low.y}, {x, f.high.y}, theme::kInk, ui.px(1.5f));
  for (const PlotLine& line : spec.lines) {
    const auto y = valueAt(line.points, spec.cursor);
    if (!y || line.ghost) continue;
    draw->AddCircleFilled({x, f.up(*y)}, ui.px(5.5f), theme::kPlate);
    draw->AddCircleFilled({x, f.up(*y)}, ui.px(4), inkOf(line.stroke));
  }
  draw->PopClipRect();
  for (const PlotSpot& spot : spec.spots) drawSpot(ui, {f.across(spot.at.x), f.up(spot.at.y)}, spot.kind);
  // A grip, so that one sees that the cursor moves.
  draw->AddTriangleFilled({x - ui.px(7), f.low.y - ui.px(8)}, {x + ui.px(7), f.low.y - ui.px(8)},
                          {x, f.low.y + ui.px(2)}, theme::kInk);
}

}  // namespace

std::optional<double> plot(Ui& ui, const UnitSet& units, const PlotSpec& spec) {
  Frame f;
  f.x_unit = file::unitFor(spec.x.quantity, units);
  f.y_unit = file::unitFor(spec.y.quantity, units);
  const std::string at = "at " + valueText(spec.cursor, spec.x.quantity, units);
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(ui.px(8), ui.px(4)));
  drawTitle(ui, spec, f.y_unit, at);
  const std::string spoken = drawLegend(ui, units, spec);
  ImGui::PopStyleVar();

  const float line = ImGui::GetFontSize(), top = ui.px(9), tall = ui.px(spec.height_css);
  const float width = ImGui::GetContentRegionAvail().x;
  const Span xs = xSpan(spec), ys = ySpan(spec);
  const auto inUnit = [](double si, const file::Unit& unit) { return file::fromSi(si, unit); };
  f.y = roundScale(inUnit(ys.low, f.y_unit), inUnit(ys.high, f.y_unit),
                   static_cast<int>(spec.height_css / (kLeastTickUp * ui.text_scale)));
  const float margin = widestTick(f.y) + ui.px(8);
  f.x = roundScale(inUnit(xs.low, f.x_unit), inUnit(xs.high, f.x_unit),
                   static_cast<int>((width - margin) / ui.letters(kLeastTick)));
  f.x.high = inUnit(xs.high, f.x_unit);  // the paper ends with the lines
  if (spec.x.quantity == Quantity::Angle && f.x.high > 90) f.x.step = ui.large() ? 90 : 45;

  ImGui::InvisibleButton(spec.name.c_str(), {width, top + tall + line + ui.px(4)});
  const ImVec2 corner = ImGui::GetItemRectMin();
  f.low = {corner.x + margin, corner.y + top};
  f.high = {corner.x + width - ui.px(6), corner.y + top + tall};
  drawPaper(ui, f);
  for (const PlotLevel& level : spec.levels) drawLevel(ui, f, spec, level);
  drawLines(ui, f, spec);
  const bool held = ImGui::IsItemActive();
  focusRing(ui);
  const auto set = ui.takeSet(spec.name);
  ui.record(spec.name, "plot", spec.title, at + " | " + spoken);
  const float along = (f.across(spec.cursor) - f.low.x) / (f.high.x - f.low.x);
  ui.controls.back().share = static_cast<double>(std::clamp(along, 0.0f, 1.0f));
  ImGui::SetCursorPosY(ImGui::GetCursorPosY() - ui.px(4));
  const ImVec2 label = ImGui::CalcTextSize(spec.x.label.c_str());
  ImGui::SetCursorPosX(ImGui::GetCursorPosX() + margin + std::max(0.0f, (f.high.x - f.low.x - label.x) / 2));
  ImGui::TextUnformatted(spec.x.label.c_str());
  if (set)
    return f.xAt(f.low.x + std::clamp(std::strtof(set->c_str(), nullptr), 0.0f, 1.0f) * (f.high.x - f.low.x));
  if (!held) return std::nullopt;
  return f.xAt(ImGui::GetIO().MousePos.x);
}

}  // namespace pondtrim
