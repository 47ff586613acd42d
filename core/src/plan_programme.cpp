#include "plan_programme.hpp"

#include <algorithm>
#include <cmath>

#include "checker.hpp"

namespace pondtrim {

namespace {

constexpr double kWaterDensity = 1000;  // for scaling only

std::vector<double> unitsOf(const PlanBasis& basis) {
  std::vector<double> out;
  out.reserve(basis.places.size());
  for (const PlaceTerms& p : basis.places) out.push_back(p.size);
  return out;
}

class Builder {
 public:
  Builder(const PlanBasis& basis, const PlanState& state, const PlanRequest& request)
      : basis_(basis),
        state_(state),
        request_(request),
        unit_(unitsOf(basis)),
        linear_(basis, state, unit_) {}

  Programme build() {
    addPlaces();
    addTank();
    for (std::size_t k = 0; k < 2; ++k) addBalance(k);
    for (std::size_t k = 2; k < state_.conditions.size(); ++k) addFurther(k);
    addFloors();
    addBudget();
    addGoal();
    return std::move(out_);
  }

 private:
  [[nodiscard]] std::size_t places() const { return basis_.places.size(); }

  void addPlaces() {
    for (std::size_t i = 0; i < places(); ++i) {
      const PlaceTerms& p = basis_.places[i];
      const double unit = unit_[i];
      const MilpColumn c{(p.least - p.before) / unit, (p.most - p.before) / unit, 0, false};
      const std::size_t at = out_.milp.addColumn(c);
      ProgrammeLimit most{LimitKind::PlaceMost, i, false, at, false, true, p.before, unit};
      ProgrammeLimit least{LimitKind::PlaceLeast, i, false, at, true, false, p.before, unit};
      if (p.kind != PlaceKind::Slide) {
        most.can_most = (p.room - p.before) / unit;
        least.can_least = (0 - p.before) / unit;
      }
      out_.limits.push_back(most);
      out_.limits.push_back(least);
    }
  }

  void addTank() {
    out_.tank = out_.milp.addColumn({0, 0, 0, false});
    // As the boat says it: without the factor that the pond log found.
    const auto& correction = basis_.boat->correction;
    const double found = correction ? correction->tank_factor : 1, factor = kWaterDensity * found;
    const double capacity = basis_.model.tank_capacity / found;
    ProgrammeLimit tank{LimitKind::TankCapacity, 0, false, out_.tank, true, true, capacity, 1 / factor};
    tank.can_least = factor * (kSmallestTank - capacity);
    tank.can_most = factor * (largestTankCapacity(*basis_.boat) - capacity);
    out_.limits.push_back(tank);
  }

  std::size_t addRow(const Linear& f, double least, double most) {
    MilpRow row{least - f.constant, most - f.constant, {}};
    if (least == most) row.most = row.least;
    for (std::size_t i = 0; i < f.rate.size(); ++i) {
      if (f.rate[i] != 0) row.terms.push_back({i, f.rate[i]});
    }
    // A row with nothing in it still says yes or no: give it a column that is fixed at 0.
    if (row.terms.empty()) row.terms.push_back({out_.tank, 0.0});
    out_.milp.rows.push_back(row);
    return out_.milp.rows.size() - 1;
  }

  void limit(LimitKind kind, std::size_t index, std::size_t row, double to_si, double constant) {
    const MilpRow& r = out_.milp.rows[row];
    out_.limits.push_back(
        {kind, index, true, row, std::isfinite(r.least), std::isfinite(r.most), constant * to_si, to_si});
  }

  void addBalance(std::size_t k) {
    const LimitKind kinds[] = {LimitKind::WeightBalance, LimitKind::TrimBalance, LimitKind::HeelBalance};
    for (int j = 0; j < 3; ++j) {
      Linear f = linear_.residual(k, j);
      const double lever = j == 0 ? 1.0 : basis_.boat->length / 4;
      f *= 1 / lever;
      limit(kinds[j], k, addRow(f, 0, 0), lever, f.constant);
      ProgrammeLimit& l = out_.limits.back();
      l.can_least = l.can_most = out_.milp.rows[l.at].least;
    }
  }

  void addFurther(std::size_t k) {
    for (const Linear& f : linear_.further(k))
      limit(LimitKind::FurtherAim, k - 2, addRow(f, -1, 1), 1.0, f.constant);
  }

