// What a trim plan is to bring about: sail or lift when dived, stability, and conditions besides the usual
// two.
#include "panels/screen.hpp"

namespace pondtrim {
namespace {

void drawDived(Session& session, Screen& screen) {
  static const std::vector<Choice> kDived = {{"sail", "Sail out"}, {"lift", "Lift under water"}};
  const bool by_lift = session.boat().aims.net_buoyancy.has_value();
  const bool wanted = chooser(screen.ui, "aims.dived", kDived, by_lift ? 1 : 0) == 1;
  if (wanted != by_lift) {
    constexpr double kUsual = 0.02;  // [kg]; common practice, no source
    Boat changed = session.boat();
    changed.aims.net_buoyancy.reset();
    if (wanted) changed.aims.net_buoyancy = kUsual;
    (void)session.edit(changed);
  }
  NumberField field;
  if (session.boat().aims.net_buoyancy) {
    field = {"aims.net_buoyancy", "Lift, tank full", Quantity::Mass, 0};
    field.find = [](Boat& b, std::size_t) -> double& { return *b.aims.net_buoyancy; };
  } else {
    field = {"aims.sail_showing", "Sail out, dived", Quantity::Length, 0};
    field.find = [](Boat& b, std::size_t) -> double& { return b.aims.sail_showing; };
    field.negative = true;
  }
  fieldRow(session, screen, field);
}

void drawFloors(Session& session, Screen& screen) {
  NumberField gm{"aims.least_gm", "Least GM, tank empty", Quantity::Length, 0};
  gm.find = [](Boat& b, std::size_t) -> double& { return b.aims.least_gm; };
  fieldRow(session, screen, gm);
  NumberField bg{"aims.least_bg", "Least B over G, dived", Quantity::Length, 0};
  bg.find = [](Boat& b, std::size_t) -> double& { return b.aims.least_bg; };
  fieldRow(session, screen, bg);
}

void drawFurtherRows(Session& session, Screen& screen, std::size_t i) {
  const std::string at = "aims.further[" + std::to_string(i) + "].";
  const FurtherAim aim = session.boat().aims.further[i];
  const auto row = [&](const char* name, const char* label, Quantity quantity, NumberField::Find find) {
    NumberField field{at + name, label, quantity, i};
    field.find = find;
    fieldRow(session, screen, field);
  };
  if (aim.water)
    row("water.salinity", "Salt", Quantity::Salinity,
        [](Boat& b, std::size_t n) -> double& { return b.aims.further[n].water->salinity; });
  if (!aim.part.empty())
    row("mass", "It weighs", Quantity::Mass,
        [](Boat& b, std::size_t n) -> double& { return b.aims.further[n].mass; });
  row("mark_tolerance", aim.tank_full ? "Sail, off by at most" : "Marks, off by at most", Quantity::Length,
      [](Boat& b, std::size_t n) -> double& { return b.aims.further[n].mark_tolerance; });
  row("trim_tolerance", "Trim and heel, at most", Quantity::Angle,
      [](Boat& b, std::size_t n) -> double& { return b.aims.further[n].trim_tolerance; });
}

void drawFurther(Session& session, Screen& screen, std::size_t i) {
  Ui& ui = screen.ui;
  const std::string at = "aims.further[" + std::to_string(i) + "].";
  const FurtherAim aim = session.boat().aims.further[i];
  ImGui::Separator();
  paragraph(ui, "Also right, within limits: " + aim.name);
  static const std::vector<Choice> kTank = {{"empty", "Tank empty"}, {"full", "Tank full"}};
  const bool full = chooser(ui, at + "tank", kTank, aim.tank_full ? 1 : 0) == 1;
  if (full != aim.tank_full) {
    Boat changed = session.boat();
    changed.aims.further[i].tank_full = full;
    (void)session.edit(changed);
  }
  drawFurtherRows(session, screen, i);
  if (button(ui, at + "remove", "Leave this out")) (void)session.edit(withoutFurther(session.boat(), i));
}

}  // namespace

void drawAims(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  heading(ui, "What is wanted");
  drawDived(session, screen);
  drawFloors(session, screen);
  // One may go while it is drawn: ask anew each time.
  for (std::size_t i = 0; i < session.boat().aims.further.size(); ++i) drawFurther(session, screen, i);
  const bool fresh = session.boat().water.salinity == 0.0;
  if (button(ui, "aims.other-water", fresh ? "+ Also in sea water" : "+ Also in fresh water"))
    (void)session.edit(withOtherWater(session.boat()));
  const auto swap = partToSwap(session.boat());
  if (swap && button(ui, "aims.other-mass", "+ Also with another " + session.boat().parts[*swap].name))
    (void)session.edit(withOtherMass(session.boat(), *swap));
}

}  // namespace pondtrim
