// What the log says of the boat as she is now: predicted readings with spreads, the chance that all is well,
// and which further reading would tell most.
#include <algorithm>
#include <cmath>
#include <pondtrim/pond_log.hpp>
#include <pondtrim/report.hpp>
#include <vector>

#include "log_filter.hpp"
#include "outlook.hpp"
#include "raw_readings.hpp"

namespace pondtrim {

namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

UnknownCovariance covarianceOf(const Estimate& e) {
  UnknownCovariance out;
  for (unsigned i = 0; i < kUnknowns; ++i) {
    for (unsigned j = 0; j < kUnknowns; ++j) out(i, j) = e.covariance[i][j];
  }
  return out;
}

/// How the plane answers to the unknowns: (depth, trim, heel) = -K^-1 rows b. The rows are those of the boat
/// in the file, to which the unknowns are added; the stiffness that of the boat with them in.
BalanceRows planeAnswer(const BalanceRows& file, const Balance& now) {
  return -now.stiffness.ldlt().solve(file);
}

/// Line above water at station x, from a plane that moves by (depth at o, trim, heel).
Vector3d markSlope(const Plane& plane, const Vec3& o, double x, double line_height) {
  const Tangent t = tangentAt(plane.up);
  const Vec3 p = Vec3(x, 0, line_height) - o;
  return Vector3d(-1, glm::dot(t.trim, p), glm::dot(t.heel, p)) / plane.up.z;
}

void surfacedOutputs(Outputs& out, const Model& file, const Model& now, const Plane& plane, double density) {
  const Vec3 o = correctionPoint(file.marks);
  const BalanceRows answer =
      planeAnswer(balanceRows(file, density, 0, false, plane), balanceOn(now, density, 0, false, plane));
  const auto line = [&](double x) {
    return file.marks.line_height - (plane.level - plane.up.x * x) / plane.up.z;
  };
  out.value(kBowLine) = line(now.marks.bow_x);
  out.value(kSternLine) = line(now.marks.stern_x);
  out.value(kHeel) = Attitude::of(plane.up).heel;
  out.rows.row(kBowLine) = markSlope(plane, o, now.marks.bow_x, now.marks.line_height).transpose() * answer;
  out.rows.row(kSternLine) =
      markSlope(plane, o, now.marks.stern_x, now.marks.line_height).transpose() * answer;
  out.rows.row(kHeel) = answer.row(2);
}

/// A heel that is read well and is still small: where an inclining is judged.
constexpr double kInclining = 5 * kPi / 180;

/// GM is the stiffness in heel that is left when depth and trim follow. A weight unknown to the file lowers
/// or raises G; her draft changes too little to count.
void stabilityOutputs(Outputs& out, const Model& file, const Model& now, const Plane& plane, double density) {
  const Matrix3d give = balanceOn(now, density, 0, false, plane).stiffness.inverse();
  out.gm = 1 / (give(2, 2) * now.mass);
  out.gm_row(kMassZ) = -plane.up.z / now.mass;
  out.gm_row(kMass) = -out.gm / now.mass;
  const Vec3 o = correctionPoint(file.marks);
  Attitude heeled = Attitude::of(plane.up);
  heeled.heel += kInclining;
  const Vec3 up = heeled.up();
  const Plane inclined{up, plane.level + glm::dot(up - plane.up, o)};
  out.inclined_row =
      planeAnswer(balanceRows(file, density, 0, false, inclined), balanceOn(now, density, 0, false, inclined))
          .row(2);
}

/// Balances on the wanted plane, of the boat in the file and of her as corrected.
struct WantedBalances {
  Balance file, now;
};

/// Net buoyancy is read off the wanted plane, where it is linear in the unknowns; trim and heel from the rest
/// position, or where she sinks from the balance on the wanted plane.
void divedOutputs(Outputs& out, const Model& file, const Model& now, const WantedBalances& wanted,
                  const Equilibrium& rest, double density) {
  out.value(kDivedNet) = wanted.now.value(0);
  out.rows.row(kDivedNet) = wanted.file.rows.row(0);
  if (rest.outcome != Outcome::Sinks && rest.plane.up.z > 0.5) {
    const BalanceRows answer = planeAnswer(balanceRows(file, density, file.tank_capacity, true, rest.plane),
                                           balanceOn(now, density, now.tank_capacity, true, rest.plane));
    out.value(kDivedTrim) = rest.attitude.trim;
    out.value(kDivedHeel) = rest.attitude.heel;
    out.rows.row(kDivedTrim) = answer.row(1);
    out.rows.row(kDivedHeel) = answer.row(2);
  } else {
    const Vector3d turn = -wanted.now.stiffness.ldlt().solve(wanted.now.value);
    const BalanceRows answer = planeAnswer(wanted.file.rows, wanted.now);
    out.value(kDivedTrim) = std::clamp(turn(1), -1.5, 1.5);
    out.value(kDivedHeel) = std::clamp(turn(2), -1.5, 1.5);
    out.rows.row(kDivedTrim) = answer.row(1);
    out.rows.row(kDivedHeel) = answer.row(2);
  }
}

/// Trim and heel as the balance on the wanted plane has them.
void balancedOutputs(Outputs& out, const WantedBalances& wanted) {
  out.balanced = out.value;
  out.balanced_rows = out.rows;
  const Vector3d turn = -wanted.now.stiffness.ldlt().solve(wanted.now.value);
  out.balanced.segment<2>(kDivedTrim) = turn.tail<2>();
  out.balanced_rows.middleRows<2>(kDivedTrim) = planeAnswer(wanted.file.rows, wanted.now).bottomRows<2>();
}

/// The net buoyancy is told with all of her under water, whatever the wanted plane cuts.
void aimAtLift(Outputs& out, const Model& file, double density, double more) {
  const Plane deep{Vec3(0, 0, 1), kReachLimit};
  out.value(kDivedNet) = out.balanced(kDivedNet) = more;
  out.rows.row(kDivedNet) = balanceRows(file, density, file.tank_capacity, true, deep).row(0);
  out.balanced_rows.row(kDivedNet) = out.rows.row(kDivedNet);
}

/// A fixed stream of standard normal numbers (Box-Muller on a linear congruential generator with Knuth's MMIX
/// constants), so that the same log always gives the same chance.
class Normals {
 public:
  /// The first `count` of the stream.
  static std::vector<double> take(std::size_t count) {
    Normals stream;
    std::vector<double> out(count);
    for (double& v : out) v = stream.next();
    return out;
  }

