#include "heel_held.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace pondtrim {

namespace {

constexpr double kWindow = 60 * kPi / 180;    // beyond it she is no longer held, she goes over the end
constexpr double kSteepest = 89 * kPi / 180;  // on end, heel has no meaning
constexpr double kNear = 20 * kPi / 180;      // how far a balance may lie from the trim of the point before
constexpr double kRest = 1e-13;               // residual that counts as balance, in weight x scale
constexpr double kGood = 1e-8;                // residual below which rounding may have the last word

Vec3 upAt(double heel, double trim) { return Attitude{trim, heel}.up(); }

State lookAt(const Problem& p, double heel, double trim, double depth) {
  return settleDepth(p, look(p, upAt(heel, trim), depth));
}

/// Stiffness against a turn while the draft follows it: `own` without, `couple` of turn and draft, `stiff` of
/// draft.
double followed(double own, double couple, double stiff) {
  return stiff > 0 ? own - couple * couple / stiff : own;
}

/// Slope and curvature of the energy over the trim, draft following [kg m].
struct Slope {
  double gradient, curvature;
};
Slope slopeOverTrim(const Problem& p, const State& s) {
  const Tangent t = tangentAt(s.up);
  const Eigen::Matrix3d h = stiffness(p, s, t);
  return {gradient(p, s, t)(1), followed(h(1, 1), h(0, 1), p.afloat ? h(0, 0) : 0)};
}

/// Steps downhill over the trim. Empty when it leads out of the window.
std::optional<HeldState> lowestTrim(const Problem& p, double heel, double trim, double rest_trim,
                                    double depth) {
  const double weight = p.mass * p.scale;
  HeldState at{lookAt(p, heel, trim, depth), heel, trim, TrimState::Free};
  Slope slope = slopeOverTrim(p, at.state);
  for (int i = 0; i < 80 && std::abs(slope.gradient) > kRest * weight; ++i) {
    const double floor = 1e-6 * weight;
    const double step = std::clamp(-slope.gradient / std::max(std::abs(slope.curvature), floor), -0.3, 0.3);
    bool moved = false;
    for (double k = 1; k > 1e-9 && !moved; k /= 2) {
      const double next = at.trim + k * step;
      if (std::abs(next) > kSteepest || std::abs(next - rest_trim) > kWindow) return std::nullopt;
      const State s = lookAt(p, heel, next, at.state.depth);
      const Slope there = slopeOverTrim(p, s);
      const double drop = at.state.energy - s.energy, noise = energyNoise(p, s);
      const bool calmer = std::abs(drop) <= noise && std::abs(there.gradient) < std::abs(slope.gradient);
      if (drop <= noise && !calmer) continue;
      at.state = s;
      at.trim = next;
      slope = there;
      moved = true;
    }
    if (!moved) break;
  }
  if (slope.curvature < -1e-9 * weight) at.trim_state = TrimState::Balanced;
  return at;
}

/// Newton on the moment alone: finds a balance of either kind near `trim`.
std::optional<HeldState> balancedTrim(const Problem& p, double heel, double trim, double depth) {
  const double weight = p.mass * p.scale;
  HeldState at{lookAt(p, heel, trim, depth), heel, trim, TrimState::Balanced};
  for (int i = 0; i < 40; ++i) {
    const Slope slope = slopeOverTrim(p, at.state);
    if (std::abs(slope.gradient) <= kRest * weight) return at;
    const double step = std::clamp(-slope.gradient / slope.curvature, -0.1, 0.1);
    const double next = at.trim + step;
    if (!std::isfinite(next) || std::abs(next - trim) > kNear || std::abs(next) > kSteepest)
      return std::nullopt;
    if (std::abs(step) < 1e-14)
      return std::abs(slope.gradient) <= kGood * weight ? std::optional(at) : std::nullopt;
    at.state = lookAt(p, heel, next, at.state.depth);
    at.trim = next;
  }
  return std::nullopt;
}

/// Draft and trim settled at once, where the least energy lies close by; empty where it does not.
std::optional<HeldState> closeBy(const Problem& p, double heel, double trim, double rest_trim, double depth) {
  constexpr double kClose = 0.1;   // [rad] of trim, in all
  constexpr double kCalm = 1e-12;  // as an equilibrium's
  const double weight = p.mass * p.scale, from = trim;
  for (int i = 0; i < 10; ++i) {
    const State s = look(p, upAt(heel, trim), depth);
    const Tangent t = tangentAt(s.up);
    const Eigen::Vector3d g = gradient(p, s, t);
    const Eigen::Matrix3d h = stiffness(p, s, t);
    const double stiff = p.afloat ? h(0, 0) : 1, couple = p.afloat ? h(0, 1) : 0;
    if (!(stiff > 0)) return std::nullopt;
    const double curvature = followed(h(1, 1), couple, stiff);
    if (curvature < 1e-6 * weight) return std::nullopt;
    if (std::abs(g(1)) <= kCalm * weight && std::abs(s.lack) <= kCalm * p.mass)
      return HeldState{s, heel, trim, TrimState::Free};
    const double turn = (g(0) * couple / stiff - g(1)) / curvature;
    trim += turn;
    depth -= (g(0) + couple * turn) / stiff * p.scale;
    if (!(std::abs(trim - from) < kClose) || std::abs(trim - rest_trim) > kWindow ||
        std::abs(trim) > kSteepest)
      return std::nullopt;
  }
  return std::nullopt;
}

double gmAlong(const Problem& p, const State& s, int axis) {
  const Eigen::Matrix3d h = stiffness(p, s, tangentAt(s.up));
  return followed(h(axis, axis), h(0, axis), p.afloat ? h(0, 0) : 0) / p.mass;
}

double gmAlong(const Equilibrium& rest, int axis) {
  const auto& k = rest.stiffness;
  return followed(k[axis][axis], k[0][axis], k[0][0]) / rest.mass;
}

}  // namespace

HeldState holdHeel(const Problem& p, double heel, double trim, double rest_trim, double depth) {
  if (auto close = closeBy(p, heel, trim, rest_trim, depth)) return *close;
  if (auto lowest = lowestTrim(p, heel, trim, rest_trim, depth)) return *lowest;
  if (auto balance = balancedTrim(p, heel, trim, depth)) return *balance;
  return {lookAt(p, heel, trim, depth), heel, trim, TrimState::Held};
}

double turningOverHeel(const HeldState& held) {
  // d(up)/d(heel) is the heel tangent times cos(trim).
  return std::cos(held.trim) * glm::dot(held.state.turning, tangentAt(held.state.up).heel);
}

double gmTransverse(const Problem& p, const State& s) { return gmAlong(p, s, 2); }
double gmLongitudinal(const Problem& p, const State& s) { return gmAlong(p, s, 1); }
double gmTransverse(const Equilibrium& rest) { return gmAlong(rest, 2); }
double gmLongitudinal(const Equilibrium& rest) { return gmAlong(rest, 1); }

}  // namespace pondtrim
