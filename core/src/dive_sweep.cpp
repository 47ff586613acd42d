#include "dive_sweep.hpp"

#include <algorithm>
#include <cmath>

#include "faults.hpp"
#include "heel_held.hpp"
#include "moments.hpp"

namespace pondtrim {

namespace {

/// Heel below which she is upright and the rest position itself gives the upright GM.
constexpr double kUpright = 1e-6;
/// Down and up are the same within these: well above what the solver leaves, well below what anyone sees.
constexpr double kSameAngle = 0.05 * kPi / 180;

double freeSurface(const Problem& p, const TankWater& tank, const Vec3& along) {
  return p.density * glm::dot(times(tank.stiffness_loss, along), along) / p.mass;
}

/// What she does held upright: GM, what free water takes off it, and the lever that turns her over again.
struct Upright {
  double gm, free_surface, lever;
};
Upright uprightOf(const Problem& p, const Equilibrium& rest) {
  const auto [trim, heel] = rest.attitude;
  if (std::abs(heel) <= kUpright)
    return {gmTransverse(rest), freeSurface(p, rest.tank, tangentAt(rest.plane.up).heel), 0.0};
  const HeldState held = holdHeel(p, 0.0, trim, trim, depthUnder(p, rest.plane));
  return {gmTransverse(p, held.state), freeSurface(p, held.state.tank, tangentAt(held.state.up).heel),
          turningOverHeel(held) / p.mass};
}

/// Held level, the depth free.
State levelFrom(const Problem& p, double depth) {
  constexpr double kEnough = 1e-9;  // of her mass: GM follows to less than a thousandth of a millimetre
  return settleDepth(p, look(p, Vec3(0, 0, 1), depth), kEnough);
}

/// The search begins where the rest position's stiffness says.
void describeLevel(DiveStep& step, const Problem& p, const Equilibrium& rest) {
  const auto& k = rest.stiffness;
  const double rise = k[0][0] > 0 ? (k[0][1] * step.trim + k[0][2] * step.heel) / k[0][0] : 0.0;
  const State level = levelFrom(p, depthUnder(p, rest.plane) + rise);
  step.gm_longitudinal_level = gmLongitudinal(p, level);
  step.free_surface_longitudinal_level = freeSurface(p, level.tank, Vec3(1, 0, 0));
}

void describeMarks(DiveStep& step, const Problem& p, const Equilibrium& rest) {
  if (!p.afloat) return;
  const Plane& plane = rest.plane;
  const Marks& m = p.model->marks;
  step.sail_showing = glm::dot(plane.up, m.sail_top) - plane.level;
  if (plane.up.z < 0.5) return;  // beyond 60 degrees a ruler along z reads nothing useful
  step.draft_bow = (plane.level - plane.up.x * m.bow_x) / plane.up.z;
  step.draft_stern = (plane.level - plane.up.x * m.stern_x) / plane.up.z;
}

struct Sample {
  double fill, value;
};

/// The least between `a` and `b`, `m` between them being lower than both: parabolas through three samples,
/// and golden sections where those do not help, as at a corner of the curve (Brent, Algorithms for
/// Minimization without Derivatives, 1973, chapter 5).
template <class ValueAt>
Sample leastBetween(Sample a, Sample m, Sample b, const ValueAt& valueAt) {
  constexpr double kGolden = 0.3819660112501051, kNear = 1e-3;
  constexpr double kTrue = 1e-9;  // [m]; a parabola that foretold the value this well has found the least
  const double whole = b.fill - a.fill;
  bool section = false;
  for (int i = 0; i < 16 && b.fill - a.fill > kNear * whole; ++i) {
    const double p = m.fill - a.fill, q = b.fill - m.fill;
    const double rise_a = (a.value - m.value) / p, rise_b = (b.value - m.value) / q;
    const double bend = (rise_a + rise_b) / (p + q), slope = (rise_b * p - rise_a * q) / (p + q);
    double step = bend > 0 ? -slope / (2 * bend) : 0;
    const double most = 0.5 * (step < 0 ? p : q);
    const bool parabola = !section && bend > 0 && std::abs(step) <= most;
    if (parabola && std::abs(step) < kNear * whole) break;
    if (!parabola) step = p > q ? -kGolden * p : kGolden * q;
    const double foretold = m.value + step * (slope + step * bend);
    Sample next{m.fill + step, 0};
    next.value = valueAt(next.fill);
    const double before = b.fill - a.fill;
    const bool lower = next.value < m.value;
    const Sample outer = lower ? m : next;
    ((step < 0) == lower ? b : a) = outer;
    if (lower) m = next;
    if (parabola && std::abs(next.value - foretold) < kTrue) break;
    section = parabola && b.fill - a.fill > 0.6 * before;
  }
  return m;
}

/// The least of a value over the fill, between the samples too.
template <class Value>
LeastGm leastOver(const std::vector<DiveStep>& steps, const Value& valueAt, double DiveStep::*value) {
  std::size_t at = 0;
  for (std::size_t i = 1; i < steps.size(); ++i) {
    if (steps[i].*value < steps[at].*value) at = i;
  }
  const auto valueNear = [&](double fill) { return valueAt(fill, steps[at]); };
  const auto sample = [&](std::size_t i) { return Sample{steps[i].tank_fill, steps[i].*value}; };
  Sample a = sample(at > 0 ? at - 1 : at), m = sample(at), b = sample(std::min(at + 1, steps.size() - 1));
  if (at == 0 || at + 1 == steps.size()) {  // at an end: only if the curve dips beside it
    Sample beside{(a.fill + b.fill) / 2, 0};
    beside.value = valueNear(beside.fill);
    if (!(beside.value < m.value)) return {m.value, m.fill};
    m = beside;
  }
  const Sample least = leastBetween(a, m, b, valueNear);
  return {least.value, least.fill};
}

/// Between two headings of a circle: heels of 179 and -179 degrees lie 2 apart.
double apart(double a, double b) { return std::abs(std::remainder(a - b, 2 * kPi)); }

LeastGm lesser(const LeastGm& a, const LeastGm& b) { return b.gm < a.gm ? b : a; }

std::vector<DiveGap> compare(const DiveSweep& sweep) {
  std::vector<DiveGap> gaps;
  bool open = false;
  for (std::size_t i = 0; i < sweep.down.size(); ++i) {
    const DiveStep &a = sweep.down[i], &b = sweep.up[i];
    const double trim = std::abs(a.trim - b.trim), heel = apart(a.heel, b.heel);
    if (trim <= kSameAngle && heel <= kSameAngle) {
      open = false;
      continue;
    }
    if (!open) gaps.push_back({a.tank_fill, a.tank_fill, 0.0, 0.0});
    open = true;
    DiveGap& gap = gaps.back();
    gap.to_fill = a.tank_fill;
    gap.trim = std::max(gap.trim, trim);
    gap.heel = std::max(gap.heel, heel);
  }
  return gaps;
}

/// Where she will lie after one more equal step; no further than the last if she jumped.
Plane ahead(const DiveStep& last, const DiveStep* before, const DiveStep* earlier) {
  constexpr double kJump = 0.03;  // [rad]
  if (before == nullptr || before->outcome == Outcome::Sinks || last.outcome == Outcome::Sinks)
    return last.plane;
  Vec3 turn = last.plane.up - before->plane.up;
  double rise = last.plane.level - before->plane.level;
  if (glm::length(turn) > kJump) return last.plane;
  if (earlier != nullptr) {  // the curve's bend, where it is a bend and no corner
    const Vec3 turn_before = before->plane.up - earlier->plane.up;
    const double rise_before = before->plane.level - earlier->plane.level;
    const bool bends = std::abs(rise - rise_before) < 0.3 * std::abs(rise) &&
                       glm::length(turn - turn_before) < std::max(1e-3, 0.3 * glm::length(turn));
    if (bends) turn += turn - turn_before, rise += rise - rise_before;
  }
  return {glm::normalize(last.plane.up + turn), last.plane.level + rise};
}

/// Nobody could see the difference.
bool close(const Plane& a, const Plane& b) { return glm::length(a.up - b.up) < kSameAngle; }

class Sweeper {
 public:
  Sweeper(const Model& model, const Water& water) : model_(model), water_(water) {}

