// The free-flooding outer hull: every piece of skin.
#include <algorithm>
#include <pondtrim/file/hull_words.hpp>
#include <pondtrim/file/offsets_csv.hpp>
#include <span>
#include <utility>

#include "browser/browser.hpp"
#include "panels/screen.hpp"
#include "session/structure.hpp"
#include "widgets/plot.hpp"

namespace pondtrim {
namespace {

std::string path(std::size_t i, const char* field) { return "skins[" + std::to_string(i) + "]." + field; }
struct Row {
  const char* field;
  const char* label;
  NumberField::Find find;
  Quantity quantity = Quantity::Length;
  bool negative = false;
};

/// The number `member` of a skin's form.
template <class Form, double Form::*member>
double& of(Boat& b, std::size_t i) {
  return std::get<Form>(b.skins[i].form).*member;
}

constexpr Row kSpindleRows[] = {
    {"form.length", "Length", of<SpindleForm, &SpindleForm::length>},
    {"form.breadth", "Beam", of<SpindleForm, &SpindleForm::breadth>},
    {"form.height", "Height", of<SpindleForm, &SpindleForm::height>},
    {"form.nose_length", "Nose length", of<SpindleForm, &SpindleForm::nose_length>},
    {"form.tail_length", "Tail length", of<SpindleForm, &SpindleForm::tail_length>},
    {"form.section_power", "Section: 2 round, 8 boxy", of<SpindleForm, &SpindleForm::section_power>,
     Quantity::Number},
    {"form.nose_power", "Nose, fullness at shoulder", of<SpindleForm, &SpindleForm::nose_power>,
     Quantity::Number},
    {"form.nose_root", "Nose: 1 pointed, 2 round", of<SpindleForm, &SpindleForm::nose_root>,
     Quantity::Number},
    {"form.nose_lift", "Nose: +1 top level, \u22121 keel level", of<SpindleForm, &SpindleForm::nose_lift>,
     Quantity::Number, true},
    {"form.tail_power", "Tail, fullness at shoulder", of<SpindleForm, &SpindleForm::tail_power>,
     Quantity::Number},
    {"form.tail_root", "Tail: 1 pointed, 2 round", of<SpindleForm, &SpindleForm::tail_root>,
     Quantity::Number},
    {"form.tail_lift", "Tail: +1 top level, \u22121 keel level", of<SpindleForm, &SpindleForm::tail_lift>,
     Quantity::Number, true},
};
constexpr Row kSailRows[] = {
    {"form.length", "Length", of<SailForm, &SailForm::length>},
    {"form.breadth", "Breadth", of<SailForm, &SailForm::breadth>},
    {"form.height", "Height", of<SailForm, &SailForm::height>},
    {"form.top_scale", "Top over foot", of<SailForm, &SailForm::top_scale>, Quantity::Number},
    {"form.rake", "Rake", of<SailForm, &SailForm::rake>, Quantity::Length, true},
    {"form.shoulder", "Widest at, share from fore", of<SailForm, &SailForm::shoulder>, Quantity::Number},
};
constexpr Row kSuboffRows[] = {
    {"form.length", "Length", of<SuboffForm, &SuboffForm::length>},
    {"form.diameter", "Diameter", of<SuboffForm, &SuboffForm::diameter>},
    {"form.nose_length", "Nose length", of<SuboffForm, &SuboffForm::nose_length>},
    {"form.tail_length", "Tail length", of<SuboffForm, &SuboffForm::tail_length>},
};
constexpr Row kMyringRows[] = {
    {"form.diameter", "Diameter", of<MyringForm, &MyringForm::diameter>},
    {"form.nose_length", "Nose length", of<MyringForm, &MyringForm::nose_length>},
    {"form.middle_length", "Middle length", of<MyringForm, &MyringForm::middle_length>},
    {"form.tail_length", "Tail length", of<MyringForm, &MyringForm::tail_length>},
    {"form.nose_power", "Nose: 2 ellipse, more is fuller", of<MyringForm, &MyringForm::nose_power>,
     Quantity::Number},
    {"form.tail_angle", "Angle at the tail's point", of<MyringForm, &MyringForm::tail_angle>,
     Quantity::Angle},
    {"form.nose_offset", "Nose cut short by", of<MyringForm, &MyringForm::nose_offset>},
    {"form.tail_offset", "Tail cut short by", of<MyringForm, &MyringForm::tail_offset>},
};
constexpr Row kCasingRows[] = {
    {"form.length", "Length", of<CasingForm, &CasingForm::length>},
    {"form.breadth", "Breadth at the foot", of<CasingForm, &CasingForm::breadth>},
    {"form.height", "Height", of<CasingForm, &CasingForm::height>},
    {"form.nose_length", "Fore end runs out over", of<CasingForm, &CasingForm::nose_length>},
    {"form.tail_length", "Aft end runs out over", of<CasingForm, &CasingForm::tail_length>},
    {"form.section_power", "Section: 2 round, 8 flat on top", of<CasingForm, &CasingForm::section_power>,
     Quantity::Number},
    {"form.nose_root", "Fore end: 1 pointed, 2 round", of<CasingForm, &CasingForm::nose_root>,
     Quantity::Number},
    {"form.tail_root", "Aft end: 1 pointed, 2 round", of<CasingForm, &CasingForm::tail_root>,
     Quantity::Number},
};
constexpr Row kPlateRows[] = {
    {"form.length", "Length at the root", of<PlateForm, &PlateForm::length>},
    {"form.tip_length", "Length at the tip", of<PlateForm, &PlateForm::tip_length>},
    {"form.span", "Span, root to tip", of<PlateForm, &PlateForm::span>},
    {"form.rake", "Tip aft of root by", of<PlateForm, &PlateForm::rake>, Quantity::Length, true},
    {"form.slant", "Slant: 0 level, 90 up, \u221290 down", of<PlateForm, &PlateForm::slant>, Quantity::Angle,
     true},
};
Vec3& sizeOf(Boat& b, std::size_t i) { return std::get<MeshForm>(b.skins[i].form).size; }
constexpr Row kMeshRows[] = {
    {"form.size.x", "Length", [](Boat& b, std::size_t i) -> double& { return sizeOf(b, i).x; }},
    {"form.size.y", "Beam", [](Boat& b, std::size_t i) -> double& { return sizeOf(b, i).y; }},
    {"form.size.z", "Height", [](Boat& b, std::size_t i) -> double& { return sizeOf(b, i).z; }},
};
constexpr Row kPlaceRows[] = {
    {"position.x", "Place along", [](Boat& b, std::size_t i) -> double& { return b.skins[i].position.x; },
     Quantity::Length, true},
    {"position.y", "Place to port", [](Boat& b, std::size_t i) -> double& { return b.skins[i].position.y; },
     Quantity::Length, true},
    {"position.z", "Place up", [](Boat& b, std::size_t i) -> double& { return b.skins[i].position.z; },
     Quantity::Length, true},
};

void drawRows(Session& session, Screen& screen, std::size_t i, std::span<const Row> rows) {
  for (const Row& row : rows) {
    NumberField field{path(i, row.field), row.label, row.quantity, i};
    field.find = row.find;
    field.negative = row.negative;
    fieldRow(session, screen, field);
  }
}

std::span<const Row> rowsOf(const SkinForm& form) {
  static constexpr std::span<const Row> kAll[] = {kSpindleRows, kSailRows,  kSuboffRows, kMyringRows,
                                                  kCasingRows,  kPlateRows, {},          kMeshRows};
  static_assert(std::size(kAll) == std::variant_size_v<SkinForm>);  // in its order; a table has a dialog
  return kAll[form.index()];
}

/// Which kind of hull, of a piece that is one.
void drawKind(Session& session, Screen& screen, std::size_t i) {
  const SkinForm& form = session.boat().skins[i].form;
  if (hullSize(form).x <= 0 || std::holds_alternative<MeshForm>(form)) return;
  static constexpr NewSkin kKinds[] = {NewSkin::Spindle, NewSkin::Suboff, NewSkin::Myring, NewSkin::Offsets};
  const int now = std::holds_alternative<SuboffForm>(form)    ? 1
                  : std::holds_alternative<MyringForm>(form)  ? 2
                  : std::holds_alternative<OffsetsForm>(form) ? 3
                                                              : 0;
  const int chosen = chooser(
      screen.ui, path(i, "form.kind"),
      {{"spindle", "Spindle"}, {"suboff", "SUBOFF"}, {"myring", "Myring"}, {"offsets", "Offsets"}}, now);
  if (chosen != now) (void)session.edit(withHullForm(session.boat(), i, kKinds[chosen]));
}

/// Opens the page's dialog with the table of a hull made of offsets.
void drawTable(Session& session, Screen& screen, std::size_t i) {
  const auto* table = std::get_if<OffsetsForm>(&session.boat().skins[i].form);
  if (table == nullptr) return;
  if (button(screen.ui, path(i, "form.stations"), "Type or paste the table", 0, Look::Primary)) {
    screen.hull.asked_skin = i;
    browser::askTable("Offsets of " + session.boat().skins[i].name,
                      file::writeOffsetsCsv(*table, session.units()));
  }
}

/// Works out anew what hangs on the skin, when it has changed.
void keepUp(HullView& view, const Skin& skin) {
  if (view.skin == skin) return;
  view.skin = skin;
  view.room = roomInside(skin);
  view.areas = sectionalAreas(skin, 61);
  const auto* table = std::get_if<OffsetsForm>(&skin.form);
  view.fairing = table != nullptr ? std::optional(fairingOf(*table)) : std::nullopt;
}

void drawAreas(Session& session, Screen& screen, std::size_t i) {
  HullView& view = screen.hull;
  if (view.areas.empty()) return;
  PlotSpec spec;
  spec.name = path(i, "areas");
  spec.title = "Area of the sections";
  const double from = view.areas.front().x, to = view.areas.back().x;
  spec.x = {"from aft", Quantity::Length, from, to};
  spec.y = {"", Quantity::Area, 0, 0};
  PlotLine line{"area", Stroke::Solid, {}};
  for (const SectionArea& s : view.areas) line.points.push_back({s.x, s.area});
  spec.lines.push_back(std::move(line));
  view.cursor = std::clamp(view.cursor, from, to);
  spec.cursor = view.cursor;
  spec.height_css = 130;
  if (const auto x = plot(screen.ui, session.units(), spec)) view.cursor = *x;
}

/// What the skin weighs and holds.
void drawNumbers(Session& session, Screen& screen, std::size_t i) {
  const UnitSet& units = session.units();
  const SkinBody& body = session.model().skins[i];
  keepUp(screen.hull, body.skin);
  paragraph(screen.ui, file::skinMassSentence(skinMass(body), units), theme::kQuietInk);
  const HullView& view = screen.hull;
  if (view.fairing)
    paragraph(screen.ui, file::fairingSentence(std::get<OffsetsForm>(body.skin.form), *view.fairing, units));
  else if (view.room.volume > 0)
    paragraph(screen.ui,
              "Holds " + valueText(view.room.volume, Quantity::Volume, units) + ", their middle is " +
                  valueText(view.room.centroid.x, Quantity::Length, units) + " from aft.",
              theme::kQuietInk);
  drawAreas(session, screen, i);
}

constexpr Row kOpeningRows[] = {
    {"position.x", "Along", [](Boat& b, std::size_t n) -> double& { return b.openings[n].position.x; },
     Quantity::Length, true},
    {"position.y", "To port", [](Boat& b, std::size_t n) -> double& { return b.openings[n].position.y; },
     Quantity::Length, true},
    {"position.z", "Up", [](Boat& b, std::size_t n) -> double& { return b.openings[n].position.z; },
     Quantity::Length, true},
};

/// False when it has gone.
bool drawOpening(Session& session, Screen& screen, std::size_t n) {
  Ui& ui = screen.ui;
  const std::string at = "openings[" + std::to_string(n) + "].";
  const bool open = screen.hull.opening == n;
  std::string name = session.boat().openings[n].name;
  if (button(ui, at + "open", (open ? "\u2212 " : "+ ") + name, 0, open ? Look::Accent : Look::Quiet))
    screen.hull.opening = open ? std::nullopt : std::optional(n);
  if (!open) return true;
  if (textField(ui, at + "name", "Name of the opening", name)) {
    Boat changed = session.boat();
    changed.openings[n].name = name;
    (void)session.edit(changed);
  }
  for (const Row& row : kOpeningRows) {
    NumberField field{at + row.field, row.label, row.quantity, n};
    field.find = row.find;
    field.negative = true;
    fieldRow(session, screen, field);
  }
  NumberField diameter{at + "diameter", "Diameter", Quantity::Length, n};
  diameter.find_optional = [](Boat& b, std::size_t k) -> std::optional<double>& {
    return b.openings[k].diameter;
  };
  fieldRow(session, screen, diameter);
  if (!button(ui, at + "remove", "Remove this opening")) return true;
  screen.hull.opening.reset();
  return !session.edit(withoutOpening(session.boat(), n));
}

void drawOpenings(Session& session, Screen& screen, std::size_t i) {
  heading(screen.ui, "Openings, where air leaves");
  const std::string skin = session.boat().skins[i].name;
  for (std::size_t n = 0; n < session.boat().openings.size(); ++n)
    if (session.boat().openings[n].skin == skin && !drawOpening(session, screen, n)) break;
  const std::size_t count = session.boat().openings.size();
  if (button(screen.ui, path(i, "add.opening"), "+ Opening") &&
      session.edit(withNewOpening(session.boat(), i)))
    screen.hull.opening = count;
}

/// Single or a pair.
void drawMirrored(Session& session, Screen& screen, std::size_t i) {
  const auto* plate = std::get_if<PlateForm>(&session.boat().skins[i].form);
  if (plate == nullptr) return;
  const bool now = plate->mirrored;
  if (button(screen.ui, path(i, "form.mirrored"), now ? "Pair \u2713" : "Pair", 0,
             now ? Look::Accent : Look::Plain)) {
    Boat changed = session.boat();
    std::get<PlateForm>(changed.skins[i].form).mirrored = !now;
    (void)session.edit(changed);
  }
  if (now)
    paragraph(screen.ui, "A pair, the other at the far side: a mass is that of both.", theme::kQuietInk);
}

double usedMass(const Session& session, std::size_t i) {
  for (const Weight& w : session.model().weights)
    if (w.source.owner == Owner::Skin && w.source.index == i) return w.mass;
  return 0.0;
}

void drawSkin(Session& session, Screen& screen, std::size_t i) {
  const bool open = session.selection() == Selection{Owner::Skin, i};
  NumberField mass{path(i, "mass"), session.boat().skins[i].name, Quantity::Mass, i};
  mass.find_optional = [](Boat& b, std::size_t n) -> std::optional<double>& { return b.skins[n].mass; };
  mass.stand_in = usedMass(session, i);
  mass.high = roundAbove(mass.stand_in, 0.05);
  if (fieldRow(session, screen, mass, {true, open, 0})) {
    session.select(open ? std::nullopt : std::optional(Selection{Owner::Skin, i}));
    return;
  }
  NumberField thickness{path(i, "thickness"), "Skin thickness", Quantity::Length, i};
  thickness.find = [](Boat& b, std::size_t n) -> double& { return b.skins[n].thickness; };
  thickness.step = 0.0001;
  fieldRow(session, screen, thickness);
  if (!open) return;
  NumberField density{path(i, "density"), "Density", Quantity::Density, i};
  density.find_optional = [](Boat& b, std::size_t n) -> std::optional<double>& { return b.skins[n].density; };
  density.stand_in = usedMass(session, i) / session.model().skins[i].cut.whole().volume;
  fieldRow(session, screen, density);
  drawKind(session, screen, i);
  drawRows(session, screen, i, rowsOf(session.boat().skins[i].form));
  drawTable(session, screen, i);
  drawMirrored(session, screen, i);
  drawRows(session, screen, i, kPlaceRows);
  drawNumbers(session, screen, i);
  if (!std::holds_alternative<PlateForm>(session.boat().skins[i].form)) drawOpenings(session, screen, i);
  std::string name = session.boat().skins[i].name;
  if (textField(screen.ui, path(i, "name"), "Name", name))
    (void)session.edit(withName(session.boat(), {Owner::Skin, i}, name));
  if (button(screen.ui, path(i, "remove"), "Remove this piece") &&
      session.edit(withoutSkin(session.boat(), i)))
    session.select({});
}

/// Air that stays with the tank as the slider stands.
void drawAir(Session& session, Screen& screen) {
  const Boat& boat = session.boat();
  if (boat.openings.empty()) {
    paragraph(screen.ui, "List the openings of a piece, and this page says where air would stay in it.",
              theme::kQuietInk);
    return;
  }
  HullView& view = screen.hull;
  const double fill = session.fillShare();
  if (view.air_of != session.revision() || view.air_fill != fill) {
    view.air = trappedAir(boat, session.model(), session.atFill().rest.plane);
    view.air_of = session.revision();
    view.air_fill = fill;
  }
  for (const AirPocket& pocket : view.air)
    paragraph(screen.ui, file::airSentence(boat, pocket, session.units()), theme::kWarning);
  if (view.air.empty())
    paragraph(screen.ui, "As she lies now, no air stays under water in the pieces whose openings are listed.",
              theme::kQuietInk);
}

/// The painted line as ways along the skin, for masking tape.
void drawLine(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  HullView& view = screen.hull;
  if (button(ui, "line",
             view.line_open ? "\u2212 Painted line round the hull" : "+ Painted line round the hull", 0,
             view.line_open ? Look::Accent : Look::Quiet))
    view.line_open = !view.line_open;
  if (!view.line_open) return;
  const UnitSet& units = session.units();
  const auto line = paintedLine(session.boat(), file::lineStep(session.boat(), units));
  if (line.empty()) {
    paragraph(ui, "No hull piece is cut by the painted line.");
    return;
  }
  paragraph(ui, "With a tape along the skin, at so far from aft: down from the top, and up from the keel.",
            theme::kQuietInk);
  for (const LinePoint& p : line)
    paragraph(ui, "At " + valueText(p.x, Quantity::Length, units) + ": down " +
                      valueText(p.from_deck, Quantity::Length, units) + ", up " +
                      valueText(p.from_keel, Quantity::Length, units));
}

}  // namespace

void drawHullPanel(Session& session, Screen& screen) {
  if (std::exchange(screen.hull.to_top, false)) ImGui::SetScrollY(0);
  paragraph(screen.ui, "The outer hull floods freely: it only displaces what its skin takes up.",
            theme::kQuietInk);
  drawAir(session, screen);
  for (std::size_t i = 0; i < session.boat().skins.size(); ++i) drawSkin(session, screen, i);
  drawLine(session, screen);
  const std::size_t count = session.boat().skins.size();
  // Each a piece with usual sizes, to be changed; two in a row.
  struct New {
    const char* name;
    const char* label;
    NewSkin piece;
  };
  static constexpr New kNew[] = {{"add.hull", "+ Hull piece", NewSkin::Spindle},
                                 {"add.suboff", "+ SUBOFF hull", NewSkin::Suboff},
                                 {"add.myring", "+ Myring hull", NewSkin::Myring},
                                 {"add.casing", "+ Casing", NewSkin::Casing},
                                 {"add.sail", "+ Sail", NewSkin::Sail},
                                 {"add.keel", "+ Keel", NewSkin::Keel},
                                 {"add.planes", "+ Planes", NewSkin::Planes},
                                 {"add.skeg", "+ Skeg or rudder", NewSkin::Skeg}};
  heading(screen.ui, "Add");
  if (button(screen.ui, "add.mesh", "Open a hull drawn elsewhere (STL, OBJ)",
             ImGui::GetContentRegionAvail().x / screen.ui.ratio, Look::Primary))
    screen.wants_mesh = true;
  const float width = (ImGui::GetContentRegionAvail().x / screen.ui.ratio - 8) / 2;
  int n = 0;
  for (const New& add : kNew) {
    if (n++ % 2 == 1) ImGui::SameLine(0, screen.ui.px(8));
    if (button(screen.ui, add.name, add.label, width) && session.edit(withNewSkin(session.boat(), add.piece)))
      session.select(Selection{Owner::Skin, count});
  }
}

}  // namespace pondtrim
