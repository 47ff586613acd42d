// A boat of one's own from a dozen numbers, and the numbers of a model from those of a full-size boat.
#include <algorithm>
#include <cmath>
#include <pondtrim/model.hpp>

#include "panels/screen.hpp"
#include "session/shelf.hpp"

namespace pondtrim {
namespace {

// One reader and one writer for each number typed, by its member.
template <double RoughBoat::*kMember>
double roughNumber(const Session& session) {
  return session.rough().*kMember;
}
template <double RoughBoat::*kMember>
Result<void> setRoughNumber(Session& session, double value) {
  RoughBoat rough = session.rough();
  rough.*kMember = value;
  session.setRough(rough);
  return {};
}
template <std::optional<double> RoughBoat::*kMember>
std::optional<double> roughOptional(const Session& session) {
  return session.rough().*kMember;
}
template <std::optional<double> RoughBoat::*kMember>
Result<void> setRoughOptional(Session& session, double value) {
  RoughBoat rough = session.rough();
  rough.*kMember = value > 0 ? std::optional(value) : std::nullopt;
  session.setRough(rough);
  return {};
}
template <double FullSize::*kMember>
double fullNumber(const Session& session) {
  return session.fullSize().*kMember;
}
template <double FullSize::*kMember>
Result<void> setFullNumber(Session& session, double value) {
  FullSize full = session.fullSize();
  full.*kMember = value;
  session.setFullSize(full);
  return {};
}
constexpr double kTonne = 1000;
std::optional<double> tonnes(const Session& session) {
  const auto& mass = session.fullSize().displacement;
  return mass ? std::optional(*mass / kTonne) : std::nullopt;
}
Result<void> setTonnes(Session& session, double value) {
  FullSize full = session.fullSize();
  full.displacement = value > 0 ? std::optional(value * kTonne) : std::nullopt;
  session.setFullSize(full);
  return {};
}

struct Row {
  const char* path;
  const char* label;
  NumberField::Read read;
  NumberField::Write write;
  Quantity quantity = Quantity::Length;
};

void drawRow(Session& session, Screen& screen, const Row& row) {
  NumberField field{row.path, row.label, row.quantity, 0};
  field.read = row.read;
  field.write = row.write;
  fieldRow(session, screen, field);
}

template <std::optional<double> RoughBoat::*kMember>
void drawOptional(Session& session, Screen& screen, const char* path, const char* label, Quantity quantity,
                  double stand_in) {
  NumberField field{path, label, quantity, 0};
  field.read_optional = roughOptional<kMember>;
  field.write = setRoughOptional<kMember>;
  field.stand_in = stand_in;
  fieldRow(session, screen, field);
}

constexpr Row kHull[] = {
    {"start.length", "Hull length", roughNumber<&RoughBoat::length>, setRoughNumber<&RoughBoat::length>},
    {"start.breadth", "Beam", roughNumber<&RoughBoat::breadth>, setRoughNumber<&RoughBoat::breadth>},
    {"start.height", "Keel to deck", roughNumber<&RoughBoat::height>, setRoughNumber<&RoughBoat::height>},
    {"start.line_height", "Keel to painted line", roughNumber<&RoughBoat::line_height>,
     setRoughNumber<&RoughBoat::line_height>},
    {"start.sail.height", "Sail over the deck", roughNumber<&RoughBoat::sail_height>,
     setRoughNumber<&RoughBoat::sail_height>},
    {"start.sail_showing", "Wanted: sail out when dived", roughNumber<&RoughBoat::sail_showing>,
     setRoughNumber<&RoughBoat::sail_showing>},
    {"start.skin.thickness", "Skin thickness", roughNumber<&RoughBoat::skin_thickness>,
     setRoughNumber<&RoughBoat::skin_thickness>}};
constexpr Row kInside[] = {
    {"start.cylinder.length", "Cylinder length", roughNumber<&RoughBoat::cylinder_length>,
     setRoughNumber<&RoughBoat::cylinder_length>},
    {"start.cylinder.diameter", "Cylinder diameter", roughNumber<&RoughBoat::cylinder_diameter>,
     setRoughNumber<&RoughBoat::cylinder_diameter>},
    {"start.cylinder.wall_thickness", "Cylinder wall", roughNumber<&RoughBoat::cylinder_wall>,
     setRoughNumber<&RoughBoat::cylinder_wall>},
    {"start.battery.mass", "Battery", roughNumber<&RoughBoat::battery_mass>,
     setRoughNumber<&RoughBoat::battery_mass>, Quantity::Mass}};
constexpr Row kScale[] = {{"scale.scale", "Scale, 1 to", fullNumber<&FullSize::scale>,
                           setFullNumber<&FullSize::scale>, Quantity::Number},
                          {"scale.length", "Full-size length", fullNumber<&FullSize::length>,
                           setFullNumber<&FullSize::length>, Quantity::Depth},
                          {"scale.breadth", "Full-size beam", fullNumber<&FullSize::breadth>,
                           setFullNumber<&FullSize::breadth>, Quantity::Depth},
                          {"scale.height", "Full-size keel to deck", fullNumber<&FullSize::height>,
                           setFullNumber<&FullSize::height>, Quantity::Depth},
                          {"scale.draft", "Full-size draft, surfaced", fullNumber<&FullSize::draft>,
                           setFullNumber<&FullSize::draft>, Quantity::Depth}};

struct Material {
  const char* id;
  const char* label;
  double density;  ///< presets/materials.json
};
constexpr Material kMaterials[] = {
    {"abs", "ABS", 1050}, {"printed", "PLA", 1240}, {"glass", "Glass fibre", 1500}};

void drawMaterial(Session& session, Screen& screen) {
  int now = -1;
  std::vector<Choice> choices;
  for (const Material& m : kMaterials) {
    if (m.density == session.rough().skin_density) now = static_cast<int>(choices.size());
    choices.push_back({m.id, m.label});
  }
  const int chosen = chooser(screen.ui, "start.material", choices, now);
  if (chosen == now) return;
  RoughBoat rough = session.rough();
  rough.skin_density = kMaterials[chosen].density;
  session.setRough(rough);
}

void drawWater(Session& session, Screen& screen) {
  constexpr double kSea = 35.0;  // g/kg, the usual round figure for the open sea
  RoughBoat rough = session.rough();
  const int now = rough.water.salinity > 0 ? 1 : 0;
  const int chosen = chooser(screen.ui, "start.water", {{"fresh", "Fresh water"}, {"sea", "Sea water"}}, now);
  if (chosen == now) return;
  rough.water.salinity = chosen == 1 ? kSea : 0.0;
  session.setRough(rough);
}

/// What the numbers come to, and what stands in for those not given.
void workOut(const Session& session, StartView& view, const RoughBoat& rough) {
  if (view.of == rough && view.told_in == session.preferences()) return;
  view.of = rough;
  view.told_in = session.preferences();
  const auto boat = estimateBoat(rough);
  auto described = boat ? Session::start({*boat, {}, {}}, view.told_in) : Result<Session>(fail(boat.error()));
  view.makes_boat = described.has_value();
  if (!view.makes_boat) {
    view.answer = session.inWords(described.error());
    return;
  }
  if (view.described) described->setFillShare(view.described->fillShare());
  view.described = std::move(*described);
  ++view.made;
  const Model& model = view.described->model();
  const UnitSet& units = session.units();
  view.tank = model.tank_capacity;
  for (const Weight& w : model.weights)
    if (w.source.owner == Owner::Skin && w.source.index == 0) view.skin = w.mass;
  const double line =
      *waterDensity(boat->water) * cutModel(model, {Vec3(0, 0, 1), boat->marks.line_height}).volume;
  const double room = line - model.mass;
  view.answer = "She weighs about " + valueText(model.mass, Quantity::Mass, units, 0) +
                " without foam and lead; up to her line she carries " +
                valueText(line, Quantity::Mass, units, 0) + (room >= 0 ? ": about " : ". She is ") +
                valueText(std::abs(room), Quantity::Mass, units, 0) +
                (room >= 0 ? " are left for lead." : " too heavy without foam.") +
                " The picture is hers, as she would float like that.";
}

void build(Session& session, Screen& screen) {
  const auto boat = estimateBoat(session.rough());
  if (!boat) return session.refuse(boat.error());
  if (!openAnother(session, {*boat, {}, {}})) return;
  screen.section = Section::Plan;
  session.say(
      "Here she is, without foam and lead: the plan says what to add. Weights with \u2248 are estimates "
      "until "
      "you have weighed them.");
}

void drawScale(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  for (const Row& row : kScale) drawRow(session, screen, row);
  NumberField weight{"scale.displacement", "Displacement, surfaced [t]", Quantity::Number, 0};
  weight.read_optional = tonnes;
  weight.write = setTonnes;
  const FullSize& full = session.fullSize();
  weight.stand_in = 1.026 * full.fullness * full.length * full.breadth * full.draft;
  fieldRow(session, screen, weight);
  const auto model = scaleDown(full, session.rough().water);
  if (!model) return paragraph(ui, session.inWords(model.error()), theme::kWarning);
  const RoughBoat sized = sizedAs(*model, session.rough());
  workOut(session, screen.start, sized);
  const UnitSet& units = session.units();
  const auto length = [&](double si) { return valueText(si, Quantity::Length, units); };
  const std::string words = "The model: " + length(model->length) + " long, beam " + length(model->breadth) +
                            ", line " + length(model->line_height) +
                            " over the keel. Afloat on it she pushes " + (model->estimated ? "about " : "") +
                            valueText(model->mass, Quantity::Mass, units, 0) +
                            " of water aside: that is her weight and the water inside her open hull.";
  paragraph(ui, words);
  ui.record("scale.answer", "status", "The model", words);
  if (!button(ui, "scale.use", "Use these sizes", ImGui::GetContentRegionAvail().x / ui.ratio, Look::Primary,
              54))
    return;
  screen.start.full_size = false;
  session.setRough(sized);
}

void drawName(Session& session, Screen& screen) {
  RoughBoat rough = session.rough();
  if (!textField(screen.ui, "start.name", "Name of the boat", rough.name)) return;
  session.setRough(rough);
}

void drawNumbers(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  StartView& view = screen.start;
  workOut(session, view, session.rough());
  paragraph(ui, view.answer, view.makes_boat ? theme::kInk : theme::kWarning);
  ui.record("start.answer", "status", "What that comes to", view.answer);
  drawName(session, screen);
  heading(ui, "Hull");
  for (const Row& row : kHull) drawRow(session, screen, row);
  drawMaterial(session, screen);
  drawOptional<&RoughBoat::skin_mass>(session, screen, "start.skin.mass", "Skin, if weighed", Quantity::Mass,
                                      view.skin);
  heading(ui, "Inside");
  for (const Row& row : kInside) drawRow(session, screen, row);
  drawOptional<&RoughBoat::tank_capacity>(session, screen, "start.tank.capacity", "Tank, if known",
                                          Quantity::Volume, view.tank);
  drawWater(session, screen);
  if (button(ui, "start.build", "Put her in the water", ImGui::GetContentRegionAvail().x / ui.ratio,
             Look::Primary, 54))
    build(session, screen);
}

}  // namespace

void drawStartPanel(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  paragraph(ui, "A first boat from a dozen numbers. All else is estimated until you weigh it.");
  StartView& view = screen.start;
  view.full_size = chooser(ui, "start.from", {{"model", "Her own sizes"}, {"full-size", "Full-size boat"}},
                           view.full_size ? 1 : 0) == 1;
  if (view.full_size)
    drawScale(session, screen);
  else
    drawNumbers(session, screen);
  paragraph(ui,
            "Batteries: follow the maker's limits. Nothing here says what pressure a cylinder stands: test "
            "it under water, behind cover.",
            theme::kQuietInk);
}

}  // namespace pondtrim
