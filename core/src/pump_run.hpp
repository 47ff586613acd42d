#pragma once
// One fill or blow by a pump, integrated over the tank's fill.
#include <functional>
#include <pondtrim/ballast.hpp>

namespace pondtrim {

struct PumpTask {
  Pump pump;
  double voltage = 0.0;
  double from = 0.0, to = 0.0;            ///< tank fill [m^3]
  std::function<double(double)> resists;  ///< back pressure at a fill [Pa], rising along the way
};

BallastRun runPump(const PumpTask& task);

}  // namespace pondtrim