 private:
  double next() {
    const double u = uniform(), v = uniform();
    return std::sqrt(-2 * std::log(u)) * std::cos(2 * kPi * v);
  }

  double uniform() {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return (double(state_ >> 11) + 0.5) * 0x1p-53;
  }
  std::uint64_t state_ = 20260501;
};

Predicted predicted(const Outputs& o, const OutputMatrix& covariance, OutputIndex i, double limit) {
  return {o.value(i), 0.0, std::sqrt(std::max(0.0, covariance(i, i))), limit};
}

/// What a further reading would see of the unknowns, and how finely.
struct Candidate {
  Outlook::Reading reading;
  Eigen::Matrix<double, Eigen::Dynamic, kUnknowns> rows;
  double spread;
};

// Ruler 1.5 mm, clinometer 0.5 degrees; a sail reading is worth its millimetres in grams.
constexpr double kRuler = 0.0015, kClinometer = 0.0087;

double relativeVariance(const OutputMatrix& covariance, const OutputVector& limits) {
  double sum = 0;
  for (int i = 0; i < int(kOutputs); ++i) sum += covariance(i, i) / (limits(i) * limits(i));
  return sum;
}

/// All that is asked of her and not known, in squares of what each may be off by.
double notKnown(const Outputs& o, const UnknownCovariance& p, const OutputVector& limits, double gm_limit) {
  const double gm = (o.gm_row * p * o.gm_row.transpose()).value();
  return relativeVariance(o.rows * p * o.rows.transpose(), limits) + gm / (gm_limit * gm_limit);
}

void findBestReading(Outlook& out, const Outputs& o, const UnknownCovariance& p, const OutputVector& limits) {
  const Candidate candidates[] = {
      {Outlook::Reading::SurfacedMarks, o.rows.middleRows<2>(kBowLine), kRuler},
      {Outlook::Reading::SurfacedHeel, o.rows.row(kHeel), kClinometer},
      {Outlook::Reading::DivedSail, o.rows.row(kDivedNet), std::max(kRuler * o.mass_per_sail, 1e-4)},
      {Outlook::Reading::DivedTrim, o.rows.row(kDivedTrim), kClinometer},
      {Outlook::Reading::DivedHeel, o.rows.row(kDivedHeel), kClinometer},
      {Outlook::Reading::Inclining, o.inclined_row, kClinometer},
  };
  const double before = notKnown(o, p, limits, out.gm.tolerance);
  if (!(before > 0)) return;
  for (const Candidate& c : candidates) {
    Eigen::MatrixXd seen = c.rows * p * c.rows.transpose();
    seen.diagonal().array() += c.spread * c.spread;
    const Eigen::MatrixXd cross = p * c.rows.transpose();
    const UnknownCovariance after = p - cross * seen.ldlt().solve(cross.transpose());
    const double gain = 1 - notKnown(o, after, limits, out.gm.tolerance) / before;
    if (gain > out.best_gain) {
      out.best_gain = gain;
      out.best_reading = c.reading;
    }
  }
}

constexpr double kLeastClear = 0.001;  // of GM from its floor [m]: nearer, it is a question all the same

// "Done" asks for this chance: in the pond trial nine of ten boats called done at it are truly within
// tolerance (DEVELOPERS.md); a higher bar costs dips.
constexpr double kConfident = 0.68;

}  // namespace

