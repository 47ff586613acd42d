#include "decimal.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>

// std::strtod and printf read the decimal point from the C locale, which no part of Pondtrim changes.
// (std::from_chars of double is missing from Emscripten's libc++ 14.)

namespace pondtrim::file {
namespace {

// Beyond these an exponent is nonsense, and adding to it could overflow.
constexpr long kMostExponent = 100000;

constexpr int kAllDigits = 17;  ///< tell any two doubles apart

/// 0.digits x 10^point, with a sign.
struct Decimal {
  bool negative = false;
  std::string digits;
  int point = 0;
};

double parse(const std::string& text) { return std::strtod(text.c_str(), nullptr); }

Decimal decimalOf(double value, int significant_digits) {
  char text[40];
  std::snprintf(text, sizeof text, "%.*e", significant_digits - 1, value);
  Decimal d;
  const char* c = text;
  if (*c == '-') d.negative = true, ++c;
  for (; *c != 'e'; ++c)
    if (*c != '.') d.digits += *c;
  d.point = std::atoi(c + 1) + 1;
  while (d.digits.size() > 1 && d.digits.back() == '0') d.digits.pop_back();
  if (d.digits == "0") d.point = 1;
  return d;
}

std::string layOut(const Decimal& d) {
  const int count = static_cast<int>(d.digits.size());
  std::string text = d.negative ? "-" : "";
  if (d.point < -4 || d.point > 17) {
    text += d.digits.substr(0, 1);
    if (count > 1) text += "." + d.digits.substr(1);
    return text + "e" + std::to_string(d.point - 1);
  }
  if (d.point <= 0) return text + "0." + std::string(static_cast<std::size_t>(-d.point), '0') + d.digits;
  if (d.point >= count) return text + d.digits + std::string(static_cast<std::size_t>(d.point - count), '0');
  const auto whole = static_cast<std::size_t>(d.point);
  return text + d.digits.substr(0, whole) + "." + d.digits.substr(whole);
}

}  // namespace

std::optional<double> siFromDecimal(std::string_view number, const Unit& unit) {
  const auto at = number.find_first_of("eE");
  const std::string mantissa(number.substr(0, at));
  long exponent =
      at == std::string_view::npos ? 0 : std::strtol(std::string(number.substr(at + 1)).c_str(), nullptr, 10);
  exponent = std::min(std::max(exponent, -kMostExponent), kMostExponent) + unit.power_of_ten;
  double si = parse(mantissa + "e" + std::to_string(exponent));
  if (unit.power_of_ten == 0) si = toSi(si, unit);
  if (!std::isfinite(si)) return std::nullopt;
  return si;
}

std::string decimalFromSi(double si, const Unit& unit) {
  assert(std::isfinite(si));
  // Units that are no power of ten (mAh, degrees): the nearest decimal that reads back.
  const bool moves_point =
      unit.offset == 0.0 && (unit.power_of_ten != 0 || unit.numerator == unit.denominator);
  const double value = moves_point ? si : fromSi(si, unit);
  const auto written = [&](double v, int digits) {
    Decimal d = decimalOf(v, digits);
    if (d.digits != "0") d.point -= moves_point ? unit.power_of_ten : 0;
    return layOut(d);
  };
  const auto readsBack = [&](const std::string& text) { return siFromDecimal(text, unit) == si; };
  for (int digits = 1; digits <= kAllDigits; ++digits)
    if (std::string text = written(value, digits); readsBack(text)) return text;
  // Dividing rounded: the number that was read lies next to this one.
  double below = value, above = value;
  for (int i = 0; i < 3; ++i) {
    below = std::nextafter(below, -HUGE_VAL);
    above = std::nextafter(above, HUGE_VAL);
    for (const double beside : {below, above})
      if (std::string text = written(beside, kAllDigits); readsBack(text)) return text;
  }
  return written(value, kAllDigits);
}

std::string roundedDecimal(double value, int significant_digits) {
  assert(std::isfinite(value));
  const Decimal d = decimalOf(value, significant_digits);
  return d.digits == "0" ? "0" : layOut(d);
}

}  // namespace pondtrim::file
