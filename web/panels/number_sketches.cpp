#include "panels/number_sketches.hpp"

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <iterator>

namespace pondtrim {
namespace {

constexpr float kWide = 124, kTall = 62, kUnderKeel = 8;  // of the paper, in the boat's units
constexpr float kUnit = 1.1f;                             // CSS px, with the usual letters
constexpr float kPaintedLine = 16, kPerDegree = 3.14159265f / 180;

constexpr SketchPoint kSideHull[] = {{-54, 10}, {-46, 5}, {-30, 1}, {-16, 0}, {40, 0},   {48, 3},  {53, 8},
                                     {54, 13},  {52, 18}, {46, 21}, {36, 22}, {-28, 22}, {-46, 15}};
constexpr SketchPoint kSideSail[] = {{2, 22}, {22, 22}, {18, 36}, {4, 36}};
constexpr SketchPoint kEndHull[] = {{0, 0},  {8, 2},   {15, 9},   {17, 17},  {15, 25}, {8, 32},
                                    {0, 34}, {-8, 32}, {-15, 25}, {-17, 17}, {-15, 9}, {-8, 2}};
constexpr SketchPoint kEndSail[] = {{-4, 32}, {4, 32}, {3, 46}, {-3, 46}};
/// The waterplane at 14, seen from a little above.
constexpr SketchPoint kSlice[] = {{-48, 14}, {-30, 10}, {30, 9},  {48, 11},
                                  {54, 14},  {48, 17},  {30, 19}, {-30, 18}};
constexpr SketchPoint kTank[] = {{-10, 6}, {10, 6}, {10, 26}, {-10, 26}};

class Pen {
 public:
  Pen(const Ui& ui, const Sketch& sketch)
      : ui_(ui), sketch_(sketch), side_(sketch.seen == Sketch::Seen::FromTheSide), unit_(ui.letters(kUnit)) {
    low_ = ImGui::GetCursorScreenPos();
    size_ = {kWide * unit_, kTall * unit_};
    const float angle = static_cast<float>(sketch.turned) * kPerDegree;
    cos_ = std::cos(angle);
    sin_ = side_ ? std::sin(angle) : -std::sin(angle);
  }

  void draw() {
    ImGui::Dummy(size_);
    draw_->PushClipRect(low_, high(), true);
    draw_->AddRectFilled(low_, high(), theme::kPlate, ui_.px(8));
    const float water = level(sketch_.water);
    if (side_)
      drawBoat(kSideHull, std::size(kSideHull), kSideSail, water);
    else
      drawBoat(kEndHull, std::size(kEndHull), kEndSail, water);
    draw_->AddRectFilled({low_.x, water}, high(), theme::faded(theme::kWater, 110));
    draw_->AddLine({low_.x, water}, {high().x, water}, theme::kAccent, ui_.px(2));
    if (sketch_.shade == Sketch::Shade::Tank) drawTank();
    if (sketch_.shade == Sketch::Shade::Slice) {
      fill(kSlice, std::size(kSlice), theme::kAccent);
      outline(kSlice, std::size(kSlice));
    }
    drawMeasure();
    drawCentres();
    draw_->PopClipRect();
  }

 private:
  [[nodiscard]] ImVec2 high() const { return {low_.x + size_.x, low_.y + size_.y}; }
  [[nodiscard]] float level(float z) const { return high().y - (z + kUnderKeel) * unit_; }
  [[nodiscard]] float pivot() const { return side_ ? 12.0f : 17.0f; }
  /// A point that turns with her.
  [[nodiscard]] ImVec2 at(float x, float z) const {
    const float up = z - pivot();
    return {low_.x + size_.x / 2 + (x * cos_ - up * sin_) * unit_, level(pivot() + x * sin_ + up * cos_)};
  }
  [[nodiscard]] ImVec2 at(SketchPoint p) const { return at(p.x, p.z); }

  void trace(const SketchPoint* points, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) draw_->PathLineTo(at(points[i]));
  }
  void fill(const SketchPoint* points, std::size_t count, Colour ink) {
    trace(points, count);
    draw_->PathFillConvex(ink);
  }
  void outline(const SketchPoint* points, std::size_t count) {
    trace(points, count);
    draw_->PathStroke(theme::kInk, ImDrawFlags_Closed, ui_.px(1.2f));
  }

