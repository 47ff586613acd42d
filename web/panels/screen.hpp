#pragma once
// What is on the screen besides the boat: which section is open, how the picture is looked at, what is typed.
#include <optional>
#include <pondtrim/file/compare.hpp>
#include <pondtrim/file/link.hpp>
#include <pondtrim/hull.hpp>

#include "panels/fields.hpp"
#include "scene/scene.hpp"
#include "session/advisor.hpp"
#include "session/dive_trial.hpp"
#include "session/link_boat.hpp"
#include "session/planner.hpp"
#include "session/qr_codes.hpp"
#include "session/session.hpp"
#include "widgets/number_pad.hpp"
#include "widgets/ui.hpp"

namespace pondtrim {

/// CSS px.
struct Rect {
  float left = 0, top = 0, width = 0, height = 0;
  [[nodiscard]] bool contains(glm::vec2 p) const {
    return p.x >= left && p.y >= top && p.x < left + width && p.y < top + height;
  }
};

/// The window and the parts of it that the phone covers (notch, home bar). CSS px.
struct WindowSize {
  float width = 390, height = 700;
  float inset_left = 0, inset_top = 0, inset_right = 0, inset_bottom = 0;
};

/// One column on an upright phone; picture left and panels right when there is more width than height.
struct Layout {
  bool two_columns = false;
  /// The picture's buttons: view and names under the boat; all in the row over her; or, where that is too
  /// narrow, without her name and the meaning of the colours, and with Names in a corner under her.
  enum class Buttons { Below, Above, AboveNarrow } buttons = Buttons::Below;
  float covered_above = 0, covered_below = 0;  ///< of the picture, by its controls
  bool words_in_panel = false;  ///< large letters: the sentence heads the panel, the marks end it
  Rect picture, sentence, marks, fill, panel, sections;
};
/// A window this low (a phone on its side) has its view buttons at the top of the picture, if there is room
/// [CSS px].
constexpr float kShortWindow = 520;
/// `sentence_lines`: how many the sentence takes in a column so wide; there is always room for the usual
/// number. `text_scale`: Ui::text_scale.
[[nodiscard]] Layout layOut(const WindowSize& window, float text_scale, std::size_t sentence_lines = 0);

enum class Section {
  Start,
  WhatIf,
  Boat,
  PassOn,
  Plan,
  Pond,
  Hull,
  Cylinder,
  Tank,
  Weights,
  FoamLead,
  Water,
  Numbers,
  Dive,
  Heel,
  Pump,
  Depth
};

/// Which plot of a study is open, and where its cursor stands when that is not the tank slider. SI.
struct StudyView {
  int dive_plot = 0, pump_plot = 0;
  bool to_port = false;
  double heel = 30 * kPi / 180;
  double time = 0.0;
  double depth = 0.0;
  double stability = 0.0;  ///< 0: the least
};

/// Which reading of the pond log is open, and what else is.
struct PondView {
  std::optional<std::size_t> open;
  bool more = false, why = false, anyway = false;
  int chart = 0;
  std::optional<double> dip;   ///< cursor of the chart; empty: at the last dip
  std::vector<bool> not_done;  ///< of the next changes...
  std::uint64_t of = 0;        ///< ...of the boat of this revision
};

/// Where a finger last was on an equilibrium polygon: shares of its width and height.
struct PolygonTouch {
  std::string name;
  float across = 0, up = 0;
};

/// What goes along when the boat is passed on, the codes being shown, and a comparison with a boat of the
/// shelf.
struct PassOnView {
  file::LinkContents contents;
  std::vector<QrPicture> codes;  ///< empty: none is shown
  int code = 0;
  std::string compared;  ///< the boat of the shelf that is compared with
  std::vector<file::Difference> differences;
  std::uint64_t compared_revision = 0;
  std::string compared_text;
  std::uint64_t link_revision = 0;   ///< the boat that these are of...
  file::LinkContents link_contents;  ///< ...and what went along
  LinkBoat link, in_codes;
};

/// What the open pad has done: all of it is one step of undo, and Cancel takes it back.
struct PadWork {
  std::uint64_t gesture = 0;
  std::optional<double> before;             ///< the value in hand when the pad opened [SI]
  std::optional<std::uint64_t> stepped_to;  ///< the session's revision after the last stepping key
};

/// What the numbers typed for a new boat come to, worked out when one of them changes.
struct StartView {
  std::optional<RoughBoat> of;
  Preferences told_in;  ///< the units of `answer`
  std::string answer;
  bool makes_boat = false;
  std::optional<Session> described;  ///< she, in a session of her own; the last that the numbers made
  std::uint64_t made = 0;            ///< how many they have made
  double tank = 0, skin = 0;         ///< what stands in for those not given [m^3, kg]
  bool full_size = false;            ///< the numbers asked for are those of the boat that she is a model of
};

/// What the page Hull works out of a skin and keeps while that does not change, and what of it is open.
struct HullView {
  std::optional<Skin> skin;
  Room room;
  std::vector<SectionArea> areas;
  std::optional<Fairing> fairing;
  double cursor = 0.0;  ///< of the curve of areas
  std::vector<AirPocket> air;
  std::uint64_t air_of = 0;  ///< the boat's revision...
  double air_fill = -1.0;    ///< ...and the share of the tank that it was worked out for
  bool line_open = false;
  std::optional<std::size_t> opening;  ///< the one whose numbers are in sight
  std::size_t asked_skin = 0;          ///< whose table the page's dialog holds
  bool to_top = false;                 ///< where something is said
};

/// A handle of the hull being dragged; the picture keeps its scale meanwhile.
struct HandleDrag {
  std::string name;      ///< empty: none
  glm::vec2 from{0.0f};  ///< where the finger came down [device px]
  double value = 0.0;    ///< the number then [SI]
  Vec3 boat_size{0.0};
};

struct Screen {
  Ui ui;
  WindowSize window;
  Layout layout;
  Section section = Section::FoamLead;
  Camera camera;
  bool names = false;
  StudyView study;
  DiveTrial trial;
  PassOnView pass_on;
  StartView start;
  HullView hull;
  HandleDrag handle_drag;
  Planner planner;
  PondView pond;
  Advisor advisor;
  PolygonTouch polygon_touch;
  bool to_selected = false;  ///< the part chosen in the picture, or just added, is to come into sight
  bool places_open = false;
  bool explain = false;  ///< each number with a sentence of its own
  NumberPad pad;
  std::optional<NumberField> asked;  ///< what the pad is typing for
  PadWork pad_work;
  SliderHold slider_hold;
  Scene scene;                ///< as last drawn
  bool loose_store = false;   ///< the browser does not promise to keep what it holds for us
  std::string leaving_shelf;  ///< the boat that a second tap takes off the shelf
  /// Work that a panel waits for; it is done between frames, when no finger is down.
  enum class Owed { Nothing, Plan, Advice, Helps, Mesh } owed = Owed::Nothing;
  bool wants_file = false;  ///< the page must open its file chooser when this touch ends...
  bool wants_mesh = false;  ///< ...for a mesh

