// The pond log's filter.
//
// A reading that fixes the boat's plane in the water (or only part of it) makes a statement about the balance
// of force and moments on that plane, and that balance is exactly linear in the unknowns (log_filter.hpp):
//   0 = value + rows b + noise,   noise covariance K S K^T,
// S the covariance of the measured plane, K the stiffness there. Numbers that were not read are filled in
// from the equilibrium predicted so far, with a spread so wide that they carry no weight; the fit is repeated
// with the improved prediction. So no equilibrium needs to be differentiated, and large errors do no harm.
#include <algorithm>
#include <cmath>
#include <pondtrim/pond_log.hpp>

#include "energy.hpp"
#include "faults.hpp"
#include "log_filter.hpp"

namespace pondtrim {

namespace {

using Eigen::Matrix3d;
using Eigen::MatrixXd;
using Eigen::Vector3d;
using Eigen::VectorXd;

struct Belief {
  Unknowns mean = Unknowns::Zero();
  UnknownCovariance covariance = UnknownCovariance::Zero();
};

/// Kalman update for y = rows b + noise, in Joseph's form, which keeps the covariance positive.
void update(Belief& belief, const MatrixXd& rows, const VectorXd& y, const MatrixXd& noise) {
  const MatrixXd cross = belief.covariance * rows.transpose();
  const MatrixXd gain = (rows * cross + noise).ldlt().solve(cross.transpose()).transpose();
  belief.mean += gain * (y - rows * belief.mean);
  const UnknownCovariance keep = UnknownCovariance::Identity() - gain * rows;
  belief.covariance = keep * belief.covariance * keep.transpose() + gain * noise * gain.transpose();
}

/// The boat of one reading.
struct Epoch {
  Boat boat;
  Model file;  ///< as the file says, without correction
  double density = 1000;
};

double fillOf(const Model& model, TankState tank, double measured) {
  if (tank == TankState::Empty) return 0.0;
  return tank == TankState::Full ? model.tank_capacity : measured;
}

Model correctedModel(const Model& file, const Unknowns& b) {
  Model model = file;
  installCorrection(model, asCorrection(b));
  return model;
}

/// Where the corrected boat should lie, or on end of her tether, the plane at the sail's top.
Plane predictPlane(const Model& model, const Water& water, double fill, const Plane* near) {
  const auto rest =
      near ? findEquilibriumNear(model, {water, fill}, *near) : findEquilibrium(model, {water, fill});
  if (rest && rest->outcome != Outcome::Sinks) return rest->plane;
  return {Vec3(0, 0, 1), model.marks.sail_top.z};
}

/// One measured number as a function of the plane.
struct Fact {
  const char* field;
  Measured read;
  enum Kind { MarkLine, SailTop, Trim, Heel } kind;
  double x = 0;
};

double factOn(const Fact& f, const Plane& plane, const Marks& marks) {
  switch (f.kind) {
    case Fact::MarkLine:
      return marks.line_height - (plane.level - plane.up.x * f.x) / plane.up.z;
    case Fact::SailTop:
      return glm::dot(plane.up, marks.sail_top) - plane.level;
    case Fact::Trim:
      return Attitude::of(plane.up).trim;
    case Fact::Heel:
      return Attitude::of(plane.up).heel;
  }
  return 0;
}

bool hung(const Reading& r) { return r.pull || r.bow_pull; }

/// Of a boat that hung there are no marks to read, and from two hooks no angles.
std::vector<Fact> factsOf(const Reading& r, const Marks& marks) {
  std::vector<Fact> out;
  if (r.bow_pull) return out;
  if (r.pull) {
    if (r.trim) out.push_back({"trim", *r.trim, Fact::Trim});
    if (r.heel) out.push_back({"heel", *r.heel, Fact::Heel});
    return out;
  }
  if (r.bow) out.push_back({"bow", *r.bow, Fact::MarkLine, marks.bow_x});
  if (r.stern) out.push_back({"stern", *r.stern, Fact::MarkLine, marks.stern_x});
  if (r.sail_showing) out.push_back({"sail_showing", *r.sail_showing, Fact::SailTop});
  if (r.trim) out.push_back({"trim", *r.trim, Fact::Trim});
  if (r.heel) out.push_back({"heel", *r.heel, Fact::Heel});
  return out;
}

/// Where the hook held or the lead lay.
Vec3 heldAt(const Reading& r, const Marks& marks) {
  return {r.held_x.value_or(marks.sail_top.x), 0,
          r.held_z.value_or(r.pull ? marks.sail_top.z : marks.deck_height)};
}

// Laid lead is weighed to a gram; its place, and the hook's, is known to 2 mm. Common practice, no source.
constexpr double kLaidWeight = 0.001, kLaidPlace = 0.002, kLeadDensity = 11340;

/// What laid lead weighs where it lies: less under water.
double laidWeight(const Reading& r, const Marks& marks, const Plane& plane, double density) {
  const bool wet = glm::dot(plane.up, heldAt(r, marks)) < plane.level;
  return r.laid_mass * (wet ? 1 - density / kLeadDensity : 1.0);
}

/// The boat with the laid lead in her.
void layLead(Model& model, const Reading& r, double density) {
  if (r.laid_mass == 0) return;
  Correction lead;
  lead.mass = laidWeight(r, model.marks, {Vec3(0, 0, 1), model.marks.sail_top.z}, density);
  lead.mass_moment = (heldAt(r, model.marks) - correctionPoint(model.marks)) * lead.mass;
  installCorrection(model, lead);
}

void addLaidLead(Balance& balance, Matrix3d& noise, const Reading& r, const Marks& marks, const Plane& plane,
                 double density) {
  if (r.laid_mass == 0) return;
  const double weight = laidWeight(r, marks, plane, density);
  const Vec3 arm = heldAt(r, marks) - correctionPoint(marks);
  const Tangent t = tangentAt(plane.up);
  const Vector3d felt(-1, glm::dot(arm, t.trim), glm::dot(arm, t.heel));
  balance.value += felt * weight;
  noise += felt * felt.transpose() * (kLaidWeight * kLaidWeight);
  noise.diagonal().tail<2>().array() += std::pow(weight * kLaidPlace, 2);
}

/// A plane near `from`, moved by (depth at o, trim, heel).
Plane moved(const Plane& from, const Vec3& o, const Vector3d& step) {
  const Tangent t = tangentAt(from.up);
  const Vec3 up = glm::normalize(from.up + t.trim * step(1) + t.heel * step(2));
  return {up, from.level - glm::dot(from.up, o) + step(0) + glm::dot(up, o)};
}

struct PlaneFit {
  Plane plane;
  Matrix3d covariance;
};

// What is not read is as good as unknown: half the boat's length in depth, half a radian in trim and heel.
constexpr double kUnreadAngle = 0.5;

/// How a fact answers to the plane's (depth at o, trim, heel).
Vector3d slopeOf(const Fact& f, const Plane& plane, const Vec3& o, const Marks& marks) {
  Vector3d slope;
  for (int k = 0; k < 3; ++k) {
    Vector3d h = Vector3d::Zero();
    h(k) = 1e-5;
    slope(k) = (factOn(f, moved(plane, o, h), marks) - factOn(f, moved(plane, o, -h), marks)) / 2e-5;
  }
  return slope;
}

/// Least squares for the plane from the facts, the prediction standing in for what was not read.
PlaneFit fitPlane(const std::vector<Fact>& facts, const Plane& predicted, const Model& model) {
  const Vec3 o = correctionPoint(model.marks);
  const Vector3d wide(0.5 * model.length, kUnreadAngle, kUnreadAngle);
  const Matrix3d weak = wide.cwiseProduct(wide).cwiseInverse().asDiagonal();
  Plane plane = predicted;
  Vector3d away = Vector3d::Zero();
  Matrix3d normal = weak;
  for (int round = 0; round < 6; ++round) {
    normal = weak;
    Vector3d right = -weak * away;
    for (const Fact& f : facts) {
      const double now = factOn(f, plane, model.marks);
      const Vector3d slope = slopeOf(f, plane, o, model.marks);
      const double w = 1 / (f.read.spread * f.read.spread);
      normal += slope * slope.transpose() * w;
      right += slope * (w * (f.read.value - now));
    }
    const Vector3d step = normal.ldlt().solve(right);
    away += step;
    plane = moved(plane, o, step);
    if (step.cwiseAbs().maxCoeff() < 1e-10) break;
  }
  return {plane, normal.inverse()};
}

/// Depth and both angles were read: then the prediction had no say, and need not be improved.
bool readInFull(const PlaneFit& fit) {
  return fit.covariance(0, 0) < 0.02 * 0.02 && fit.covariance(1, 1) < 0.1 * 0.1 &&
         fit.covariance(2, 2) < 0.1 * 0.1;
}

/// The plane as read, and how far what the unknowns cannot carry may move it.
struct ReadPlane {
  Plane plane;
  Matrix3d slack = Matrix3d::Zero();
};

ReadPlane readAfloat(Belief& belief, const Epoch& epoch, const Reading& r, const std::vector<Fact>& facts,
                     const Priors& priors) {
  const Belief before = belief;
  const bool full = r.tank == TankState::Full;
  const double fill = fillOf(epoch.file, r.tank, r.tank_fill);
  const Discrepancy discrepancy(epoch.boat, epoch.file, epoch.density, priors);
  std::optional<Plane> last;
  ReadPlane out;
  for (int round = 0; round < 3; ++round) {
    Model now = correctedModel(epoch.file, belief.mean);
    layLead(now, r, epoch.density);
    const Plane predicted =
        predictPlane(now, r.water, fillOf(now, r.tank, r.tank_fill), last ? &*last : nullptr);
    const PlaneFit fit = fitPlane(facts, predicted, epoch.file);
    Balance balance = balanceOn(epoch.file, epoch.density, fill, full, fit.plane);
    const Tangent t = tangentAt(fit.plane.up);
    const double inclining = r.shifted_mass * r.shifted_by;
    balance.value += Vector3d(0, t.trim.y, t.heel.y) * inclining;
    Matrix3d noise = balance.stiffness * fit.covariance * balance.stiffness.transpose();
    const Matrix3d missed = discrepancy.on(fit.plane, balance.rows);
    noise += missed;
    addLaidLead(balance, noise, r, epoch.file.marks, fit.plane, epoch.density);
    noise.diagonal().array() += 1e-12;  // [kg^2]: a microgram, against a stiffness of exactly 0
    belief = before;
    update(belief, balance.rows, -balance.value, noise);
    last = fit.plane;
    const auto give = balance.stiffness.ldlt();
    out.slack = give.solve(give.solve(missed).transpose());
    out.plane = fit.plane;
    if (readInFull(fit)) break;
  }
  return out;
}

/// All under water, the hook's pull holds the rest of her weight and turns her about its own place.
Plane hangingPlane(const Model& model, const Epoch& epoch, const Reading& r) {
  const double fill = fillOf(model, r.tank, r.tank_fill);
  Model held = model;
  Correction pull;
  pull.mass = -r.pull->value;
  pull.mass_moment = (heldAt(r, model.marks) - correctionPoint(model.marks)) * pull.mass;
  installCorrection(held, pull);
  Problem p{};
  p.model = &held;
  p.density = epoch.density;
  p.fill = fill;
  p.mass = held.mass + epoch.density * fill;
  p.origin = held.whole_centroid;
  p.mass_moment = (held.centre_of_gravity - p.origin) * held.mass;
  p.scale = held.length / 4;
  p.afloat = false;
  const Equilibrium rest = restFrom(p, look(p, Vec3(0, 0, 1), 0));
  return {rest.plane.up, kReachLimit};
}

void readHung(Belief& belief, const Epoch& epoch, const Reading& r) {
  const Belief before = belief;
  const double fill = fillOf(epoch.file, r.tank, r.tank_fill);
  const Vec3 arm = heldAt(r, epoch.file.marks) - correctionPoint(epoch.file.marks);
  for (int round = 0; round < 3; ++round) {
    const Plane guess = hangingPlane(correctedModel(epoch.file, belief.mean), epoch, r);
    Attitude read = Attitude::of(guess.up);
    Vector3d spread(0, kUnreadAngle, kUnreadAngle);
    if (r.trim) read.trim = r.trim->value;
    if (r.trim) spread(1) = r.trim->spread;
    if (r.heel) read.heel = r.heel->value;
    if (r.heel) spread(2) = r.heel->spread;
    const Plane deep{read.up(), kReachLimit};
    Balance balance = balanceOn(epoch.file, epoch.density, fill, r.tank == TankState::Full, deep);
    const Tangent t = tangentAt(deep.up);
    // The pull is a weight less at the hook.
    const Vector3d held(1, -glm::dot(arm, t.trim), -glm::dot(arm, t.heel));
    balance.value += held * r.pull->value;
    balance.stiffness.bottomRightCorner<2, 2>().diagonal().array() += r.pull->value * glm::dot(arm, deep.up);
    Matrix3d noise = balance.stiffness * spread.cwiseProduct(spread).asDiagonal() * balance.stiffness;
    noise += held * held.transpose() * (r.pull->spread * r.pull->spread);
    noise.diagonal().tail<2>().array() += std::pow(r.pull->value * kLaidPlace, 2);
    noise.diagonal().array() += 1e-12;
    belief = before;
    update(belief, balance.rows, -balance.value, noise);
  }
}

void readSunk(Belief& belief, const Epoch& epoch, const Reading& r) {
  if (r.pull && (r.trim || r.heel)) return readHung(belief, epoch, r);
  const double fill = fillOf(epoch.file, r.tank, r.tank_fill);
  const Plane deep{Vec3(0, 0, 1), kReachLimit};
  const Balance balance = balanceOn(epoch.file, epoch.density, fill, r.tank == TankState::Full, deep);
  // balance.value(0) is buoyancy less weight: minus what the hooks carry.
  if (r.pull) {
    update(belief, balance.rows.row(0), VectorXd::Constant(1, -r.pull->value - balance.value(0)),
           MatrixXd::Constant(1, 1, r.pull->spread * r.pull->spread));
  }
  if (r.bow_pull && r.stern_pull) {
    const double px = correctionPoint(epoch.file.marks).x;
    Eigen::Matrix2d arms;  // hooks to (weight, trim moment)
    arms << 1, 1, r.bow_hook_x - px, r.stern_hook_x - px;
    const Eigen::Vector2d read(r.bow_pull->value, r.stern_pull->value);
    const Eigen::Vector2d spread(r.bow_pull->spread, r.stern_pull->spread);
    const Eigen::Vector2d carried = arms * read;
    const Eigen::Vector2d y(-carried(0) - balance.value(0), carried(1) - balance.value(1));
    update(belief, balance.rows.topRows<2>(), y,
           arms * spread.cwiseProduct(spread).asDiagonal() * arms.transpose());
  }
}

constexpr double kDoubtful = 4.0;  // spreads; a sound reading is this far off once in 16,000

void doubt(std::vector<Doubt>& doubts, std::size_t reading, const char* field, const Measured& read,
           double fitted) {
  const double apart = std::abs(read.value - fitted) / read.spread;
  if (!(apart <= kDoubtful)) doubts.push_back({reading, field, read.value, fitted, apart});
}

/// Which numbers the corrected boat still does not explain.
void findDoubts(std::vector<Doubt>& doubts, const Belief& belief, const Epoch& epoch, const Reading& r,
                std::size_t index, const std::vector<Fact>& facts, const ReadPlane& read) {
  Model now = correctedModel(epoch.file, belief.mean);
  const double fill = fillOf(now, r.tank, r.tank_fill);
  layLead(now, r, epoch.density);
  if (r.shifted_mass != 0) {
    Correction shift;
    shift.mass_moment.y = r.shifted_mass * r.shifted_by;
    installCorrection(now, shift);
  }
  if (!facts.empty() && r.pull) {
    const Plane hangs = hangingPlane(now, epoch, r);
    for (const Fact& f : facts) doubt(doubts, index, f.field, f.read, factOn(f, hangs, now.marks));
  } else if (!facts.empty()) {
    const auto rest = findEquilibriumNear(now, {r.water, fill}, read.plane);
    for (const Fact& f : facts) {
      const bool floats = rest && rest->outcome != Outcome::Sinks && rest->plane.up.z > 0.1;
      const Vector3d slope = slopeOf(f, read.plane, correctionPoint(now.marks), now.marks);
      const Measured loose{f.read.value,
                           std::sqrt(f.read.spread * f.read.spread + slope.dot(read.slack * slope))};
      doubt(doubts, index, f.field, loose, floats ? factOn(f, rest->plane, now.marks) : 1e9);
    }
  }
  const double sinking = now.mass + epoch.density * fill - epoch.density * now.whole_volume;
  if (r.pull) doubt(doubts, index, "pull", *r.pull, sinking);
}

Result<Epoch> epochOf(const Boat& boat, const std::vector<Installed>& installed, const Water& water,
                      const Model* previous) {
  Epoch out;
  out.boat = withInstalled(boat, installed);
  out.boat.correction.reset();
  auto model = buildModel(out.boat, previous);
  if (!model) return fail(model.error());
  out.file = std::move(*model);
  auto density = waterDensity(water);
  if (!density) return fail(density.error());
  out.density = *density;
  return out;
}

std::vector<CauseGuess> guess(const std::vector<Cause>& causes, const Belief& belief,
                              const UnknownCovariance& prior) {
  // Given the unknowns, a cause z ~ N(0, 1) with effect e has mean e^T P0^-1 b and what variance remains.
  UnknownCovariance padded = prior;
  for (int i = 0; i < int(kUnknowns); ++i) padded(i, i) += 1e-12 * prior(i, i) + 1e-18;
  const UnknownCovariance inverse = padded.ldlt().solve(UnknownCovariance::Identity());
  const UnknownCovariance middle = inverse * (prior - belief.covariance) * inverse;
  std::vector<CauseGuess> out;
  for (const Cause& c : causes) {
    if (c.spread == 0) continue;
    const double mean = c.effect.dot(inverse * belief.mean), left = 1 - c.effect.dot(middle * c.effect);
    const double variance = c.spread * c.spread * std::max(0.0, left);
    const auto same =
        std::find_if(out.begin(), out.end(), [&](const CauseGuess& g) { return g.kind == c.kind; });
    if (same == out.end()) {
      out.push_back({c.kind, c.spread * mean, std::sqrt(variance)});
    } else {
      same->change += c.spread * mean;
      same->spread = std::hypot(same->spread, std::sqrt(variance));
    }
  }
  return out;
}

Estimate asEstimate(const Belief& belief) {
  Estimate out;
  for (unsigned i = 0; i < kUnknowns; ++i) {
    out.mean[i] = belief.mean(i);
    for (unsigned j = 0; j < kUnknowns; ++j) out.covariance[i][j] = belief.covariance(i, j);
  }
  return out;
}

}  // namespace

Result<Estimate> estimateCorrection(const Boat& boat, const Priors& priors, const Model* previous) {
  auto today = epochOf(boat, {}, boat.water, previous);
  if (!today) return fail(today.error());
  const auto first = std::find_if(boat.log.begin(), boat.log.end(), [](const Reading& r) { return r.used; });
  auto start = epochOf(boat, first == boat.log.end() ? std::vector<Installed>{} : first->installed,
                       boat.water, &today->file);
  if (!start) return fail(start.error());

  const std::vector<Cause> causes = priorCauses(start->boat, start->file, start->density, priors);
  Belief belief;
  for (const Cause& c : causes) belief.covariance += c.effect * c.effect.transpose();
  const UnknownCovariance prior = belief.covariance;

  Estimate found;
  std::vector<Installed> installed = installedIn(start->boat);
  for (std::size_t i = 0; i < boat.log.size(); ++i) {
    const Reading& r = boat.log[i];
    if (!r.used) continue;
    auto epoch = epochOf(boat, r.installed, r.water, &today->file);
    if (!epoch) return fail(epoch.error());
    belief.covariance += changeSpread(boat, installed, installedIn(epoch->boat), epoch->density);
    installed = installedIn(epoch->boat);
    const std::vector<Fact> facts = factsOf(r, boat.marks);
    ReadPlane plane;
    if (hung(r)) {
      readSunk(belief, *epoch, r);
    } else if (!facts.empty()) {
      plane = readAfloat(belief, *epoch, r, facts, priors);
    }
    findDoubts(found.doubts, belief, *epoch, r, i, facts, plane);
    found.values_used +=
        facts.size() + std::size_t(r.pull.has_value()) + 2 * std::size_t(r.bow_pull.has_value());
  }
  belief.covariance += changeSpread(boat, installed, installedIn(today->boat), today->density);

  Estimate out = asEstimate(belief);
  out.doubts = std::move(found.doubts);
  out.values_used = found.values_used;
  out.guesses = guess(causes, belief, prior);
  out.height_seen = belief.covariance(kMassZ, kMassZ) < 0.25 * prior(kMassZ, kMassZ);
  return out;
}

Boat withCorrection(const Boat& boat, const Estimate& estimate) {
  Boat out = boat;
  out.correction = asCorrection(meanOf(estimate));
  return out;
}

}  // namespace pondtrim
