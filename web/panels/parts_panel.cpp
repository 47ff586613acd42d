// Weights, and foam and lead: the parts of the boat by what they are for.
#include <algorithm>
#include <utility>

#include "panels/screen.hpp"
#include "panels/work_card.hpp"
#include "session/edits.hpp"
#include "session/structure.hpp"

namespace pondtrim {
namespace {

std::string path(std::size_t i, const char* field) { return "parts[" + std::to_string(i) + "]." + field; }

Part& part(Boat& b, std::size_t i) { return b.parts[i]; }
BoxShape& box(Boat& b, std::size_t i) { return std::get<BoxShape>(b.parts[i].shape); }
CylinderShape& cylinder(Boat& b, std::size_t i) { return std::get<CylinderShape>(b.parts[i].shape); }
StripShape& strip(Boat& b, std::size_t i) { return std::get<StripShape>(b.parts[i].shape); }

/// What the core takes for the part's mass or volume while none is given.
double usedMass(const Session& session, std::size_t i) {
  for (const Weight& w : session.model().weights)
    if (w.source.owner == Owner::Part && w.source.index == i && !w.source.mirror) return w.mass;
  return 0.0;
}
double usedVolume(const Session& session, std::size_t i) {
  for (const Displacer& d : session.model().displacers)
    if (d.source.owner == Owner::Part && d.source.index == i && !d.source.mirror) return d.whole.volume;
  return 0.0;
}

bool byVolume(Role role) { return role == Role::Foam || role == Role::TrappedAir; }

NumberField massField(const Session& session, std::size_t i) {
  NumberField field{path(i, "mass"), "Mass", Quantity::Mass, i};
  field.find_optional = [](Boat& b, std::size_t n) -> std::optional<double>& { return part(b, n).mass; };
  field.set = withMass;
  field.estimated = isEstimate(session.boat().parts[i]);
  field.stand_in = usedMass(session, i);
  return field;
}

NumberField volumeField(const Session& session, std::size_t i) {
  NumberField field{path(i, "volume"), "Volume", Quantity::Volume, i};
  field.find_optional = [](Boat& b, std::size_t n) -> std::optional<double>& { return part(b, n).volume; };
  field.set = withVolume;
  field.stand_in = usedVolume(session, i);
  return field;
}

void drawShapeRows(Session& session, Screen& screen, std::size_t i) {
  const auto row = [&](const char* field_name, const char* label, NumberField::Find find) {
    NumberField field{path(i, field_name), label, Quantity::Length, i};
    field.find = find;
    fieldRow(session, screen, field);
  };
  const Shape& shape = session.boat().parts[i].shape;
  if (std::holds_alternative<BoxShape>(shape)) {
    row("shape.size.x", "Length", [](Boat& b, std::size_t n) -> double& { return box(b, n).size.x; });
    row("shape.size.y", "Width", [](Boat& b, std::size_t n) -> double& { return box(b, n).size.y; });
    row("shape.size.z", "Height", [](Boat& b, std::size_t n) -> double& { return box(b, n).size.z; });
  } else if (std::holds_alternative<CylinderShape>(shape)) {
    row("shape.length", "Length", [](Boat& b, std::size_t n) -> double& { return cylinder(b, n).length; });
    row("shape.diameter", "Diameter",
        [](Boat& b, std::size_t n) -> double& { return cylinder(b, n).diameter; });
    row("shape.fore_dome", "Fore dome",
        [](Boat& b, std::size_t n) -> double& { return cylinder(b, n).fore_dome; });
    row("shape.aft_dome", "Aft dome",
        [](Boat& b, std::size_t n) -> double& { return cylinder(b, n).aft_dome; });
  } else if (std::holds_alternative<StripShape>(shape)) {
    row("shape.length", "Length", [](Boat& b, std::size_t n) -> double& { return strip(b, n).length; });
    row("shape.fore_breadth", "Width, fore end",
        [](Boat& b, std::size_t n) -> double& { return strip(b, n).fore_breadth; });
    row("shape.fore_height", "Height, fore end",
        [](Boat& b, std::size_t n) -> double& { return strip(b, n).fore_height; });
    row("shape.aft_breadth", "Width, aft end",
        [](Boat& b, std::size_t n) -> double& { return strip(b, n).aft_breadth; });
    row("shape.aft_height", "Height, aft end",
        [](Boat& b, std::size_t n) -> double& { return strip(b, n).aft_height; });
  }
}

void drawPositionRows(Session& session, Screen& screen, std::size_t i) {
  const Boat& boat = session.boat();
  NumberField x{path(i, "position.x"), "Place along", Quantity::Length, i};
  x.find = [](Boat& b, std::size_t n) -> double& { return part(b, n).position.x; };
  x.low = 0;
  x.high = boat.length;
  x.step = 0.005;
  fieldRow(session, screen, x);
  NumberField y{path(i, "position.y"), "Place to port", Quantity::Length, i};
  y.find = [](Boat& b, std::size_t n) -> double& { return part(b, n).position.y; };
  y.negative = true;
  fieldRow(session, screen, y);
  NumberField z{path(i, "position.z"), "Height of middle", Quantity::Length, i};
  z.find = [](Boat& b, std::size_t n) -> double& { return part(b, n).position.z; };
  z.low = 0;
  z.high = std::max(boat.marks.sail_top.z, boat.marks.deck_height);
  z.negative = true;
  fieldRow(session, screen, z);
}

/// A row of choices, the one in use marked. Returns the chosen one, or -1.
int choiceRow(Ui& ui, const std::string& name, const char* const* labels, int count, int now) {
  int chosen = -1;
  for (int k = 0; k < count; ++k) {
    const std::string id = name + "." + labels[k];
    const Look look = k == now ? Look::Accent : Look::Plain;
    if (k > 0 ? buttonBeside(ui, id, labels[k], look) : button(ui, id, labels[k], 0, look)) chosen = k;
  }
  return chosen;
}

void drawShapeChoice(Session& session, Screen& screen, std::size_t i) {
  static constexpr const char* kLabels[] = {"Box", "Round", "Strip", "Point"};
  static const Shape kShapes[] = {BoxShape{}, CylinderShape{}, StripShape{}, PointShape{}};
  const int now = static_cast<int>(session.boat().parts[i].shape.index());
  const int count = session.boat().parts[i].mass && !byVolume(session.boat().parts[i].role) ? 4 : 3;
  const int chosen = choiceRow(screen.ui, path(i, "shape"), kLabels, count, now);
  if (chosen >= 0 && chosen != now) (void)session.edit(withShape(session.boat(), i, kShapes[chosen]));
  const Shape& shape = session.boat().parts[i].shape;
  if (const auto* round = std::get_if<CylinderShape>(&shape)) {
    static constexpr const char* kAxes[] = {"Lengthways", "Athwart", "Upright"};
    const int axis = choiceRow(screen.ui, path(i, "shape.axis"), kAxes, 3, static_cast<int>(round->axis));
    if (axis < 0) return;
    Boat changed = session.boat();
    cylinder(changed, i).axis = static_cast<Axis>(axis);
    (void)session.edit(changed);
  }
}

void drawDeeds(Session& session, Screen& screen, std::size_t i) {
  Ui& ui = screen.ui;
  const bool mirrored = session.boat().parts[i].mirrored;
  if (button(ui, path(i, "mirrored"), mirrored ? "Pair \u2713" : "Pair", 0,
             mirrored ? Look::Accent : Look::Plain)) {
    Boat changed = session.boat();
    changed.parts[i].mirrored = !mirrored;
    (void)session.edit(changed);
  }
  const std::size_t count = session.boat().parts.size();
  if (buttonBeside(ui, path(i, "copy"), "Copy") && session.edit(withCopyOfPart(session.boat(), i)))
    session.select(Selection{Owner::Part, count});
  if (buttonBeside(ui, path(i, "remove"), "Remove") && session.edit(withoutPart(session.boat(), i)))
    session.select({});
}

void drawDetails(Session& session, Screen& screen, std::size_t i) {
  const Part now = session.boat().parts[i];
  std::string name = now.name;
  if (textField(screen.ui, path(i, "name"), "Name", name))
    (void)session.edit(withName(session.boat(), {Owner::Part, i}, name));
  drawPositionRows(session, screen, i);
  if (byVolume(now.role)) {
    if (now.role == Role::Foam) {
      NumberField density{path(i, "density"), "Density", Quantity::Density, i};
      density.find_optional = [](Boat& b, std::size_t n) -> std::optional<double>& {
        return part(b, n).density;
      };
      density.step = 1;
      if (!now.mass) fieldRow(session, screen, density);
      fieldRow(session, screen, massField(session, i));
    }
  } else if (now.role != Role::Dry && !std::holds_alternative<PointShape>(now.shape)) {
    fieldRow(session, screen, volumeField(session, i));
    NumberField density{path(i, "density"), "Density", Quantity::Density, i};
    density.find_optional = [](Boat& b, std::size_t n) -> std::optional<double>& {
      return part(b, n).density;
    };
    if (now.density) fieldRow(session, screen, density);
  }
  drawShapeChoice(session, screen, i);
  drawShapeRows(session, screen, i);
  drawDeeds(session, screen, i);
  if (now.mirrored)
    paragraph(screen.ui, "A pair: numbers are for one piece, the other is at the far side.",
              theme::kQuietInk);
}

void drawPart(Session& session, Screen& screen, std::size_t i) {
  const Part& now = session.boat().parts[i];
  const bool open = session.selection() == Selection{Owner::Part, i};
  NumberField field = byVolume(now.role) ? volumeField(session, i) : massField(session, i);
  field.label = now.name;
  const double value = byVolume(now.role) ? usedVolume(session, i) : usedMass(session, i);
  const bool weighty = value > 0.06 * session.model().mass;
  if (open && std::exchange(screen.to_selected, false)) ImGui::SetScrollHereY(0.0f);
  if (byVolume(now.role) || now.role == Role::Lead || open || weighty)
    field.high = roundAbove(value, byVolume(now.role) ? 5e-5 : 0.05);
  if (fieldRow(session, screen, field, {true, open, colour(kindRgb(kindOf(now)))})) {
    session.select(open ? std::nullopt : std::optional(Selection{Owner::Part, i}));
    return;
  }
  if (!open) return;
  ImGui::Indent(screen.ui.px(12));
  drawDetails(session, screen, i);
  ImGui::Unindent(screen.ui.px(12));
  ImGui::Separator();
}

void drawParts(Session& session, Screen& screen, Role role) {
  // A deed may take parts away while they are drawn: ask anew each time.
  for (std::size_t i = 0; i < session.boat().parts.size(); ++i)
    if (session.boat().parts[i].role == role) drawPart(session, screen, i);
}

void addButton(Session& session, Screen& screen, const char* name, const char* label, Role role) {
  const std::size_t count = session.boat().parts.size();
  if (!button(screen.ui, name, label) || !session.edit(withNewPart(session.boat(), role))) return;
  session.select(Selection{Owner::Part, count});
  screen.to_selected = true;
}

}  // namespace

void drawWeightsPanel(Session& session, Screen& screen) {
  const auto& parts = session.boat().parts;
  const auto guesses = std::count_if(parts.begin(), parts.end(), isEstimate);
  if (guesses > 0)
    paragraph(screen.ui,
              std::to_string(guesses) +
                  (guesses == 1 ? " weight is an estimate (\u2248)." : " weights are estimates (\u2248).") +
                  " Weigh what you have and type what the scale says.");
  heading(screen.ui, "Dry, inside the cylinder");
  drawParts(session, screen, Role::Dry);
  addButton(session, screen, "add.dry", "+ Weight inside", Role::Dry);
  heading(screen.ui, "Wet, outside");
  drawParts(session, screen, Role::Solid);
  addButton(session, screen, "add.wet", "+ Weight outside", Role::Solid);
  paragraph(
      screen.ui,
      "Batteries: follow the maker's limits, and charge them out of the boat where a fire can do no harm.",
      theme::kQuietInk);
}

void drawFoamLeadPanel(Session& session, Screen& screen) {
  heading(screen.ui, "Foam");
  drawParts(session, screen, Role::Foam);
  addButton(session, screen, "add.foam", "+ Foam", Role::Foam);
  heading(screen.ui, "Lead");
  drawParts(session, screen, Role::Lead);
  addButton(session, screen, "add.lead", "+ Lead", Role::Lead);
  heading(screen.ui, "Trapped air");
  drawParts(session, screen, Role::TrappedAir);
  addButton(session, screen, "add.air", "+ Trapped air", Role::TrappedAir);
  cuttingCaution(screen.ui);
}

}  // namespace pondtrim
