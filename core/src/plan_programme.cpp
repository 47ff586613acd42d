#include "plan_programme.hpp"

#include <algorithm>
#include <cmath>

namespace pondtrim {

namespace {

constexpr double kWaterDensity = 1000;  // for scaling only

/// What a whole-piece plan may be off before it counts against it: about what a ruler and a kitchen scale
/// show.
constexpr double kMarkUnit = 0.001, kAngleUnit = 0.0087, kMassUnit = 0.005;

/// A quantity linear in the programme's columns.
struct Linear {
  double constant = 0;
  std::vector<double> rate;  ///< of the places, then of the tank

  Linear& operator*=(double k) {
    constant *= k;
    for (double& r : rate) r *= k;
    return *this;
  }
};

Linear combined(const Linear& a, double ka, const Linear& b, double kb) {
  Linear out = a;
  out *= ka;
  out.constant += kb * b.constant;
  for (std::size_t i = 0; i < out.rate.size(); ++i) out.rate[i] += kb * b.rate[i];
  return out;
}

class Builder {
 public:
  Builder(const PlanBasis& basis, const PlanState& state, const PlanRequest& request, Balance balance)
      : basis_(basis), state_(state), request_(request), whole_(balance == Balance::WithinSteps) {}

  Programme build() {
    addPlaces();
    addTank();
    if (whole_) out_.shortfall = out_.milp.addColumn({0, kNoLimit, 10.0, false});
    for (std::size_t k = 0; k < 2; ++k) whole_ ? addNearBalance(k) : addBalance(k);
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
      const bool steps = whole_ && p.step > 0;
      const double unit = steps ? p.step : p.size;
      out_.unit.push_back(unit);
      MilpColumn c{(p.least - p.before) / unit, (p.most - p.before) / unit, 0, steps};
      // In steps from what is there now, if any step lies within the limits.
      if (steps && std::ceil(c.least - 1e-9) > std::floor(c.most + 1e-9)) c.whole = false;
      const std::size_t at = out_.milp.addColumn(c);
      out_.limits.push_back({LimitKind::PlaceMost, i, false, at, false, true, p.before, unit});
      out_.limits.push_back({LimitKind::PlaceLeast, i, false, at, true, false, p.before, unit});
    }
  }

  void addTank() {
    out_.tank = out_.milp.addColumn({0, 0, 0, false});
    out_.limits.push_back({LimitKind::TankCapacity, 0, false, out_.tank, true, true,
                           basis_.model.tank_capacity, 1 / kWaterDensity});
  }

  /// A quantity of a condition, linear or made so at the state's amounts: its value there, and that of one
  /// unit.
  template <class Value, class Rate>
  Linear linear(const ConditionTerms& c, Value value, Rate rate) {
    const Sums there = c.at(basis_, state_.at);
    Linear out;
    out.constant = value(there);
    for (std::size_t i = 0; i < places(); ++i) {
      const double r = rate(c.per[i], there);
      out.constant += r * (basis_.places[i].before - state_.at[i]);
      out.rate.push_back(r * out_.unit[i]);
    }
    const bool full = c.wanted.condition.tank_fill > 0;
    Sums water;
    if (full) {
      water.mass = c.density / kWaterDensity;
      water.mass_moment = c.tank.moment / c.tank.volume * water.mass;
    }
    out.rate.push_back(rate(water, there));
    return out;
  }
  template <class Value>
  Linear linear(const ConditionTerms& c, Value value) {
    return linear(c, value, [&](const Sums& unit, const Sums&) { return value(unit); });
  }

  Linear residual(const ConditionTerms& c, int which) {
    return linear(c, [&](const Sums& s) { return residualsOf(c, s).value[which]; });
  }
  Linear mass(const ConditionTerms& c) {
    return linear(c, [](const Sums& s) { return s.mass; });
  }
  Linear gm() {
    const ConditionTerms& c = state_.conditions[0];
    return linear(
        c, [&](const Sums& s) { return massGm(c, s); },
        [&](const Sums& unit, const Sums& at) { return massGmRate(c, unit, at); });
  }
  Linear bg() {
    const ConditionTerms& c = state_.conditions[1];
    return linear(
        c, [&](const Sums& s) { return massBg(c, s, s); },
        [&](const Sums& unit, const Sums& at) { return massBg(c, unit, at); });
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
      Linear f = residual(state_.conditions[k], j);
      const double lever = j == 0 ? 1.0 : basis_.boat->length / 4;
      f *= 1 / lever;
      limit(kinds[j], k, addRow(f, 0, 0), lever, f.constant);
    }
  }

