// All that the core reports, for the tank empty, as the slider stands, and full.
#include <functional>
#include <iterator>

#include "panels/number_sketches.hpp"
#include "panels/screen.hpp"

namespace pondtrim {
namespace {

struct Quoted {
  const char* label;
  Quantity quantity;
  int decimals;
  std::optional<double> (*read)(const Report&);
};

using Maybe = std::optional<double>;

constexpr Quoted kQuoted[] = {
    {"Bow: line over water", Quantity::Length, 1,
     [](const Report& r) { return r.bow ? Maybe(r.bow->line_above_water) : Maybe(); }},
    {"Stern: line over water", Quantity::Length, 1,
     [](const Report& r) { return r.stern ? Maybe(r.stern->line_above_water) : Maybe(); }},
    {"Draft at bow mark", Quantity::Length, 1,
     [](const Report& r) { return r.bow ? Maybe(r.bow->draft) : Maybe(); }},
    {"Draft at stern mark", Quantity::Length, 1,
     [](const Report& r) { return r.stern ? Maybe(r.stern->draft) : Maybe(); }},
    {"Trim, bow up +", Quantity::Angle, 2, [](const Report& r) { return Maybe(r.rest.attitude.trim); }},
    {"Heel, to starboard +", Quantity::Angle, 2, [](const Report& r) { return Maybe(r.rest.attitude.heel); }},
    {"Sail out", Quantity::Length, 1,
     [](const Report& r) { return r.rest.outcome == Outcome::Sinks ? Maybe() : Maybe(r.sail_showing); }},
    {"Displaced", Quantity::Volume, 0, [](const Report& r) { return Maybe(r.displaced_volume); }},
    {"Mass, with tank water", Quantity::Mass, 0, [](const Report& r) { return Maybe(r.total_mass); }},
    {"To carry, drained", Quantity::Mass, 0, [](const Report& r) { return Maybe(r.carry_mass); }},
    {"Tank water", Quantity::Mass, 0, [](const Report& r) { return Maybe(r.tank_water_mass); }},
    {"Reserve buoyancy", Quantity::Volume, 0,
     [](const Report& r) { return Maybe(r.reserve_buoyancy_volume); }},
    {"Net lift, all under", Quantity::Mass, 0,
     [](const Report& r) { return Maybe(r.net_buoyancy_submerged); }},
    {"G from aft", Quantity::Length, 1, [](const Report& r) { return Maybe(r.centre_of_gravity.x); }},
    {"G over baseline", Quantity::Length, 1, [](const Report& r) { return Maybe(r.centre_of_gravity.z); }},
    {"B from aft", Quantity::Length, 1, [](const Report& r) { return Maybe(r.centre_of_buoyancy.x); }},
    {"B over baseline", Quantity::Length, 1, [](const Report& r) { return Maybe(r.centre_of_buoyancy.z); }},
    {"GM athwart", Quantity::Length, 1, [](const Report& r) { return Maybe(r.gm_transverse); }},
    {"GM lengthways", Quantity::Length, 0, [](const Report& r) { return Maybe(r.gm_longitudinal); }},
    {"B over G, all under", Quantity::Length, 1, [](const Report& r) { return Maybe(r.bg_submerged); }},
    {"Waterplane", Quantity::Area, 1, [](const Report& r) { return Maybe(r.waterplane_area); }},
    {"Mass to sink 1 mm", Quantity::MassPerLength, 1,
     [](const Report& r) { return Maybe(r.mass_per_immersion); }},
    {"To trim 1\u00b0", Quantity::MomentPerAngle, 0,
     [](const Report& r) { return Maybe(r.moment_to_change_trim); }},
};

constexpr auto kAstern = Sketch::Seen::FromAstern;
using Shade = Sketch::Shade;
constexpr Sketch kBowLine{.water = 8, .from = {38, 8}, .to = {38, 16}};
constexpr Sketch kSternLine{.water = 8, .from = {-32, 8}, .to = {-32, 16}};
constexpr Sketch kBowDraft{.water = 14, .from = {38, 0}, .to = {38, 14}};
constexpr Sketch kSternDraft{.water = 14, .from = {-32, 0}, .to = {-32, 14}};
constexpr Sketch kTrim{.water = 14, .turned = 9};
constexpr Sketch kHeel{.seen = kAstern, .water = 20, .turned = 22};
constexpr Sketch kSailOut{.water = 25, .from = {32, 25}, .to = {32, 36}};
constexpr Sketch kDisplaced{.shade = Shade::Under, .water = 14};
constexpr Sketch kTankWater{.seen = kAstern, .shade = Shade::Tank, .water = 20, .turned = 18};
constexpr Sketch kReserve{.shade = Shade::Over, .water = 14};
constexpr Sketch kLift{.water = 46, .from = {-14, 24}, .to = {-14, 41}, .pushes = true, .b = {-14, 12}};
constexpr Sketch kGAlong{.water = 14, .from = {-54, -4}, .to = {2, -4}, .g = {2, 8}};
constexpr Sketch kGHigh{.water = 14, .from = {14, 0}, .to = {14, 8}, .g = {2, 8}};
constexpr Sketch kBAlong{.water = 14, .from = {-54, -4}, .to = {2, -4}, .b = {2, 8}};
constexpr Sketch kBHigh{.water = 14, .from = {-10, 0}, .to = {-10, 8}, .b = {2, 8}};
// Over B, plumb, the middle plane is cut at M.
constexpr Sketch kGm{.seen = kAstern,
                     .water = 20,
                     .turned = 15,
                     .from = {0, 11},
                     .to = {0, 31},
                     .g = {0, 11},
                     .b = {6, 6},
                     .m = {0, 31}};
constexpr Sketch kGmAlong{
    .water = 14, .turned = 6, .from = {-8, 8}, .to = {-8, 44}, .g = {-8, 8}, .b = {-4, 6}, .m = {-8, 44}};
constexpr Sketch kBOverG{
    .seen = kAstern, .water = 50, .from = {9, 7}, .to = {9, 25}, .g = {0, 7}, .b = {0, 25}};
constexpr Sketch kWaterplane{.shade = Shade::Slice, .water = 14};
constexpr Sketch kImmersion{.water = 14, .from = {-24, 46}, .to = {-24, 23}, .pushes = true};
constexpr Sketch kMoment{.water = 14, .turned = -7, .from = {-34, 42}, .to = {38, 42}, .pushes = true};

struct Help {
  const char* sentence;
  const Sketch* sketch = nullptr;
};
/// One for each, in the same order.
constexpr Help kHelp[] = {
    {"How far the painted line stands out of the water at the bow mark; minus: it is under.", &kBowLine},
    {"The same at the stern mark.", &kSternLine},
    {"How deep the keel lies under the water at the bow mark.", &kBowDraft},
    {"How deep the keel lies under the water at the stern mark.", &kSternDraft},
    {"How far she is nose up, or with a minus nose down.", &kTrim},
    {"How far she leans to starboard, or with a minus to port.", &kHeel},
    {"How much of the sail stands out of the water.", &kSailOut},
    {"The water she pushes aside: when she floats it weighs as much as she does.", &kDisplaced},
    {"Everything that the water carries, the water in the tank included."},
    {"What you lift out of the water when hull and tank have run empty."},
    {"The water in the tank. Its free surface stays level and runs to the low side: that takes from GM.",
     &kTankWater},
    {"What is still above the water and would carry her if she sank deeper.", &kReserve},
    {"All of her under water: what pushes her up. A little brings her home if something fails.", &kLift},
    {"Where her weight acts, along the boat.", &kGAlong},
    {"Where her weight acts, in height; lead in the keel brings it down.", &kGHigh},
    {"The middle of the water pushed aside, along the boat; at rest it is plumb with G.", &kBAlong},
    {"The middle of the water pushed aside, in height.", &kBHigh},
    {"How stiffly she stands up: the more, the less she leans; below nothing she lies over. M is where a "
     "plumb "
     "line through B meets her middle.",
     &kGm},
    {"The same lengthways: the more, the less a weight moved along tips her.", &kGmAlong},
    {"Dived, only this holds her upright: B has to be above G.", &kBOverG},
    {"The slice of her that the water's surface cuts; the smaller, the further a few grams take her down.",
     &kWaterplane},
    {"What brings her down by a millimetre.", &kImmersion},
    {"What a weight times the way it is moved along has to be to tip her by one degree.", &kMoment}};
static_assert(std::size(kHelp) == std::size(kQuoted));

std::string cell(const Quoted& line, const Report& report, const UnitSet& units) {
  const Maybe value = line.read(report);
  return value ? numberText(*value, line.quantity, units, line.decimals) : "\u2013";
}

void drawRow(float top, const std::string (&cells)[4], Colour ink, float column) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  draw->AddText({at.x, at.y + top}, ink, cells[0].c_str());
  for (int k = 1; k < 4; ++k) {
    const float right = at.x + width - static_cast<float>(3 - k) * column;
    draw->AddText({right - ImGui::CalcTextSize(cells[k].c_str()).x, at.y + top}, ink, cells[k].c_str());
  }
}

/// Once the heads of the columns have scrolled away, they stand at the window's top.
void keepHeadInSight(const Ui& ui, const std::string (&head)[4], float head_top, float column) {
  const ImVec2 corner = ImGui::GetWindowPos(), cursor = ImGui::GetCursorScreenPos();
  if (head_top >= corner.y) return;
  const ImVec2 end(corner.x + ImGui::GetWindowWidth(), corner.y + ImGui::GetFontSize() + ui.px(12));
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(corner, end, ImGui::GetColorU32(ImGuiCol_WindowBg));
  draw->AddLine({corner.x, end.y}, end, ImGui::GetColorU32(ImGuiCol_Separator), ui.px(1));
  ImGui::SetCursorScreenPos({cursor.x, corner.y});
  drawRow(ui.px(6), head, theme::kInk, column);
  ImGui::SetCursorScreenPos(cursor);
}

}  // namespace

