// Why there is no plan: a smallest conflicting set of limits by the deletion filter (Chinneck 2008,
// Feasibility and Infeasibility in Optimization, ch. 6, from memory), and a cheapest relaxation of all limits
// together.
#include <algorithm>
#include <cmath>

#include "plan_search.hpp"

namespace pondtrim {

namespace {

bool isBalance(const ProgrammeLimit& l) {
  return l.kind == LimitKind::WeightBalance || l.kind == LimitKind::TrimBalance ||
         l.kind == LimitKind::HeelBalance;
}

/// Feasibility alone, with whole numbers free.
Milp bare(const Programme& p) {
  Milp m = p.milp;
  for (MilpColumn& c : m.columns) {
    c.cost = 0;
    c.whole = false;
  }
  return m;
}

void open(Milp& m, const ProgrammeLimit& l) {
  double& least = l.is_row ? m.rows[l.at].least : m.columns[l.at].least;
  double& most = l.is_row ? m.rows[l.at].most : m.columns[l.at].most;
  if (l.least) least = -kNoLimit;
  if (l.most) most = kNoLimit;
}

/// A further aim has several rows and is one limit: its tolerances.
bool sameAim(const ProgrammeLimit& a, const ProgrammeLimit& b) {
  return a.kind == LimitKind::FurtherAim && b.kind == a.kind && b.index == a.index;
}

void openWhole(Milp& m, const Programme& p, const ProgrammeLimit& l) {
  open(m, l);
  for (const ProgrammeLimit& other : p.limits) {
    if (sameAim(l, other)) open(m, other);
  }
}

/// The tank's capacity cannot fall below nothing.
void keepTankReal(Milp& m, const Programme& p) {
  const ProgrammeLimit& tank = *std::find_if(p.limits.begin(), p.limits.end(), [](const ProgrammeLimit& l) {
    return l.kind == LimitKind::TankCapacity;
  });
  MilpColumn& c = m.columns[p.tank];
  c.least = std::max(c.least, -tank.zero / tank.to_si);
}

bool feasible(Milp m, const Programme& p) {
  keepTankReal(m, p);
  return solveMilp(m).status != MilpStatus::Infeasible;
}

/// Limits that stay last in the filter stay in the set: what a builder can act on.
int keenness(const ProgrammeLimit& l) {
  switch (l.kind) {
    case LimitKind::PlaceLeast:
      return 0;
    case LimitKind::PlaceMost:
      return 1;
    case LimitKind::LeastGm:
    case LimitKind::LeastBg:
      return 2;
    case LimitKind::FurtherAim:
      return 3;
    case LimitKind::LeadBudget:
      return 4;
    default:
      return 5;
  }
}

std::vector<ProgrammeLimit> ordered(const Programme& p, bool balance) {
  std::vector<ProgrammeLimit> out;
  for (const ProgrammeLimit& l : p.limits) {
    const bool known =
        std::any_of(out.begin(), out.end(), [&](const ProgrammeLimit& other) { return sameAim(l, other); });
    if (isBalance(l) == balance && !known) out.push_back(l);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return keenness(a) < keenness(b); });
  return out;
}

/// Opens each in turn for good if the rest still conflicts; those that must stay are the set.
std::vector<ProgrammeLimit> filter(Milp& m, const Programme& p,
                                   const std::vector<ProgrammeLimit>& candidates) {
  std::vector<ProgrammeLimit> kept;
  for (const ProgrammeLimit& l : candidates) {
    Milp without = m;
    openWhole(without, p, l);
    if (feasible(without, p)) {
      kept.push_back(l);
    } else {
      m = without;
    }
  }
  return kept;
}

/// The bound, in SI, that stands now (the one on the side of `would_do`, when that is known).
double standing(const Programme& p, const ProgrammeLimit& l, std::optional<double> would_do) {
  if (!l.mass.terms.empty()) return l.floor;
  const double least = l.is_row ? p.milp.rows[l.at].least : p.milp.columns[l.at].least;
  const double most = l.is_row ? p.milp.rows[l.at].most : p.milp.columns[l.at].most;
  if (!l.most) return l.zero + l.to_si * least;
  if (!l.least || (would_do && *would_do > l.zero + l.to_si * most)) return l.zero + l.to_si * most;
  return l.zero + l.to_si * least;
}

/// How many times as wide the aim's tolerances would have to be.
std::optional<double> widthAlone(const Programme& p, const ProgrammeLimit& aim) {
  Milp m = bare(p);
  openWhole(m, p, aim);
  keepTankReal(m, p);
  const std::size_t times = m.addColumn({1, kNoLimit, 1, false});
  for (const ProgrammeLimit& l : p.limits) {
    if (!sameAim(l, aim)) continue;
    const MilpRow row = p.milp.rows[l.at];  // from -1 to 1, less what is there now
    MilpRow under{-kNoLimit, row.most - 1, row.terms}, over{row.least + 1, kNoLimit, row.terms};
    under.terms.push_back({times, -1.0});
    over.terms.push_back({times, 1.0});
    m.rows.push_back(under);
    m.rows.push_back(over);
  }
  const MilpAnswer answer = solveMilp(m);
  if (!answer.solved()) return std::nullopt;
  return answer.values[times];
}

/// The nearest value that the limited quantity takes when this limit alone is opened.
std::optional<double> givesAlone(const Programme& p, const ProgrammeLimit& l) {
  if (l.kind == LimitKind::FurtherAim) return widthAlone(p, l);
  Milp m = bare(p);
  open(m, l);
  keepTankReal(m, p);
  std::size_t quantity = l.at;
  if (l.is_row) {
    quantity = m.addColumn({-kNoLimit, kNoLimit, 0, false});
    MilpRow same{0, 0, m.rows[l.at].terms};
    same.terms.push_back({quantity, -1});
    m.rows.push_back(same);
  }
  const double least = l.is_row ? p.milp.rows[l.at].least : p.milp.columns[l.at].least;
  const double most = l.is_row ? p.milp.rows[l.at].most : p.milp.columns[l.at].most;
  // Down from above when it must rise over `most`; up from below when it must fall under `least`.
  m.columns[quantity].cost = 1;
  const MilpAnswer low = solveMilp(m);
  m.columns[quantity].cost = -1;
  const MilpAnswer high = solveMilp(m);
  if (l.most && low.solved() && low.values[quantity] > most)
    return valueAt(l, low.values[quantity], low.values);
  if (l.least && high.solved() && high.values[quantity] < least)
    return valueAt(l, high.values[quantity], high.values);
  return std::nullopt;
}

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

enum class Reach { SameBoat, Any };

/// All limits may stretch at a price: the cheapest way out. SameBoat: only as far as the boat can say it.
struct Relaxed {
  MilpAnswer answer;
  std::vector<std::pair<std::size_t, std::size_t>> stretch;  ///< of each limit, columns: down, up
};
Relaxed relaxed(const Programme& p, Reach reach) {
  Milp m = bare(p);
  Relaxed out;
  auto& stretch = out.stretch;
  for (const ProgrammeLimit& l : p.limits) {
    const double least = l.is_row ? m.rows[l.at].least : m.columns[l.at].least;
    const double most = l.is_row ? m.rows[l.at].most : m.columns[l.at].most;
    const bool same = reach == Reach::SameBoat;
    const double lower = !l.least ? 0 : same ? std::max(0.0, least - l.can_least) : kNoLimit;
    const double higher = !l.most ? 0 : same ? std::max(0.0, l.can_most - most) : kNoLimit;
    const std::size_t down = m.addColumn({0, lower, price(l), false});
    const std::size_t up = m.addColumn({0, higher, price(l), false});
    stretch.emplace_back(down, up);
    if (same && !l.mass.terms.empty()) m.rows.push_back(downToNothing(l, down));
    const std::vector<MilpTerm> body = l.is_row ? m.rows[l.at].terms : std::vector<MilpTerm>{{l.at, 1.0}};
    const auto bounded = [&](std::size_t column, double factor, double from, double to) {
      MilpRow row{from, to, body};
      row.terms.push_back({column, factor});
      m.rows.push_back(row);
    };
    if (l.least) bounded(down, 1, least, kNoLimit);
    if (l.most) bounded(up, -1, -kNoLimit, most);
  }
  for (const ProgrammeLimit& l : p.limits) open(m, l);
  keepTankReal(m, p);
  out.answer = solveMilp(m);
  return out;
}

Relaxed relaxed(const Programme& p) {
  Relaxed r = relaxed(p, Reach::SameBoat);
  return r.answer.solved() ? r : relaxed(p, Reach::Any);
}

/// Of an aim's rows the one that needs the widest tolerances counts.
std::vector<Limit> oneForEachAim(const std::vector<Limit>& limits) {
  std::vector<Limit> out;
  for (Limit l : limits) {
    if (l.kind == LimitKind::FurtherAim) {
      l.limit = 1;
      if (l.would_do) l.would_do = std::abs(*l.would_do);
    }
    const auto same = std::find_if(out.begin(), out.end(), [&](const Limit& other) {
      return l.kind == LimitKind::FurtherAim && other.kind == l.kind && other.index == l.index;
    });
    if (same == out.end()) {
      out.push_back(l);
    } else if (l.would_do) {
      same->would_do = std::max(same->would_do.value_or(0.0), *l.would_do);
    }
  }
  return out;
}

std::vector<Limit> remedyOf(const Programme& p) {
  const auto [answer, stretch] = relaxed(p);
  std::vector<Limit> out;
  if (!answer.solved()) return out;
  constexpr double kDust = 1e-9;
  for (std::size_t i = 0; i < p.limits.size(); ++i) {
    const ProgrammeLimit& l = p.limits[i];
    const double down = answer.values[stretch[i].first], up = answer.values[stretch[i].second];
    if (down < kDust && up < kDust) continue;
    const bool rises = up > down;
    const double least = l.is_row ? p.milp.rows[l.at].least : p.milp.columns[l.at].least;
    const double most = l.is_row ? p.milp.rows[l.at].most : p.milp.columns[l.at].most;
    const double bound = rises ? most + up : least - down;
    Limit limit{l.kind, l.index, 0, valueAt(l, bound, answer.values)};
    limit.limit = standing(p, l, limit.would_do);
    out.push_back(limit);
  }
  return oneForEachAim(out);
}

}  // namespace