  void drawBoat(const SketchPoint* hull, std::size_t count, const SketchPoint* sail, float water) {
    const auto both = [&](Colour ink) {
      fill(hull, count, ink);
      fill(sail, 4, ink);
    };
    both(theme::kHull);
    const bool under = sketch_.shade == Sketch::Shade::Under;
    if (under || sketch_.shade == Sketch::Shade::Over) {
      draw_->PushClipRect({low_.x, under ? water : low_.y}, {high().x, under ? high().y : water}, true);
      both(theme::kAccent);
      draw_->PopClipRect();
    }
    outline(sail, 4);
    outline(hull, count);
    const float half = side_ ? 53.0f : 17.0f;
    draw_->AddLine(at(-half + (side_ ? 9.0f : 0.0f), kPaintedLine), at(half, kPaintedLine), theme::kLine,
                   ui_.px(2));
  }

  /// Half full, and level whatever the boat does.
  void drawTank() {
    fill(kTank, 4, theme::kPlate);
    draw_->PushClipRect({low_.x, level(16)}, high(), true);
    fill(kTank, 4, theme::kAccent);
    draw_->PopClipRect();
    outline(kTank, 4);
  }

  void head(ImVec2 from, ImVec2 to) {
    const float far = std::hypot(to.x - from.x, to.y - from.y), r = std::min(ui_.px(5) / far, 0.3f);
    const ImVec2 along((to.x - from.x) * r, (to.y - from.y) * r);
    draw_->AddTriangleFilled(
        to, {to.x - along.x * 1.4f - along.y * 0.8f, to.y - along.y * 1.4f + along.x * 0.8f},
        {to.x - along.x * 1.4f + along.y * 0.8f, to.y - along.y * 1.4f - along.x * 0.8f}, theme::kInk);
  }

  void drawMeasure() {
    if (sketch_.from == sketch_.to) return drawAngle();
    const ImVec2 from = at(sketch_.from), to = at(sketch_.to);
    draw_->AddLine(from, to, theme::kInk, ui_.px(2));
    head(from, to);
    if (!sketch_.pushes) head(to, from);
  }

  void drawAngle() {
    if (sketch_.turned == 0 || sketch_.shade == Sketch::Shade::Tank) return;
    const ImVec2 middle = at(0, pivot());
    const float reach = side_ ? 58.0f : 34.0f;
    const ImVec2 turned = side_ ? at(reach, pivot()) : at(0, pivot() + reach);
    const ImVec2 level(middle.x + (side_ ? reach * unit_ : 0), middle.y - (side_ ? 0 : reach * unit_));
    for (const ImVec2& end : {level, turned}) draw_->AddLine(middle, end, theme::kInk, ui_.px(1.5f));
    draw_->AddLine(level, turned, theme::kInk, ui_.px(2));
    head(level, turned);
  }

  void drawCentre(SketchPoint point, const char* letter, bool left) {
    if (point == SketchPoint{}) return;
    const ImVec2 middle = at(point);
    const float tall = ui_.letters(theme::kTextSize), r = ui_.px(3.5f);
    draw_->AddCircleFilled(middle, r, left ? theme::kInk : theme::kPlate);
    draw_->AddCircle(middle, r, theme::kInk, 0, ui_.px(1.5f));
    const float wide = ui_.fonts.bold->CalcTextSizeA(tall, FLT_MAX, 0, letter).x;
    const ImVec2 text(middle.x + (left ? -wide - 2 * r : 2 * r), middle.y - tall / 2);
    draw_->AddRectFilled({text.x - ui_.px(1), text.y + ui_.px(2)},
                         {text.x + wide + ui_.px(1), text.y + tall - ui_.px(1)},
                         theme::faded(theme::kPlate, 200), ui_.px(3));
    draw_->AddText(ui_.fonts.bold, tall, text, theme::kInk, letter);
  }

  void drawCentres() {
    if (sketch_.m != SketchPoint{}) draw_->AddLine(at(sketch_.b), at(sketch_.m), theme::kInk, ui_.px(1));
    drawCentre(sketch_.g, "G", true);
    drawCentre(sketch_.b, "B", false);
    drawCentre(sketch_.m, "M", true);
  }

  const Ui& ui_;
  const Sketch& sketch_;
  ImDrawList* draw_ = ImGui::GetWindowDrawList();
  bool side_;
  float unit_, cos_ = 1, sin_ = 0;
  ImVec2 low_, size_;
};

}  // namespace

void explain(Ui& ui, const char* sentence, const Sketch* sketch) {
  if (sketch == nullptr) return paragraph(ui, sentence, theme::kQuietInk);
  Pen(ui, *sketch).draw();
  if (!ui.large()) ImGui::SameLine(0, ui.px(10));
  paragraph(ui, sentence, theme::kQuietInk);
}

}  // namespace pondtrim
