// Rest positions as minima of the potential energy.
//
// Notation: energy.hpp.
#include <algorithm>
#include <cmath>
#include <pondtrim/equilibrium.hpp>

#include "energy.hpp"
#include "moments.hpp"

namespace pondtrim {

namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

State stepped(const Problem& p, const State& s, const Tangent& t, const Vector3d& step) {
  const Vec3 up = glm::normalize(s.up + t.trim * step(1) + t.heel * step(2));
  return look(p, up, s.depth + step(0) * p.scale);
}

double size(const Vector3d& g) { return g.cwiseAbs().maxCoeff(); }

/// Newton's step, turned downhill where the energy is not convex and kept to half a radian.
Vector3d newtonStep(const Matrix3d& h, const Vector3d& g, bool afloat) {
  Matrix3d use = h;
  Vector3d rhs = g;
  if (!afloat) {
    use.row(0).setZero();
    use.col(0).setZero();
    use(0, 0) = 1;
    rhs(0) = 0;
  }
  const Eigen::SelfAdjointEigenSolver<Matrix3d> eigen(use);
  const Vector3d& w = eigen.eigenvalues();
  const double floor = std::max(1e-9 * w.cwiseAbs().maxCoeff(), 1e-300);
  Vector3d step = Vector3d::Zero();
  for (int i = 0; i < 3; ++i) {
    const Vector3d v = eigen.eigenvectors().col(i);
    step -= v * (v.dot(rhs) / std::max(std::abs(w(i)), floor));
  }
  const double longest = size(step);
  return longest > 0.5 ? Vector3d(step * (0.5 / longest)) : step;
}

/// Lowest curvature over attitudes with the depth free to follow, and its direction.
struct Curvature {
  double value;
  Vector3d direction;
};
Curvature leastCurvature(const Matrix3d& h, bool afloat) {
  Eigen::Matrix2d k = h.bottomRightCorner<2, 2>();
  const Eigen::Vector2d couple = h.bottomLeftCorner<2, 1>();
  const bool follows = afloat && h(0, 0) > 0;
  if (follows) k -= couple * couple.transpose() / h(0, 0);
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> eigen(k);
  Eigen::Vector2d v = eigen.eigenvectors().col(0);
  // The same way each time: to starboard, else bow down.
  if (std::abs(v(1)) > 1e-9 ? v(1) < 0 : v(0) > 0) v = -v;
  return {eigen.eigenvalues()(0), Vector3d(follows ? -couple.dot(v) / h(0, 0) : 0.0, v(0), v(1))};
}

// Residual that counts as rest, in weight x scale; Newton's last step usually goes far below it.
constexpr double kRest = 1e-12;
constexpr int kMostSteps = 200;
// With next to nothing above water, depth must follow attitude along a narrow, curved valley of the energy,
// which Newton's straight steps only creep along. From then on each trial is settled in depth first. Most
// boats need 5 to 15 steps.
constexpr int kFollowAfter = 40;

/// Of the mass, where a search begins: Newton's steps, which move depth and attitude together, do the rest.
constexpr double kCoarse = 1e-3;

struct Found {
  State state;
  int steps = 0;
};

/// One damped step. False when no step along it helps any more. `follow`: settle the depth at every trial.
bool descend(const Problem& p, State& s, const Tangent& t, const Vector3d& g, const Vector3d& step,
             bool follow) {
  const double slope = g.dot(step), noise = energyNoise(p, s);
  double k = 1;
  for (int i = 0; i < 50; ++i, k /= 2) {
    State next = stepped(p, s, t, step * k);
    if (follow) next = settleDepth(p, next);
    const double drop = s.energy - next.energy;
    const bool lower = drop >= -1e-4 * slope * k && drop > noise;
    const bool calmer = std::abs(drop) <= noise && size(gradient(p, next, tangentAt(next.up))) < size(g);
    if (lower || calmer) {
      s = next;
      return true;
    }
  }
  return false;
}

/// Leaves a stationary point that is not a minimum. False at a minimum.
bool leaveSaddle(const Problem& p, State& s, const Tangent& t, const Matrix3d& h) {
  const Curvature least = leastCurvature(h, p.afloat);
  if (least.value >= -1e-9 * p.mass * p.scale) return false;
  for (const double k : {0.2, 0.05, 0.01, 0.002}) {
    const State next = settleDepth(p, stepped(p, s, t, least.direction * k));
    if (next.energy < s.energy - energyNoise(p, s)) {
      s = next;
      return true;
    }
  }
  return false;
}

Found search(const Problem& p, State s) {
  Found out;
  const double weight = p.mass * p.scale;
  bool settled = false;
  for (; out.steps < kMostSteps; ++out.steps) {
    const Tangent t = tangentAt(s.up);
    const Vector3d g = gradient(p, s, t);
    const Matrix3d h = stiffness(p, s, t);
    if (size(g) <= kRest * weight) {
      if (!leaveSaddle(p, s, t, h)) break;
      continue;
    }
    if (descend(p, s, t, g, newtonStep(h, g, p.afloat), out.steps > kFollowAfter)) {
      settled = false;
      continue;
    }
    if (!settled) {
      s = settleDepth(p, s);
      settled = true;
    } else if (leaveSaddle(p, s, t, h)) {  // so close to a saddle that downhill is lost in rounding
      settled = false;
    } else {
      break;  // as good as rounding allows
    }
  }
  out.state = s;
  return out;
}

void fillStiffness(Equilibrium& e, const Problem& p, const State& s) {
  const Matrix3d h = stiffness(p, s, tangentAt(s.up));
  const Vector3d scale(p.afloat ? 1 / p.scale : 0.0, 1, 1);
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) e.stiffness[i][j] = h(i, j) * scale(i) * scale(j);
  }
}