void drawNumbersPanel(const Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const UnitSet& units = session.units();
  const float column = ui.px(72), line = ImGui::GetFontSize();
  const std::string head[4] = {"", "Empty", "Now", "Full"};
  const float head_top = ImGui::GetCursorScreenPos().y;
  const bool columns = !ui.large();  // else one number to a line
  if (columns) {
    drawRow(0, head, theme::kInk, column);
    ImGui::Dummy({0, line});
  }
  if (button(ui, "numbers.explain", screen.explain ? "Numbers only" : "What do they mean?"))
    screen.explain ^= true;
  for (std::size_t i = 0; i < std::size(kQuoted); ++i) {
    const Quoted& l = kQuoted[i];
    const std::string unit = file::unitFor(l.quantity, units).symbol;
    const std::string values[4] = {"", cell(l, session.empty(), units), cell(l, session.atFill(), units),
                                   cell(l, session.full(), units)};
    ImGui::Separator();
    paragraph(ui, std::string(l.label) + (unit.empty() ? "" : " [" + unit + "]"), theme::kQuietInk);
    if (columns) drawRow(0, values, theme::kInk, column);
    if (columns) ImGui::Dummy({ImGui::GetContentRegionAvail().x, line});
    for (int k = 1; !columns && k < 4; ++k) {
      drawRow(0, {head[k], "", "", values[k]}, theme::kInk, column);
      ImGui::Dummy({ImGui::GetContentRegionAvail().x, line});
    }
    ui.record(std::string("number.") + l.label, "status", l.label,
              values[1] + " | " + values[2] + " | " + values[3]);
    if (screen.explain) explain(ui, kHelp[i].sentence, kHelp[i].sketch);
  }
  if (columns) keepHeadInSight(ui, head, head_top, column);
}

}  // namespace pondtrim
