#include <algorithm>
#include <cmath>
#include <pondtrim/file/plan_json.hpp>

#include "decimal.hpp"

namespace pondtrim::file {
namespace {

const Part& partAt(const Boat& boat, std::size_t place) {
  const std::string& name = boat.places[place].part;
  return *std::find_if(boat.parts.begin(), boat.parts.end(), [&](const Part& p) { return p.name == name; });
}

int digitsOf(double value) { return std::abs(value) < 10 ? 2 : std::abs(value) < 1000 ? 3 : 4; }

/// Whole units, but tenths where those are coarse.
std::string amountText(double si, const Unit& unit) {
  const double value = fromSi(si, unit);
  return roundedDecimal(value, digitsOf(value)) + " " + unit.symbol;
}

Unit amountUnit(const Boat& boat, std::size_t place, const UnitSet& units) {
  if (boat.places[place].rail) return units.length;
  return partAt(boat, place).role == Role::Foam ? units.volume : units.mass;
}

/// "at the bow, below the line, middle 830 mm from the aft end": where the hand has to go.
std::string whereWords(const Boat& boat, const Part& part, const UnitSet& units) {
  constexpr double kFore = 0.62, kAft = 0.38, kKeel = 0.3;  // shares of length and of the line's height
  const double along = part.position.x / boat.length;
  std::string words = along > kFore ? "at the bow" : along < kAft ? "at the stern" : "amidships";
  if (part.role == Role::Lead && part.position.z < kKeel * boat.marks.line_height)
    words = "in the keel " + words;
  else if (!part.inside.empty())
    words = "in \"" + part.inside + "\"";
  else if (part.role == Role::Foam)
    words += part.position.z < boat.marks.line_height ? ", below the line" : ", above the line";
  constexpr double kAside = 0.004;  // [m]
  if (!part.mirrored && std::abs(part.position.y) > kAside)
    words += part.position.y > 0 ? ", port side" : ", starboard side";
  return words + ", middle " + amountText(part.position.x, units.length) + " from the aft end";
}

/// Rounded to the side on which it does: what is typed as it is read has to be enough.
double rounded(double value, bool up) {
  if (value == 0) return 0;
  const double unit = std::pow(10.0, std::floor(std::log10(std::abs(value))) + 1 - digitsOf(value));
  constexpr double kHair = 1e-6;
  return (up ? std::ceil(value / unit - kHair) : std::floor(value / unit + kHair)) * unit;
}

std::string inWords(const Limit& l, const Unit& unit) {
  if (!l.would_do) return "";
  const double value = fromSi(*l.would_do, unit);
  return " (would have to be " + roundedDecimal(rounded(value, *l.would_do > l.limit), digitsOf(value)) +
         " " + unit.symbol + ")";
}

std::string placeSentence(const Boat& boat, const Limit& l, const UnitSet& units) {
  const Unit unit = amountUnit(boat, l.index, units);
  const std::string& name = boat.places[l.index].part;
  if (boat.places[l.index].rail) return "\"" + name + "\" is at the end of its rail" + inWords(l, unit) + ".";
  if (l.kind == LimitKind::PlaceMost)
    return "No more room: \"" + name + "\" takes at most " + amountText(l.limit, unit) + inWords(l, unit) +
           ".";
  std::string text =
      "Nothing more to take out of \"" + name + "\": at least " + amountText(l.limit, unit) + " stays";
  if (l.would_do && *l.would_do < 0)
    return text + "; as much as " + amountText(l.limit - *l.would_do, unit) +
           " more would have to come out nearby.";
  return text + inWords(l, unit) + ".";
}

std::string condition(std::size_t index) {
  return index == 0 ? "With the tank empty " : "With the tank full ";
}

std::string balanceSentence(const Limit& l, const UnitSet& units) {
  const char* wrong = l.kind == LimitKind::WeightBalance ? "weight and lift cannot be brought to balance"
                      : l.kind == LimitKind::TrimBalance ? "she cannot be brought level fore and aft"
                                                         : "she cannot be brought upright";
  std::string text = condition(l.index) + wrong;
  if (l.would_do && l.kind == LimitKind::WeightBalance)
    text += ": " + amountText(std::abs(*l.would_do), units.mass) +
            (*l.would_do > 0 ? " too heavy" : " too light");
  return text + ".";
}

}  // namespace

std::string changeSentence(const Boat& boat, const Change& change, const UnitSet& units) {
  const Part& part = partAt(boat, change.place);
  const std::string amount = amountText(std::abs(change.amount), amountUnit(boat, change.place, units));
  const std::string name = "\"" + part.name + "\"", each = part.mirrored ? " on each side" : "";
  const std::string where = " (" + whereWords(boat, part, units) + ")";
  const char* what = part.role == Role::Foam ? " foam" : part.role == Role::Lead ? " lead" : "";
  const std::string off_step = change.off_step ? " Not a whole step: its limits leave none." : "";
  switch (change.work) {
    case Work::TakeOut:
      return "Take " + amount + what + " out of " + name + each + where + "." + off_step;
    case Work::PutIn:
      return (part.role == Role::Foam ? "Put " : "Add ") + amount + what + " at " + name + each + where +
             "." + off_step;
    case Work::Move:
      return "Move " + name + " " + amount + (change.amount > 0 ? " forward" : " aft") +
             ", until its middle is " + amountText(destinationOf(boat, change), units.length) +
             " from the aft end." + off_step;
  }
  return "";
}

double destinationOf(const Boat& boat, const Change& move) {
  return partAt(boat, move.place).position.x + move.amount;
}

namespace {

std::string off(double by, const Unit& unit, const char* more, const char* less) {
  return amountText(std::abs(by), unit) + (by > 0 ? more : less);
}

/// What of a proof is off by more than its tolerance.
std::vector<std::string> offWords(const Proof& p, const UnitSet& units) {
  const WantedCondition& w = p.wanted;
  std::vector<std::string> out;
  if (p.report.rest.outcome == Outcome::Sinks) return {"she sinks"};
  const auto mark = [&](const char* name, const std::optional<double>& by) {
    if (!w.dived && !by) out.push_back(std::string(name) + " under water");
    if (by && std::abs(*by) > w.mark_tolerance)
      out.push_back(std::string(name) + " " + off(*by, units.length, " low", " high"));
  };
  mark("bow", p.bow_off);
  mark("stern", p.stern_off);
  if (p.sail_off && std::abs(*p.sail_off) > w.mark_tolerance)
    out.push_back(off(*p.sail_off, units.length, " more", " less") + " of the sail than wanted");
  if (p.net_off && std::abs(*p.net_off) > w.mass_tolerance)
    out.push_back(off(*p.net_off, units.mass, " more", " less") + " of lift than wanted");
  constexpr double kDegree = kPi / 180;
  const auto angle = [&](double by, const char* positive, const char* negative) {
    if (std::abs(by) > w.angle_tolerance)
      out.push_back(roundedDecimal(std::abs(by) / kDegree, 2) + "\u00b0" + (by > 0 ? positive : negative));
  };
  angle(p.trim_off, " bow up", " bow down");
  angle(p.heel_off, " to starboard", " to port");
  return out;
}

}  // namespace

std::vector<std::string> shortfallSentences(const Plan& plan, const UnitSet& units) {
  std::vector<std::string> out;
  for (const Proof& p : plan.proofs) {
    if (p.holds) continue;
    std::string words;
    for (const std::string& word : offWords(p, units)) words += (words.empty() ? "" : ", ") + word;
    out.push_back("Not right with these pieces, " + p.wanted.name + ": " + words +
                  ". Finer steps would come nearer.");
  }
  return out;
}

std::string limitSentence(const Boat& boat, const Limit& l, const UnitSet& units) {
  switch (l.kind) {
    case LimitKind::PlaceMost:
    case LimitKind::PlaceLeast:
      return placeSentence(boat, l, units);
    case LimitKind::TankCapacity: {
      if (!l.would_do) return "The tank's size, " + amountText(l.limit, units.volume) + ", is part of it.";
      const double by = *l.would_do - l.limit;
      return "The tank is " + amountText(std::abs(by), units.volume) +
             (by > 0 ? " too small." : " too large.");
    }
    case LimitKind::LeastGm:
      return "GM of at least " + amountText(l.limit, units.length) + " with the tank empty" +
             inWords(l, units.length) + ".";
    case LimitKind::LeastBg:
      return "BG of at least " + amountText(l.limit, units.length) + " when dived" +
             inWords(l, units.length) + ".";
    case LimitKind::LeadBudget:
      return "The lead allowed, " + amountText(l.limit, units.mass) + inWords(l, units.mass) + ".";
    case LimitKind::FurtherAim:
      return "The further condition \"" + boat.aims.further[l.index].name + "\": its tolerances" +
             (l.would_do
                  ? " would have to be " + roundedDecimal(rounded(*l.would_do, true), 2) + " times as wide."
                  : " are too narrow.");
    case LimitKind::WeightBalance:
    case LimitKind::TrimBalance:
    case LimitKind::HeelBalance:
      return balanceSentence(l, units);
  }
  return "";
}

const char* limitWord(LimitKind kind) {
  constexpr const char* kWords[] = {"place most",   "place least", "tank capacity",  "least GM",
                                    "least BG",     "lead budget", "weight balance", "trim balance",
                                    "heel balance", "further aim"};
  return kWords[static_cast<std::size_t>(kind)];
}

}  // namespace pondtrim::file
