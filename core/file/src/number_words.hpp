#pragma once
// Numbers inside sentences: rounded as a builder reads them, with the unit's symbol.
#include <cmath>
#include <cstdio>
#include <pondtrim/file/units.hpp>
#include <string>
#include <string_view>

namespace pondtrim::file {

inline std::string fixedText(double value, int decimals) {
  const double step = std::pow(10.0, -decimals);
  if (std::abs(value) < step / 2) value = 0;  // no "-0"
  char text[40];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

/// "12.3 mm", "250 mL", "9.0°".
inline std::string say(double si, const Unit& unit, int decimals) {
  const std::string gap = unit.quantity == Quantity::Angle ? "" : " ";
  return fixedText(fromSi(si, unit), decimals) + gap + unit.symbol;
}
inline std::string sayLength(double si, const UnitSet& units) {
  return say(si, units.length, units.length.suffix == std::string_view("mm") ? 1 : 3);
}
inline std::string sayVolume(double si, const UnitSet& units) {
  return say(si, units.volume, units.volume.suffix == std::string_view("mL") ? 0 : 2);
}
inline std::string sayMass(double si, const UnitSet& units) {
  return say(si, units.mass, units.mass.suffix == std::string_view("g") ? 0 : 2);
}
inline std::string sayAngle(double si) { return say(si, kDegree, 1); }

}  // namespace pondtrim::file
