// The righting lever, as the slope of the least energy at a held heel:
//   E(heel) = min over draft and trim of E,  GZ = dE/d(heel) / mass (the minimum's own slope, by the envelope
//   theorem),  so that mass x g x the integral of GZ is the work of turning her over.
#include <cmath>

#include "faults.hpp"
#include "heel_held.hpp"

namespace pondtrim {

namespace {

/// Levers below this, relative to the hull's length, are rounding: at 0 and 180 degrees of a mirrored boat.
constexpr double kNoLever = 1e-10;

/// Where a search begins.
struct Start {
  double trim, depth;
};

struct Sampler {
  const Problem* problem;
  double rest_trim;
  double upright_energy;

  [[nodiscard]] double lever(const HeldState& held) const {
    const double side = held.heel < 0 ? -1.0 : 1.0;
    return side * turningOverHeel(held) / problem->mass;
  }
  [[nodiscard]] HeldState at(double heel, const Start& near) const {
    return holdHeel(*problem, heel, near.trim, rest_trim, near.depth);
  }
  [[nodiscard]] RightingPoint point(const HeldState& held) const {
    const double level = held.state.depth + glm::dot(held.state.up, problem->origin);
    return {held.heel,      lever(held), held.trim, level, (held.state.energy - upright_energy) * kGravity,
            held.trim_state};
  }
  /// The heel between two points at which the lever changes its sign: false position, the weight of an end
  /// that stays halved (the Illinois rule), warm from the first.
  [[nodiscard]] double crossing(HeldState a, HeldState b) const {
    double at_a = lever(a), at_b = lever(b);
    for (int i = 0; i < 60 && std::abs(b.heel - a.heel) > 1e-9; ++i) {
      const bool jumps = i >= 12;  // no root, then, but a lever that changes its sign at once: halve
      const double heel = jumps ? (a.heel + b.heel) / 2 : b.heel - at_b * (b.heel - a.heel) / (at_b - at_a);
      if (std::abs(heel - b.heel) < 1e-10) return heel;
      const HeldState mid = at(heel, {a.trim, a.state.depth});
      const double at_mid = lever(mid);
      if ((at_mid > 0) != (at_b > 0)) {
        a = b, at_a = at_b;
      } else {
        at_a /= 2;
      }
      b = mid, at_b = at_mid;
    }
    return b.heel;
  }
};

void readSide(RightingSide& side, const Sampler& sampler, const std::vector<HeldState>& held,
              double no_lever) {
  std::optional<std::size_t> last;  // last point with a lever worth its sign
  for (std::size_t i = 0; i < held.size(); ++i) {
    const double lever = side.points[i].righting_lever;
    if (lever > side.greatest_lever) {
      side.greatest_lever = lever;
      side.greatest_at = side.points[i].heel;
    }
    if (std::abs(lever) <= no_lever) continue;
    const bool was_positive = last && side.points[*last].righting_lever > 0;
    if (lever > 0 && !was_positive && !side.rest_heel)
      side.rest_heel = last ? sampler.crossing(held[*last], held[i]) : 0.0;
    if (lever < 0 && was_positive && !side.range) side.range = sampler.crossing(held[*last], held[i]);
    last = i;
  }
  const double over = side.points.back().heel;
  if (side.rest_heel && !side.range) side.range = over;
}

/// Where to look for the point after `held`: where `mirror`, the other side, has it as long as both have been
/// alike; else straight on from the last two.
Start startOf(const std::vector<HeldState>& held, const std::vector<HeldState>* mirror) {
  constexpr double kAlike = 1e-9, kJump = 0.05;  // [rad]
  const HeldState& last = held.back();
  if (mirror != nullptr) {
    const HeldState &then = (*mirror)[held.size() - 1], &there = (*mirror)[held.size()];
    if (std::abs(last.trim - then.trim) < kAlike) return {there.trim, there.state.depth};
  }
  if (held.size() > 1) {
    const HeldState& before = held[held.size() - 2];
    const double turn = last.trim - before.trim;
    if (std::abs(turn) < kJump) return {last.trim + turn, 2 * last.state.depth - before.state.depth};
  }
  return {last.trim, last.state.depth};
}

struct Side {
  RightingSide side;
  std::vector<HeldState> held;
};

Side sampleSide(const Sampler& sampler, const HeldState& upright, double over, int points, double no_lever,
                const std::vector<HeldState>* mirror) {
  Side out;
  out.held = {upright};
  for (int i = 1; i < points; ++i)
    out.held.push_back(sampler.at(over * i / (points - 1), startOf(out.held, mirror)));
  for (const HeldState& h : out.held) out.side.points.push_back(sampler.point(h));
  // At heel 0 both sides share one moment: it rights one side and upsets the other.
  if (over < 0) out.side.points[0].righting_lever *= -1;
  readSide(out.side, sampler, out.held, no_lever);
  return out;
}

bool differ(const RightingSide& a, const RightingSide& b, double tolerance) {
  for (std::size_t i = 0; i < a.points.size(); ++i) {
    if (std::abs(a.points[i].righting_lever - b.points[i].righting_lever) > tolerance) return true;
  }
  return false;
}

}  // namespace

Result<RightingCurve> rightingCurve(const Model& model, const Condition& condition, int points) {
  if (auto e = outside("points", points, 3, 2000)) return fail(*e);
  const auto problem = pose(model, condition);
  if (!problem) return fail(problem.error());
  const auto rest = findEquilibrium(model, condition);
  if (!rest) return fail(rest.error());
  const double trim = rest->attitude.trim;
  const double depth = depthUnder(*problem, rest->plane);
  const HeldState upright = holdHeel(*problem, 0.0, trim, trim, depth);
  const Sampler sampler{&*problem, trim, upright.state.energy};
  const double no_lever = kNoLever * model.length;
  RightingCurve out;
  out.gm_transverse = gmTransverse(*problem, upright.state);
  Side starboard = sampleSide(sampler, upright, kPi, points, no_lever, nullptr);
  out.port = sampleSide(sampler, upright, -kPi, points, no_lever, &starboard.held).side;
  out.starboard = std::move(starboard.side);
  out.lopsided = differ(out.starboard, out.port, 1e-6 * model.length);
  if (out.gm_transverse < 0) {
    // Where she comes to rest; of a lopsided boat the two sides differ, and one may have no rest at all.
    out.angle_of_loll = std::abs(rest->attitude.heel);
  }
  return out;
}

}  // namespace pondtrim
