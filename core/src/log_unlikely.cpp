#include "log_unlikely.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "log_filter.hpp"

namespace pondtrim {

namespace {

using Number = std::optional<Measured> Reading::*;
constexpr Number kNumbers[] = {&Reading::bow,  &Reading::stern, &Reading::sail_showing, &Reading::trim,
                               &Reading::heel, &Reading::pull,  &Reading::bow_pull,     &Reading::stern_pull};

/// The same thing read twice, and nothing else changed for it.
bool alike(const Reading& a, const Reading& b) {
  constexpr double kApart = 3;  // spreads of both
  if (a.tank != b.tank || a.tank_fill != b.tank_fill || a.installed != b.installed) return false;
  if (a.laid_mass != b.laid_mass || a.shifted_mass != b.shifted_mass || a.shifted_by != b.shifted_by)
    return false;
  return std::all_of(std::begin(kNumbers), std::end(kNumbers), [&](Number n) {
    if (!(a.*n)) return true;
    return b.*n &&
           std::abs((a.*n)->value - (b.*n)->value) < kApart * std::hypot((a.*n)->spread, (b.*n)->spread);
  });
}

bool readTwice(const Boat& boat, std::size_t index) {
  for (std::size_t i = 0; i < boat.log.size(); ++i) {
    if (i != index && boat.log[i].used && alike(boat.log[index], boat.log[i])) return true;
  }
  return false;
}

/// The water at the mark lies under the keel or over the deck.
bool offTheHull(const Fact& f, const Marks& marks) {
  const double water = marks.line_height - f.read.value;
  return f.kind == Fact::MarkLine && (water < 0 || water > marks.deck_height);
}

}  // namespace

bool mayBeUnlikely(const Reading& r, const std::vector<Fact>& facts, const Marks& marks, bool strange) {
  if (strange) return true;
  return r.tank != TankState::Full &&
         std::any_of(facts.begin(), facts.end(), [&](const Fact& f) { return offTheHull(f, marks); });
}

void addUnlikely(std::vector<Doubt>& doubts, const Boat& boat, std::size_t index,
                 const std::vector<Fact>& facts, const Model& file, const Plane& by_file, bool strange) {
  const Reading& r = boat.log[index];
  const bool full = r.tank == TankState::Full;
  std::vector<Doubt> found;
  const auto add = [&](const char* field, const Measured& read, double fitted) {
    const double apart = std::abs(read.value - fitted) / read.spread;
    found.push_back({index, field, read.value, fitted, apart, Doubt::Unlikely});
  };
  for (const Fact& f : facts) {
    const double fitted = factOn(f, by_file, file.marks);
    const bool apart = std::abs(f.read.value - fitted) > 3.5 * f.read.spread;
    if ((strange && apart) || (!full && offTheHull(f, file.marks))) add(f.field, f.read, fitted);
  }
  if (strange && hung(r)) {
    const double density = file.whole_volume > 0 ? *waterDensity(r.water) : 0.0;
    const double sinking =
        std::max(0.0, file.mass + density * ((full ? file.tank_capacity : r.tank_fill) - file.whole_volume));
    if (r.pull) add("pull", *r.pull, sinking);
    if (r.bow_pull && r.stern_pull) {
      add("bow_pull", *r.bow_pull, sinking / 2);
      add("stern_pull", *r.stern_pull, sinking / 2);
    }
  }
  if (found.empty() || readTwice(boat, index)) return;
  std::erase_if(doubts, [&](const Doubt& d) {
    return d.reading == index &&
           std::any_of(found.begin(), found.end(), [&](const Doubt& f) { return f.field == d.field; });
  });
  doubts.insert(doubts.end(), found.begin(), found.end());
}

}  // namespace pondtrim