Result<Outputs> outputsOf(const Boat& boat, const Model& file, const Unknowns& mean) {
  const auto density = waterDensity(boat.water);
  if (!density) return fail(density.error());
  Model now = file;
  installCorrection(now, asCorrection(mean));
  const auto surfaced = findEquilibrium(now, {boat.water, 0.0});
  if (!surfaced) return fail(surfaced.error());
  const auto dived = findEquilibrium(now, {boat.water, now.tank_capacity});
  if (!dived) return fail(dived.error());
  const double wanted_sail = wantedSail(now, *density, boat.aims);
  const Plane wanted{Vec3(0, 0, 1), now.marks.sail_top.z - wanted_sail};
  const Plane afloat =
      surfaced->outcome == Outcome::Sinks ? Plane{Vec3(0, 0, 1), now.marks.line_height} : surfaced->plane;
  Outputs out;
  surfacedOutputs(out, file, now, afloat, *density);
  stabilityOutputs(out, file, now, afloat, *density);
  const WantedBalances on_wanted{balanceOn(file, *density, file.tank_capacity, true, wanted),
                                 balanceOn(now, *density, now.tank_capacity, true, wanted)};
  divedOutputs(out, file, now, on_wanted, *dived, *density);
  balancedOutputs(out, on_wanted);
  const double lifts = *density * now.whole_volume - now.mass - *density * now.tank_capacity;
  if (boat.aims.net_buoyancy) aimAtLift(out, file, *density, lifts - *boat.aims.net_buoyancy);
  out.reserve = lifts - out.value(kDivedNet);
  out.wanted_sail = wanted_sail;
  out.sinks = surfaced->outcome == Outcome::Sinks;
  out.dived_sinks = dived->outcome == Outcome::Sinks;
  out.sail_showing = dived->outcome == Outcome::Sinks
                         ? 0.0
                         : glm::dot(dived->plane.up, now.marks.sail_top) - dived->plane.level;
  out.mass_per_sail = on_wanted.file.stiffness(0, 0);
  return out;
}

OutputVector limitsOf(const Tolerance& t) {
  OutputVector out;
  out << t.mark, t.mark, t.heel, t.net, t.trim, t.heel;
  return out;
}

