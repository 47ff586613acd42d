// The sealed cylinder and the ballast tank in it.
#include <algorithm>

#include "panels/screen.hpp"
#include "session/structure.hpp"

namespace pondtrim {
namespace {

std::string path(std::size_t i, const char* field) { return "cylinders[" + std::to_string(i) + "]." + field; }
SealedCylinder& tube(Boat& b, std::size_t i) { return b.cylinders[i]; }

double usedMass(const Session& session, std::size_t i) {
  for (const Weight& w : session.model().weights)
    if (w.source.owner == Owner::Cylinder && w.source.index == i) return w.mass;
  return 0.0;
}

void drawCylinder(Session& session, Screen& screen, std::size_t i) {
  const Boat& boat = session.boat();
  const auto row = [&](const char* name, const char* label, NumberField::Find find, double low = 0,
                       double high = 0, bool negative = false) {
    NumberField field{path(i, name), label, Quantity::Length, i};
    field.find = find;
    field.low = low;
    field.high = high;
    field.negative = negative;
    fieldRow(session, screen, field);
  };
  heading(screen.ui, boat.cylinders[i].name.c_str());
  row(
      "length", "Length", [](Boat& b, std::size_t n) -> double& { return tube(b, n).length; },
      0.1 * boat.length, 0.9 * boat.length);
  row(
      "diameter", "Diameter outside", [](Boat& b, std::size_t n) -> double& { return tube(b, n).diameter; },
      0.02, roundAbove(boat.cylinders[i].diameter, 0.1));
  NumberField mass{path(i, "mass"), "Mass, empty", Quantity::Mass, i};
  mass.find_optional = [](Boat& b, std::size_t n) -> std::optional<double>& { return tube(b, n).mass; };
  mass.stand_in = usedMass(session, i);
  fieldRow(session, screen, mass);
  row(
      "position.x", "Aft end at", [](Boat& b, std::size_t n) -> double& { return tube(b, n).position.x; }, 0,
      boat.length);
  row(
      "position.z", "Axis over baseline",
      [](Boat& b, std::size_t n) -> double& { return tube(b, n).position.z; }, 0, 0, true);
  row(
      "position.y", "Axis to port", [](Boat& b, std::size_t n) -> double& { return tube(b, n).position.y; },
      0, 0, true);
  row("wall_thickness", "Wall", [](Boat& b, std::size_t n) -> double& { return tube(b, n).wall_thickness; });
  row("cap_thickness", "End caps",
      [](Boat& b, std::size_t n) -> double& { return tube(b, n).cap_thickness; });
  row("fore_dome", "Fore dome", [](Boat& b, std::size_t n) -> double& { return tube(b, n).fore_dome; });
  row("aft_dome", "Aft dome", [](Boat& b, std::size_t n) -> double& { return tube(b, n).aft_dome; });
  std::string name = session.boat().cylinders[i].name;
  if (textField(screen.ui, path(i, "name"), "Name", name))
    (void)session.edit(withName(session.boat(), {Owner::Cylinder, i}, name));
  if (button(screen.ui, path(i, "remove"), "Remove this cylinder"))
    (void)session.edit(withoutCylinder(session.boat(), i));
}

void drawNoTank(Session& session, Screen& screen) {
  paragraph(screen.ui, "This boat has no ballast tank.");
  if (session.boat().cylinders.empty())
    return paragraph(screen.ui, "A tank lies in a sealed cylinder: add one on the Cylinder page first.");
  if (button(screen.ui, "add.tank", "+ Ballast tank")) (void)session.edit(withNewTank(session.boat()));
}

}  // namespace

void drawCylinderPanel(Session& session, Screen& screen) {
  // A cylinder may go while it is drawn: ask anew each time.
  for (std::size_t i = 0; i < session.boat().cylinders.size(); ++i) drawCylinder(session, screen, i);
  if (session.boat().cylinders.empty()) paragraph(screen.ui, "This boat has no sealed cylinder.");
  if (button(screen.ui, "add.cylinder", "+ Sealed cylinder"))
    (void)session.edit(withNewCylinder(session.boat()));
  paragraph(
      screen.ui,
      "Never raise a cylinder's pressure on the strength of a calculator; test it under water, behind cover.",
      theme::kQuietInk);
}

void drawTankPanel(Session& session, Screen& screen) {
  if (!session.boat().tank) return drawNoTank(session, screen);
  const SealedCylinder* home = nullptr;
  for (const SealedCylinder& c : session.boat().cylinders)
    if (c.name == session.boat().tank->cylinder) home = &c;
  const double low = home != nullptr ? home->position.x : 0;
  const double high = home != nullptr ? home->position.x + home->length : session.boat().length;
  const auto row = [&](const char* name, const char* label, NumberField::Find find) {
    NumberField field{name, label, Quantity::Length, 0};
    field.find = find;
    field.low = low;
    field.high = high;
    fieldRow(session, screen, field);
  };
  row("tank.aft_end", "Aft bulkhead at", [](Boat& b, std::size_t) -> double& { return b.tank->aft_end; });
  row("tank.fore_end", "Fore bulkhead at", [](Boat& b, std::size_t) -> double& { return b.tank->fore_end; });
  NumberField capacity{"tank.capacity", "Measured capacity", Quantity::Volume, 0};
  capacity.find_optional = [](Boat& b, std::size_t) -> std::optional<double>& { return b.tank->capacity; };
  capacity.stand_in = session.model().tank_capacity;
  fieldRow(session, screen, capacity);
  for (std::size_t i = 0; i < session.boat().tank->bulkheads.size(); ++i) {
    NumberField bulkhead{"tank.bulkheads[" + std::to_string(i) + "]", "Inner bulkhead at", Quantity::Length,
                         i};
    bulkhead.find = [](Boat& b, std::size_t n) -> double& { return b.tank->bulkheads[n]; };
    fieldRow(session, screen, bulkhead);
    if (button(screen.ui, bulkhead.path + ".remove", "Remove this bulkhead")) {
      (void)session.edit(withoutBulkhead(session.boat(), i));
      break;
    }
  }
  if (button(screen.ui, "add.bulkhead", "+ Inner bulkhead"))
    (void)session.edit(withNewBulkhead(session.boat()));
  if (buttonBeside(screen.ui, "tank.remove", "Remove the tank")) {
    (void)session.edit(withoutTank(session.boat()));
    return;
  }
  paragraph(screen.ui,
            "In " + session.boat().tank->cylinder + ". Places are measured from the aft end of the hull.",
            theme::kQuietInk);
}

}  // namespace pondtrim