Outcome outcomeOf(const Problem& p, const Plane& plane) {
  if (!p.afloat) return Outcome::Sinks;
  const Marks& m = p.model->marks;
  const auto deckWet = [&](double x) { return glm::dot(plane.up, Vec3(x, 0, m.deck_height)) < plane.level; };
  return deckWet(m.bow_x) && deckWet(m.stern_x) ? Outcome::FloatsAwash : Outcome::Floats;
}

Equilibrium describe(const Problem& p, const Found& found) {
  const State& s = found.state;
  Equilibrium e;
  e.density = p.density;
  e.mass = p.mass;
  e.plane = {s.up, p.afloat ? s.depth + glm::dot(s.up, p.origin) : 2 * kReachLimit};
  e.outcome = outcomeOf(p, e.plane);
  e.attitude = Attitude::of(s.up);
  e.cut = shifted(s.cut, p.origin);
  e.tank = s.tank;
  e.centre_of_gravity = (p.model->centre_of_gravity * p.model->mass + s.tank.moment * p.density) / p.mass;
  e.missing_buoyancy = p.afloat ? 0.0 : p.mass - p.density * p.model->whole_volume;
  fillStiffness(e, p, s);
  e.iterations = found.steps;
  const Tangent t = tangentAt(s.up);
  e.force_residual = std::abs(s.lack) / p.mass;
  e.moment_residual =
      std::hypot(glm::dot(s.turning, t.trim), glm::dot(s.turning, t.heel)) / (p.mass * p.model->length);
  return e;
}

}  // namespace

Vec3 Attitude::up() const {
  return {std::sin(trim), std::cos(trim) * std::sin(heel), std::cos(trim) * std::cos(heel)};
}

Attitude Attitude::of(const Vec3& up) {
  return {std::atan2(up.x, std::hypot(up.y, up.z)), std::atan2(up.y, up.z)};
}

Equilibrium restFrom(const Problem& p, const State& start) { return describe(p, search(p, start)); }

Result<Equilibrium> findEquilibrium(const Model& model, const Condition& condition, const Attitude& start) {
  auto problem = pose(model, condition);
  if (!problem) return fail(problem.error());
  const State first = settleDepth(*problem, look(*problem, start.up(), 0.0), kCoarse);
  return restFrom(*problem, first);
}

Equilibrium restNear(const Problem& p, const Plane& start) {
  State first = look(p, start.up, start.level - glm::dot(start.up, p.origin));
  // Too far off for Newton: settle the depth first.
  if (std::abs(first.lack) > 0.2 * p.mass) first = settleDepth(p, first, kCoarse);
  return restFrom(p, first);
}

Result<Equilibrium> findEquilibriumNear(const Model& model, const Condition& condition, const Plane& start) {
  const auto problem = pose(model, condition);
  if (!problem) return fail(problem.error());
  return restNear(*problem, start);
}

}  // namespace pondtrim
