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
#include <iterator>
#include <pondtrim/pond_log.hpp>

#include "energy.hpp"
#include "faults.hpp"
#include "log_filter.hpp"
#include "log_plane.hpp"
#include "log_unlikely.hpp"

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

/// How a statement compares with what was believed before it: its squared distance in spreads (chi squared of
/// as many degrees of freedom as numbers were read), and what it is worth as evidence, up to a constant.
struct Surprise {
  double square = 0.0, evidence = 0.0;
};

/// Kalman update for y = rows b + noise, in Joseph's form, which keeps the covariance positive.
Surprise update(Belief& belief, const MatrixXd& rows, const VectorXd& y, const MatrixXd& noise) {
  const MatrixXd cross = belief.covariance * rows.transpose();
  const auto expected = (rows * cross + noise).ldlt();
  const MatrixXd gain = expected.solve(cross.transpose()).transpose();
  const VectorXd off = y - rows * belief.mean;
  Surprise out;
  out.square = off.dot(expected.solve(off));
  out.evidence = -0.5 * (out.square + expected.vectorD().array().abs().max(1e-300).log().sum());
  belief.mean += gain * off;
  const UnknownCovariance keep = UnknownCovariance::Identity() - gain * rows;
  belief.covariance = keep * belief.covariance * keep.transpose() + gain * noise * gain.transpose();
  return out;
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

/// The plane as read, and how far what the unknowns cannot carry may move it.
struct ReadPlane {
  Plane plane;
  Matrix3d slack = Matrix3d::Zero();
  Surprise surprise;
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
    out.surprise = update(belief, balance.rows, -balance.value, noise);
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

Surprise readHung(Belief& belief, const Epoch& epoch, const Reading& r) {
  const Belief before = belief;
  const double fill = fillOf(epoch.file, r.tank, r.tank_fill);
  const Vec3 arm = heldAt(r, epoch.file.marks) - correctionPoint(epoch.file.marks);
  Surprise out;
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
    out = update(belief, balance.rows, -balance.value, noise);
  }
  return out;
}

Surprise readSunk(Belief& belief, const Epoch& epoch, const Reading& r) {
  if (r.pull && (r.trim || r.heel)) return readHung(belief, epoch, r);
  const double fill = fillOf(epoch.file, r.tank, r.tank_fill);
  const Plane deep{Vec3(0, 0, 1), kReachLimit};
  const Balance balance = balanceOn(epoch.file, epoch.density, fill, r.tank == TankState::Full, deep);
  Surprise out;
  // balance.value(0) is buoyancy less weight: minus what the hooks carry.
  if (r.pull) {
    out = update(belief, balance.rows.row(0), VectorXd::Constant(1, -r.pull->value - balance.value(0)),
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
    out = update(belief, balance.rows.topRows<2>(), y,
                 arms * spread.cwiseProduct(spread).asDiagonal() * arms.transpose());
  }
  return out;
}

constexpr double kDoubtful = 3.5;  // spreads; a sound reading is this far off once in 2,000

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

std::vector<CauseGuess> guess(std::vector<Cause> causes, const Belief& belief, UnknownCovariance prior,
                              double widened) {
  prior *= widened * widened;
  for (Cause& c : causes) {
    c.effect *= widened;
    c.spread *= widened;
  }
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

namespace {

/// The readings in use, each with the boat as it was then.
struct Logged {
  std::size_t index;
  Epoch epoch;
  std::vector<Fact> facts;
  std::vector<Installed> installed;
  UnknownCovariance changed;  ///< spread that the changes since the reading before have added
};
Result<std::vector<Logged>> loggedIn(const Boat& boat, const Epoch& start, const Model& file) {
  std::vector<Logged> out;
  std::vector<Installed> before = installedIn(start.boat);
  for (std::size_t i = 0; i < boat.log.size(); ++i) {
    const Reading& r = boat.log[i];
    if (!r.used) continue;
    auto epoch = epochOf(boat, r.installed, r.water, &file);
    if (!epoch) return fail(epoch.error());
    std::vector<Installed> then = installedIn(epoch->boat);
    const UnknownCovariance changed = changeSpread(boat, before, then, epoch->density);
    out.push_back({i, std::move(*epoch), factsOf(r, boat.marks), then, changed});
    before = std::move(then);
  }
  return out;
}

std::size_t numbersIn(const Logged& l, const Reading& r) {
  return l.facts.size() + std::size_t(r.pull.has_value()) + 2 * std::size_t(r.bow_pull.has_value());
}

/// All readings in their order, from a belief of nothing but the prior.
struct Pass {
  Belief belief;
  std::vector<Doubt> doubts;
  double evidence = 0.0;
  std::vector<bool> strange;  ///< which readings lay where the prior hardly allows
  [[nodiscard]] bool anyStrange() const {
    return std::find(strange.begin(), strange.end(), true) != strange.end();
  }
};

/// Chi squared that n numbers exceed once in a thousand times (Wilson and Hilferty 1931, PNAS 17, 684-688).
double rarelyExceeded(std::size_t n) {
  const double k = 2.0 / (9.0 * double(std::max<std::size_t>(n, 1)));
  return double(n) * std::pow(1 - k + 3.09 * std::sqrt(k), 3);
}

Pass runLog(const Boat& boat, const std::vector<Logged>& log, const UnknownCovariance& prior,
            const Priors& priors) {
  Pass out;
  out.belief.covariance = prior;
  for (const Logged& l : log) {
    const Reading& r = boat.log[l.index];
    out.belief.covariance += l.changed;
    ReadPlane plane;
    if (hung(r)) {
      plane.surprise = readSunk(out.belief, l.epoch, r);
    } else if (!l.facts.empty()) {
      plane = readAfloat(out.belief, l.epoch, r, l.facts, priors);
    }
    out.evidence += plane.surprise.evidence;
    out.strange.push_back(plane.surprise.square > rarelyExceeded(numbersIn(l, r)));
    findDoubts(out.doubts, out.belief, l.epoch, r, l.index, l.facts, plane);
  }
  return out;
}

// A boat may differ from her file by more than builders usually err: a tank that does not fill, much air.
// Then the readings are to be believed, not the priors: these are widened by the factor that makes the
// readings likeliest (type II maximum likelihood), wider ones being the rarer.
constexpr double kWidenings[] = {2, 4, 8};
constexpr double kRarity = 2.0;  // a factor k is as rare as k^-2

struct Widened {
  Pass pass;
  double by = 1.0;
};
Widened runLogWidened(const Boat& boat, const std::vector<Logged>& log, const UnknownCovariance& prior,
                      const Priors& priors) {
  Widened out{runLog(boat, log, prior, priors)};
  if (!out.pass.anyStrange()) return out;
  const std::vector<bool> strange = out.pass.strange;
  double best = out.pass.evidence;
  for (const double by : kWidenings) {
    Pass wide = runLog(boat, log, prior * (by * by), priors);
    const double worth = wide.evidence - kRarity * std::log(by);
    if (!(worth > best)) continue;
    best = worth;
    out = {std::move(wide), by};
  }
  out.pass.strange = strange;
  return out;
}

/// What can be fitted only by going as far from the file as the log goes, or off the hull, was hardly read
/// so.
void doubtUnlikely(Widened& run, const Boat& boat, const std::vector<Logged>& log) {
  const bool widest = run.by == kWidenings[std::size(kWidenings) - 1];
  for (std::size_t i = 0; i < log.size(); ++i) {
    const Logged& l = log[i];
    const Reading& r = boat.log[l.index];
    const bool strange = widest && run.pass.strange[i];
    if (!mayBeUnlikely(r, l.facts, boat.marks, strange)) continue;
    const Plane by_file =
        r.pull ? hangingPlane(l.epoch.file, l.epoch, r)
               : predictPlane(l.epoch.file, r.water, fillOf(l.epoch.file, r.tank, r.tank_fill), nullptr);
    addUnlikely(run.pass.doubts, boat, l.index, l.facts, l.epoch.file, by_file, strange);
  }
}

}  // namespace

Result<Estimate> estimateCorrection(const Boat& boat, const Priors& priors, const Model* previous) {
  auto today = epochOf(boat, {}, boat.water, previous);
  if (!today) return fail(today.error());
  const auto first = std::find_if(boat.log.begin(), boat.log.end(), [](const Reading& r) { return r.used; });
  auto start = epochOf(boat, first == boat.log.end() ? std::vector<Installed>{} : first->installed,
                       boat.water, &today->file);
  if (!start) return fail(start.error());
  const auto log = loggedIn(boat, *start, today->file);
  if (!log) return fail(log.error());

  const std::vector<Cause> causes = priorCauses(start->boat, start->file, start->density, priors);
  UnknownCovariance prior = UnknownCovariance::Zero();
  for (const Cause& c : causes) prior += c.effect * c.effect.transpose();
  Widened run = runLogWidened(boat, *log, prior, priors);
  doubtUnlikely(run, boat, *log);
  Belief& belief = run.pass.belief;
  const std::vector<Installed>& last = log->empty() ? installedIn(start->boat) : log->back().installed;
  belief.covariance += changeSpread(boat, last, installedIn(today->boat), today->density);

  Estimate out = asEstimate(belief);
  out.doubts = std::move(run.pass.doubts);
  out.widened = run.by;
  for (const Logged& l : *log) out.values_used += numbersIn(l, boat.log[l.index]);
  const double squared = run.by * run.by;
  out.guesses = guess(causes, belief, prior, run.by);
  out.height_seen = belief.covariance(kMassZ, kMassZ) < 0.25 * squared * prior(kMassZ, kMassZ);
  return out;
}

Boat withCorrection(const Boat& boat, const Estimate& estimate) {
  Boat out = boat;
  out.correction = asCorrection(meanOf(estimate));
  return out;
}

}  // namespace pondtrim
