#include "panels/screen.hpp"

#include <imgui_internal.h>

#include <algorithm>
#include <cstring>
#include <iterator>

namespace pondtrim {
namespace {

constexpr ImGuiWindowFlags kStill = ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
constexpr float kMarksHeight = 68, kFillHeight = 64, kSectionsHeight = 58;  // CSS px

struct SectionName {
  Section section;
  const char* id;
  const char* label;
};
constexpr SectionName kSections[] = {
    {Section::FoamLead, "foam-lead", "Foam & lead"},
    {Section::Plan, "plan", "Trim plan"},
    {Section::Pond, "pond", "Pond log"},
    {Section::WhatIf, "what-if", "What if"},
    {Section::Weights, "weights", "Weights"},
    {Section::Cylinder, "cylinder", "Cylinder"},
    {Section::Tank, "tank", "Tank"},
    {Section::Hull, "hull", "Hull"},
    {Section::Water, "water", "Water"},
    {Section::Dive, "dive", "Dive"},
    {Section::Heel, "heel", "Heel"},
    {Section::Pump, "pump", "Pump"},
    {Section::Depth, "depth", "Depth"},
    {Section::Numbers, "numbers", "Numbers"},
    {Section::Boat, "boat", "Boat"},
    {Section::PassOn, "pass-on", "Pass on"},
};

constexpr int kColumns = 4;  // of the sections' grid
constexpr int kRows = (static_cast<int>(std::size(kSections)) + kColumns - 1) / kColumns;

void beginPart(const Ui& ui, const char* name, const Rect& r, ImGuiWindowFlags flags = 0) {
  ImGui::SetNextWindowPos({ui.px(r.left), ui.px(r.top)});
  ImGui::SetNextWindowSize({ui.px(r.width), ui.px(r.height)});
  ImGui::Begin(name, nullptr,
               ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoResize |
                   ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBringToFrontOnFocus | flags);
}

void drawSection(Session& session, Screen& screen) {
  switch (screen.section) {
    case Section::Start:
      return drawStartPanel(session, screen);
    case Section::WhatIf:
      return drawWhatIfPanel(session, screen);
    case Section::Boat:
      return drawBoatPanel(session, screen);
    case Section::PassOn:
      return drawPassOnPanel(session, screen);
    case Section::Hull:
      return session.meshImport().stage() == MeshImport::Stage::None ? drawHullPanel(session, screen)
                                                                     : drawMeshPanel(session, screen);
    case Section::Cylinder:
      return drawCylinderPanel(session, screen);
    case Section::Tank:
      return drawTankPanel(session, screen);
    case Section::Weights:
      return drawWeightsPanel(session, screen);
    case Section::FoamLead:
      return drawFoamLeadPanel(session, screen);
    case Section::Plan:
      return drawPlanPanel(session, screen);
    case Section::Pond:
      return drawPondPanel(session, screen);
    case Section::Water:
      return drawWaterPanel(session, screen);
    case Section::Numbers:
      return drawNumbersPanel(session, screen);
    case Section::Dive:
      return drawDivePanel(session, screen);
    case Section::Heel:
      return drawHeelPanel(session, screen);
    case Section::Pump:
      return drawPumpPanel(session, screen);
    case Section::Depth:
      return drawDepthPanel(session, screen);
  }
}

void drawPanelWindow(Session& session, Screen& screen) {
  Rect where = screen.layout.panel;
  if (screen.pad.isOpen()) {  // the pad takes the place of all that is not the picture and its words
    const Rect& sections = screen.layout.sections;
    const float top = std::min(where.top, sections.top);
    const float bottom = std::max(where.top + where.height, sections.top + sections.height);
    where = {where.left, top, where.width, bottom - top};
    beginPart(screen.ui, "pad", where);
    drawPad(session, screen);
    ImGui::End();
    return;
  }
  // One window for each section, so that each keeps its own place when scrolled.
  const char* id = "start";  // the one page without a button of its own: Boat leads to it
  for (const SectionName& s : kSections)
    if (s.section == screen.section) id = s.id;
  const bool importing = session.meshImport().stage() != MeshImport::Stage::None;
  if (screen.section == Section::Hull && importing) id = "hull-file";
  beginPart(screen.ui, id, where);
  drawNotice(session, screen);
  const bool words = screen.layout.words_in_panel;
  if (words) drawSentence(screen.shown(session), screen);
  drawSection(session, screen);
  if (words) heading(screen.ui, "At the marks");
  if (words) drawMarks(screen.shown(session), screen);
  ImGui::Dummy({0, screen.ui.px(8)});
  ImGui::End();
}

void placeButtons(Layout& l, const WindowSize& w) {
  constexpr float kWholeRow = 480, kTwoRows = 230;  // CSS px that all buttons, or two rows and a boat, take
  using Buttons = Layout::Buttons;
  const bool low = w.height - w.inset_top - w.inset_bottom < kShortWindow;
  const bool narrow = l.picture.width < kWholeRow;
  if (low && !(narrow && l.picture.height - w.inset_top >= kTwoRows))
    l.buttons = narrow ? Buttons::AboveNarrow : Buttons::Above;
  l.covered_above = w.inset_top + 6 + theme::kTouch + 4;
  constexpr float kColours = 28;  // the line that says what the colours mean
  l.covered_below = 6 + kColours;
  if (l.buttons == Buttons::Below) l.covered_below += 6 + theme::kTouch;
  if (l.buttons == Buttons::AboveNarrow) l.covered_below = 6;  // Names covers a corner only
}

float sentenceHeight(std::size_t lines) { return 15 + 21 * static_cast<float>(lines); }

}  // namespace

Layout layOut(const WindowSize& w, float text_scale, std::size_t sentence_lines) {
  const float left = w.inset_left, top = w.inset_top;
  const float right = w.width - w.inset_right, bottom = w.height - w.inset_bottom;
  const float width = right - left, height = bottom - top;
  Layout l;
  l.two_columns = width > height && width >= 640;
  l.words_in_panel = text_scale > 1.25f;
  const bool apart = !l.words_in_panel;
  const float marks = apart ? kMarksHeight : 0;
  const float fill = kFillHeight + (apart ? 0 : 1.25f * theme::kTextSize * text_scale);
  if (l.two_columns) {
    const float side =
        apart ? std::clamp(0.38f * width, width < 700 ? 300.0f : 340.0f, 460.0f) : 0.5f * width;
    const float main = width - side;
    const bool short_window = height < kShortWindow;
    const float sentence =
        apart ? sentenceHeight(std::max<std::size_t>(sentence_lines, main > 1240 ? 1 : 2)) : 0;
    const float picture = height - sentence - marks - fill;
    float y = 0;
    l.picture = {0, 0, left + main, top + picture};
    y = top + picture;
    l.sentence = {left, y, main, sentence};
    l.marks = {left, y + sentence, main, marks};
    l.fill = {left, y + sentence + marks, main, fill + w.inset_bottom};
    const float sections = short_window || !apart ? kSectionsHeight : kRows * (theme::kTouch + 6) + 6;
    l.sections = {left + main, top, side + w.inset_right, sections};
    l.panel = {left + main, top + sections, side + w.inset_right, height - sections + w.inset_bottom};
    placeButtons(l, w);
    return l;
  }
  const float sentence =
      apart ? sentenceHeight(std::max<std::size_t>(sentence_lines, width < 560 ? 3 : 2)) : 0;
  const float picture = std::clamp(0.325f * height, 190.0f, 520.0f);
  l.picture = {0, 0, w.width, top + picture};
  l.sentence = {left, top + picture, width, sentence};
  l.marks = {left, top + picture + sentence, width, marks};
  const float fill_top = bottom - kSectionsHeight - fill;
  const float panel_top = top + picture + sentence + marks;
  l.panel = {left, panel_top, width, std::max(60.0f, fill_top - panel_top)};
  l.fill = {left, fill_top, width, fill};
  l.sections = {left, bottom - kSectionsHeight, width, kSectionsHeight + w.inset_bottom};
  placeButtons(l, w);
  return l;
}

float plotHeight(const Screen& screen, float others) {
  return std::clamp(screen.layout.panel.height - others, 110.0f, 280.0f);
}

void drawSections(Screen& screen) {
  Ui& ui = screen.ui;
  const float gap = 6;
  const Rect& where = screen.layout.sections;
  const bool grid = where.height > 1.5f * kSectionsHeight && screen.layout.two_columns;
  const float width = (where.width - 2 * 10 - (kColumns - 1) * gap) / kColumns;
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(ui.px(gap), ui.px(gap)));
  int i = 0;
  for (const SectionName& s : kSections) {
    const bool here = s.section == (screen.section == Section::Start ? Section::Boat : screen.section);
    if (i > 0 && (!grid || i % kColumns != 0)) ImGui::SameLine();
    if (button(ui, std::string("section.") + s.id, s.label, grid ? width : 0,
               here ? Look::Accent : Look::Quiet)) {
      screen.section = s.section;
      screen.pad.close();
      ImGui::SetScrollHereX(0.5f);
    }
    ++i;
  }
  ImGui::PopStyleVar();
}

