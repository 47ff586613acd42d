// Rest positions as minima of the potential energy.
//
// Notation. Everything is per unit of g. Energy of the boat in the water, about a fixed point o of the boat:
//   E(d, u) = u.D - d (m - rho V) with  d = c - u.o  (depth of o),
//   D = m G + tank moment - rho M  (moments about o),  V, M volume and moment under water,
// because the displaced water's energy is the integral of depth, d V - u.M, and tank water lies at its own
// lowest level (its share changes at fixed volume, so the envelope theorem leaves only its moment).
//   dE/dd = -(m - rho V),   dE/du = D,
//   d2E/dd2 = rho A,   d2E/dd du = -rho a,   d2E/du2 = rho P - rho_tank (P_t - a_t a_t^T / A_t),
// A, a, P area and moments of the waterplane about o. On the unit sphere of u the second derivative loses
// (u.D) times the identity. E is convex in d, so a rest position is a minimum over d and a stationary point
// over u; it is kept only when it is a minimum there too.
#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <pondtrim/equilibrium.hpp>

#include "moments.hpp"
#include "tangent.hpp"

namespace pondtrim {

namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

/// What does not change during one search.
struct Problem {
  const Model* model;
  double density;
  double fill;
  double mass;       ///< with tank water
  Vec3 origin;       ///< o: near the middle, for round-off and to loosen depth from attitude
  Vec3 mass_moment;  ///< boat without tank water, about o
  double scale;      ///< length that makes angles and depths alike [m]
  bool afloat;       ///< else fully under: depth does not matter
};

/// A point of the search and everything known there.
struct State {
  Vec3 up{0, 0, 1};
  double depth = 0;  ///< d
  Cut cut;           ///< about o
  TankWater tank;
  Vec3 turning{0.0};  ///< D
  double lack = 0;    ///< m - rho V
  double energy = 0;
};

State look(const Problem& p, const Vec3& up, double depth) {
  State s;
  s.up = up;
  s.depth = depth;
  if (p.afloat) {
    s.cut = shifted(cutModel(*p.model, {up, depth + glm::dot(up, p.origin)}), -p.origin);
  } else {
    s.cut.volume = p.model->whole_volume;
    s.cut.moment = (p.model->whole_centroid - p.origin) * s.cut.volume;
  }
  s.tank = *settleTank(*p.model, p.fill, up);  // the fill was checked when the problem was posed
  const Vec3 tank_moment = (s.tank.moment - p.origin * s.tank.volume) * p.density;
  s.turning = p.mass_moment + tank_moment - s.cut.moment * p.density;
  s.lack = p.afloat ? p.mass - p.density * s.cut.volume : 0.0;
  s.energy = glm::dot(up, s.turning) - depth * s.lack;
  return s;
}

/// Gradient in (depth / scale, trim, heel): [kg m].
Vector3d gradient(const Problem& p, const State& s, const Tangent& t) {
  return {-s.lack * p.scale, glm::dot(s.turning, t.trim), glm::dot(s.turning, t.heel)};
}

Matrix3d stiffness(const Problem& p, const State& s, const Tangent& t) {
  Sym3 k;
  addScaled(k, s.cut.plane_second, p.density);
  addScaled(k, s.tank.stiffness_loss, -p.density);
  const double bend = glm::dot(s.up, s.turning);
  const Vec3 kt = times(k, t.trim), kh = times(k, t.heel);
  Matrix3d h;
  h(0, 0) = p.density * s.cut.plane_area * p.scale * p.scale;
  h(0, 1) = h(1, 0) = -p.density * glm::dot(s.cut.plane_moment, t.trim) * p.scale;
  h(0, 2) = h(2, 0) = -p.density * glm::dot(s.cut.plane_moment, t.heel) * p.scale;
  h(1, 1) = glm::dot(kt, t.trim) - bend;
  h(1, 2) = h(2, 1) = glm::dot(kt, t.heel);
  h(2, 2) = glm::dot(kh, t.heel) - bend;
  return h;
}

State stepped(const Problem& p, const State& s, const Tangent& t, const Vector3d& step) {
  const Vec3 up = glm::normalize(s.up + t.trim * step(1) + t.heel * step(2));
  return look(p, up, s.depth + step(0) * p.scale);
}

/// Depth at which the buoyancy carries the mass, attitude fixed: Newton inside a shrinking bracket.
State settleDepth(const Problem& p, State s) {
  if (!p.afloat) return s;
  const double reach = 2 * kReachLimit;
  double lo = -reach, hi = reach;
  for (int i = 0; i < 200 && std::abs(s.lack) > 1e-13 * p.mass; ++i) {
    (s.lack > 0 ? lo : hi) = s.depth;
    const double area = p.density * s.cut.plane_area;
    double next = area > 0 ? s.depth + s.lack / area : lo - 1;
    if (!(next > lo && next < hi)) next = (lo + hi) / 2;
    if (next == s.depth) break;
    s = look(p, s.up, next);
  }
  return s;
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
  const Vector3d w = eigen.eigenvalues();
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

struct Found {
  State state;
  int steps = 0;
};

/// Energy differences below this are rounding.
double energyNoise(const Problem& p, const State& s) {
  return 1e-14 * (p.mass * p.scale + std::abs(s.depth) * p.mass);
}

/// One damped step. False when no step along it helps any more.
bool descend(const Problem& p, State& s, const Tangent& t, const Vector3d& g, const Vector3d& step) {
  const double slope = g.dot(step), noise = energyNoise(p, s);
  double k = 1;
  for (int i = 0; i < 50; ++i, k /= 2) {
    const State next = stepped(p, s, t, step * k);
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

/// Leaves a stationary point that is not a minimum.
bool leaveSaddle(const Problem& p, State& s, const Tangent& t, const Vector3d& direction) {
  for (const double k : {0.2, 0.05, 0.01, 0.002}) {
    const State next = settleDepth(p, stepped(p, s, t, direction * k));
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
      const Curvature least = leastCurvature(h, p.afloat);
      if (least.value >= -1e-9 * weight || !leaveSaddle(p, s, t, least.direction)) break;
      continue;
    }
    if (descend(p, s, t, g, newtonStep(h, g, p.afloat))) {
      settled = false;
      continue;
    }
    if (settled) break;  // even with the depth settled no step helps: as good as rounding allows
    s = settleDepth(p, s);
    settled = true;
  }
  out.state = s;
  return out;
}

Result<Problem> pose(const Model& model, const Condition& condition) {
  const auto density = waterDensity(condition.water);
  if (!density) return fail(density.error());
  const auto tank = settleTank(model, condition.tank_fill, Vec3(0, 0, 1));
  if (!tank) return fail(tank.error());
  Problem p{};
  p.model = &model;
  p.density = *density;
  p.fill = condition.tank_fill;
  p.mass = model.mass + p.density * tank->volume;
  p.origin = model.whole_centroid;
  p.mass_moment = (model.centre_of_gravity - p.origin) * model.mass;
  p.scale = model.length / 4;
  p.afloat = p.mass < p.density * model.whole_volume;
  return p;
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

Result<Equilibrium> findEquilibrium(const Model& model, const Condition& condition, const Attitude& start) {
  auto problem = pose(model, condition);
  if (!problem) return fail(problem.error());
  const State first = settleDepth(*problem, look(*problem, start.up(), 0.0));
  return describe(*problem, search(*problem, first));
}

Result<Equilibrium> findEquilibriumNear(const Model& model, const Condition& condition, const Plane& start) {
  auto problem = pose(model, condition);
  if (!problem) return fail(problem.error());
  const double depth = start.level - glm::dot(start.up, problem->origin);
  State first = look(*problem, start.up, depth);
  // Too far off for Newton: settle the depth first.
  if (std::abs(first.lack) > 0.2 * problem->mass) first = settleDepth(*problem, first);
  return describe(*problem, search(*problem, first));
}

}  // namespace pondtrim
