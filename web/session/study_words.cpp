#include "session/study_words.hpp"

#include <cmath>

namespace pondtrim {
namespace {

std::string lengthText(double si, const UnitSet& units) {
  return valueText(si, Quantity::Length, units, units.length.power_of_ten == -3 ? 1 : 2);
}
std::string angleText(double si, const UnitSet& units) { return valueText(si, Quantity::Angle, units, 0); }

/// `to`: where she comes back to, when that is not upright.
std::string rangeWords(const RightingSide& side, const char* to, const UnitSet& units) {
  const std::string back = std::string("she comes back ") + to + "from ";
  if (!side.range) return "held over, she does not right herself";
  if (std::abs(*side.range) > kPi - 1e-6) return back + "any heel, even bottom up";
  return back + "any heel up to " + angleText(std::abs(*side.range), units);
}

/// Empty where the lever never counts.
std::string leverWords(const RightingSide& side, const UnitSet& units) {
  constexpr double kSeen = 5e-5;  // m: rounds to nothing
  if (side.greatest_lever < kSeen) return "";
  return ", most lever " + lengthText(side.greatest_lever, units) + " at " +
         angleText(std::abs(side.greatest_at), units);
}

double leastGm(const DiveSweep& sweep) { return sweep.least_gm_transverse.gm; }

}  // namespace

std::string rightingSentence(const std::string& condition, const RightingCurve& curve, const UnitSet& units) {
  std::string text = condition + ": GM is " + lengthText(curve.gm_transverse, units);
  if (curve.angle_of_loll)
    text += ", so she does not stay upright: she lolls to " + angleText(*curve.angle_of_loll, units);
  if (!curve.lopsided)
    return text + "; " + rangeWords(curve.starboard, curve.angle_of_loll ? "to that " : "", units) +
           leverWords(curve.starboard, units) + ".";
  return text + ". To starboard " + rangeWords(curve.starboard, "", units) +
         leverWords(curve.starboard, units) + "; to port " + rangeWords(curve.port, "", units) +
         leverWords(curve.port, units) + ".";
}

std::string trialSentence(const DiveSweep& before, const DiveSweep& now, const UnitSet& units) {
  const auto change = [](const std::string& from, const std::string& to) {
    return from == to ? from + " as before" : to + " instead of " + from;
  };
  const auto trim = [](const DiveSweep& s) {
    return valueText(greatestTrim(s), Quantity::Angle, file::kMetricUnits, 1);
  };
  return "Most trim " + change(trim(before), trim(now)) + ", least GM " +
         change(lengthText(leastGm(before), units), lengthText(leastGm(now), units)) + ".";
}

std::string hoverSentence(const std::optional<HoverAnswer>& hover, double wanted_sail, const UnitSet& units) {
  const auto sail = [&](double height) {
    return lengthText(std::abs(height), units) +
           (height < 0 ? " of water over the sail" : " of sail showing");
  };
  if (!hover) return "No fill of the tank holds her with " + sail(wanted_sail) + ".";
  const double unit =
      file::unitFor(Quantity::Length, units).numerator / file::unitFor(Quantity::Length, units).denominator;
  const int small = units.volume.power_of_ten != 0 ? 1 : 3;  // decimals
  const std::string fill = valueText(hover->tank_fill, Quantity::Volume, units, 0);
  const bool full = hover->sail_showing > wanted_sail + 0.0005;  // cannot get lower
  std::string text =
      full ? "With the tank full (" + fill + ") she hangs with " + sail(hover->sail_showing) + "."
           : "With " + fill + " in the tank she hangs with " + sail(hover->sail_showing) + ".";
  const auto inMass = [&](double kg) { return valueText(kg, Quantity::Mass, units, small); };
  const auto inVolume = [&](double m3) { return valueText(m3, Quantity::Volume, units, small); };
  text += " There " + inMass(hover->mass_per_length * unit) + ", or " +
          inVolume(hover->volume_per_length * unit) + " of tank water, moves her by 1\u00a0" +
          units.length.symbol + ". To hold her within " + lengthText(hover->band, units) +
          ", meter the tank to " + inVolume(hover->metering) + ".";
  return text;
}

std::string scopeSentence(double diameter, double density, const UnitSet& units) {
  const double unit =
      file::unitFor(Quantity::Length, units).numerator / file::unitFor(Quantity::Length, units).denominator;
  const double mass = massPerLengthOfScope(diameter, density);
  const int small = units.volume.power_of_ten != 0 ? 3 : 4;  // decimals
  return "With the sail under, a scope that thick takes " +
         valueText(mass * unit, Quantity::Mass, units, small) + ", or " +
         valueText(mass / density * unit, Quantity::Volume, units, small) +
         " of tank water, for each 1\u00a0" + units.length.symbol + ": to hold her within " +
         lengthText(kHoverBand, units) + ", meter the tank to " +
         valueText(mass / density * kHoverBand, Quantity::Volume, units, small) + ".";
}

}  // namespace pondtrim