Chances chancesWithin(const Outputs& outputs, const OutputMatrix& covariance, const OutputVector& limits) {
  constexpr int kDraws = 4000;
  // A little on the diagonal keeps the factor real when two outputs are one and the same.
  OutputMatrix padded = covariance;
  for (int i = 0; i < int(kOutputs); ++i) padded(i, i) += 1e-9 * limits(i) * limits(i);
  const OutputMatrix root = padded.llt().matrixL();
  static const std::vector<double> kNormals = Normals::take(kDraws * std::size_t(kOutputs));
  const double* normal = kNormals.data();
  int all = 0, surfaced = 0, dived = 0;
  for (int n = 0; n < kDraws; ++n) {
    OutputVector z;
    for (int i = 0; i < int(kOutputs); ++i) z(i) = *normal++;
    const OutputVector drawn = outputs.value + root * z;
    const auto within = (drawn.cwiseAbs().array() <= limits.array()).eval();
    const bool up = within.head<kDivedNet>().all(), floats = drawn(kDivedNet) + outputs.reserve > 0,
               down = floats && within.tail<kOutputs - kDivedNet>().all();
    surfaced += up ? 1 : 0;
    dived += down ? 1 : 0;
    all += up && down ? 1 : 0;
  }
  return {double(all) / kDraws, double(surfaced) / kDraws, double(dived) / kDraws};
}

Result<Outlook> predict(const Boat& boat, const Estimate& estimate, const Tolerance& tolerance,
                        const Model* previous) {
  Boat plain = boat;
  plain.correction.reset();
  const auto file = buildModel(plain, previous);
  if (!file) return fail(file.error());
  const auto outputs = outputsOf(boat, *file, meanOf(estimate));
  if (!outputs) return fail(outputs.error());
  return outlookFrom(*outputs, boat, estimate, tolerance);
}

Outlook outlookFrom(const Outputs& outputs, const Boat& boat, const Estimate& estimate,
                    const Tolerance& tolerance) {
  const UnknownCovariance p = covarianceOf(estimate);
  const OutputMatrix covariance = outputs.rows * p * outputs.rows.transpose();
  const OutputVector limits = limitsOf(tolerance);

  Outlook out;
  out.bow = predicted(outputs, covariance, kBowLine, tolerance.mark);
  out.stern = predicted(outputs, covariance, kSternLine, tolerance.mark);
  out.heel = predicted(outputs, covariance, kHeel, tolerance.heel);
  out.dived_net = predicted(outputs, covariance, kDivedNet, tolerance.net);
  out.dived_trim = predicted(outputs, covariance, kDivedTrim, tolerance.trim);
  out.dived_heel = predicted(outputs, covariance, kDivedHeel, tolerance.heel);
  out.gm = {outputs.gm, boat.aims.least_gm,
            std::sqrt(std::max(0.0, (outputs.gm_row * p * outputs.gm_row.transpose()).value())),
            std::max(std::abs(outputs.gm - boat.aims.least_gm), kLeastClear)};
  out.sail_showing = outputs.sail_showing;
  out.sail_spread = out.dived_net.spread / std::max(outputs.mass_per_sail, 1e-6);
  out.sinks = outputs.sinks;
  out.dived_sinks = outputs.dived_sinks;
  // Where she sinks, all is linear about a plane that she does not reach, so no draw counts.
  const Chances chances = chancesWithin(outputs, covariance, limits);
  out.surfaced_probability = out.sinks ? 0.0 : chances.surfaced;
  out.dived_probability = out.dived_sinks ? 0.0 : chances.dived;
  out.probability = out.sinks || out.dived_sinks ? 0.0 : chances.both;
  out.misfit = relativeVariance(covariance, limits) + outputs.value.cwiseQuotient(limits).squaredNorm();
  noteReadings(out, boat, estimate.doubts, tolerance, outputs);
  out.done = out.surfaced_confirmed && out.dived_confirmed && !out.doubtful && out.probability >= kConfident;
  findBestReading(out, outputs, p, limits);
  return out;
}

}  // namespace pondtrim
