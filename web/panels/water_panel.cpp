// What she floats in.
#include "panels/screen.hpp"

namespace pondtrim {
namespace {

constexpr double kSeaSalinity = 35.0;  // g/kg, the usual round figure for the open sea

void setSalinity(Session& session, double salinity) {
  Boat changed = session.boat();
  changed.water.salinity = salinity;
  (void)session.edit(changed);
}

}  // namespace

void drawWaterPanel(Session& session, Screen& screen) {
  const bool fresh = session.boat().water.salinity == 0.0;
  if (button(screen.ui, "water.fresh", "Fresh", 0, fresh ? Look::Accent : Look::Plain))
    setSalinity(session, 0);
  if (buttonBeside(screen.ui, "water.sea", "Sea", fresh ? Look::Plain : Look::Accent) && fresh)
    setSalinity(session, kSeaSalinity);
  NumberField temperature{"water.temperature", "Temperature", Quantity::Temperature, 0};
  temperature.find = [](Boat& b, std::size_t) -> double& { return b.water.temperature; };
  temperature.low = 273.15;
  temperature.high = 313.15;
  temperature.negative = true;
  fieldRow(session, screen, temperature);
  if (!fresh) {
    NumberField salinity{"water.salinity", "Salt", Quantity::Salinity, 0};
    salinity.find = [](Boat& b, std::size_t) -> double& { return b.water.salinity; };
    salinity.high = 42;
    fieldRow(session, screen, salinity);
  }
  const std::string density = valueText(session.empty().rest.density, Quantity::Density, session.units(), 1);
  paragraph(screen.ui, "This water weighs " + density + ".");
  screen.ui.record("water.density", "status", "Density of the water", density);
  paragraph(screen.ui, "Cold, deep or moving water is dangerous: stay on the bank, and not alone.",
            theme::kQuietInk);
}

}  // namespace pondtrim
