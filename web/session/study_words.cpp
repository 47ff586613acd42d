#include "session/study_words.hpp"

#include <cmath>

namespace pondtrim {
namespace {

std::string lengthText(double si, const UnitSet& units) {
  return valueText(si, Quantity::Length, units, units.length.power_of_ten == -3 ? 1 : 2);
}
std::string angleText(double si, const UnitSet& units) { return valueText(si, Quantity::Angle, units, 0); }

std::string rangeWords(const RightingSide& side, const UnitSet& units) {
  if (!side.range) return "held over, she does not right herself";
  if (std::abs(*side.range) > kPi - 1e-6) return "she comes back from any heel, even bottom up";
  return "she comes back from any heel up to " + angleText(std::abs(*side.range), units);
}

std::string leverWords(const RightingSide& side, const UnitSet& units) {
  return "most lever " + lengthText(side.greatest_lever, units) + " at " +
         angleText(std::abs(side.greatest_at), units);
}

}  // namespace

std::string rightingSentence(const std::string& condition, const RightingCurve& curve, const UnitSet& units) {
  std::string text = condition + ": GM is " + lengthText(curve.gm_transverse, units);
  if (curve.angle_of_loll)
    text += ", so she does not stay upright: she lolls to " + angleText(*curve.angle_of_loll, units);
  if (!curve.lopsided)
    return text + "; " + rangeWords(curve.starboard, units) + ", " + leverWords(curve.starboard, units) + ".";
  return text + ". To starboard " + rangeWords(curve.starboard, units) + ", " +
         leverWords(curve.starboard, units) + "; to port " + rangeWords(curve.port, units) + ", " +
         leverWords(curve.port, units) + ".";
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

}  // namespace pondtrim