  Linear deviation(const ConditionTerms& c, const Response& response, int output) {
    Linear out;
    for (int j = 0; j < 3; ++j) {
      const Linear r = residual(c, j);
      if (out.rate.empty()) out.rate.assign(r.rate.size(), 0.0);
      out = combined(out, 1, r, response.rate[output][j]);
    }
    return out;
  }

  /// |f| <= 1 + shortfall
  void addNear(const Linear& f) {
    const std::size_t below = addRow(f, -kNoLimit, 1), above = addRow(f, -1, kNoLimit);
    out_.milp.rows[below].terms.push_back({*out_.shortfall, -1});
    out_.milp.rows[above].terms.push_back({*out_.shortfall, 1});
  }

  void addNearBalance(std::size_t k) {
    const ConditionTerms& c = state_.conditions[k];
    const Response response = responseAt(c, c.at(basis_, state_.at), basis_.boat->marks);
    const auto near = [&](Linear f, double unit) {
      f *= 1 / unit;
      addNear(f);
    };
    if (!c.wanted.dived) {
      near(deviation(c, response, 0), kMarkUnit);
      near(deviation(c, response, 1), kMarkUnit);
      near(deviation(c, response, 3), kAngleUnit);
      return;
    }
    near(residual(c, 0), kMassUnit);
    for (const int angle : {1, 2}) {
      Linear turned = residual(c, angle);
      turned *= response.rate[angle + 1][angle];
      near(turned, kAngleUnit);
    }
  }

  void addFurther(std::size_t k) {
    const ConditionTerms& c = state_.conditions[k];
    const FurtherAim& aim = basis_.boat->aims.further[k - 2];
    const Marks& m = basis_.boat->marks;
    const Response response = responseAt(c, c.at(basis_, state_.at), m);
    const Vec3& u = c.plane.up;
    const auto within = [&](int output, double off, double tolerance) {
      Linear f = deviation(c, response, output);
      f.constant += off;
      f *= 1 / tolerance;
      limit(LimitKind::FurtherAim, k - 2, addRow(f, -1, 1), 1.0, f.constant);
    };
    const Attitude attitude = Attitude::of(u);
    if (aim.tank_full) {
      within(4, glm::dot(u, m.sail_top) - c.plane.level - basis_.boat->aims.sail_showing, aim.mark_tolerance);
    } else {
      within(0, (c.plane.level - u.x * m.bow_x) / u.z - m.line_height, aim.mark_tolerance);
      within(1, (c.plane.level - u.x * m.stern_x) / u.z - m.line_height, aim.mark_tolerance);
    }
    within(2, attitude.trim, aim.trim_tolerance);
    within(3, attitude.heel, aim.trim_tolerance);
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
    floor(LimitKind::LeastGm, gm(), mass(state_.conditions[0]), aims.least_gm);
    floor(LimitKind::LeastBg, bg(), mass(state_.conditions[1]), aims.least_bg);
  }

  /// Mass of the places together, of those that `counts`.
  template <class Counts>
  Linear placeMass(Counts counts) {
    Linear out;
    for (std::size_t i = 0; i < places(); ++i) {
      const PlaceTerms& p = basis_.places[i];
      const double mass = counts(p) && p.kind != PlaceKind::Slide ? p.mass : 0.0;
      out.constant += mass * p.before;
      out.rate.push_back(mass * out_.unit[i]);
    }
    out.rate.push_back(0.0);
    return out;
  }

  void addBudget() {
    if (!request_.lead_budget) return;
    const Linear lead = placeMass([](const PlaceTerms& p) { return p.kind == PlaceKind::Weight; });
    limit(LimitKind::LeadBudget, 0, addRow(lead, -kNoLimit, *request_.lead_budget), 1.0, lead.constant);
  }

