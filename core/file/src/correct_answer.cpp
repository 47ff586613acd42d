// Everything that the pond log says of a boat, and the boat with the next change in.
#include <algorithm>
#include <cmath>
#include <pondtrim/file/correct_json.hpp>
#include <pondtrim/model.hpp>
#include <pondtrim/plan.hpp>

namespace pondtrim::file {
namespace {

Spread along(const UnknownVector& slope, const Estimate& e) {
  Spread out;
  double variance = 0;
  for (unsigned i = 0; i < kUnknowns; ++i) {
    out.value += slope[i] * e.mean[i];
    for (unsigned j = 0; j < kUnknowns; ++j) variance += slope[i] * e.covariance[i][j] * slope[j];
  }
  out.spread = std::sqrt(std::max(0.0, variance));
  return out;
}

/// Slopes of weight and moments by the unknowns.
struct Slopes {
  UnknownVector weight{}, bow{}, port{};
};

/// Where the weight sits, if it can be told: a quotient is worth a spread only when its divisor is well clear
/// of nothing.
std::optional<Spread> placeOf(const Slopes& slopes, const BalanceFound& found, const Estimate& e,
                              const Boat& boat) {
  constexpr double kClear = 3;
  if (std::abs(found.weight.value) < kClear * found.weight.spread || found.weight.value == 0)
    return std::nullopt;
  const double arm = found.bow_moment.value / found.weight.value;
  UnknownVector rest{};  // moment about the place itself: its spread over the weight is the place's
  for (unsigned i = 0; i < kUnknowns; ++i) rest[i] = slopes.bow[i] - arm * slopes.weight[i];
  const double x = correctionPoint(boat.marks).x + arm;
  if (x < 0 || x > boat.length) return std::nullopt;
  return Spread{x, along(rest, e).spread / std::abs(found.weight.value)};
}

BalanceFound balanceFound(const Slopes& slopes, const Estimate& e, const Boat& boat) {
  BalanceFound out{along(slopes.weight, e), along(slopes.bow, e), along(slopes.port, e), {}};
  out.x = placeOf(slopes, out, e, boat);
  return out;
}

Slopes surfacedSlopes() {
  Slopes out;
  out.weight[kMass] = out.bow[kMassX] = out.port[kMassY] = 1;
  return out;
}

/// Dived, volume that was not in the file makes her lighter, and more tank water heavier.
Slopes divedSlopes(const Boat& boat, const Model& model, double density) {
  Slopes out = surfacedSlopes();
  out.weight[kUpperVolume] = out.bow[kUpperX] = out.port[kUpperY] = -density;
  if (const auto water = settleTank(model, model.tank_capacity, Vec3(0, 0, 1)); water && water->volume > 0) {
    const Vec3 arm = water->moment / water->volume - correctionPoint(boat.marks);
    const double mass = density * water->volume;
    out.weight[kTank] = mass;
    out.bow[kTank] = mass * arm.x;
    out.port[kTank] = mass * arm.y;
  }
  return out;
}

/// kMassZ is a moment about the file's centre of gravity: over the weight it is how far G lies above that.
Spread heightOfG(const Estimate& e, const Model& model) {
  UnknownVector slope{};
  slope[kMassZ] = 1 / (model.mass + e.mean[kMass]);
  return along(slope, e);
}

bool isClose(const Predicted& p) {
  const double off = std::abs(p.value - p.aim);
  return off <= p.tolerance && off > p.tolerance / 2 && off + p.spread > p.tolerance;
}

/// Off by so much that no further reading would bring it within its limit.
bool isFarOff(const Predicted& p) { return std::abs(p.value - p.aim) > p.tolerance + 2 * p.spread; }

/// Close to the limit as estimated (within it, but nearer to it than to the aim and by less than its own
/// spread) or as last read, where reading again may tell.
std::vector<PondNumber> closeCalls(const Outlook& o) {
  std::vector<PondNumber> out;
  const auto add = [&](bool read, const Predicted& p, PondNumber n) {
    const bool as_read = std::find(o.close.begin(), o.close.end(), n) != o.close.end() && !isFarOff(p);
    if (as_read || (read && isClose(p))) out.push_back(n);
  };
  add(o.surfaced_read, o.bow, PondNumber::Bow);
  add(o.surfaced_read, o.stern, PondNumber::Stern);
  add(o.surfaced_read, o.heel, PondNumber::Heel);
  add(o.dived_read, o.dived_net, PondNumber::Sail);
  add(o.dived_read, o.dived_trim, PondNumber::DivedTrim);
  add(o.dived_read, o.dived_heel, PondNumber::DivedHeel);
  return out;
}

/// No cause is more than all of it; and of readings that hardly can be true none is guessed.
void dropSenseless(std::vector<CauseGuess>& guesses, const Outlook& o) {
  const auto isShare = [](CauseGuess::Kind k) {
    return k != CauseGuess::Weights && k != CauseGuess::TrappedAir && k != CauseGuess::Forgotten;
  };
  const bool all = o.reread_empty || o.reread_full;
  std::erase_if(guesses, [&](const CauseGuess& g) { return all || (isShare(g.kind) && g.change < -1); });
}

/// Takes out what was proposed and not used, so that the file does not fill with empty parts.
void dropUnused(Boat& changed, const Boat& original, const std::vector<PondChange>& changes) {
  const auto unused = [&](const std::string& name) {
    const auto had = [&](const Part& p) { return p.name == name; };
    const auto used = [&](const PondChange& c) { return c.part == name; };
    return std::none_of(original.parts.begin(), original.parts.end(), had) &&
           std::none_of(changes.begin(), changes.end(), used);
  };
  for (Reading& r : changed.log) {
    std::erase_if(r.installed, [&](const Installed& i) { return unused(i.part); });
  }
  std::erase_if(changed.parts, [&](const Part& p) { return unused(p.name); });
  changed.places = original.places;
}

}  // namespace

Result<CorrectAnswer> answerCorrect(const Boat& boat, const Tolerance& tolerance) {
  Boat plain = boat;
  plain.correction.reset();
  const auto model = buildModel(plain);
  if (!model) return fail(model.error());
  const auto density = waterDensity(boat.water);
  if (!density) return fail(density.error());

  CorrectAnswer out;
  auto estimate = estimateCorrection(plain, {}, &*model);
  if (!estimate) return fail(estimate.error());
  out.estimate = std::move(*estimate);
  out.surfaced = balanceFound(surfacedSlopes(), out.estimate, plain);
  out.dived = balanceFound(divedSlopes(plain, *model, *density), out.estimate, plain);
  if (out.estimate.height_seen) out.height = heightOfG(out.estimate, *model);
  auto outlook = predict(plain, out.estimate, tolerance, &*model);
  if (!outlook) return fail(outlook.error());
  out.outlook = *outlook;
  dropSenseless(out.estimate.guesses, out.outlook);
  out.close_calls = closeCalls(out.outlook);

  out.places_proposed = boat.places.empty();
  const Boat start = withAmountsNoted(out.places_proposed ? proposePlaces(plain) : plain);
  out.applied = start;
  const bool reread = out.outlook.reread_empty || out.outlook.reread_full;
  if (!start.places.empty() && !reread) {
    auto next = nextChange(start, out.estimate, tolerance, &*model);
    if (!next) return fail(next.error());
    out.next = std::move(*next);
    out.applied = out.next.boat;
    auto coarse = coarseSteps(start, out.estimate, tolerance, &*model);
    if (!coarse) return fail(coarse.error());
    out.coarse = std::move(*coarse);
  }
  out.step = nextStep(out.outlook, out.next);
  out.corrected = start;
  if (out.places_proposed) {
    dropUnused(out.applied, boat, out.next.changes);
    dropUnused(out.corrected, boat, {});
  }
  if (!reread) {
    out.applied = withCorrection(out.applied, out.estimate);
    out.corrected = withCorrection(out.corrected, out.estimate);
  }
  return out;
}

}  // namespace pondtrim::file
