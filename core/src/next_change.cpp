// The next change at the pond: whole steps found by search (step_search.hpp), not by rounding each place. The
// deviations are the six outputs over their limits (outlook.hpp), the noise is what cutting and placing add.
#include "next_change.hpp"

#include <algorithm>
#include <cmath>
#include <pondtrim/pond_log.hpp>

#include "place_amount.hpp"
#include "step_search.hpp"

namespace pondtrim {

namespace {

/// Default steps where a place allows any amount: what a builder cuts and weighs at the water's edge.
constexpr double kFoamStep = 10e-6, kLeadStep = 0.005, kRailStep = 0.005;

double usualStep(PlaceKind kind) {
  return kind == PlaceKind::Slide ? kRailStep : kind == PlaceKind::Foam ? kFoamStep : kLeadStep;
}

Adjustable adjustable(const Boat& boat, const Place& place, const Part& part, double density) {
  const PlaceKind kind = kindOf(place, part);
  Adjustable a;
  a.now = amountIn(kind, part);
  a.step = place.step > 0 ? place.step : usualStep(kind);
  const double least = place.rail ? place.rail->from_x : place.least.value_or(0.0),
               most = place.rail ? place.rail->to_x : place.most.value_or(roomIn(kind, part));
  a.least = std::min(0, int(std::ceil((least - a.now) / a.step - 1e-9)));
  a.most = std::max(0, int(std::floor((most - a.now) / a.step + 1e-9)));
  const auto wrong = [&](const Installed& from, const Installed& to) {
    return changeSpread(boat, {from}, {to}, density);
  };
  if (kind == PlaceKind::Slide) {
    a.effect = slideEffect(boat, part, a.step, density);
    const double held = amountIn(PlaceKind::Weight, part);
    a.wrong_once = wrong({part.name, held, a.now}, {part.name, held, a.now + a.step});
    return a;
  }
  a.effect = amountEffect(boat, part, a.step, density);
  // What is cut and placed wrong grows with the steps; what lead is weighed wrong does not.
  const UnknownCovariance one = wrong({part.name, a.now}, {part.name, a.now + a.step}),
                          two = wrong({part.name, a.now}, {part.name, a.now + 2 * a.step});
  a.wrong = (two - one) / 3;
  a.wrong_once = one - a.wrong;
  return a;
}

std::vector<Adjustable> adjustablesOf(const Boat& boat, double density) {
  std::vector<Adjustable> out;
  for (std::size_t i = 0; i < boat.places.size(); ++i) {
    const Place& place = boat.places[i];
    const std::size_t part = partNamed(boat, place.part);
    Adjustable a = adjustable(boat, place, boat.parts[part], density);
    a.place = i;
    a.part = part;
    out.push_back(a);
  }
  return out;
}

}  // namespace

Result<Bench> benchOf(const Boat& boat, const Model* previous) {
  Bench bench;
  bench.plain = boat;
  bench.plain.correction.reset();
  auto file = buildModel(bench.plain, previous);
  if (!file) return fail(file.error());
  bench.file = std::move(*file);
  const auto density = waterDensity(boat.water);
  if (!density) return fail(density.error());
  bench.density = *density;
  bench.places = adjustablesOf(bench.plain, *density);
  return bench;
}

namespace {

/// Moved by whole steps, and the double of a decimal number again: 29 g, not 28.999999999999996.
double amountAfter(const Adjustable& a, int steps) {
  constexpr double kDigits = 1e12;
  const double to = a.now + steps * a.step;
  return std::abs(to) < 1e-9 * a.step ? 0.0 : std::round(to * kDigits) / kDigits;
}

Boat withSteps(Boat boat, const std::vector<Adjustable>& places, const std::vector<int>& steps) {
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (steps[i] == 0) continue;
    const Adjustable& a = places[i];
    Part& part = boat.parts[a.part];
    setAmount(kindOf(boat.places[a.place], part), part, amountAfter(a, steps[i]));
  }
  return boat;
}

Estimate withMoreSpread(Estimate e, const UnknownCovariance& more) {
  for (unsigned i = 0; i < kUnknowns; ++i) {
    for (unsigned j = 0; j < kUnknowns; ++j) e.covariance[i][j] += more(i, j);
  }
  return e;
}

// One more place must take away a tenth of a limit (squared): fewer cuts are worth that much.
constexpr double kPerPlace = 0.01;

// What it costs to have lost all that keeps her up, and that beyond half of it only.
constexpr double kSinking = 4.0, kLeastReserve = 0.001;  // [-], [kg]

/// A boat with little to spare sinks long before her net buoyancy is off by its tolerance.
void addReserve(StepProblem& out, const Outputs& outputs, const OutputVector& limits) {
  const double half = std::max(outputs.reserve / 2, kLeastReserve), scale = limits(kDivedNet) / half;
  StepFloor floor{out.deviations[kDivedNet], kSinking};
  floor.row.now = floor.row.now * scale + 1;
  for (double& rate : floor.row.rate) rate *= scale;
  out.floors.push_back(std::move(floor));
}

StepProblem problemOf(const Bench& bench, const Outputs& outputs, const std::vector<int>& at,
                      const OutputVector& limits) {
  StepProblem out;
  const std::vector<Adjustable>& places = bench.places;
  const auto& rows = outputs.balanced_rows;
  const OutputVector scale = limits.cwiseInverse();
  OutputVector now = outputs.balanced;
  for (std::size_t p = 0; p < places.size(); ++p) now -= rows * places[p].effect * at[p];
  for (int i = 0; i < int(kOutputs); ++i) out.deviations.push_back({now(i) * scale(i), {}});
  for (const Adjustable& a : places) {
    const OutputVector answer = (rows * a.effect).cwiseProduct(scale);
    for (int i = 0; i < int(kOutputs); ++i) out.deviations[std::size_t(i)].rate.push_back(answer(i));
    const auto noise = [&](const UnknownCovariance& wrong) {
      const OutputMatrix added = rows * wrong * rows.transpose();
      return added.diagonal().cwiseProduct(scale.cwiseProduct(scale)).sum();
    };
    out.places.push_back({a.least, a.most, noise(a.wrong), 0.0, kPerPlace + noise(a.wrong_once)});
  }
  addReserve(out, outputs, limits);
  return out;
}

}  // namespace

