#include "session/words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace pondtrim {
namespace {

// What a ruler and an eye at the pond can tell: half a millimetre, and 0.3 degrees (5 mm in a metre).
constexpr double kReadableLength = 0.0005, kHalfSixteenth = 0.0254 / 32;
constexpr double kReadableAngle = 0.3 * kPi / 180;
constexpr double kUprightLimit = 1.0 * kPi / 180;

double readable(const UnitSet& units) {
  return units.sixteenths && !units.metric() ? kHalfSixteenth : kReadableLength;
}

std::string lengthText(double si, const UnitSet& units) {
  return valueText(si, Quantity::Length, units, readingDecimals(units));
}

std::string markPhrase(const MarkReading& mark, const UnitSet& units, const char* where) {
  const double line = mark.line_above_water;
  if (std::abs(line) < readable(units)) return std::string("on her line at the ") + where;
  return lengthText(std::abs(line), units) + (line > 0 ? " high at the " : " low at the ") + where;
}

bool onLine(const std::optional<MarkReading>& mark, const UnitSet& units) {
  return mark && std::abs(mark->line_above_water) < readable(units);
}

std::string massText(double si, const UnitSet& units) {
  return valueText(si, Quantity::Mass, units, units.mass.power_of_ten != 0 ? 0 : 1);
}

/// Too far over for the marks to be read.
std::string liesOverPhrase(const Attitude& attitude, const UnitSet& units) {
  if (std::abs(attitude.trim) >= std::abs(attitude.heel))
    return "Stands on end, " + trimWords(attitude.trim, units);
  return "Lies over, " + heelWords(attitude.heel, units);
}

std::string surfacedPhrase(const Report& report, const UnitSet& units) {
  if (report.rest.outcome == Outcome::Sinks)
    return "Sinks even with the tank empty: " + massText(report.rest.missing_buoyancy, units) + " too heavy";
  if (!report.bow || !report.stern) return liesOverPhrase(report.rest.attitude, units);
  std::string phrase = "Floats ";
  if (onLine(report.bow, units) && onLine(report.stern, units))
    phrase += "on her line";
  else
    phrase += markPhrase(*report.bow, units, "bow") + ", " + markPhrase(*report.stern, units, "stern");
  return phrase + ", " + heelWords(report.rest.attitude.heel, units);
}

std::string divedPhrase(const Report& report, const UnitSet& units) {
  if (report.rest.outcome == Outcome::Sinks)
    return "with the tank full she sinks, " + massText(report.rest.missing_buoyancy, units) + " too heavy";
  const std::string trim = trimWords(report.rest.attitude.trim, units);
  if (report.rest.outcome == Outcome::Floats) return "with the tank full her deck stays up, " + trim;
  if (report.sail_showing <= 0) return "dived she just hangs under the surface, " + trim;
  return "dived she shows " + lengthText(report.sail_showing, units) + " of sail, " + trim;
}

}  // namespace

std::string fieldWords(const Boat& boat, std::string_view path) {
  std::string owner;
  const auto named = [&](std::string_view list, const auto& items) {
    if (path.substr(0, list.size()) != list || path.size() <= list.size() || path[list.size()] != '[') return;
    const std::size_t close = std::min(path.find(']'), path.size() - 1);
    const std::size_t index = std::strtoul(std::string(path.substr(list.size() + 1)).c_str(), nullptr, 10);
    if (index < items.size()) owner = items[index].name;
    path.remove_prefix(close + 1);
    if (!path.empty() && path[0] == '.') path.remove_prefix(1);
  };
  const auto placed = [&] {
    if (path.substr(0, 7) != "places[") return;
    const std::size_t index = std::strtoul(std::string(path.substr(7)).c_str(), nullptr, 10);
    if (index < boat.places.size()) owner = boat.places[index].part;
    path.remove_prefix(std::min(path.find(']') + 1, path.size()));
    if (!path.empty() && path[0] == '.') path.remove_prefix(1);
  };
  named("skins", boat.skins);
  named("cylinders", boat.cylinders);
  named("parts", boat.parts);
  named("aims.further", boat.aims.further);
  placed();
  if (path.substr(0, 4) == "log[") {
    owner = "dip " + std::to_string(std::strtoul(std::string(path.substr(4)).c_str(), nullptr, 10) + 1);
    path.remove_prefix(std::min(path.find(']') + 1, path.size()));
    if (!path.empty() && path[0] == '.') path.remove_prefix(1);
  }
  std::string words(path);
  struct Plain {
    std::string_view field, words;
  };
  // What the rows of the panels call them.
  constexpr Plain kPlain[] = {{"shape.size.x", "length"},      {"shape.size.y", "width"},
                              {"shape.size.z", "height"},      {"position.x", "place along"},
                              {"position.y", "place to port"}, {"position.z", "height of place"},
                              {"marks.bow_x", "bow mark"},     {"marks.stern_x", "stern mark"}};
  for (const Plain& plain : kPlain)
    if (words == plain.field) words = plain.words;
  for (const std::string_view prefix : {"form.", "shape.", "marks.", "aims.", "water.", "start.", "scale."})
    if (words.compare(0, prefix.size(), prefix) == 0) words.erase(0, prefix.size());
  std::replace(words.begin(), words.end(), '_', ' ');
  std::replace(words.begin(), words.end(), '.', ' ');
  if (owner.empty()) return words;
  return words.empty() ? owner : owner + ": " + words;
}

MarkWords markWords(const std::optional<MarkReading>& mark, const UnitSet& units) {
  if (!mark) return {"", "no reading", 0};
  const double line = mark->line_above_water;
  const std::string number = numberText(std::abs(line), Quantity::Length, units, readingDecimals(units));
  if (std::abs(line) < readable(units)) return {number, "on line", 0};
  return {number, line > 0 ? "high" : "low", line > 0 ? 1 : -1};
}

std::string trimWords(double trim_angle, const UnitSet& units) {
  if (std::abs(trim_angle) < kReadableAngle) return "level";
  return valueText(std::abs(trim_angle), Quantity::Angle, units) + (trim_angle > 0 ? " bow up" : " bow down");
}

std::string heelWords(double heel_angle, const UnitSet& units) {
  if (std::abs(heel_angle) < kUprightLimit) return "upright";
  return "heeled " + valueText(std::abs(heel_angle), Quantity::Angle, units) +
         (heel_angle > 0 ? " to starboard" : " to port");
}

std::string liesSentence(const Session& session) {
  std::string sentence = surfacedPhrase(session.empty(), session.units());
  const bool sinks = session.empty().rest.outcome == Outcome::Sinks;
  if (session.model().tank_capacity > 0 && !sinks)
    sentence += "; " + divedPhrase(session.full(), session.units());
  return sentence + ".";
}

SailWords sailWords(const Report& report, const UnitSet& units) {
  if (report.rest.outcome == Outcome::Sinks)
    return {numberText(report.rest.missing_buoyancy, Quantity::Mass, units, 0), units.mass.symbol,
            "too heavy"};
  const int decimals = readingDecimals(units);
  return {numberText(std::abs(report.sail_showing), Quantity::Length, units, decimals), units.length.symbol,
          report.sail_showing >= 0 ? "sail out" : "sail under"};
}

}  // namespace pondtrim
