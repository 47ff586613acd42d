#include "session/quantities.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace pondtrim {
namespace {

int usualDecimals(const file::Unit& unit) {
  switch (unit.quantity) {
    case Quantity::Length:
      return unit.power_of_ten == -3 ? 1 : 3;
    case Quantity::Mass:
    case Quantity::Volume:
      return unit.power_of_ten != 0 ? 1 : 2;
    case Quantity::Density:
    case Quantity::MomentPerAngle:
      return 0;
    case Quantity::Angle:
    case Quantity::Temperature:
    case Quantity::Salinity:
    case Quantity::MassPerLength:
    case Quantity::Area:
    case Quantity::Share:
    case Quantity::Flow:
    case Quantity::Voltage:
    case Quantity::Depth:
      return 1;
    case Quantity::Speed:
    case Quantity::Stress:
    case Quantity::Charge:
    case Quantity::Time:
      return 0;
    default:
      return 2;
  }
}

void dropTrailingZeros(std::string& text) {
  if (text.find('.') == std::string::npos) return;
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
}

}  // namespace

std::string numberText(double si, Quantity quantity, const UnitSet& units, int decimals) {
  const file::Unit unit = file::unitFor(quantity, units);
  const bool usual = decimals < 0;
  char digits[48];
  std::snprintf(digits, sizeof digits, "%.*f", usual ? usualDecimals(unit) : decimals,
                file::fromSi(si, unit));
  std::string text(digits);
  if (usual) dropTrailingZeros(text);
  if (text.find_first_of("123456789") == std::string::npos && text[0] == '-') text.erase(0, 1);  // no "-0.0"
  if (text[0] == '-') text.replace(0, 1, "\u2212");
  return text;
}

std::string valueText(double si, Quantity quantity, const UnitSet& units, int decimals) {
  const file::Unit unit = file::unitFor(quantity, units);
  std::string text = numberText(si, quantity, units, decimals);
  if (*unit.symbol == '\0') return text;
  if (quantity != Quantity::Angle) text += "\u00a0";
  return text + unit.symbol;
}

std::optional<double> typedValue(std::string_view typed, Quantity quantity, const UnitSet& units) {
  std::string plain(typed);
  for (char& c : plain)
    if (c == ',') c = '.';
  if (plain.empty()) return std::nullopt;
  char* end = nullptr;
  const double value = std::strtod(plain.c_str(), &end);
  if (*end != '\0' || !std::isfinite(value)) return std::nullopt;
  return file::toSi(value, file::unitFor(quantity, units));
}

double nudgeStep(Quantity quantity, const UnitSet& units) {
  const file::Unit unit = file::unitFor(quantity, units);
  const double per_unit = unit.numerator / unit.denominator;
  switch (quantity) {
    case Quantity::Length:
      return unit.power_of_ten == -3 ? per_unit : per_unit / 16;
    case Quantity::Mass:
    case Quantity::Volume:
      return unit.power_of_ten != 0 ? 5 * per_unit : per_unit / 8;
    case Quantity::Density:
      return 10 * per_unit;
    case Quantity::Number:
    case Quantity::Voltage:
    case Quantity::Current:
      return 0.1 * per_unit;
    case Quantity::Pressure:
      return 0.05 * per_unit;
    case Quantity::Force:
    case Quantity::Stress:
      return 10 * per_unit;
    case Quantity::Charge:
      return 100 * per_unit;
    case Quantity::Depth:
      return 0.5 * per_unit;
    default:
      return per_unit;
  }
}

}  // namespace pondtrim
