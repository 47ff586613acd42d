// No plan: the least that would have to give. A floor of GM or BG alone if that will do, as high as it can
// stay; else a cheapest stretching of the other limits, and the floors as high as that lets them.
#include <algorithm>
#include <cmath>

#include "plan_opened.hpp"
#include "plan_search.hpp"

namespace pondtrim {

namespace {

/// Price of a unit of the bound: balance itself is what is wanted, so it gives last.
double price(const ProgrammeLimit& l) {
  if (isBalance(l)) return 1000;
  // Room for more than the shape holds asks for another boat rather than another number; less than nothing
  // cannot be had at all, and only says how far off it is.
  return l.kind == LimitKind::PlaceLeast ? 50 : l.kind == LimitKind::PlaceMost ? 2 : 1;
}

/// A floor of GM or BG can fall to nothing and no further: `down` at most floor x mass / arm.
MilpRow downToNothing(const ProgrammeLimit& l, std::size_t down) {
  const double share = l.floor / l.to_si;
  MilpRow row{-kNoLimit, share * l.mass.least, {{down, 1.0}}};
  for (const MilpTerm& t : l.mass.terms) row.terms.push_back({t.column, -share * t.factor});
  return row;
}

/// How far limits stretch: as far as this boat can say it; as another could; out of balance too, which only
/// says how far off she is.
enum class Reach { SameBoat, AnyBoat, OffBalance };
/// Floors stand, stretch at a price too, or are gone (SameBoat: down to nothing).
enum class Floors { Stand, Stretch, Gone };

/// All limits may stretch at a price: the cheapest way out.
class Stretching {
 public:
  Stretching(const Programme& p, Reach reach, Floors floors) : p_(p), reach_(reach), m_(bare(p)) {
    for (const ProgrammeLimit& l : p.limits) {
      if (floors == Floors::Stretch || !isFloor(l))
        stretch(l);
      else
        stretch_.emplace_back(m_.addColumn({0, 0, 0, false}), m_.addColumn({0, 0, 0, false}));
    }
    for (const ProgrammeLimit& l : p.limits) {
      if (floors == Floors::Stretch || !isFloor(l)) open(m_, l);
    }
    keepTankReal(m_, p);
    Milp asked = m_;
    for (const ProgrammeLimit& l : p.limits) {
      if (floors != Floors::Gone || !isFloor(l)) continue;
      if (reach == Reach::SameBoat)
        asked.rows[l.at] = rowAtHeight(p, l, std::min(0.0, l.floor));
      else
        open(asked, l);
    }
    answer_ = solveMilp(asked);
  }

  [[nodiscard]] bool solved() const { return answer_.solved(); }
  [[nodiscard]] const std::vector<double>& values() const { return answer_.values; }

  /// The programme with no more stretching than was found, its floors standing.
  [[nodiscard]] Milp settled() const {
    constexpr double kHair = 1e-9;
    Milp m = m_;
    for (const auto& [down, up] : stretch_) {
      for (const std::size_t i : {down, up}) m.columns[i] = {0, answer_.values[i] + kHair, 0, false};
    }
    return m;
  }

  [[nodiscard]] std::vector<Limit> stretchedLimits() const {
    constexpr double kDust = 1e-9;
    std::vector<Limit> out;
    for (std::size_t i = 0; i < p_.limits.size(); ++i) {
      const ProgrammeLimit& l = p_.limits[i];
      const double down = answer_.values[stretch_[i].first], up = answer_.values[stretch_[i].second];
      if (down < kDust && up < kDust) continue;
      const double least = l.is_row ? p_.milp.rows[l.at].least : p_.milp.columns[l.at].least;
      const double most = l.is_row ? p_.milp.rows[l.at].most : p_.milp.columns[l.at].most;
      const double bound = up > down ? most + up : least - down;
      Limit limit{l.kind, l.index, 0, valueAt(l, bound, answer_.values)};
      limit.limit = standing(p_, l, limit.would_do);
      out.push_back(limit);
    }
    return oneForEachAim(out);
  }

 private:
  void stretch(const ProgrammeLimit& l) {
    const double least = l.is_row ? m_.rows[l.at].least : m_.columns[l.at].least;
    const double most = l.is_row ? m_.rows[l.at].most : m_.columns[l.at].most;
    const bool same = reach_ == Reach::SameBoat, firm = isBalance(l) && reach_ != Reach::OffBalance;
    const double lower = !l.least || firm ? 0 : same ? std::max(0.0, least - l.can_least) : kNoLimit;
    const double higher = !l.most || firm ? 0 : same ? std::max(0.0, l.can_most - most) : kNoLimit;
    const std::size_t down = m_.addColumn({0, lower, price(l), false});
    const std::size_t up = m_.addColumn({0, higher, price(l), false});
    stretch_.emplace_back(down, up);
    if (same && isFloor(l)) m_.rows.push_back(downToNothing(l, down));
    const std::vector<MilpTerm> body = l.is_row ? m_.rows[l.at].terms : std::vector<MilpTerm>{{l.at, 1.0}};
    const auto bounded = [&](std::size_t column, double factor, double from, double to) {
      MilpRow row{from, to, body};
      row.terms.push_back({column, factor});
      m_.rows.push_back(row);
    };
    if (l.least) bounded(down, 1, least, kNoLimit);
    if (l.most) bounded(up, -1, -kNoLimit, most);
  }

  const Programme& p_;
  Reach reach_;
  Milp m_;
  std::vector<std::pair<std::size_t, std::size_t>> stretch_;  ///< of each limit, columns: down, up
  MilpAnswer answer_;
};

bool isFloorKind(const Limit& l) { return l.kind == LimitKind::LeastGm || l.kind == LimitKind::LeastBg; }

void addFloors(Remedy& out, const Programme& p, const Heights& heights) {
  constexpr double kDust = 1e-8;  // [m]
  std::size_t k = 0;
  for (const ProgrammeLimit& l : p.limits) {
    if (!isFloor(l)) continue;
    const double height = heights.floors[k++];
    if (height < l.floor - kDust) out.limits.push_back({l.kind, l.index, l.floor, height});
  }
  out.values = heights.values;
}

/// The other limits as little as will do, the floors as they stand if that can be, else as high as they then
/// can be.
std::optional<Remedy> othersFirst(const Programme& p, Reach reach) {
  const Stretching stand(p, reach, Floors::Stand);
  if (stand.solved()) return Remedy{stand.stretchedLimits(), stand.values()};
  const Stretching gone(p, reach, Floors::Gone);
  if (!gone.solved()) return std::nullopt;
  Remedy out{gone.stretchedLimits(), gone.values()};
  if (const auto heights = highestFloors(gone.settled(), p, reach == Reach::SameBoat ? 0.0 : -kNoLimit))
    addFloors(out, p, *heights);
  return out;
}

}  // namespace

Remedy remedyFor(const Programme& p) {
  const Stretching priced(p, Reach::SameBoat, Floors::Stretch);
  if (priced.solved()) {
    Remedy cheapest{priced.stretchedLimits(), priced.values()};
    if (cheapest.limits.size() == 1 && !isFloorKind(cheapest.limits[0])) return cheapest;
  }
  Milp m = bare(p);
  keepTankReal(m, p);
  if (const auto heights = highestFloors(m, p, 0.0)) {
    Remedy out;
    addFloors(out, p, *heights);
    return out;
  }
  for (const Reach reach : {Reach::SameBoat, Reach::AnyBoat, Reach::OffBalance}) {
    if (auto out = othersFirst(p, reach)) return *out;
  }
  return {};
}

}  // namespace pondtrim
