#include "session/dips.hpp"

#include <algorithm>
#include <cmath>

#include "session/words.hpp"

namespace pondtrim {
namespace {

constexpr DipKind kKinds[kDips] = {
    {"bow", "Bow mark", Quantity::Length, kRulerSpread, &Reading::bow, true},
    {"stern", "Stern mark", Quantity::Length, kRulerSpread, &Reading::stern, true},
    {"sail_showing", "Sail out", Quantity::Length, kRulerSpread, &Reading::sail_showing, false},
    {"trim", "Trim", Quantity::Angle, kClinometerSpread, &Reading::trim, true},
    {"heel", "Heel", Quantity::Angle, kClinometerSpread, &Reading::heel, true},
    {"pull", "Pull on the one hook", Quantity::Mass, kScaleSpread, &Reading::pull, false},
    {"bow_pull", "Pull at the bow hook", Quantity::Mass, kScaleSpread, &Reading::bow_pull, false},
    {"stern_pull", "Pull at the stern hook", Quantity::Mass, kScaleSpread, &Reading::stern_pull, false},
};

const Part* partNamed(const Boat& boat, const std::string& name) {
  for (const Part& part : boat.parts)
    if (part.name == name) return &part;
  return nullptr;
}

std::string sided(double value, Quantity quantity, const UnitSet& units, const char* plus, const char* minus,
                  const char* none) {
  const std::string text = valueText(std::abs(value), quantity, units, quantity == Quantity::Angle ? 1 : -1);
  if (text.find_first_of("123456789") == std::string::npos) return none;  // 0 as it is shown
  return text + (value > 0 ? plus : minus);
}

}  // namespace

const DipKind& dipKind(Dip dip) { return kKinds[static_cast<std::size_t>(dip)]; }

std::optional<double> dipAt(const Boat& boat, std::size_t dip_index) {
  const std::size_t reading = dip_index / kDips;
  if (reading >= boat.log.size()) return std::nullopt;
  const auto& read = boat.log[reading].*kKinds[dip_index % kDips].member;
  return read ? std::optional(read->value) : std::nullopt;
}

Boat withDip(const Boat& boat, std::size_t dip_index, std::optional<double> value) {
  Boat changed = boat;
  Reading& reading = changed.log.at(dip_index / kDips);
  const auto put = [&](Dip dip, std::optional<double> v) {
    const DipKind& kind = dipKind(dip);
    auto& read = reading.*kind.member;
    if (!v)
      read.reset();
    else
      read = Measured{*v, read ? read->spread : kind.spread};
  };
  const Dip dip = static_cast<Dip>(dip_index % kDips);
  put(dip, value);
  if (dip != Dip::BowPull && dip != Dip::SternPull) return changed;
  const Dip other = dip == Dip::BowPull ? Dip::SternPull : Dip::BowPull;
  if (!value || !(reading.*dipKind(other).member)) put(other, value ? std::optional(0.0) : std::nullopt);
  if (reading.bow_hook_x <= reading.stern_hook_x) {
    reading.bow_hook_x = boat.marks.bow_x;
    reading.stern_hook_x = boat.marks.stern_x;
  }
  return changed;
}

Boat withReading(const Boat& boat, TankState tank, const std::string& date) {
  Boat changed = withAmountsNoted(boat);  // what is in the boat now is what is being read
  Reading reading;
  reading.date = date;
  reading.tank = tank;
  reading.water = boat.water;
  changed.log.push_back(reading);
  return changed;
}

Boat withoutReading(const Boat& boat, std::size_t index) {
  Boat changed = boat;
  changed.log.erase(changed.log.begin() + static_cast<std::ptrdiff_t>(index));
  return changed;
}

Boat withTankState(const Boat& boat, std::size_t index, TankState tank, double capacity) {
  Boat changed = boat;
  Reading& reading = changed.log.at(index);
  const double was = fillOf(reading, capacity);
  reading.tank = tank;
  reading.tank_fill = tank == TankState::Measured ? std::min(was, 1.0) * capacity : 0.0;
  return changed;
}

Boat withLaidLead(const Boat& boat, std::size_t index, double mass) {
  Boat changed = boat;
  Reading& reading = changed.log.at(index);
  reading.laid_mass = mass;
  if (mass > 0 && !reading.held_x) reading.held_x = boat.marks.sail_top.x;
  return changed;
}

double fillOf(const Reading& reading, double capacity) {
  if (reading.tank == TankState::Empty || capacity <= 0) return 0.0;
  return reading.tank == TankState::Full ? 1.0 : reading.tank_fill / capacity;
}

double sailWanted(const Session& session) {
  const Boat& boat = session.boat();
  const auto density = waterDensity(boat.water);
  return density ? wantedSail(session.model(), *density, boat.aims) : boat.aims.sail_showing;
}

double firstDip(Dip dip, const Session& session) { return dip == Dip::Sail ? sailWanted(session) : 0.0; }

std::optional<double> expectedDip(Dip dip, const Report& report) {
  const bool sinks = report.rest.outcome == Outcome::Sinks;
  switch (dip) {
    case Dip::Bow:
      return report.bow && !sinks ? std::optional(report.bow->line_above_water) : std::nullopt;
    case Dip::Stern:
      return report.stern && !sinks ? std::optional(report.stern->line_above_water) : std::nullopt;
    case Dip::Sail:
      return sinks ? std::nullopt : std::optional(report.sail_showing);
    case Dip::Trim:
      return sinks ? std::nullopt : std::optional(report.rest.attitude.trim);
    case Dip::Heel:
      return sinks ? std::nullopt : std::optional(report.rest.attitude.heel);
    case Dip::Pull:
      return sinks ? std::optional(report.rest.missing_buoyancy) : std::nullopt;
    case Dip::BowPull:
    case Dip::SternPull:
      return std::nullopt;
  }
  return std::nullopt;
}

std::string dipWords(Dip dip, double value, const UnitSet& units) {
  const DipKind& kind = dipKind(dip);
  switch (dip) {
    case Dip::Bow:
    case Dip::Stern:
      return sided(value, kind.quantity, units, " high", " low", "on the line");
    case Dip::Trim:
      return sided(value, kind.quantity, units, " bow up", " bow down", "level");
    case Dip::Heel:
      return sided(value, kind.quantity, units, " to starboard", " to port", "upright");
    default:
      return valueText(value, kind.quantity, units);
  }
}

std::string readingLine(const Reading& reading, const UnitSet& units) {
  std::string words = reading.tank == TankState::Empty ? "Tank empty"
                      : reading.tank == TankState::Full
                          ? "Tank full"
                          : valueText(reading.tank_fill, Quantity::Volume, units) + " in the tank";
  constexpr const char* kShort[kDips] = {"bow ",  "stern ", "sail ",     "trim ",
                                         "heel ", "pull ",  "bow hook ", "stern hook "};
  const char* gap = ": ";
  for (std::size_t k = 0; k < kDips; ++k) {
    const auto& read = reading.*kKinds[k].member;
    if (!read) continue;
    words += gap;
    words += kShort[k] + dipWords(static_cast<Dip>(k), read->value, units);
    gap = ", ";
  }
  if (gap[0] == ':') words += ", nothing read yet";
  if (reading.laid_mass > 0)
    words += "; " + valueText(reading.laid_mass, Quantity::Mass, units) + " of lead laid on her";
  if (reading.shifted_mass > 0)
    words += "; " + valueText(reading.shifted_mass, Quantity::Mass, units) + " moved " +
             sided(reading.shifted_by, Quantity::Length, units, " to port", " to starboard", "nowhere");
  return words;
}

Boat withChangesDone(const Boat& boat, const file::CorrectAnswer& answer, const std::vector<bool>& done) {
  Boat changed = answer.applied;
  for (std::size_t i = 0; i < answer.next.changes.size(); ++i) {
    if (i >= done.size() || done[i]) continue;
    const std::string& name = answer.next.changes[i].part;
    const Part* before = partNamed(boat, name);
    if (before == nullptr) {  // a piece that was only proposed
      std::erase_if(changed.parts, [&](const Part& p) { return p.name == name; });
      for (Reading& r : changed.log)
        std::erase_if(r.installed, [&](const Installed& in) { return in.part == name; });
      continue;
    }
    for (Part& part : changed.parts)
      if (part.name == name) part = *before;
  }
  return changed;
}

std::vector<DipError> dipErrors(const Boat& boat, double sail_wanted) {
  std::vector<DipError> out;
  for (std::size_t i = 0; i < boat.log.size(); ++i) {
    const Reading& r = boat.log[i];
    if (!r.used || r.shifted_mass > 0 || r.laid_mass > 0) continue;  // not as she is
    DipError error{i, {}, {}, {}, {}};
    if (r.tank == TankState::Empty) {
      if (r.bow) error.bow = r.bow->value;
      if (r.stern) error.stern = r.stern->value;
    }
    if (r.tank == TankState::Full) {
      if (r.sail_showing) error.sail = r.sail_showing->value - sail_wanted;
      if (r.trim) error.trim = r.trim->value;
    }
    if (error.bow || error.stern || error.sail || error.trim) out.push_back(error);
  }
  return out;
}

}  // namespace pondtrim
