// See plan_opened.hpp. GM and BG are moment over mass, both linear: how high a floor can be is a linear
// fractional programme, solved by raising the floor to what the best answer has until nothing rises
// (Dinkelbach 1967, On nonlinear fractional programming; of several fractions the least, Crouzeix, Ferland
// and Schaible 1985; both from memory). It ends in a handful of linear programmes.
#include "plan_opened.hpp"

#include <algorithm>
#include <cmath>

namespace pondtrim {

bool isBalance(const ProgrammeLimit& l) {
  return l.kind == LimitKind::WeightBalance || l.kind == LimitKind::TrimBalance ||
         l.kind == LimitKind::HeelBalance;
}

bool isFloor(const ProgrammeLimit& l) { return !l.mass.terms.empty(); }

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

void keepTankReal(Milp& m, const Programme& p) {
  const ProgrammeLimit& tank = *std::find_if(p.limits.begin(), p.limits.end(), [](const ProgrammeLimit& l) {
    return l.kind == LimitKind::TankCapacity;
  });
  MilpColumn& c = m.columns[p.tank];
  c.least = std::max(c.least, -tank.zero / tank.to_si);
}

double standing(const Programme& p, const ProgrammeLimit& l, std::optional<double> would_do) {
  if (isFloor(l)) return l.floor;
  const double least = l.is_row ? p.milp.rows[l.at].least : p.milp.columns[l.at].least;
  const double most = l.is_row ? p.milp.rows[l.at].most : p.milp.columns[l.at].most;
  if (!l.most) return l.zero + l.to_si * least;
  if (!l.least || (would_do && *would_do > l.zero + l.to_si * most)) return l.zero + l.to_si * most;
  return l.zero + l.to_si * least;
}

std::vector<Limit> oneForEachAim(const std::vector<Limit>& limits) {
  std::vector<Limit> out;
  for (Limit l : limits) {
    if (l.kind == LimitKind::FurtherAim) {
      l.limit = 1;
      if (l.would_do) l.would_do = std::abs(*l.would_do);
    }
    const auto same =
        std::find_if(out.begin(), out.end(), [&](const Limit& other) { return sameAim(l, other); });
    if (same == out.end()) {
      out.push_back(l);
    } else if (l.would_do) {
      same->would_do = std::max(same->would_do.value_or(0.0), *l.would_do);
    }
  }
  return out;
}

// moment - height x mass >= 0, over the arm: body + (floor - height) / arm x mass.
MilpRow rowAtHeight(const Programme& p, const ProgrammeLimit& l, double height) {
  const double shift = (l.floor - height) / l.to_si;
  MilpRow row{-l.zero / l.to_si - shift * l.mass.least, kNoLimit, p.milp.rows[l.at].terms};
  for (const MilpTerm& t : l.mass.terms) {
    // A column stands in a row once.
    const auto same = std::find_if(row.terms.begin(), row.terms.end(),
                                   [&](const MilpTerm& other) { return other.column == t.column; });
    if (same == row.terms.end())
      row.terms.push_back({t.column, shift * t.factor});
    else
      same->factor += shift * t.factor;
  }
  return row;
}

namespace {

constexpr int kSteps = 25;        // three to six do
constexpr double kStill = 1e-10;  // [m]

double heightAt(const Programme& p, const ProgrammeLimit& l, const std::vector<double>& values) {
  double body = 0;
  for (const MilpTerm& t : p.milp.rows[l.at].terms) body += t.factor * values[t.column];
  return valueAt(l, body, values);
}

void clearCosts(Milp& m) {
  for (MilpColumn& c : m.columns) c.cost = 0;
}

std::vector<ProgrammeLimit> floorsOf(const Programme& p) {
  std::vector<ProgrammeLimit> out;
  std::copy_if(p.limits.begin(), p.limits.end(), std::back_inserter(out), isFloor);
  return out;
}

struct Answer {
  double height = 0;
  std::vector<double> values;
};

/// The floors that ask for more than `height` raised together from there as far as can be; the others as they
/// are asked. `m`: without any of the floors.
std::optional<Answer> raisedFrom(Milp m, const Programme& p, double height) {
  const std::size_t rise = m.addColumn({-kNoLimit, kNoLimit, -1, false});
  for (const ProgrammeLimit& l : floorsOf(p)) {
    MilpRow row = rowAtHeight(p, l, std::min(height, l.floor));
    if (l.floor > height) row.terms.push_back({rise, -1});
    m.rows.push_back(row);
  }
  const MilpAnswer answer = solveMilp(m);
  if (!answer.solved()) return std::nullopt;
  double least = kNoLimit;
  for (const ProgrammeLimit& l : floorsOf(p)) {
    if (l.floor > height) least = std::min(least, heightAt(p, l, answer.values));
  }
  return Answer{least, answer.values};
}

/// None asked for more than a height that all can have together.
std::optional<Answer> levelFloors(const Milp& m, const Programme& p, double least) {
  std::optional<Answer> best;
  double from = 0;
  for (int i = 0; i < kSteps; ++i) {
    auto answer = raisedFrom(m, p, from);
    if (!answer || (best && answer->height <= best->height + kStill)) break;
    from = answer->height;
    best = std::move(answer);
    const auto floors = floorsOf(p);
    if (std::none_of(floors.begin(), floors.end(), [&](const auto& l) { return l.floor > from; })) break;
  }
  if (!best || best->height < least) return std::nullopt;
  return best;
}

/// One floor lower, the one that has to fall by less.
std::optional<Heights> oneLower(const Milp& m, const Programme& p, double least) {
  std::optional<Heights> best;
  double fall = kNoLimit;
  const std::vector<ProgrammeLimit> floors = floorsOf(p);
  for (std::size_t k = 0; k < floors.size(); ++k) {
    auto alone = highestFloor(m, p, floors[k]);
    if (!alone || alone->floors[k] < least || floors[k].floor - alone->floors[k] >= fall) continue;
    fall = floors[k].floor - alone->floors[k];
    best = std::move(alone);
  }
  return best;
}

}  // namespace

std::optional<Heights> highestFloor(const Milp& from, const Programme& p, const ProgrammeLimit& floor) {
  Milp m = from;
  open(m, floor);
  std::optional<Answer> best;
  double height = floor.floor;
  for (int i = 0; i < kSteps; ++i) {
    clearCosts(m);
    for (const MilpTerm& t : rowAtHeight(p, floor, height).terms) m.columns[t.column].cost -= t.factor;
    MilpAnswer answer = solveMilp(m);
    if (!answer.solved()) break;
    height = heightAt(p, floor, answer.values);
    if (best && height <= best->height + kStill) break;
    best = Answer{height, std::move(answer.values)};
  }
  if (!best) return std::nullopt;
  Heights out;
  for (const ProgrammeLimit& l : floorsOf(p)) {
    const bool this_one = l.kind == floor.kind;
    out.floors.push_back(this_one ? std::min(best->height, l.floor) : l.floor);
  }
  out.values = std::move(best->values);
  return out;
}

std::optional<Heights> highestFloors(const Milp& m, const Programme& p, double least) {
  const std::vector<ProgrammeLimit> floors = floorsOf(p);
  Milp standing = m;
  clearCosts(standing);
  if (MilpAnswer all = solveMilp(standing); all.solved()) {
    Heights out{{}, std::move(all.values)};
    for (const ProgrammeLimit& l : floors) out.floors.push_back(l.floor);
    return out;
  }
  if (auto one = oneLower(m, p, least)) return one;
  Milp opened = standing;
  for (const ProgrammeLimit& l : floors) open(opened, l);
  auto level = levelFloors(opened, p, least);
  if (!level) return std::nullopt;
  Heights out{{}, std::move(level->values)};
  for (const ProgrammeLimit& l : floors) out.floors.push_back(std::min(l.floor, level->height));
  constexpr double kHair = 1e-9;  // [m]
  for (std::size_t k = 0; k < floors.size(); ++k) {
    Milp others = opened;
    for (std::size_t j = 0; j < floors.size(); ++j) {
      if (j != k) others.rows.push_back(rowAtHeight(p, floors[j], out.floors[j] - kHair));
    }
    auto higher = highestFloor(others, p, floors[k]);
    if (!higher || higher->floors[k] < out.floors[k]) continue;
    out.floors[k] = higher->floors[k];
    out.values = std::move(higher->values);
  }
  return out;
}

}  // namespace pondtrim
