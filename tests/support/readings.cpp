#include "support/readings.hpp"

#include <pondtrim/report.hpp>

namespace pondtrim::test {

Reading readingOf(const Boat& truth, TankState tank, double ruler, double clinometer) {
  const Model model = *buildModel(truth);
  const Report r = *evaluate(model, {truth.water, tank == TankState::Full ? model.tank_capacity : 0.0});
  Reading out;
  out.tank = tank;
  out.water = truth.water;
  out.heel = Measured{r.rest.attitude.heel, clinometer};
  if (tank == TankState::Full) {
    out.sail_showing = Measured{r.sail_showing, ruler};
    out.trim = Measured{r.rest.attitude.trim, clinometer};
  } else {
    out.bow = Measured{r.bow->line_above_water, ruler};
    out.stern = Measured{r.stern->line_above_water, ruler};
  }
  return out;
}

}  // namespace pondtrim::test