  void addFloors() {
    const double arm = basis_.boat->length / 40;
    // value = floor + (constant + bound) arm / mass, the mass that of the answer: see valueAt.
    const auto floor = [&](LimitKind kind, const Linear& moment, const Linear& weight, double least) {
      const Linear f = combined(moment, 1 / arm, weight, -least / arm);
      limit(kind, 0, addRow(f, 0, kNoLimit), arm, f.constant);
      ProgrammeLimit& l = out_.limits.back();
      l.floor = least;
      l.mass.least = weight.constant;
      for (std::size_t i = 0; i < weight.rate.size(); ++i) l.mass.terms.push_back({i, weight.rate[i]});
    };
    const Aims& aims = basis_.boat->aims;
    floor(LimitKind::LeastGm, linear_.massGm(), linear_.mass(0), aims.least_gm);
    floor(LimitKind::LeastBg, linear_.massBg(), linear_.mass(1), aims.least_bg);
  }

  void addBudget() {
    if (!request_.lead_budget) return;
    const Linear lead = linear_.leadMass();
    limit(LimitKind::LeadBudget, 0, addRow(lead, -kNoLimit, *request_.lead_budget), 1.0, lead.constant);
  }

  void addCosts(double factor) {
    const Linear carried = linear_.placeMass();
    for (std::size_t i = 0; i < places(); ++i) out_.milp.columns[i].cost += factor * carried.rate[i];
  }

  void addGoal() {
    if (request_.goal == Goal::LeastWeight) addCosts(1.0);
    if (request_.goal == Goal::FewestChanges) addTouched();
    if (request_.goal == Goal::MostStability) addStability();
  }

  /// A whole 0 or 1 for each place: touched or not.
  void addTouched() {
    addCosts(0.01);
    for (std::size_t i = 0; i < places(); ++i) {
      const MilpColumn c = out_.milp.columns[i];
      if (c.least > 0 || c.most < 0) continue;  // must be touched
      const std::size_t touched = out_.milp.addColumn({0, 1, 1.0, true});
      out_.milp.rows.push_back({-kNoLimit, 0, {{i, 1.0}, {touched, -c.most}}});
      out_.milp.rows.push_back({0, kNoLimit, {{i, 1.0}, {touched, -c.least}}});
    }
  }

  /// A column s, as large as can be, with mass x GM and mass x BG at least mass x s: the mass is that at the
  /// state, which the iteration makes right.
  void addStability() {
    addCosts(1e-3);
    const double arm = basis_.boat->length / 40;
    const std::size_t s = out_.milp.addColumn({-kNoLimit, kNoLimit, -10.0, false});
    for (std::size_t k = 0; k < 2; ++k) {
      Linear f = k == 0 ? linear_.massGm() : linear_.massBg();
      f *= 1 / arm;
      const std::size_t row = addRow(f, 0, kNoLimit);
      out_.milp.rows[row].terms.push_back({s, -state_.conditions[k].at(basis_, state_.at).mass});
    }
  }

  const PlanBasis& basis_;
  const PlanState& state_;
  const PlanRequest& request_;
  std::vector<double> unit_;
  PlanLinear linear_;
  Programme out_;
};

}  // namespace

Programme makeProgramme(const PlanBasis& basis, const PlanState& state, const PlanRequest& request) {
  return Builder(basis, state, request).build();
}

double valueAt(const ProgrammeLimit& l, double bound, const std::vector<double>& values) {
  const double value = l.zero + l.to_si * bound;
  if (l.mass.terms.empty()) return value;
  double mass = l.mass.least;
  for (const MilpTerm& t : l.mass.terms) mass += t.factor * values[t.column];
  return l.floor + value / mass;
}

std::vector<double> amountsOf(const PlanBasis& basis, const std::vector<double>& values) {
  std::vector<double> amounts;
  for (std::size_t i = 0; i < basis.places.size(); ++i) {
    const PlaceTerms& p = basis.places[i];
    const double v = values[i];
    double amount = p.before + v * p.size;
    // The solver's dust: what is next to a limit, or next to no change, is there.
    const double dust = 1e-8 * p.size;
    for (const double end : {p.least, p.most, p.before}) {
      if (std::abs(amount - end) < dust) amount = end;
    }
    amounts.push_back(amount);
  }
  return amounts;
}

}  // namespace pondtrim
