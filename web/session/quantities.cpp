#include "session/quantities.hpp"

#include <algorithm>
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
    case Quantity::Voltage:
    case Quantity::Depth:
      return 1;
    case Quantity::Flow:
      return unit.power_of_ten != 0 ? 1 : 2;
    case Quantity::Speed:
      return unit.power_of_ten != 0 ? 0 : 1;
    case Quantity::Compliance:
      return unit.power_of_ten != 0 ? 2 : 4;
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

/// A reading is shown to the nearest sixteenth; a number of the boat only when it is one.
bool asSixteenths(double inches, const file::Unit& unit, const UnitSet& units, bool usual) {
  if (!units.sixteenths || unit.quantity != Quantity::Length || units.metric()) return false;
  constexpr double kSame = 1e-4;  // of an inch: 0.0025 mm
  return !usual || std::abs(inches - std::round(inches * 16) / 16) < kSame;
}

/// The typed whole number and fraction, or nothing: "3 5/16", "5/16", "3.5".
std::optional<double> typedNumber(std::string_view typed) {
  std::string text(typed);
  double sign = 1.0;
  if (!text.empty() && text[0] == '-') {
    sign = -1.0;
    text.erase(0, 1);
  }
  double sum = 0.0;
  const std::size_t slash = text.find('/');
  if (slash != std::string::npos) {
    const std::size_t space = text.find(' ');
    const std::string above = text.substr(space == std::string::npos ? 0 : space + 1,
                                          slash - (space == std::string::npos ? 0 : space + 1));
    const std::string below = text.substr(slash + 1);
    const auto whole = [](const std::string& digits) {
      return !digits.empty() && digits.size() < 6 &&
             digits.find_first_not_of("0123456789") == std::string::npos;
    };
    if ((space != std::string::npos && space > slash) || !whole(above) || !whole(below)) return std::nullopt;
    const double under = std::strtod(below.c_str(), nullptr);
    if (under == 0.0) return std::nullopt;
    sum = std::strtod(above.c_str(), nullptr) / under;
    if (space == std::string::npos) return sign * sum;
    text.erase(space);
    if (!whole(text)) return std::nullopt;
  }
  if (text.empty() || text.find_first_not_of("0123456789.eE+-") != std::string::npos) return std::nullopt;
  char* end = nullptr;
  sum += std::strtod(text.c_str(), &end);
  if (*end != '\0' || end == text.c_str() || !std::isfinite(sum)) return std::nullopt;
  return sign * sum;
}

}  // namespace

std::string sixteenthsText(double inches) {
  const long all = std::lround(std::abs(inches) * 16);
  long above = all % 16, below = 16;
  while (above > 0 && above % 2 == 0) {
    above /= 2;
    below /= 2;
  }
  std::string text = inches < 0 && all > 0 ? "-" : "";
  if (all >= 16 || above == 0) text += std::to_string(all / 16);
  if (above == 0) return text;
  if (all >= 16) text += ' ';
  return text + std::to_string(above) + "/" + std::to_string(below);
}

std::string withSixteenths(const std::string& typed, int sixteenths) {
  if (typed.find_first_of(".,") != std::string::npos) return typed;
  const double now = typedNumber(typed).value_or(0.0);
  const bool negative = !typed.empty() && typed[0] == '-';
  const std::string sum = sixteenthsText(std::abs(now) + sixteenths / 16.0);
  return (negative ? "-" : "") + sum;
}

std::string numberText(double si, Quantity quantity, const UnitSet& units, int decimals) {
  const file::Unit unit = file::unitFor(quantity, units);
  const bool usual = decimals < 0;
  const double value = file::fromSi(si, unit);
  std::string text;
  if (unit.suffix == std::string_view("psi") && decimals > 0) --decimals;  // a psi is a fifteenth of a bar
  if (asSixteenths(value, unit, units, usual)) {
    text = sixteenthsText(value);
    const std::size_t space = text.find(' ');
    if (space != std::string::npos) text.replace(space, 1, "\u00a0");  // one number stays on one line
  } else {
    char digits[48];
    std::snprintf(digits, sizeof digits, "%.*f", usual ? usualDecimals(unit) : decimals, value);
    text = digits;
    if (usual) dropTrailingZeros(text);
  }
  if (text.find_first_of("123456789") == std::string::npos && text[0] == '-') text.erase(0, 1);  // no "-0.0"
  if (text[0] == '-') text.replace(0, 1, "\u2212");
  return text;
}

std::string valueText(double si, Quantity quantity, const UnitSet& units, int decimals) {
  const file::Unit unit = file::unitFor(quantity, units);
  std::string text = numberText(si, quantity, units, decimals);
  if (*unit.symbol == '\0') return text;
  if (quantity == Quantity::Compliance)
    text += ' ';  // too long for one line of a field
  else if (quantity != Quantity::Angle)
    text += "\u00a0";
  for (const char* c = unit.symbol; *c != '\0'; ++c)  // "fl oz" stays on one line too
    *c == ' ' ? text += "\u00a0" : text += *c;
  return text;
}

std::optional<double> typedValue(std::string_view typed, Quantity quantity, const UnitSet& units) {
  std::string plain(typed);
  for (char& c : plain)
    if (c == ',') c = '.';
  const auto value = typedNumber(plain);
  if (!value) return std::nullopt;
  return file::toSi(*value, file::unitFor(quantity, units));
}

double nudgeStep(Quantity quantity, const UnitSet& units) {
  const file::Unit unit = file::unitFor(quantity, units);
  const double per_unit = unit.numerator / unit.denominator;
  switch (quantity) {
    case Quantity::Length:
      return unit.power_of_ten == -3 ? per_unit : per_unit / 16;
    case Quantity::Mass:
      return unit.power_of_ten != 0 ? 5 * per_unit : 0.1 * per_unit;
    case Quantity::Volume:
      if (unit.power_of_ten != 0) return 5 * per_unit;
      return unit.suffix == std::string_view("in3") ? 0.25 * per_unit : 0.1 * per_unit;
    case Quantity::Density:
      return 10 * per_unit;
    case Quantity::Number:
    case Quantity::Voltage:
    case Quantity::Current:
      return 0.1 * per_unit;
    case Quantity::Pressure:
      return (units.metric() ? 0.05 : 0.5) * per_unit;
    case Quantity::Flow:
      return (units.metric() ? 1.0 : 0.1) * per_unit;
    case Quantity::Force:
      return (units.metric() ? 10.0 : 1.0) * per_unit;
    case Quantity::Stress:
      return (units.metric() ? 10.0 : 1000.0) * per_unit;
    case Quantity::Compliance:
      return (units.metric() ? 1.0 : 0.001) * per_unit;
    case Quantity::Charge:
      return 100 * per_unit;
    case Quantity::Depth:
      return 0.5 * per_unit;
    default:
      return per_unit;
  }
}

double stockStep(double step, Quantity quantity, const UnitSet& units) {
  if (step <= 0) return nudgeStep(quantity, units);
  if (quantity != Quantity::Length || units.metric()) return step;
  const double sixteenth = nudgeStep(quantity, units);
  return sixteenth * std::exp2(std::max(0.0, std::round(std::log2(step / sixteenth))));
}

}  // namespace pondtrim
