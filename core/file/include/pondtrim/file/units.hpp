#pragma once
// The one table of unit conversions, for the edges (boat file, terminal, screens). The core knows SI only.
#include <optional>
#include <pondtrim/vec.hpp>
#include <string_view>

namespace pondtrim::file {

enum class Quantity {
  Number,  ///< no unit
  Length,
  Area,
  Volume,
  Mass,
  Density,
  Temperature,
  Salinity,
  Angle,
  Force,
  MassPerLength,
  MomentPerAngle,
  Share,
  Flow,
  Speed,
  Pressure,
  Stress,
  Compliance,
  Voltage,
  Current,
  Charge,
  Time,
  Energy,
  MassMoment,
  VolumeMoment,
  Depth,  ///< of water over the boat
};

/// SI value = value * numerator / denominator + offset. Two whole factors instead of one decimal fraction, so
/// that 610 mm gives the very double that is nearest to 0.61 m.
struct Unit {
  Quantity quantity = Quantity::Number;
  const char* suffix = "";  ///< as the keys of files spell it, without the underscore before it
  const char* symbol = "";  ///< as people read it
  double numerator = 1.0, denominator = 1.0;
  double offset = 0.0;
  int power_of_ten = 0;  ///< of numerator / denominator when that is a power of ten
};

[[nodiscard]] constexpr double toSi(double value, const Unit& unit) {
  return value * unit.numerator / unit.denominator + unit.offset;
}
[[nodiscard]] constexpr double fromSi(double si, const Unit& unit) {
  return (si - unit.offset) * unit.denominator / unit.numerator;
}

inline constexpr Unit kNumber{};
inline constexpr Unit kMetre{Quantity::Length, "m", "m"};
inline constexpr Unit kMillimetre{Quantity::Length, "mm", "mm", 1, 1e3, 0, -3};
inline constexpr Unit kSquareCentimetre{Quantity::Area, "cm2", "cm²", 1, 1e4, 0, -4};
inline constexpr Unit kMillilitre{Quantity::Volume, "mL", "mL", 1, 1e6, 0, -6};
inline constexpr Unit kGram{Quantity::Mass, "g", "g", 1, 1e3, 0, -3};
inline constexpr Unit kKilogramPerCubicMetre{Quantity::Density, "kg_per_m3", "kg/m³"};
/// 0 degC = 273.15 K exactly: SI Brochure, 9th edition (2019), section 2.3.1.
inline constexpr Unit kDegreeCelsius{Quantity::Temperature, "degC", "°C", 1, 1, 273.15};
/// Practical salinity, which within 0.5 % is also the salt in grams per kilogram of sea water.
inline constexpr Unit kGramPerKilogram{Quantity::Salinity, "g_per_kg", "g/kg"};
inline constexpr Unit kDegree{Quantity::Angle, "deg", "°", kPi, 180};
inline constexpr Unit kNewton{Quantity::Force, "N", "N"};
inline constexpr Unit kGramPerMillimetre{Quantity::MassPerLength, "g_per_mm", "g/mm"};
/// Gram-force times millimetre a degree: what moving 1 g by 1 mm does, at standard gravity.
inline constexpr Unit kGramMillimetrePerDegree{Quantity::MomentPerAngle, "g_mm_per_deg", "g·mm/°",
                                               kGravity * 180, kPi * 1e6};

inline constexpr Unit kPercent{Quantity::Share, "percent", "%", 1, 1e2, 0, -2};
inline constexpr Unit kMillilitrePerSecond{Quantity::Flow, "mL_per_s", "mL/s", 1, 1e6, 0, -6};
inline constexpr Unit kMillimetrePerSecond{Quantity::Speed, "mm_per_s", "mm/s", 1, 1e3, 0, -3};
inline constexpr Unit kBar{Quantity::Pressure, "bar", "bar", 1e5, 1, 0, 5};
inline constexpr Unit kMegapascal{Quantity::Stress, "MPa", "MPa", 1e6, 1, 0, 6};
inline constexpr Unit kMillilitrePerBar{Quantity::Compliance, "mL_per_bar", "mL/bar", 1, 1e11, 0, -11};
inline constexpr Unit kVolt{Quantity::Voltage, "V", "V"};
inline constexpr Unit kAmpere{Quantity::Current, "A", "A"};
inline constexpr Unit kMilliampereHour{Quantity::Charge, "mAh", "mAh", 36, 10};
inline constexpr Unit kSecond{Quantity::Time, "s", "s"};
inline constexpr Unit kGramMillimetre{Quantity::MassMoment, "g_mm", "g·mm", 1, 1e6, 0, -6};
inline constexpr Unit kMillilitreMillimetre{Quantity::VolumeMoment, "mL_mm", "mL·mm", 1, 1e9, 0, -9};
inline constexpr Unit kJoule{Quantity::Energy, "J", "J"};
inline constexpr Unit kMetreDeep{Quantity::Depth, "m", "m"};

// Inch, ounce, gallon: National Institute of Standards and Technology, Handbook 44, appendix C, "General
// Tables of Units of Measurement": 1 in = 25.4 mm exactly; 1 oz avoirdupois = 28.349523125 g exactly;
// 1 US gallon = 231 in^3 = 128 fl oz exactly, so 1 fl oz = 29.5735295625 mL and 1 in^3 = 16.387064 mL.
inline constexpr Unit kInch{Quantity::Length, "in", "in", 254, 1e4};
/// 1 ft = 12 in.
inline constexpr Unit kFootDeep{Quantity::Depth, "ft", "ft", 3048, 1e4};
inline constexpr Unit kOunce{Quantity::Mass, "oz", "oz", 28349523125, 1e12};
inline constexpr Unit kFluidOunce{Quantity::Volume, "fl_oz", "fl oz", 295735295625, 1e16};
inline constexpr Unit kCubicInch{Quantity::Volume, "in3", "in³", 16387064, 1e12};
inline constexpr Unit kSquareInch{Quantity::Area, "in2", "in²", 64516, 1e8};
/// 32 degF = 0 degC, 9 degF = 5 degC: NIST Special Publication 811 (2008), appendix B.9, footnote.
inline constexpr Unit kDegreeFahrenheit{Quantity::Temperature, "degF", "°F", 5, 9, 273.15 - 160.0 / 9.0};
inline constexpr Unit kOuncePerInch{Quantity::MassPerLength, "oz_per_in", "oz/in", 28349523125, 254e8};
inline constexpr Unit kOunceInchPerDegree{Quantity::MomentPerAngle, "oz_in_per_deg", "oz·in/°",
                                          kGravity * 180 * 28349523125 * 254, kPi * 1e16};
inline constexpr Unit kFluidOuncePerSecond{Quantity::Flow, "fl_oz_per_s", "fl oz/s", 295735295625, 1e16};
inline constexpr Unit kCubicInchPerSecond{Quantity::Flow, "in3_per_s", "in³/s", 16387064, 1e12};
inline constexpr Unit kInchPerSecond{Quantity::Speed, "in_per_s", "in/s", 254, 1e4};
/// 1 lb = 0.45359237 kg exactly (Handbook 44, as above), at standard gravity.
inline constexpr Unit kPoundForce{Quantity::Force, "lbf", "lbf", 45359237 * kGravity, 1e8};
/// A pound-force a square inch of 645.16 mm2.
inline constexpr Unit kPsi{Quantity::Pressure, "psi", "psi", 45359237 * kGravity, 64516};
inline constexpr Unit kPsiStress{Quantity::Stress, "psi", "psi", 45359237 * kGravity, 64516};
inline constexpr Unit kFluidOuncePerPsi{Quantity::Compliance, "fl_oz_per_psi", "fl oz/psi",
                                        295735295625.0 * 64516, 45359237e16 * kGravity};
inline constexpr Unit kCubicInchPerPsi{Quantity::Compliance, "in3_per_psi", "in³/psi", 16387064.0 * 64516,
                                       45359237e12 * kGravity};

/// A choice of one unit for each quantity that people choose; the rest follow, or are fixed.
struct UnitSet {
  Unit length = kMillimetre, volume = kMillilitre, mass = kGram;
  bool sixteenths = false;  ///< inches are shown with fractions, as a rule reads
  [[nodiscard]] constexpr bool metric() const { return length.power_of_ten != 0; }
};
inline constexpr UnitSet kMetricUnits{};
inline constexpr UnitSet kInchUnits{kInch, kFluidOunce, kOunce};

[[nodiscard]] Unit unitFor(Quantity quantity, const UnitSet& set = kMetricUnits);

/// What a field of the boat holds, by the last name in its path ("parts[2].position.x" is a Length).
/// Number for a field without unit, nothing for a field that is not a number.
[[nodiscard]] std::optional<Quantity> quantityOf(std::string_view field_path);

}  // namespace pondtrim::file