  /// From empty to full.
  [[nodiscard]] Result<std::vector<DiveStep>> down(int steps) const {
    const auto first = findEquilibrium(model_, {water_, 0.0});
    if (!first) return fail(first.error());
    std::vector<DiveStep> out;
    for (int i = 0; i <= steps; ++i) {
      const auto back = [&](int n) { return i >= n ? &out[out.size() - std::size_t(n)] : nullptr; };
      const Plane near = i > 0 ? ahead(out.back(), back(2), back(3)) : first->plane;
      auto step = this->step(model_.tank_capacity * i / steps, near);
      if (!step) return fail(step.error());
      out.push_back(*step);
    }
    return out;
  }
  /// From full to empty, in the order of `down`. Solved again only where she does not come back the way she
  /// went: what lies closer to that way than anybody sees is the same rest.
  [[nodiscard]] Result<std::vector<DiveStep>> up(const std::vector<DiveStep>& down) const {
    std::vector<DiveStep> out = down;
    bool came_back = true;
    for (std::size_t i = down.size() - 1; i-- > 0;) {
      const auto back = [&](std::size_t n) { return i + n < down.size() ? &out[i + n] : nullptr; };
      const Plane near = ahead(out[i + 1], back(2), back(3));
      if (came_back && close(near, down[i].plane)) continue;
      auto step = this->step(down[i].tank_fill, near);
      if (!step) return fail(step.error());
      came_back = close(step->plane, down[i].plane);
      if (!came_back) out[i] = *step;
    }
    return out;
  }
  /// GM across and GM along when level, at a fill between the steps. Where it cannot be had: the step's.
  [[nodiscard]] double gmTransverseAt(double fill, const DiveStep& near) const {
    const auto problem = pose(model_, {water_, fill});
    if (!problem) return near.gm_transverse;
    return uprightOf(*problem, restNear(*problem, near.plane)).gm;
  }
  [[nodiscard]] double gmLevelAt(double fill, const DiveStep& near) const {
    const auto problem = pose(model_, {water_, fill});
    if (!problem) return near.gm_longitudinal_level;
    return gmLongitudinal(*problem, levelFrom(*problem, depthUnder(*problem, near.plane)));
  }

