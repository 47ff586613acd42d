#include "session/plan_words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "session/planner.hpp"
#include "session/words.hpp"

namespace pondtrim {
namespace {

constexpr double kNothing = 0.00005;  // a length too small to show in 0.1 mm [m]

std::string quoted(const std::string& name) { return "\u201c" + name + "\u201d"; }

const Place* placeAt(const Boat& boat, std::size_t index) {
  return index < boat.places.size() ? &boat.places[index] : nullptr;
}
std::string placeName(const Boat& boat, std::size_t index) {
  const Place* place = placeAt(boat, index);
  return place != nullptr ? quoted(place->part) : "a place";
}

std::string markOff(const char* mark, double off, const UnitSet& units) {
  if (std::abs(off) < kNothing) return std::string(mark) + " on her line";
  return std::string(mark) + " " + valueText(std::abs(off), Quantity::Length, units, 1) +
         (off > 0 ? " low" : " high");
}

std::string angleOff(double angle, const char* positive, const char* negative, const char* none,
                     const UnitSet& units) {
  if (std::abs(angle) < 0.0005) return none;  // under 0.03 degrees
  return valueText(std::abs(angle), Quantity::Angle, units, 2) + " " + (angle > 0 ? positive : negative);
}

}  // namespace

std::string sentenceCase(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

std::string proofWords(const Proof& proof, const UnitSet& units) {
  return conditionName(proof) + ": " + restWords(proof, units);
}

std::string conditionName(const Proof& proof) { return sentenceCase(proof.wanted.name); }

std::string restWords(const Proof& proof, const UnitSet& units) {
  std::string words;
  if (proof.report.rest.outcome == Outcome::Sinks)
    return "sinks, " + valueText(proof.report.rest.missing_buoyancy, Quantity::Mass, units, 0) +
           " too heavy.";
  if (!proof.wanted.dived) {
    words += proof.bow_off ? markOff("bow", *proof.bow_off, units) : "bow under";
    words += ", ";
    words += proof.stern_off ? markOff("stern", *proof.stern_off, units) : "stern under";
    return words + ", " + angleOff(proof.heel_off, "to starboard", "to port", "upright", units) + ".";
  }
  if (proof.sail_off)
    words += valueText(proof.report.sail_showing, Quantity::Length, units, 1) + " of sail, ";
  if (proof.net_off)
    words += valueText(proof.report.net_buoyancy_submerged, Quantity::Mass, units) + " of lift, ";
  words += angleOff(proof.trim_off, "bow up", "bow down", "level", units);
  return words + ", " + angleOff(proof.heel_off, "to starboard", "to port", "upright", units) + ".";
}

std::string sensitivityWords(const Boat& boat, const Plan& plan, const UnitSet& units) {
  const Sensitivity& s = plan.sensitivity;
  std::string words;
  const auto add = [&](const char* what, const Effect& effect, Quantity quantity, int decimals,
                       double least) {
    if (std::abs(effect.size) < least) return;
    words += (words.empty() ? "" : "; ") + std::string(what) + " " +
             valueText(std::abs(effect.size), quantity, units, decimals) + " (" +
             placeName(boat, effect.place) + ")";
  };
  add("bow", s.bow, Quantity::Length, 1, kNothing);
  add("stern", s.stern, Quantity::Length, 1, kNothing);
  add("heel", s.surfaced_heel, Quantity::Angle, 1, 0.0009);
  add("dived trim", s.dived_trim, Quantity::Angle, 1, 0.0009);
  add("dived lift", s.dived_net, Quantity::Mass, 0, 0.0005);
  return words.empty() ? "" : "If one piece is 10 % off, this moves by up to: " + words + ".";
}

std::string balanceWords(const BalanceDiagram& diagram, const BalancePoint& at, const UnitSet& units) {
  const double weight = at.weight - diagram.present.weight, moment = at.moment - diagram.present.moment;
  const double arm = std::max(units.metric() ? 0.1 : 0.1016, 1e-9);  // 100 mm or 4 in
  return valueText(std::abs(weight), Quantity::Mass, units, 0) + (weight < 0 ? " lighter" : " heavier") +
         " than now, and as if " + valueText(std::abs(moment) / arm, Quantity::Mass, units, 0) +
         " were moved " + valueText(arm, Quantity::Length, units, 0) +
         (moment < 0 ? " aft: " : " forward: ") +
         (diagram.polygon.contains(at) ? "within reach." : "out of reach.");
}

std::string tankWords(const Plan& plan, const UnitSet& units) {
  if (!plan.tank) return {};
  const std::string smallest = valueText(plan.tank->smallest, Quantity::Volume, units, 0);
  if (!plan.tank->largest) return "With these places any tank from " + smallest + " up can be trimmed.";
  return "With these places a tank of " + smallest + " to " +
         valueText(*plan.tank->largest, Quantity::Volume, units, 0) + " can be trimmed.";
}

}  // namespace pondtrim
