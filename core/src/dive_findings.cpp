// What goes wrong on the way down or up, and whether water running along the tank is to blame.
#include <algorithm>
#include <cmath>
#include <functional>

#include "dive_sweep.hpp"

namespace pondtrim {

namespace {

/// How bad a step is for one kind of trouble: above 0 it has it, and more is worse.
struct Measure {
  Trouble trouble;
  std::function<double(const DiveStep&)> badness;
  std::function<double(const DiveStep&)> value;  ///< Finding::worst
};

std::vector<Measure> measures(const DiveLimits& limits) {
  const auto trim = [](const DiveStep& s) { return s.trim; };
  const auto heel = [](const DiveStep& s) { return s.heel; };
  const auto gm = [](const DiveStep& s) { return s.gm_transverse; };
  const auto beyond = [=](const DiveStep& s) { return std::abs(s.heel) - limits.heel; };
  // She could hang within the limit, whatever lies off the centreline: but she rolled before, and stays over.
  const auto still_over = [=](const DiveStep& s) {
    return beyond(s) > 0 && std::abs(s.upright_lever) < s.gm_transverse * std::sin(limits.heel) / 2;
  };
  // A GM of exactly 0 rolls over too; where she is only still over, any lower GM is worse.
  const auto unstable = [=](const DiveStep& s) {
    if (s.gm_transverse <= 0) return 1e-6 - s.gm_transverse;
    return still_over(s) ? 1e-6 / (1 + s.gm_transverse) : 0.0;
  };
  return {
      {Trouble::RollsOver, unstable, gm},
      {Trouble::Heels,
       [=](const DiveStep& s) { return s.gm_transverse > 0 && !still_over(s) ? beyond(s) : 0.0; }, heel},
      {Trouble::Pitches,
       [=](const DiveStep& s) {
         return std::abs(s.trim) < limits.on_end ? std::abs(s.trim) - limits.trim : 0.0;
       },
       trim},
      {Trouble::StandsOnEnd, [=](const DiveStep& s) { return std::abs(s.trim) - limits.on_end; }, trim},
      {Trouble::Sinks,
       [](const DiveStep& s) { return s.outcome == Outcome::Sinks ? -s.net_buoyancy_submerged : 0.0; },
       [](const DiveStep& s) { return std::max(0.0, -s.net_buoyancy_submerged); }},
  };
}

std::optional<Finding> gather(const Measure& m, const DiveSweep& sweep) {
  std::optional<Finding> out;
  double worst = 0;
  const auto scan = [&](const std::vector<DiveStep>& steps, bool down) {
    for (const DiveStep& s : steps) {
      const double bad = m.badness(s);
      if (!(bad > 0)) continue;
      if (!out)
        out = Finding{m.trouble, s.tank_fill, s.tank_fill, s.tank_fill, 0.0, false, false, 0.0, false};
      out->from_fill = std::min(out->from_fill, s.tank_fill);
      out->to_fill = std::max(out->to_fill, s.tank_fill);
      (down ? out->going_down : out->coming_up) = true;
      if (bad <= worst * (1 + 1e-6)) continue;  // of equals, the first
      worst = bad;
      out->worst_fill = s.tank_fill;
      out->worst = m.value(s);
    }
  };
  scan(sweep.down, true);
  scan(sweep.up, false);
  return out;
}

/// The step at that fill with the water frozen where it lies when she is level.
std::optional<DiveStep> frozenStep(const Model& model, const Water& water, double fill) {
  auto problem = pose(model, {water, fill});
  if (!problem) return std::nullopt;
  auto level = settleTank(model, fill, Vec3(0, 0, 1));
  if (!level) return std::nullopt;
  level->stiffness_loss = {};
  problem->frozen = *level;
  const State start = settleDepth(*problem, look(*problem, Vec3(0, 0, 1), 0.0));
  return describeStep(*problem, restFrom(*problem, start));
}

}  // namespace

std::vector<Finding> judge(const Model& model, const Water& water, const DiveSweep& sweep) {
  std::vector<Finding> out;
  for (const Measure& m : measures(sweep.limits)) {
    auto finding = gather(m, sweep);
    if (!finding) continue;
    if (m.trouble != Trouble::Sinks) {
      if (const auto frozen = frozenStep(model, water, finding->worst_fill)) {
        finding->worst_frozen = m.value(*frozen);
        // Standing on end is cured only when she does not pitch either.
        const bool pitches = m.trouble == Trouble::StandsOnEnd && std::abs(frozen->trim) > sweep.limits.trim;
        finding->water_runs = !(m.badness(*frozen) > 0) && !pitches;
      }
    }
    out.push_back(*finding);
  }
  return out;
}

}  // namespace pondtrim