  /// A boat that is only described so far has picture, words and tank slider while her page is open.
  [[nodiscard]] bool showsDescribed() const { return section == Section::Start && start.described; }
  /// The boat that picture, words and tank slider are about.
  [[nodiscard]] Session& shown(Session& in_hand) { return showsDescribed() ? *start.described : in_hand; }
};

/// Does one piece of what a panel waits for.
void workOff(Session& session, Screen& screen);

/// Everything but the picture's bodies and lines, which the renderer draws below.
void drawScreen(Session& session, Screen& screen);

// Parts of the screen, each in its own window's rectangle.
void drawPictureOverlay(Session& session, Screen& screen);
void drawSentence(const Session& session, Screen& screen);
constexpr float kSentenceMargin = 14;  // CSS px
/// Lines that the sentence takes in a part so wide [CSS px].
[[nodiscard]] std::size_t sentenceLines(const Session& session, const Ui& ui, float width);
void drawMarks(const Session& session, Screen& screen);
void drawFill(Session& session, Screen& screen);
void drawSections(Screen& screen);
void drawNotice(Session& session, Screen& screen);

// Sections.
void drawWhatIfPanel(Session& session, Screen& screen);
void drawStartPanel(Session& session, Screen& screen);
void drawBoatPanel(Session& session, Screen& screen);
void drawHullPanel(Session& session, Screen& screen);
/// Instead of that page, while a hull is on its way from a file.
void drawMeshPanel(Session& session, Screen& screen);
/// That hull as it would lie, beside the boat in hand.
void drawMeshSketch(const Session& session, Screen& screen);
/// Over the picture, while that page is open.
void drawHullHandles(Session& session, Screen& screen);
void drawCylinderPanel(Session& session, Screen& screen);
void drawTankPanel(Session& session, Screen& screen);
void drawWeightsPanel(Session& session, Screen& screen);
void drawFoamLeadPanel(Session& session, Screen& screen);
void drawPlanPanel(Session& session, Screen& screen);
void drawPondPanel(Session& session, Screen& screen);
void drawReading(Session& session, Screen& screen, std::size_t index);
/// The line of the reading in hand, over the picture, whose water is what was expected; false: there is none.
bool drawReadLine(const Session& session, const Screen& screen);
void drawPlaces(Session& session, Screen& screen);
void drawAims(Session& session, Screen& screen);
void drawWaterPanel(Session& session, Screen& screen);
void drawNumbersPanel(const Session& session, Screen& screen);
void drawDivePanel(Session& session, Screen& screen);
void drawHeelPanel(Session& session, Screen& screen);
void drawPumpPanel(Session& session, Screen& screen);
void drawDepthPanel(Session& session, Screen& screen);
void drawPassOnPanel(Session& session, Screen& screen);
/// The code that another phone reads, over the whole screen.
void drawCode(Screen& screen);
/// CSS px of paper for a plot that shares its panel's first sight with `others` CSS px.
[[nodiscard]] float plotHeight(const Screen& screen, float others);
/// How deep she is to go.
void drawDepthRow(Session& session, Screen& screen);

}  // namespace pondtrim