Result<NextChange> nextChange(const Boat& boat, const Estimate& estimate, const Tolerance& tolerance,
                              const Model* previous) {
  if (boat.places.empty()) {
    return fail(
        {"places", "none", "at least one place", "", "the boat has no place where anything may change"});
  }
  const auto bench = benchOf(boat, previous);
  if (!bench) return fail(bench.error());
  const Boat& plain = bench->plain;
  const std::vector<Adjustable>& places = bench->places;

  const Unknowns mean = meanOf(estimate);
  const OutputVector limits = limitsOf(tolerance);
  std::vector<int> steps(places.size(), 0);
  Boat changed = plain;
  auto outputs = outputsOf(changed, bench->file, mean);
  // The answer to a step is linear only near the wanted planes: look again from where the change leads.
  for (int round = 0; outputs && round < 4; ++round) {
    const std::vector<int> next = searchSteps(problemOf(*bench, *outputs, steps, limits), {steps});
    if (next == steps) break;
    steps = next;
    changed = withSteps(plain, places, steps);
    const auto model = buildModel(changed, &bench->file);
    if (!model) return fail(model.error());
    outputs = outputsOf(changed, *model, mean);
  }
  if (!outputs) return fail(outputs.error());

  NextChange out;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] == 0) continue;
    const Adjustable& a = places[i];
    out.changes.push_back(
        {boat.places[a.place].part, a.now, amountAfter(a, steps[i]), boat.places[a.place].rail.has_value()});
  }
  const UnknownCovariance more =
      changeSpread(plain, installedIn(plain), installedIn(changed), bench->density);
  out.after = outlookFrom(*outputs, changed, withMoreSpread(estimate, more), tolerance);
  out.boat = std::move(changed);
  out.boat.correction = boat.correction;
  return out;
}

}  // namespace pondtrim
