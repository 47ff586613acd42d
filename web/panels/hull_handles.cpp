// Handles in the picture, on the page Hull: drag length, beam and height of the hull, and the painted line.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <glm/geometric.hpp>
#include <pondtrim/hull.hpp>

#include "panels/screen.hpp"
#include "session/structure.hpp"

namespace pondtrim {
namespace {

/// A number of the hull with a grip in the picture.
struct Handle {
  const char* name;
  const char* label;
  Vec3 at;        ///< boat frame
  Vec3 way;       ///< along which it is dragged
  double factor;  ///< of the number for a metre of that
  double now;
  std::size_t skin;
  HullNumber number;
};

/// The piece in hand if it is a hull, else the longest.
std::optional<std::size_t> hullInHand(const Session& session) {
  const auto& skins = session.boat().skins;
  const auto length = [&](std::size_t i) { return hullSize(skins[i].form).x; };
  const auto& chosen = session.selection();
  if (chosen && chosen->owner == Owner::Skin && chosen->index < skins.size() && length(chosen->index) > 0)
    return chosen->index;
  std::optional<std::size_t> longest;
  for (std::size_t i = 0; i < skins.size(); ++i)
    if (length(i) > (longest ? length(*longest) : 0.0)) longest = i;
  return longest;
}

std::vector<Handle> handlesOf(const Session& session, Camera::View view) {
  const auto i = hullInHand(session);
  if (!i || view == Camera::View::Around) return {};
  const Skin& hull = session.boat().skins[*i];
  const HullBox box = hullBox(hull.form);
  const Vec3 low = hull.position + box.low, high = hull.position + box.high, middle = (low + high) / 2.0;
  const Vec3 size = box.high - box.low, up(0, 0, 1);
  const double line = session.boat().marks.line_height;
  const bool side = view == Camera::View::Side;
  std::vector<Handle> out{{"handle.height",
                           "Height of the hull",
                           {side ? low.x + 0.4 * size.x : middle.x, middle.y, high.z},
                           up,
                           1,
                           size.z,
                           *i,
                           HullNumber::Height}};
  // From the end there is no room for a third.
  if (side)
    out.push_back({"handle.line",
                   "Height of the painted line",
                   {low.x + 0.08 * size.x, middle.y, line},
                   up,
                   1,
                   line,
                   *i,
                   HullNumber::Line});
  if (side)
    out.push_back({"handle.length",
                   "Length of the hull",
                   {high.x, middle.y, middle.z},
                   {1, 0, 0},
                   1,
                   size.x,
                   *i,
                   HullNumber::Length});
  else
    out.push_back({"handle.beam",
                   "Beam of the hull",
                   {middle.x, high.y, middle.z},
                   {0, 1, 0},
                   2,
                   size.y,
                   *i,
                   HullNumber::Beam});
  return out;
}

/// An arrow with two heads across a disc.
void drawGrip(const Ui& ui, ImVec2 at, glm::vec2 way, bool held) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const float r = ui.px(14), reach = ui.px(9), head = ui.px(4);
  draw->AddCircleFilled(at, r, held ? theme::kAccent : theme::kPlate);
  draw->AddCircle(at, r, theme::kInk, 0, ui.px(1.5f));
  const Colour ink = held ? theme::kPlate : theme::kInk;
  const glm::vec2 u = glm::normalize(way), n(-u.y, u.x);
  const auto point = [&](float along, float across) {
    return ImVec2(at.x + u.x * along + n.x * across, at.y + u.y * along + n.y * across);
  };
  draw->AddLine(point(-reach, 0), point(reach, 0), ink, ui.px(2));
  for (const float end : {-1.0f, 1.0f})
    for (const float wing : {-1.0f, 1.0f})
      draw->AddLine(point(end * reach, 0), point(end * (reach - head), wing * head), ink, ui.px(2));
}

void change(Session& session, const Screen& screen, const Handle& handle, double to) {
  const double step = stockStep(0, Quantity::Length, session.units());
  to = std::max(step, std::round(to / step) * step);
  if (to == handle.now) return;
  (void)session.edit(withHullNumber(session.boat(), handle.skin, handle.number, to), screen.ui.gesture);
}

void drawHandle(Session& session, Screen& screen, const Handle& handle) {
  Ui& ui = screen.ui;
  const Rect& r = screen.layout.picture;
  const Projection& p = screen.scene.projection;
  const glm::vec2 here = p.boatToPicture(handle.at), way = p.boatToPicture(handle.at + handle.way) - here;
  if (glm::length(way) < 1) return;
  const float half = ui.px(theme::kTouch) / 2;
  // Always in reach: inside the picture, clear of what lies over its upper and lower edge.
  const glm::vec2 at(std::clamp(here.x, half, ui.px(r.width) - half),
                     std::clamp(here.y, ui.px(screen.layout.covered_above) + half,
                                ui.px(r.height - screen.layout.covered_below) - half));
  const ImVec2 corner(ui.px(r.left) + at.x - half, ui.px(r.top) + at.y - half);
  ImGui::SetNextWindowPos(corner);
  ImGui::SetNextWindowSize({2 * half, 2 * half});
  ImGui::Begin(handle.name, nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoBackground |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoFocusOnAppearing);
  ImGui::InvisibleButton("grip", {2 * half, 2 * half});
  const bool held = ImGui::IsItemActive();
  focusRing(ui, 22);
  ui.record(handle.name, "slider", handle.label, valueText(handle.now, Quantity::Length, session.units()));
  ui.controls.back().share = 0.5;
  ui.controls.back().part = "handles";  // one for all, whose window each has of its own
  drawGrip(ui, {corner.x + half, corner.y + half}, way, held);
  ImGui::End();
  HandleDrag& drag = screen.handle_drag;
  const glm::vec2 finger(ImGui::GetIO().MousePos.x, ImGui::GetIO().MousePos.y);
  if (held && drag.name != handle.name) drag = {handle.name, finger, handle.now, screen.scene.boat_size};
  if (held)
    change(session, screen, handle,
           drag.value + handle.factor * double(glm::dot(finger - drag.from, way) / glm::dot(way, way)));
  else if (drag.name == handle.name)
    drag = {};
  if (const auto share = ui.takeSet(handle.name))
    change(session, screen, handle, 2 * handle.now * std::strtod(share->c_str(), nullptr));
}

}  // namespace

void drawHullHandles(Session& session, Screen& screen) {
  if (screen.section != Section::Hull || session.meshImport().stage() != MeshImport::Stage::None) {
    screen.handle_drag = {};
    return;
  }
  for (const Handle& handle : handlesOf(session, screen.camera.view)) drawHandle(session, screen, handle);
}

}  // namespace pondtrim
