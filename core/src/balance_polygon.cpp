#include <algorithm>
#include <cmath>

#include "plan_search.hpp"

namespace pondtrim {

namespace {

/// From `from` on, one supply after the other.
std::vector<BalancePoint> chain(BalancePoint from, const std::vector<Supply>& supplies) {
  std::vector<BalancePoint> out{from};
  for (const Supply& s : supplies) {
    from.weight += s.weight;
    from.moment += s.moment;
    out.push_back(from);
  }
  return out;
}

/// Moment of the line at this weight.
double momentAt(const std::vector<BalancePoint>& line, double weight) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const BalancePoint &a = line[i], &b = line[i + 1];
    if (weight > b.weight && i + 2 < line.size()) continue;
    const double width = b.weight - a.weight;
    return width > 0 ? a.moment + (b.moment - a.moment) * (weight - a.weight) / width : b.moment;
  }
  return line.back().moment;
}

}  // namespace

bool BalancePolygon::contains(const BalancePoint& p, double slack) const {
  if (p.weight < bow_first.front().weight - slack || p.weight > bow_first.back().weight + slack) return false;
  const double weight = std::clamp(p.weight, bow_first.front().weight, bow_first.back().weight);
  return p.moment <= momentAt(bow_first, weight) + slack && p.moment >= momentAt(stern_first, weight) - slack;
}

BalancePolygon balancePolygon(std::span<const Supply> supplies, const BalancePoint& least) {
  BalancePoint start = least;
  std::vector<Supply> up;
  for (Supply s : supplies) {
    if (s.weight < 0) {
      start.weight += s.weight;
      start.moment += s.moment;
      s.weight = -s.weight;
      s.moment = -s.moment;
    }
    if (s.weight > 0 || s.moment != 0) up.push_back(s);
  }
  // By direction; a supply of moment alone (a weight on a rail) lies across, forward or aft.
  const auto bowFirst = [](const Supply& a, const Supply& b) {
    return a.moment * b.weight > b.moment * a.weight;
  };
  std::vector<Supply> forward = up, aft = up;
  for (Supply& s : forward) {
    if (s.weight == 0) s.moment = std::abs(s.moment);
  }
  for (Supply& s : aft) {
    if (s.weight == 0) s.moment = -std::abs(s.moment);
  }
  std::stable_sort(forward.begin(), forward.end(), bowFirst);
  std::stable_sort(aft.begin(), aft.end(), [&](const Supply& a, const Supply& b) { return bowFirst(b, a); });
  return {chain(start, forward), chain(start, aft)};
}

Result<std::vector<BalanceDiagram>> balanceDiagrams(const Boat& boat) {
  auto basis = makeBasis(boat);
  if (!basis) return fail(basis.error());
  auto state = makeState(*basis, basis->before, {});
  if (!state) return fail(state.error());
  std::vector<BalanceDiagram> out;
  const double middle = boat.length / 2;
  for (std::size_t k = 0; k < 2; ++k) {
    const ConditionTerms& c = state->conditions[k];
    const auto point = [&](const Sums& s) {
      const Residuals r = residualsOf(c, s);
      return BalancePoint{r.value[0], r.value[1] - middle * r.value[0]};
    };
    BalanceDiagram d;
    d.condition = c.wanted.name;
    std::vector<Supply> supplies;
    BalancePoint least;
    for (std::size_t i = 0; i < basis->places.size(); ++i) {
      const PlaceTerms& p = basis->places[i];
      const BalancePoint unit = point(c.per[i]);
      supplies.push_back(
          {boat.places[i].part, unit.weight * (p.most - p.least), unit.moment * (p.most - p.least)});
      const double start = p.least - p.zero;
      least.weight += unit.weight * start;
      least.moment += unit.moment * start;
      d.present.weight += unit.weight * (p.before - p.zero);
      d.present.moment += unit.moment * (p.before - p.zero);
    }
    const BalancePoint base = point(c.base);
    d.needed = {-base.weight, -base.moment};
    d.polygon = balancePolygon(supplies, least);
    d.inside = d.polygon.contains(d.needed);
    out.push_back(std::move(d));
  }
  return out;
}

}  // namespace pondtrim
