#pragma once
// The cross-section of a spindle at a station: shared by its mesh and by what is fitted inside it.
#include <algorithm>
#include <cmath>
#include <pondtrim/boat.hpp>

namespace pondtrim {

/// Size of the section, 0 to 1, at t from the shoulder (0) to the tip (1).
inline double taper(double t, double power, double root) {
  return std::pow(std::max(0.0, 1 - std::pow(t, power)), 1 / root);
}

/// Half breadth of the form at x from its aft end and z from its axis; 0 outside.
inline double halfBreadth(const SpindleForm& f, double x, double z) {
  if (x <= 0 || x >= f.length) return 0;
  double scale = 1, lift = 0;
  if (x < f.tail_length) {
    scale = taper(1 - x / f.tail_length, f.tail_power, f.tail_root);
    lift = f.tail_lift;
  } else if (x > f.length - f.nose_length) {
    scale = taper(1 - (f.length - x) / f.nose_length, f.nose_power, f.nose_root);
    lift = f.nose_lift;
  }
  if (scale <= 0) return 0;
  const double height = std::abs(z / (f.height / 2) - lift * (1 - scale)) / scale;
  if (height >= 1) return 0;
  return f.breadth / 2 * scale * std::pow(1 - std::pow(height, f.section_power), 1 / f.section_power);
}

}  // namespace pondtrim
