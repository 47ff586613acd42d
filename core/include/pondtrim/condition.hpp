#pragma once
// What the boat is put into: the water, and how much of it is in the ballast tank.
#include <pondtrim/result.hpp>

namespace pondtrim {

/// Pond or sea. Fresh when salinity is exactly 0.
struct Water {
  double temperature = 288.15;  ///< [K]; fresh 273.15 to 313.15, salt 271.15 to 313.15
  double salinity = 0.0;        ///< practical salinity, 0 (fresh) to 42

  bool operator==(const Water&) const = default;
};

/// Density of the water at one atmosphere [kg/m^3].
/// Fresh: Tanaka et al. 2001, Metrologia 38, 301-309, eq. 1 (0-40 degC, air-free, ITS-90).
/// Salt: EOS-80 at one atmosphere, Millero and Poisson 1981, Deep-Sea Res. 28A, 625-629 (t on IPTS-68; the
/// difference to ITS-90 is below 0.002 kg/m^3 and is neglected).
/// Error: fields "water.temperature" or "water.salinity" outside the range of the formula.
[[nodiscard]] Result<double> waterDensity(const Water& water);

/// One state to be solved. `tank_fill` is the volume of water in the tank [m^3], 0 to the tank's capacity.
struct Condition {
  Water water;
  double tank_fill = 0.0;
};

}  // namespace pondtrim