std::vector<double> relaxedAmounts(const PlanBasis& basis, const Programme& programme) {
  const MilpAnswer answer = relaxed(programme).answer;
  return answer.solved() ? amountsOf(basis, answer) : std::vector<double>();
}

Blame blameLimits(const Programme& p) {
  Blame blame;
  Milp m = bare(p);
  std::vector<ProgrammeLimit> set = filter(m, p, ordered(p, false));
  // Also which of the balances it is that the set cannot have.
  const std::vector<ProgrammeLimit> balances = filter(m, p, ordered(p, true));
  set.insert(set.end(), balances.begin(), balances.end());
  // Where the solver gave a large programme up, a limit stayed that the small one can do without.
  set = filter(m, p, set);
  for (const ProgrammeLimit& l : set) {
    Limit limit{l.kind, l.index, 0, givesAlone(p, l)};
    limit.limit = standing(p, l, limit.would_do);
    blame.conflict.push_back(limit);
  }
  blame.conflict = oneForEachAim(blame.conflict);
  blame.remedy = remedyOf(p);
  // The stretching of all at once is the harder programme: where the solver gives it up, one limit alone may
  // do.
  for (auto l = blame.conflict.rbegin(); blame.remedy.empty() && l != blame.conflict.rend(); ++l) {
    if (l->would_do) blame.remedy = {*l};
  }
  return blame;
}

std::optional<TankRange> tankRange(const Programme& p) {
  Milp m = bare(p);
  m.columns[p.tank].least = -kNoLimit;
  m.columns[p.tank].most = kNoLimit;
  keepTankReal(m, p);
  const ProgrammeLimit& tank = *std::find_if(p.limits.begin(), p.limits.end(), [](const ProgrammeLimit& l) {
    return l.kind == LimitKind::TankCapacity;
  });
  m.columns[p.tank].cost = 1;
  const MilpAnswer smallest = solveMilp(m);
  m.columns[p.tank].cost = -1;
  const MilpAnswer largest = solveMilp(m);
  if (!smallest.solved()) return std::nullopt;
  TankRange range{tank.zero + tank.to_si * smallest.values[p.tank], std::nullopt};
  if (largest.solved()) range.largest = tank.zero + tank.to_si * largest.values[p.tank];
  return range;
}

}  // namespace pondtrim
