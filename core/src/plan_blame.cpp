// Why there is no plan: a smallest conflicting set of limits by the deletion filter (Chinneck 2008,
// Feasibility and Infeasibility in Optimization, ch. 6, from memory). What would have to give:
// plan_remedy.cpp.
#include <algorithm>
#include <cmath>

#include "plan_opened.hpp"
#include "plan_search.hpp"

namespace pondtrim {

namespace {

void openWhole(Milp& m, const Programme& p, const ProgrammeLimit& l) {
  open(m, l);
  for (const ProgrammeLimit& other : p.limits) {
    if (sameAim(l, other)) open(m, other);
  }
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

std::optional<double> floorAlone(const Programme& p, const ProgrammeLimit& l) {
  Milp m = bare(p);
  keepTankReal(m, p);
  const auto highest = highestFloor(m, p, l);
  if (!highest) return std::nullopt;
  return highest->floors[l.kind == LimitKind::LeastGm ? 0 : 1];
}

/// The nearest value that the limited quantity takes when this limit alone is opened.
std::optional<double> givesAlone(const Programme& p, const ProgrammeLimit& l) {
  if (l.kind == LimitKind::FurtherAim) return widthAlone(p, l);
  if (isFloor(l)) return floorAlone(p, l);
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

}  // namespace

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
  blame.remedy = remedyFor(p).limits;
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