  void addCosts(double factor) {
    const Linear carried = placeMass([](const PlaceTerms&) { return true; });
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
      Linear f = k == 0 ? gm() : bg();
      f *= 1 / arm;
      const std::size_t row = addRow(f, 0, kNoLimit);
      out_.milp.rows[row].terms.push_back({s, -state_.conditions[k].at(basis_, state_.at).mass});
    }
  }

  const PlanBasis& basis_;
  const PlanState& state_;
  const PlanRequest& request_;
  bool whole_;
  Programme out_;
};

WantedCondition wantedTank(const PlanBasis& basis, bool full) {
  WantedCondition w;
  w.name = full ? "tank full" : "tank empty";
  w.condition = {basis.boat->water, full ? basis.model.tank_capacity : 0.0};
  w.dived = full;
  return w;
}

/// What a further condition's part weighs more than in the file.
ExtraMass extraMass(const PlanBasis& basis, const FurtherAim& aim) {
  ExtraMass extra;
  if (aim.part.empty()) return extra;
  const std::size_t part = partNamed(*basis.boat, aim.part);
  for (const Weight& w : basis.model.weights) {
    if (w.source.owner != Owner::Part || w.source.index != part) continue;
    extra.mass += aim.mass - w.mass;
    extra.moment += w.position * (aim.mass - w.mass);
  }
  return extra;
}

}  // namespace

Result<PlanState> makeState(const PlanBasis& basis, const std::vector<double>& at,
                            const std::vector<std::optional<Plane>>& planes) {
  const Boat& boat = *basis.boat;
  const auto level = [](double z) { return Plane{Vec3(0, 0, 1), z}; };
  double dived = boat.marks.sail_top.z - boat.aims.sail_showing;
  if (boat.aims.net_buoyancy) {
    const auto density = waterDensity(boat.water);
    if (!density) return fail(density.error());
    dived = levelShowing(basis, at, *boat.aims.net_buoyancy / *density);
  }
  PlanState state{at, {}};
  const auto add = [&](const WantedCondition& wanted, const Plane& plane,
                       const ExtraMass& extra) -> Result<void> {
    auto terms = makeTerms(basis, wanted, plane, extra);
    if (!terms) return fail(terms.error());
    state.conditions.push_back(std::move(*terms));
    return {};
  };
  if (auto ok = add(wantedTank(basis, false), level(boat.marks.line_height), {}); !ok)
    return fail(ok.error());
  if (auto ok = add(wantedTank(basis, true), level(dived), {}); !ok) return fail(ok.error());
  for (std::size_t i = 0; i < boat.aims.further.size(); ++i) {
    const FurtherAim& aim = boat.aims.further[i];
    WantedCondition wanted = wantedTank(basis, aim.tank_full);
    wanted.name = aim.name;
    if (aim.water) wanted.condition.water = *aim.water;
    wanted.mark_tolerance = aim.mark_tolerance;
    wanted.angle_tolerance = aim.trim_tolerance;
    const Plane start =
        level(aim.tank_full ? boat.marks.sail_top.z - boat.aims.sail_showing : boat.marks.line_height);
    const Plane plane = i < planes.size() && planes[i] ? *planes[i] : start;
    if (auto ok = add(wanted, plane, extraMass(basis, aim)); !ok) return fail(ok.error());
  }
  return state;
}

Programme makeProgramme(const PlanBasis& basis, const PlanState& state, const PlanRequest& request,
                        Balance balance) {
  return Builder(basis, state, request, balance).build();
}

double valueAt(const ProgrammeLimit& l, double bound, const std::vector<double>& values) {
  const double value = l.zero + l.to_si * bound;
  if (l.mass.terms.empty()) return value;
  double mass = l.mass.least;
  for (const MilpTerm& t : l.mass.terms) mass += t.factor * values[t.column];
  return l.floor + value / mass;
}

std::vector<double> amountsOf(const PlanBasis& basis, const Programme& programme, const MilpAnswer& answer) {
  std::vector<double> amounts;
  for (std::size_t i = 0; i < basis.places.size(); ++i) {
    const PlaceTerms& p = basis.places[i];
    const double v = answer.values[i];
    double amount = p.before + v * programme.unit[i];
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
