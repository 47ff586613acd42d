#include "panels/plan_pictures.hpp"

#include <algorithm>
#include <cmath>

#include "session/edits.hpp"
#include "session/plan_words.hpp"

namespace pondtrim {
namespace {

constexpr double kTaller = 2;  // heights against lengths: millimetres at the line would not show otherwise
constexpr float kMostHeight = 150, kRim = 10;  // CSS px

/// From the boat's x and z to the panel.
struct Sheet {
  ImVec2 corner, size;  ///< device px
  float rim = 0, along = 1, up = 1;
  double bottom = 0;

  [[nodiscard]] ImVec2 at(double x, double z) const {
    return {corner.x + rim + along * static_cast<float>(x),
            corner.y + size.y - rim - up * static_cast<float>(z - bottom)};
  }
  [[nodiscard]] ImVec2 end() const { return {corner.x + size.x, corner.y + size.y}; }
};

Sheet layOutSheet(const Ui& ui, const Model& model) {
  double top = model.marks.sail_top.z, bottom = 0;
  for (const SkinBody& skin : model.skins)
    for (const Vec3& v : skin.mesh->vertices) {
      top = std::max(top, v.z);
      bottom = std::min(bottom, v.z);
    }
  Sheet sheet;
  sheet.corner = ImGui::GetCursorScreenPos();
  sheet.rim = ui.px(kRim);
  sheet.size.x = ImGui::GetContentRegionAvail().x;
  sheet.along = (sheet.size.x - 2 * sheet.rim) / static_cast<float>(model.length);
  const float room = ui.px(kMostHeight) - 2 * sheet.rim, tall = static_cast<float>(top - bottom);
  sheet.up = std::min(static_cast<float>(kTaller) * sheet.along, room / tall);
  sheet.size.y = sheet.up * tall + 2 * sheet.rim;
  sheet.bottom = bottom;
  return sheet;
}

/// The water's surface on the middle plane, at the two edges of the sheet.
struct Surface {
  ImVec2 left, right;
};
Surface surfaceOf(const Sheet& sheet, const Plane& water) {
  const double reach = sheet.rim / sheet.along;
  const auto at = [&](float px) {
    const double x = px / sheet.along - reach;
    return sheet.at(x, (water.level - water.up.x * x) / water.up.z);
  };
  return {at(0), at(sheet.size.x)};
}

void drawDashes(const Ui& ui, ImVec2 from, ImVec2 to, Colour ink) {
  const float length = std::hypot(to.x - from.x, to.y - from.y), dash = ui.px(6);
  for (float done = 0; done < length; done += 2 * dash) {
    const float a = done / length, b = std::min(1.0f, (done + dash) / length);
    ImGui::GetWindowDrawList()->AddLine({from.x + a * (to.x - from.x), from.y + a * (to.y - from.y)},
                                        {from.x + b * (to.x - from.x), from.y + b * (to.y - from.y)}, ink,
                                        ui.px(2));
  }
}

/// What she looks like cut along the middle.
void drawHull(const Ui& ui, const Sheet& sheet, const Model& model) {
  const Plane middle{{0, 1, 0}, 1e-6};
  for (const SkinBody& skin : model.skins) {
    const std::vector<Vec3> ends = meshMeetsPlane(*skin.mesh, middle);
    for (std::size_t i = 0; i + 1 < ends.size(); i += 2)
      ImGui::GetWindowDrawList()->AddLine(sheet.at(ends[i].x, ends[i].z),
                                          sheet.at(ends[i + 1].x, ends[i + 1].z), theme::kQuietInk,
                                          ui.px(1.5f));
  }
}

/// Where something goes in: full; where it comes out: an outline.
void drawWork(const Ui& ui, const Sheet& sheet, const Boat& boat, const Plan& plan) {
  for (const Change& change : plan.changes) {
    const auto i = partOf(boat, boat.places[change.place]);
    if (!i) continue;
    const Part& part = boat.parts[*i];
    const Vec3 half = 0.5 * shapeSize(part.shape);
    ImVec2 low = sheet.at(part.position.x - half.x, part.position.z + half.z);
    ImVec2 high = sheet.at(part.position.x + half.x, part.position.z - half.z);
    const float least = ui.px(6);  // points, too, are to be seen
    if (high.x - low.x < least) low.x = (low.x + high.x - least) / 2, high.x = low.x + least;
    if (high.y - low.y < least) low.y = (low.y + high.y - least) / 2, high.y = low.y + least;
    const Colour ink = colour(kindRgb(kindOf(part)));
    ImDrawList* draw = ImGui::GetWindowDrawList();
    if (change.work != Work::TakeOut) draw->AddRectFilled(low, high, ink, ui.px(2));
    draw->AddRect(low, high, theme::kInk, ui.px(2), 0, ui.px(1));
  }
}

void drawCondition(const Session& session, Screen& screen, const Plan& plan, std::size_t k) {
  Ui& ui = screen.ui;
  const Proof &now = plan.present[k], &then = plan.proofs[k];
  const std::string before = restWords(now, session.units()), after = restWords(then, session.units());
  heading(ui, conditionName(then).c_str());
  const Boat& boat = screen.planner.boat();
  const Model& model = session.model();
  const Sheet sheet = layOutSheet(ui, model);
  ImGui::Dummy(sheet.size);
  const std::string name = "plan.picture." + std::to_string(k);
  ui.record(name, "status", conditionName(then), "now: " + before + " With the plan: " + after);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->PushClipRect(sheet.corner, sheet.end(), true);
  draw->AddRectFilled(sheet.corner, sheet.end(), theme::kPlate, ui.px(10));
  const Surface water = surfaceOf(sheet, then.report.rest.plane);
  draw->AddQuadFilled(water.left, water.right, sheet.end(), {sheet.corner.x, sheet.end().y},
                      theme::faded(theme::kWater, 70));
  drawHull(ui, sheet, model);
  drawWork(ui, sheet, boat, plan);
  const double line = model.marks.line_height;
  draw->AddLine(sheet.at(0, line), sheet.at(model.length, line), theme::kLine, ui.px(1.2f));
  draw->AddLine(water.left, water.right, theme::kAccent, ui.px(2));
  if (now.report.rest.outcome != Outcome::Sinks && now.report.rest.plane.up.z > 0.2) {
    const Surface old = surfaceOf(sheet, now.report.rest.plane);
    drawDashes(ui, old.left, old.right, theme::kInk);
  }
  draw->PopClipRect();
  if (!plan.changes.empty()) paragraph(ui, "Now: " + before, theme::kQuietInk);
  paragraph(ui, plan.changes.empty() ? sentenceCase(after) : "Then: " + after,
            then.holds ? theme::kInk : theme::kWarning);
  ui.record("plan.proof." + std::to_string(k), "status", proofWords(then, session.units()),
            then.holds ? "holds" : "does not hold");
}

}  // namespace

void drawBeforeAfter(const Session& session, Screen& screen, const Plan& plan) {
  if (!screen.planner.isFresh(session)) return;
  for (std::size_t k = 0; k < plan.proofs.size() && k < plan.present.size(); ++k)
    drawCondition(session, screen, plan, k);
  paragraph(screen.ui,
            plan.changes.empty()
                ? "Blue: the water. Red: the painted line. Heights are drawn taller than they are."
                : "Dashed: the water now. Blue: with the plan. Red: the painted line. Full boxes: something "
                  "goes in; open boxes: it comes out. Heights are drawn taller than they are.",
            theme::kQuietInk);
}

}  // namespace pondtrim