void drawNotice(Session& session, Screen& screen) {
  const auto& notice = session.notice();
  if (!notice) return;
  Ui& ui = screen.ui;
  const bool refused = notice->kind == Notice::Kind::Refused;
  const float width = ImGui::GetContentRegionAvail().x, pad = ui.px(10), ok = ui.px(58);
  const std::string text = notice->text;
  const auto lines = wrapLines(text, width - ok - 3 * pad);
  const float text_height = 1.18f * ImGui::GetFontSize() * static_cast<float>(lines.size());
  const float height = std::max(text_height, ui.px(theme::kTouch)) + 2 * pad;
  const ImVec2 low = ImGui::GetCursorScreenPos();
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImVec2 high(low.x + width, low.y + height);
  draw->AddRectFilled(low, high, refused ? theme::kWarningGround : theme::kPlate, ui.px(10));
  draw->AddRect(low, high, refused ? theme::kWarning : theme::kAccent, ui.px(10), 0, ui.px(2));
  drawLines(draw, lines, {low.x + pad, low.y + (height - text_height) / 2},
            refused ? theme::kWarning : theme::kInk);
  ui.controls.push_back({"notice", "status", "Notice", text, {}, {}, {}, ImGui::GetCurrentWindow()->Name});
  ImGui::SetCursorScreenPos({high.x - ok - pad, low.y + (height - ui.px(theme::kTouch)) / 2});
  const bool seen = button(ui, "notice.ok", "OK", 58);
  ImGui::SetCursorScreenPos({low.x, high.y + ui.px(6)});
  ImGui::Dummy({0, 0});
  if (seen) session.dismissNotice();
}

