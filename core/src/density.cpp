// Water density by published equations; see condition.hpp. Temperatures in the formulas are in degC, as
// published.
#include <cmath>
#include <pondtrim/condition.hpp>

#include "faults.hpp"

namespace pondtrim {

namespace {

constexpr double kZeroCelsius = 273.15;  // [K]

/// Tanaka et al. 2001, eq. 1.
double freshDensity(double t) {
  const double a = t - 3.983035;
  return 999.974950 * (1 - a * a * (t + 301.797) / (522528.9 * (t + 69.34881)));
}

/// EOS-80, Millero and Poisson 1981; UNESCO Tech. Pap. Mar. Sci. 44, eqs. 13 and 14.
double saltDensity(double s, double t) {
  const double pure =
      999.842594 +
      t * (6.793952e-2 + t * (-9.095290e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))));
  const double b = 8.24493e-1 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)));
  const double c = -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6);
  return pure + s * (b + c * std::sqrt(s) + 4.8314e-4 * s);
}

}  // namespace

Result<double> waterDensity(const Water& water) {
  if (auto e = outside("water.salinity", water.salinity, 0, 42)) return fail(*e);
  const bool fresh = water.salinity == 0;
  const double coldest = fresh ? kZeroCelsius : kZeroCelsius - 2;
  if (auto e = outside("water.temperature", water.temperature, coldest, kZeroCelsius + 40)) return fail(*e);
  const double t = water.temperature - kZeroCelsius;
  return fresh ? freshDensity(t) : saltDensity(water.salinity, t);
}

}  // namespace pondtrim
