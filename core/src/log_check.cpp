// Which numbers make a reading and a correction.
#include <pondtrim/condition.hpp>
#include <pondtrim/model.hpp>
#include <string_view>
#include <unordered_map>

#include "amounts.hpp"
#include "checker.hpp"

namespace pondtrim {

namespace {

/// How much of a part a reading may note.
struct Room {
  bool foam;     ///< then it is a volume
  double holds;  ///< of its shape, when `shape` names it
  std::string shape;
};
using Rooms = std::unordered_map<std::string_view, Room>;

Rooms roomsIn(const Boat& boat) {
  Rooms out;
  for (std::size_t i = 0; i < boat.parts.size(); ++i) {
    const Part& p = boat.parts[i];
    const bool foam = p.role == Role::Foam, point = std::holds_alternative<PointShape>(p.shape);
    Room room{foam, 0, ""};
    if (!point && (foam || (p.role == Role::Lead && p.density))) {
      room.holds = roomFor(p);
      room.shape = item("parts", i) + ".shape";
    }
    out.emplace(p.name, std::move(room));
  }
  return out;
}

/// A part that is no longer in the boat has no effect, so its amount may stay.
void checkInstalled(Checker& c, const std::string& at, const Installed& installed, const Rooms& rooms) {
  c.name(at + ".part", installed.part);
  const auto room = rooms.find(installed.part);
  const bool foam = room != rooms.end() && room->second.foam;
  const std::string field = at + (foam ? ".volume" : ".mass");
  c.range(field, installed.amount, 0, foam ? kLargest : kHeaviest);
  c.range(at + ".at_x", installed.at_x, -kLongest, kLongest);
  if (room != rooms.end() && !room->second.shape.empty())
    c.atMost(field, installed.amount, room->second.shape, room->second.holds);
}

// Spreads below these are not to be had at a pond, and would make one number outvote everything.
constexpr double kFinest = 1e-4;

void checkMeasured(Checker& c, const std::string& at, const std::optional<Measured>& read, double most) {
  if (!read) return;
  c.range(at, read->value, -most, most);
  c.range(at + "_spread", read->spread, kFinest, most);
}

void checkHooks(Checker& c, const std::string& at, const Reading& r) {
  c.range(at + ".bow_hook_x", r.bow_hook_x, -kLongest, kLongest);
  c.range(at + ".stern_hook_x", r.stern_hook_x, -kLongest, kLongest);
  if (r.bow_pull.has_value() != r.stern_pull.has_value()) {
    c.fault(at + (r.bow_pull ? ".bow_pull" : ".stern_pull"), "one of two",
            "both hooks' pulls, or the one as pull", at + (r.bow_pull ? ".stern_pull" : ".bow_pull"),
            at + " has the pull of one of two hooks: give both, or one as pull");
  }
  if (r.bow_pull && r.stern_pull)
    c.atLeast(at + ".bow_hook_x", r.bow_hook_x, at + ".stern_hook_x", r.stern_hook_x + 0.01);
}

void checkTank(Checker& c, const std::string& at, const Reading& r, double capacity) {
  c.range(at + ".tank_fill", r.tank_fill, 0, 1.2 * capacity);
  if (r.tank != TankState::Measured && r.tank_fill != 0)
    c.fault(at + ".tank_fill", numberText(r.tank_fill), "0 unless the tank is measured", at + ".tank",
            at + " has an amount in the tank, but the tank is not said to be measured");
}

void checkReading(Checker& c, const std::string& at, const Reading& r, double capacity) {
  checkMeasured(c, at + ".bow", r.bow, 1);
  checkMeasured(c, at + ".stern", r.stern, 1);
  checkMeasured(c, at + ".sail_showing", r.sail_showing, 1);
  checkMeasured(c, at + ".trim", r.trim, 1.5);
  checkMeasured(c, at + ".heel", r.heel, 1.5);
  checkMeasured(c, at + ".pull", r.pull, 100);
  checkMeasured(c, at + ".bow_pull", r.bow_pull, 100);
  checkMeasured(c, at + ".stern_pull", r.stern_pull, 100);
  checkTank(c, at, r, capacity);
  checkHooks(c, at, r);
  c.range(at + ".laid_mass", r.laid_mass, 0, 100);
  c.range(at + ".held_x", r.held_x, -kLongest, kLongest);
  c.range(at + ".held_z", r.held_z, -kLongest, kLongest);
  if (r.laid_mass != 0 && (r.pull || r.bow_pull))
    c.fault(at + ".laid_mass", numberText(r.laid_mass), "0 for a boat that sank and hung", at + ".pull",
            at + " has lead laid on a boat that hung on a scale: one or the other");
  c.range(at + ".shifted_mass", r.shifted_mass, 0, 10);
  c.range(at + ".shifted_by", r.shifted_by, -2, 2);
  if (auto density = waterDensity(r.water); !density) {
    const Error& e = density.error();
    c.fault(at + "." + e.field, e.was, e.allowed, "", at + "." + e.message);
  }
}

double tankCapacity(const Boat& boat) {
  return boat.tank ? boat.tank->capacity.value_or(boreBetweenEnds(boat)) : 0;  // checked with the tank
}

/// Far more than a log ever finds; a slip or a stranger's file ends here.
void checkCorrection(Checker& c, const Correction& k) {
  c.range("correction.mass", k.mass, -100, 100);
  c.range("correction.mass_moment.x", k.mass_moment.x, -100, 100);
  c.range("correction.mass_moment.y", k.mass_moment.y, -100, 100);
  c.range("correction.mass_moment.z", k.mass_moment.z, -100, 100);
  c.range("correction.upper_volume", k.upper_volume, -0.1, 0.1);
  c.range("correction.upper_x", k.upper_x, -0.1, 0.1);
  c.range("correction.upper_y", k.upper_y, -0.1, 0.1);
  c.range("correction.tank_factor", k.tank_factor, 0.5, 2);
}

}  // namespace

void checkLog(Checker& c, const Boat& boat) {
  if (boat.correction) checkCorrection(c, *boat.correction);
  if (boat.log.empty()) return;
  const Rooms rooms = roomsIn(boat);
  const double capacity = tankCapacity(boat);
  for (std::size_t i = 0; i < boat.log.size() && c.good(); ++i) {
    const Reading& r = boat.log[i];
    const std::string at = item("log", i);
    checkReading(c, at, r, capacity);
    for (std::size_t j = 0; j < r.installed.size() && c.good(); ++j)
      checkInstalled(c, at + "." + item("installed", j), r.installed[j], rooms);
  }
}

}  // namespace pondtrim
