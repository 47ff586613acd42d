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

double depthOf(const Problem& p, const Equilibrium& rest) {
  return p.afloat ? rest.plane.level - glm::dot(rest.plane.up, p.origin) : 0.0;
}

double freeSurface(const Problem& p, const State& s, const Vec3& along) {
  return p.density * glm::dot(times(s.tank.stiffness_loss, along), along) / p.mass;
}

void describeUpright(DiveStep& step, const Problem& p, const Equilibrium& rest) {
  const double depth = depthOf(p, rest);
  State upright;
  if (std::abs(step.heel) <= kUpright) {
    upright = look(p, rest.plane.up, depth);
  } else {
    const HeldState held = holdHeel(p, 0.0, step.trim, step.trim, depth);
    step.upright_lever = turningOverHeel(held) / p.mass;
    upright = held.state;
  }
  step.gm_transverse = gmTransverse(p, upright);
  step.free_surface_transverse = freeSurface(p, upright, tangentAt(upright.up).heel);
}

void describeLevel(DiveStep& step, const Problem& p, const Equilibrium& rest) {
  const State level = settleDepth(p, look(p, Vec3(0, 0, 1), depthOf(p, rest)));
  step.gm_longitudinal_level = gmLongitudinal(p, level);
  step.free_surface_longitudinal_level = freeSurface(p, level, Vec3(1, 0, 0));
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

/// The least of a value over the fill, refined between the samples by golden sections.
template <class Value>
LeastGm leastOver(const std::vector<DiveStep>& steps, const Value& valueAt, double DiveStep::*value) {
  std::size_t at = 0;
  for (std::size_t i = 1; i < steps.size(); ++i) {
    if (steps[i].*value < steps[at].*value) at = i;
  }
  LeastGm out{steps[at].*value, steps[at].tank_fill};
  double lo = steps[at > 0 ? at - 1 : at].tank_fill, hi = steps[std::min(at + 1, steps.size() - 1)].tank_fill;
  constexpr double kGolden = 0.6180339887498949;
  for (int i = 0; i < 16; ++i) {
    const double a = hi - kGolden * (hi - lo), b = lo + kGolden * (hi - lo);
    const double va = valueAt(a, steps[at]), vb = valueAt(b, steps[at]);
    if (std::min(va, vb) < out.gm) out = va < vb ? LeastGm{va, a} : LeastGm{vb, b};
    (va < vb ? hi : lo) = va < vb ? b : a;
  }
  return out;
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

class Sweeper {
 public:
  Sweeper(const Model& model, const Water& water) : model_(model), water_(water) {}

  /// The rest position at a fill, from the one before (or from upright and level).
  Result<DiveStep> step(double fill, const DiveStep* before) {
    const Condition condition{water_, fill};
    const auto problem = pose(model_, condition);
    if (!problem) return fail(problem.error());
    const auto rest =
        before ? findEquilibriumNear(model_, condition, before->plane) : findEquilibrium(model_, condition);
    if (!rest) return fail(rest.error());
    return describeStep(*problem, *rest);
  }

 private:
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
  step.gm_longitudinal = gmLongitudinal(p, look(p, rest.plane.up, depthOf(p, rest)));
  step.net_buoyancy_submerged = p.density * p.model->whole_volume - p.mass;
  describeMarks(step, p, rest);
  describeUpright(step, p, rest);
  describeLevel(step, p, rest);
  return step;
}

Result<DiveSweep> sweepDive(const Model& model, const Water& water, int steps, const DiveLimits& limits) {
  if (auto e = outside("steps", steps, 2, 2000)) return fail(*e);
  if (model.tank_cells.empty()) return fail(noTank());
  DiveSweep out;
  out.limits = limits;
  Sweeper sweeper(model, water);
  const auto fillOf = [&](int i) { return model.tank_capacity * i / steps; };
  for (int i = 0; i <= steps; ++i) {
    auto step = sweeper.step(fillOf(i), i > 0 ? &out.down.back() : nullptr);
    if (!step) return fail(step.error());
    out.down.push_back(*step);
  }
  out.up = out.down;  // coming up starts where going down ended: full
  for (int i = steps - 1; i >= 0; --i) {
    const auto at = static_cast<std::size_t>(i);
    auto step = sweeper.step(fillOf(i), &out.up[at + 1]);
    if (!step) return fail(step.error());
    out.up[at] = *step;
  }
  const auto valueOf = [&](double DiveStep::*value) {
    return [&sweeper, value](double fill, const DiveStep& near) {
      const auto step = sweeper.step(fill, &near);
      return step ? (*step).*value : near.*value;
    };
  };
  const auto least = [&](double DiveStep::*value) {
    return lesser(leastOver(out.down, valueOf(value), value), leastOver(out.up, valueOf(value), value));
  };
  out.least_gm_transverse = least(&DiveStep::gm_transverse);
  out.least_gm_longitudinal_level = least(&DiveStep::gm_longitudinal_level);
  out.gaps = compare(out);
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
