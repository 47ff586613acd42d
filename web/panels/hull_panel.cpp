// The free-flooding outer hull: every piece of skin.
#include "panels/screen.hpp"
#include "session/structure.hpp"

namespace pondtrim {
namespace {

std::string path(std::size_t i, const char* field) { return "skins[" + std::to_string(i) + "]." + field; }
SpindleForm& spindle(Boat& b, std::size_t i) { return std::get<SpindleForm>(b.skins[i].form); }
SailForm& sail(Boat& b, std::size_t i) { return std::get<SailForm>(b.skins[i].form); }

struct Row {
  const char* field;
  const char* label;
  NumberField::Find find;
  Quantity quantity = Quantity::Length;
  bool negative = false;
};

constexpr Row kSpindleRows[] = {
    {"form.length", "Length", [](Boat& b, std::size_t i) -> double& { return spindle(b, i).length; }},
    {"form.breadth", "Beam", [](Boat& b, std::size_t i) -> double& { return spindle(b, i).breadth; }},
    {"form.height", "Height", [](Boat& b, std::size_t i) -> double& { return spindle(b, i).height; }},
    {"form.nose_length", "Nose length",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).nose_length; }},
    {"form.tail_length", "Tail length",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).tail_length; }},
    {"form.section_power", "Section: 2 round, 8 boxy",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).section_power; }, Quantity::Number},
    {"form.nose_power", "Nose, fullness at shoulder",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).nose_power; }, Quantity::Number},
    {"form.nose_root", "Nose: 1 pointed, 2 round",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).nose_root; }, Quantity::Number},
    {"form.nose_lift", "Nose: +1 top level, \u22121 keel level",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).nose_lift; }, Quantity::Number, true},
    {"form.tail_power", "Tail, fullness at shoulder",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).tail_power; }, Quantity::Number},
    {"form.tail_root", "Tail: 1 pointed, 2 round",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).tail_root; }, Quantity::Number},
    {"form.tail_lift", "Tail: +1 top level, \u22121 keel level",
     [](Boat& b, std::size_t i) -> double& { return spindle(b, i).tail_lift; }, Quantity::Number, true},
};
constexpr Row kSailRows[] = {
    {"form.length", "Length", [](Boat& b, std::size_t i) -> double& { return sail(b, i).length; }},
    {"form.breadth", "Breadth", [](Boat& b, std::size_t i) -> double& { return sail(b, i).breadth; }},
    {"form.height", "Height", [](Boat& b, std::size_t i) -> double& { return sail(b, i).height; }},
    {"form.top_scale", "Top over foot",
     [](Boat& b, std::size_t i) -> double& { return sail(b, i).top_scale; }, Quantity::Number},
    {"form.rake", "Rake", [](Boat& b, std::size_t i) -> double& { return sail(b, i).rake; }, Quantity::Length,
     true},
    {"form.shoulder", "Widest at, share from fore",
     [](Boat& b, std::size_t i) -> double& { return sail(b, i).shoulder; }, Quantity::Number},
};
constexpr Row kPlaceRows[] = {
    {"position.x", "Place along", [](Boat& b, std::size_t i) -> double& { return b.skins[i].position.x; },
     Quantity::Length, true},
    {"position.y", "Place to port", [](Boat& b, std::size_t i) -> double& { return b.skins[i].position.y; },
     Quantity::Length, true},
    {"position.z", "Place up", [](Boat& b, std::size_t i) -> double& { return b.skins[i].position.z; },
     Quantity::Length, true},
};

template <std::size_t N>
void drawRows(Session& session, Screen& screen, std::size_t i, const Row (&rows)[N]) {
  for (const Row& row : rows) {
    NumberField field{path(i, row.field), row.label, row.quantity, i};
    field.find = row.find;
    field.negative = row.negative;
    fieldRow(session, screen, field);
  }
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
  if (session.boat().skins[i].density) fieldRow(session, screen, density);
  if (std::holds_alternative<SpindleForm>(session.boat().skins[i].form))
    drawRows(session, screen, i, kSpindleRows);
  else
    drawRows(session, screen, i, kSailRows);
  drawRows(session, screen, i, kPlaceRows);
  std::string name = session.boat().skins[i].name;
  if (textField(screen.ui, path(i, "name"), "Name", name))
    (void)session.edit(withName(session.boat(), {Owner::Skin, i}, name));
  if (button(screen.ui, path(i, "remove"), "Remove this piece") &&
      session.edit(withoutSkin(session.boat(), i)))
    session.select({});
}

}  // namespace

void drawHullPanel(Session& session, Screen& screen) {
  paragraph(screen.ui, "The outer hull floods freely: it only displaces what its skin takes up.",
            theme::kQuietInk);
  for (std::size_t i = 0; i < session.boat().skins.size(); ++i) drawSkin(session, screen, i);
  const std::size_t count = session.boat().skins.size();
  const bool hull = button(screen.ui, "add.hull", "+ Hull piece");
  ImGui::SameLine();
  const bool sail = button(screen.ui, "add.sail", "+ Sail");
  if ((hull && session.edit(withNewHull(session.boat()))) ||
      (sail && session.edit(withNewSail(session.boat()))))
    session.select(Selection{Owner::Skin, count});
}

}  // namespace pondtrim
