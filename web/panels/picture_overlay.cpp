// What lies over the picture: boat's name, undo, the choice of view, labels, markers.
#include <algorithm>
#include <cfloat>

#include "panels/screen.hpp"

namespace pondtrim {
namespace {

constexpr ImGuiWindowFlags kOverlay = ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                                      ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoSavedSettings |
                                      ImGuiWindowFlags_AlwaysAutoResize | ImGuiWindowFlags_NoFocusOnAppearing;

ImVec2 vec(glm::vec2 v) { return {v.x, v.y}; }

void drawLeader(const Ui& ui, ImDrawList* draw, const Label& label, glm::vec2 origin) {
  const ImVec2 low = vec(label.corner + origin), high = vec(label.corner + label.size + origin);
  const ImVec2 anchor = vec(label.anchor + origin);
  const bool above = label.corner.y < label.anchor.y;
  const ImVec2 foot(std::clamp(anchor.x, low.x + ui.px(6), high.x - ui.px(6)), above ? high.y : low.y);
  draw->AddLine(foot, anchor, theme::kInk, ui.px(1.2f));
  draw->AddCircleFilled(anchor, ui.px(3.5f), label.colour);
  draw->AddCircle(anchor, ui.px(3.5f), theme::kInk, 0, ui.px(1));
}

void drawPlate(const Ui& ui, ImDrawList* draw, const Label& label, glm::vec2 origin) {
  const ImVec2 low = vec(label.corner + origin), high = vec(label.corner + label.size + origin);
  draw->AddRectFilled(low, high, theme::faded(theme::kPlate, 240), ui.px(6));
  const ImVec2 text = ImGui::CalcTextSize(label.text.c_str());
  draw->AddText({(low.x + high.x - text.x) / 2, (low.y + high.y - text.y) / 2}, theme::kInk,
                label.text.c_str());
}

/// A dark disc for G, a light one for B, each beside the point it stands for, joined to it by a stroke.
void drawMarker(const Ui& ui, ImDrawList* draw, const Marker& marker, glm::vec2 origin) {
  const bool gravity = marker.sign == Marker::Sign::Gravity;
  const ImVec2 point = vec(marker.at + origin), disc = vec(marker.disc + origin);
  const float r = ui.px(11);
  draw->AddLine(point, disc, theme::kInk, ui.px(1.5f));
  draw->AddCircleFilled(point, ui.px(3.5f), gravity ? theme::kInk : theme::kPlate);
  draw->AddCircle(point, ui.px(3.5f), theme::kInk, 0, ui.px(1.5f));
  draw->AddCircleFilled(disc, r, gravity ? theme::kInk : theme::kPlate);
  draw->AddCircle(disc, r, theme::kInk, 0, ui.px(1.5f));
  const char* letter = gravity ? "G" : "B";
  const float tall = ui.px(theme::kTextSize);  // as the disc, whatever the size of the words
  const ImVec2 size = ui.fonts.bold->CalcTextSizeA(tall, FLT_MAX, 0, letter);
  draw->AddText(ui.fonts.bold, tall, {disc.x - size.x / 2, disc.y - size.y / 2},
                gravity ? theme::kPlate : theme::kInk, letter);
}

/// Labels and markers, and the line of the reading in hand; true if there is one.
bool drawSigns(const Session& session, const Screen& screen) {
  const Ui& ui = screen.ui;
  const Rect& r = screen.layout.picture;
  const glm::vec2 origin(ui.px(r.left), ui.px(r.top));
  ImDrawList* draw = ImGui::GetBackgroundDrawList();
  draw->PushClipRect(vec(origin), {origin.x + ui.px(r.width), origin.y + ui.px(r.height)});
  draw->AddRectFilled(vec(origin), {origin.x + ui.px(r.width), origin.y + ui.px(r.height)}, theme::kShade);
  for (const Label& label : screen.scene.labels) drawLeader(ui, draw, label, origin);
  const bool read = drawReadLine(session, screen);
  for (const Marker& marker : screen.scene.markers) drawMarker(ui, draw, marker, origin);
  for (const Label& label : screen.scene.labels) drawPlate(ui, draw, label, origin);
  draw->PopClipRect();
  return read;
}

struct KeyEntry {
  const char* word;
  Colour colour;
  bool dashed = false;  ///< a line, not a patch
};

std::vector<KeyEntry> keyOf(const Session& session, const Scene& scene, bool read) {
  bool present[5] = {};
  for (const Part& part : session.boat().parts) present[static_cast<int>(kindOf(part))] = true;
  std::vector<KeyEntry> entries;
  for (int i = 0; i < 5; ++i)
    if (present[i])
      entries.push_back({kindWord(static_cast<Kind>(i)), colour(kindRgb(static_cast<Kind>(i)))});
  if (scene.ghost[0] != 0) entries.push_back({scene.ghost, theme::kQuietInk, true});
  if (read) entries.push_back({"as read", theme::kWarning, true});
  return entries;
}

/// A patch of colour, or dashes; middle of its left edge at `at`.
void drawChip(const Ui& ui, const KeyEntry& entry, ImVec2 at, float width) {
  ImDrawList* draw = ImGui::GetBackgroundDrawList();
  if (entry.dashed) {
    for (const float share : {0.0f, 0.56f})
      draw->AddLine({at.x + share * width, at.y}, {at.x + (share + 0.44f) * width, at.y}, entry.colour,
                    ui.px(2));
    return;
  }
  const ImVec2 low(at.x, at.y - width / 2), high(at.x + width, at.y + width / 2);
  draw->AddRectFilled(low, high, entry.colour, ui.px(3));
  draw->AddRect(low, high, theme::kInk, ui.px(3));
}

/// What the colours mean, and the dashed line. Named parts carry their colour themselves.
void drawKey(const std::vector<KeyEntry>& entries, Ui& ui, ImVec2 at) {
  ImDrawList* draw = ImGui::GetBackgroundDrawList();
  const float size =
      ui.px(theme::kTextSize);  // of the usual letters: the picture is not larger for larger ones
  const auto wide = [size](const char* word) {
    return ImGui::GetFont()->CalcTextSizeA(size, FLT_MAX, 0, word).x;
  };
  const float height = ui.px(24), pad = ui.px(8), gap = ui.px(10), after_chip = ui.px(5);
  const auto chip = [&](const KeyEntry& e) { return ui.px(e.dashed ? 22.0f : 13.0f); };
  float width = pad;
  std::string words;
  for (const KeyEntry& e : entries) {
    width += chip(e) + after_chip + wide(e.word) + gap;
    words += (words.empty() ? "" : ", ") + std::string(e.dashed ? "dashed: " : "") + e.word;
  }
  draw->AddRectFilled({at.x, at.y - height}, {at.x + width, at.y}, theme::faded(theme::kPlate, 225),
                      ui.px(6));
  const ImVec4 where(at.x / ui.ratio, (at.y - height) / ui.ratio, (at.x + width) / ui.ratio, at.y / ui.ratio);
  ui.controls.push_back({"key", "status", "Colours", words, where, where, {}, "views"});
  float x = at.x + pad;
  for (const KeyEntry& e : entries) {
    const float y = at.y - height / 2;
    drawChip(ui, e, {x, y}, chip(e));
    x += chip(e) + after_chip;
    draw->AddText(ImGui::GetFont(), size, {x, y - size / 2}, theme::kInk, e.word);
    x += wide(e.word) + gap;
  }
}

struct ViewChoice {
  Camera::View view;
  const char* id;
  const char* label;
};
constexpr ViewChoice kViews[] = {{Camera::View::Side, "view.side", "Side"},
                                 {Camera::View::End, "view.end", "End"},
                                 {Camera::View::Around, "view.around", "Around"}};

/// The picture has no more room for large letters than for these.
float overlayWidth(const Ui& ui) { return ui.large() ? 78.0f : 0.0f; }

void drawViewButtons(Screen& screen) {
  for (const ViewChoice& choice : kViews) {
    if (choice.view != Camera::View::Side) ImGui::SameLine();
    const bool here = screen.camera.view == choice.view;
    if (button(screen.ui, choice.id, choice.label, overlayWidth(screen.ui),
               here ? Look::Accent : Look::Quiet)) {
      screen.camera.view = choice.view;  // a second tap on the view in use also puts it back in place
      screen.camera.zoom = 1;
      screen.camera.pan = glm::vec2(0.0f);
    }
  }
}

void drawNamesButton(Screen& screen) {
  if (button(screen.ui, "names", "Names", overlayWidth(screen.ui), screen.names ? Look::Accent : Look::Quiet))
    screen.names = !screen.names;
}

void drawUndoRedo(Session& session, Ui& ui) {
  ImGui::BeginDisabled(!session.canUndo());
  if (button(ui, "undo", "\u21ba", theme::kTouch, Look::Quiet)) session.undo();
  ui.speak("Undo");
  ImGui::EndDisabled();
  ImGui::SameLine();
  ImGui::BeginDisabled(!session.canRedo());
  if (button(ui, "redo", "\u21bb", theme::kTouch, Look::Quiet)) session.redo();
  ui.speak("Redo");
  ImGui::EndDisabled();
}

/// An overlay without ground, at a corner of the picture: `pivot` 0 or 1 along x and y.
void beginCorner(const Screen& screen, const char* name, ImVec2 pivot) {
  const Rect& r = screen.layout.picture;
  const float top = r.top + screen.window.inset_top + 6, bottom = r.top + r.height - 6;
  const float left = r.left + screen.window.inset_left + 8, right = r.left + r.width - 8;
  ImGui::SetNextWindowPos(
      {screen.ui.px(pivot.x > 0 ? right : left), screen.ui.px(pivot.y > 0 ? bottom : top)}, 0, pivot);
  ImGui::Begin(name, nullptr, kOverlay);
}

void drawBoatName(Session& session, Screen& screen, float taken) {
  Ui& ui = screen.ui;
  beginCorner(screen, "boat-name", {0, 0});
  std::string name = session.boat().name.empty() ? "Boat" : session.boat().name;
  const bool described = screen.showsDescribed();
  if (session.inDraft()) name = session.draftName() + " \u00b7 " + name;
  if (described) name = "New: " + name;
  const float room = ui.px(screen.layout.picture.width - screen.window.inset_left - 24) - taken - ui.px(24);
  if (button(ui, "open-boat", shortened(name, std::max(room, ui.px(30))), 0,
             session.inDraft() || described ? Look::Primary : Look::Quiet))
    screen.section = session.inDraft() ? Section::WhatIf : Section::Boat;
  ImGui::End();
}

void drawControls(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  using Buttons = Layout::Buttons;
  const Buttons where = screen.layout.buttons;
  beginCorner(screen, "undo-redo", {1, 0});
  if (where != Buttons::Below) {
    drawViewButtons(screen);
    ImGui::SameLine(0, ui.px(14));
  }
  if (where == Buttons::Above) {
    drawNamesButton(screen);
    ImGui::SameLine(0, ui.px(14));
  }
  drawUndoRedo(session, ui);
  const float taken = ImGui::GetWindowSize().x;
  ImGui::End();
  if (where != Buttons::AboveNarrow) drawBoatName(session, screen, taken);
  if (where == Buttons::Below) {
    beginCorner(screen, "views", {0, 1});
    drawViewButtons(screen);
    ImGui::End();
  }
  if (where == Buttons::Above) return;
  beginCorner(screen, "names", {1, 1});
  drawNamesButton(screen);
  ImGui::End();
}
}  // namespace

void drawPictureOverlay(Session& session, Screen& screen) {
  const Rect& r = screen.layout.picture;
  Ui& ui = screen.ui;
  const bool read = drawSigns(session, screen);
  const ImVec4 where(r.left, r.top, r.left + r.width, r.top + r.height);
  ui.controls.push_back({"picture", "picture", "Picture of the boat", "", where, where,
                         "Picture of the boat: arrow keys move or turn it, plus and minus zoom", "views"});
  if (ui.held == "picture")
    ImGui::GetForegroundDrawList()->AddRect({ui.px(r.left + 2), ui.px(r.top + 2)},
                                            {ui.px(r.left + r.width - 2), ui.px(r.top + r.height - 2)},
                                            theme::kAccent, ui.px(6), 0, ui.px(4));
  const float foot = r.top + r.height - screen.layout.covered_below + 28;
  if (!screen.names && screen.layout.buttons != Layout::Buttons::AboveNarrow)
    drawKey(keyOf(session, screen.scene, read), ui,
            {ui.px(r.left + screen.window.inset_left + 8), ui.px(foot)});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(0, 0));
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(ui.px(6), ui.px(6)));
  ImGui::PushStyleVar(ImGuiStyleVar_WindowMinSize, ImVec2(1, 1));
  drawHullHandles(session, screen);
  drawControls(session, screen);
  ImGui::PopStyleVar(3);
}

}  // namespace pondtrim