void workOff(Session& session, Screen& screen) {
  if (screen.owed == Screen::Owed::Plan) screen.planner.work(session);
  if (screen.owed == Screen::Owed::Advice) screen.advisor.work(session);
  if (screen.owed == Screen::Owed::Helps) session.studies().tryOneHelp();
  if (screen.owed == Screen::Owed::Mesh) {
    MeshImport& import = session.meshImport();
    const std::string name = import.name();
    const auto done = import.work(session.boat());
    if (done) return;
    if (import.stage() == MeshImport::Stage::Ready) return session.refuse(done.error());  // her trial alone
    session.refuseFile(name, done.error());
    screen.hull.to_top = true;
  }
}

namespace {

/// Sentence and marks, in their places under the picture.
void drawWords(const Session& session, Screen& screen) {
  const Ui& ui = screen.ui;
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(ui.px(kSentenceMargin), ui.px(7)));
  beginPart(ui, "sentence", screen.layout.sentence, kStill);
  drawSentence(session, screen);
  ImGui::End();
  ImGui::PopStyleVar();
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(ui.px(10), ui.px(3)));
  beginPart(ui, "marks", screen.layout.marks, kStill);
  drawMarks(session, screen);
  ImGui::End();
  ImGui::PopStyleVar();
}

}  // namespace

void drawScreen(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  ui.controls.clear();
  ui.items.clear();
  screen.owed = Screen::Owed::Nothing;
  screen.layout = layOut(screen.window, ui.text_scale);
  if (!screen.pass_on.codes.empty()) return drawCode(screen);
  Session& shown = screen.shown(session);
  const std::size_t lines = sentenceLines(shown, ui, screen.layout.sentence.width);
  screen.layout = layOut(screen.window, ui.text_scale, lines);
  if (!ImGui::IsAnyItemActive()) screen.slider_hold = {};
  const Layout& l = screen.layout;
  drawPictureOverlay(shown, screen);
  if (!l.words_in_panel) drawWords(shown, screen);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(ui.px(10), ui.px(6)));
  ImGui::PushStyleColor(ImGuiCol_WindowBg, theme::kDock);
  if (l.two_columns || !screen.pad.isOpen()) {
    beginPart(ui, "fill", l.fill, kStill);
    drawFill(shown, screen);
    ImGui::End();
  }
  if (!screen.pad.isOpen()) {
    beginPart(ui, "sections", l.sections,
              ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_HorizontalScrollbar);
    drawSections(screen);
    ImGui::End();
  }
  ImGui::PopStyleColor();
  ImGui::PopStyleVar();
  drawPanelWindow(session, screen);
  ui.adoptItems();
  ui.deed = {};
}

}  // namespace pondtrim
