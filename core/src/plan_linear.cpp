#include "plan_linear.hpp"

namespace pondtrim {

namespace {

constexpr double kWaterDensity = 1000;  // for scaling only

/// What may be off before it counts: about what a ruler, a clinometer and a kitchen scale show.
constexpr double kMarkUnit = 0.001, kAngleUnit = 0.0087, kMassUnit = 0.005;

Linear over(Linear f, double unit) {
  f *= 1 / unit;
  return f;
}

}  // namespace

Linear& Linear::operator*=(double k) {
  constant *= k;
  for (double& r : rate) r *= k;
  return *this;
}

Linear combined(const Linear& a, double ka, const Linear& b, double kb) {
  Linear out = a;
  out *= ka;
  out.constant += kb * b.constant;
  for (std::size_t i = 0; i < out.rate.size(); ++i) out.rate[i] += kb * b.rate[i];
  return out;
}

PlanLinear::PlanLinear(const PlanBasis& basis, const PlanState& state, const std::vector<double>& unit)
    : basis_(basis), state_(state), unit_(unit) {
  for (const ConditionTerms& c : state.conditions) there_.push_back(c.at(basis, state.at));
}

/// A quantity of a condition, linear or made so at the state's amounts: its value there, and that of one
/// unit.
template <class Value, class Rate>
Linear PlanLinear::linear(std::size_t k, Value value, Rate rate) const {
  const ConditionTerms& c = state_.conditions[k];
  Linear out;
  out.constant = value(there_[k]);
  out.rate.reserve(c.per.size() + 1);
  for (std::size_t i = 0; i < c.per.size(); ++i) {
    const double r = rate(c.per[i]);
    out.constant += r * (basis_.places[i].before - state_.at[i]);
    out.rate.push_back(r * unit_[i]);
  }
  Sums water;
  if (c.wanted.condition.tank_fill > 0) {
    water.mass = c.density / kWaterDensity;
    water.mass_moment = c.tank.moment / c.tank.volume * water.mass;
  }
  out.rate.push_back(rate(water));
  return out;
}

Linear PlanLinear::residual(std::size_t k, int which) const {
  const ConditionTerms& c = state_.conditions[k];
  const auto value = [&](const Sums& s) { return residualsOf(c, s).value[which]; };
  return linear(k, value, value);
}

Linear PlanLinear::mass(std::size_t k) const {
  const auto value = [](const Sums& s) { return s.mass; };
  return linear(k, value, value);
}

Linear PlanLinear::massGm() const {
  const ConditionTerms& c = state_.conditions[0];
  return linear(
      0, [&](const Sums& s) { return pondtrim::massGm(c, s); },
      [&](const Sums& unit) { return massGmRate(c, unit, there_[0]); });
}

Linear PlanLinear::massBg() const {
  const ConditionTerms& c = state_.conditions[1];
  const auto value = [&](const Sums& s) { return pondtrim::massBg(c, s, there_[1]); };
  return linear(1, value, value);
}

/// The output that the residuals make, all three of them.
Linear PlanLinear::answer(std::size_t k, const Response& response, int output) const {
  Linear out = residual(k, 0);
  out *= response.rate[output][0];
  for (int j = 1; j < 3; ++j) out = combined(out, 1, residual(k, j), response.rate[output][j]);
  return out;
}

std::vector<Linear> PlanLinear::deviations(std::size_t k) const {
  const ConditionTerms& c = state_.conditions[k];
  const Response response = responseAt(c, there_[k], basis_.boat->marks);
  if (!c.wanted.dived)
    return {over(answer(k, response, 0), kMarkUnit), over(answer(k, response, 1), kMarkUnit),
            over(answer(k, response, 3), kAngleUnit)};
  return {over(residual(k, 0), kMassUnit), over(answer(k, response, 2), kAngleUnit),
          over(answer(k, response, 3), kAngleUnit)};
}

std::vector<Linear> PlanLinear::further(std::size_t k) const {
  const ConditionTerms& c = state_.conditions[k];
  const FurtherAim& aim = basis_.boat->aims.further[k - 2];
  const Marks& m = basis_.boat->marks;
  const Response response = responseAt(c, there_[k], m);
  const Vec3& u = c.plane.up;
  std::vector<Linear> out;
  const auto within = [&](int output, double off, double tolerance) {
    Linear f = answer(k, response, output);
    f.constant += off;
    out.push_back(over(std::move(f), tolerance));
  };
  const Attitude attitude = Attitude::of(u);
  if (aim.tank_full) {
    within(4, glm::dot(u, m.sail_top) - c.plane.level - *c.wanted.sail_showing, aim.mark_tolerance);
  } else {
    within(0, (c.plane.level - u.x * m.bow_x) / u.z - m.line_height, aim.mark_tolerance);
    within(1, (c.plane.level - u.x * m.stern_x) / u.z - m.line_height, aim.mark_tolerance);
  }
  within(2, attitude.trim, aim.trim_tolerance);
  within(3, attitude.heel, aim.trim_tolerance);
  return out;
}

template <class Counts>
Linear PlanLinear::carried(Counts counts) const {
  Linear out;
  for (std::size_t i = 0; i < basis_.places.size(); ++i) {
    const PlaceTerms& p = basis_.places[i];
    const double mass = counts(p) && p.kind != PlaceKind::Slide ? p.mass : 0.0;
    out.constant += mass * p.before;
    out.rate.push_back(mass * unit_[i]);
  }
  out.rate.push_back(0.0);
  return out;
}

Linear PlanLinear::placeMass() const {
  return carried([](const PlaceTerms&) { return true; });
}

Linear PlanLinear::leadMass() const {
  return carried([](const PlaceTerms& p) { return p.kind == PlaceKind::Weight; });
}

}  // namespace pondtrim