 private:
  /// The rest position at a fill, from where she lies nearby.
  [[nodiscard]] Result<DiveStep> step(double fill, const Plane& near) const {
    const auto problem = pose(model_, {water_, fill});
    if (!problem) return fail(problem.error());
    return describeStep(*problem, restNear(*problem, near));
  }

  const Model& model_;
  const Water& water_;
};

Error noTank() {
  Error e;
  e.field = "tank";
  e.was = "missing";
  e.allowed = "a ballast tank";
  e.message = "the boat has no ballast tank, so it cannot dive";
  return e;
}

}  // namespace

DiveStep describeStep(const Problem& p, const Equilibrium& rest) {
  DiveStep step;
  step.tank_fill = p.fill;
  step.outcome = rest.outcome;
  step.plane = rest.plane;
  step.trim = rest.attitude.trim;
  step.heel = rest.attitude.heel;
  step.gm_longitudinal = gmLongitudinal(rest);
  step.net_buoyancy_submerged = p.density * p.model->whole_volume - p.mass;
  describeMarks(step, p, rest);
  const Upright upright = uprightOf(p, rest);
  step.gm_transverse = upright.gm;
  step.free_surface_transverse = upright.free_surface;
  step.upright_lever = upright.lever;
  describeLevel(step, p, rest);
  return step;
}

Result<DiveSweep> sweepDive(const Model& model, const Water& water, int steps, const DiveLimits& limits) {
  if (auto e = outside("steps", steps, 2, 2000)) return fail(*e);
  if (model.tank_cells.empty()) return fail(noTank());
  DiveSweep out;
  out.limits = limits;
  const Sweeper sweeper(model, water);
  auto down = sweeper.down(steps);
  if (!down) return fail(down.error());
  out.down = std::move(*down);
  auto up = sweeper.up(out.down);
  if (!up) return fail(up.error());
  out.up = std::move(*up);
  out.gaps = compare(out);
  const auto least = [&](double DiveStep::*value, const auto& valueAt) {
    const LeastGm going_down = leastOver(out.down, valueAt, value);
    return out.gaps.empty() ? going_down : lesser(going_down, leastOver(out.up, valueAt, value));
  };
  out.least_gm_transverse = least(&DiveStep::gm_transverse, [&](double fill, const DiveStep& near) {
    return sweeper.gmTransverseAt(fill, near);
  });
  out.least_gm_longitudinal_level =
      least(&DiveStep::gm_longitudinal_level,
            [&](double fill, const DiveStep& near) { return sweeper.gmLevelAt(fill, near); });
  out.findings = judge(model, water, out);
  return out;
}

double greatestTrim(const DiveSweep& sweep) {
  double out = 0;
  for (const auto* way : {&sweep.down, &sweep.up}) {
    for (const DiveStep& s : *way) out = std::max(out, std::abs(s.trim));
  }
  return out;
}

Boat withBulkheads(Boat boat, int n) {
  if (!boat.tank) return boat;
  BallastTank& tank = *boat.tank;
  tank.bulkheads.clear();
  for (int i = 1; i <= n; ++i)
    tank.bulkheads.push_back(tank.aft_end + (tank.fore_end - tank.aft_end) * i / (n + 1));
  return boat;
}

}  // namespace pondtrim
