// The next change at the pond: whole steps found by search, not by rounding each place.
//
// Notation. x: the six deviations over their limits (outlook.hpp). A step at place p changes x by r_p and
// adds the variance v_p n^2 of cutting and placing n steps. Cost of the steps n:
//   |x + sum r_p n_p|^2 + sum v_p n_p^2 + per_place (number of places touched).
#include "next_change.hpp"

#include <algorithm>
#include <cmath>
#include <pondtrim/pond_log.hpp>

#include "amounts.hpp"
#include "place_amount.hpp"

namespace pondtrim {

namespace {

/// Default steps where a place allows any amount: what a builder cuts and weighs at the water's edge.
constexpr double kFoamStep = 10e-6, kLeadStep = 0.005, kRailStep = 0.005;

struct Steps {
  std::vector<OutputVector> answer;  ///< r_p
  std::vector<double> noise;         ///< v_p
};

Steps prepare(const std::vector<Adjustable>& places, const StepSearch& s) {
  Steps out;
  const OutputVector scale = s.limits.cwiseInverse();
  for (const Adjustable& a : places) {
    out.answer.push_back((s.rows * a.effect).cwiseProduct(scale));
    const OutputMatrix added = s.rows * a.wrong * s.rows.transpose();
    out.noise.push_back(added.diagonal().cwiseProduct(scale.cwiseProduct(scale)).sum());
  }
  return out;
}

double cost(const OutputVector& x, const std::vector<int>& n, const Steps& steps, double per_place) {
  double out = x.squaredNorm();
  for (std::size_t p = 0; p < n.size(); ++p) {
    out += steps.noise[p] * n[p] * n[p];
    if (n[p] != 0) out += per_place;
  }
  return out;
}

/// Local search over one and two places at a time, with strides that shrink.
class Search {
 public:
  Search(const std::vector<Adjustable>& places, const Steps& steps, const StepSearch& task,
         std::vector<int> start)
      : places_(places), steps_(steps), per_place_(task.per_place), n_(std::move(start)) {
    x_ = task.deviation.cwiseQuotient(task.limits);
    for (std::size_t p = 0; p < n_.size(); ++p) x_ += steps_.answer[p] * n_[p];
    cost_ = cost(x_, n_, steps_, per_place_);
  }

  void run() {
    for (const int stride : {32, 16, 8, 4, 2, 1, 4, 2, 1}) {
      while (improve(stride)) {
      }
    }
  }
  [[nodiscard]] double best() const { return cost_; }
  [[nodiscard]] const std::vector<int>& steps() const { return n_; }

 private:
  bool improve(int stride) {
    bool better = false;
    for (std::size_t p = 0; p < n_.size(); ++p) {
      for (const int d : {-stride, stride}) {
        better = attempt(p, d, p, 0) || better;
        better = attempt(p, -n_[p], p, 0) || better;  // leave the place alone after all
        for (std::size_t q = 0; q < n_.size(); ++q) {
          if (q == p) continue;
          better = attempt(p, d, q, -stride) || better;
          better = attempt(p, d, q, stride) || better;
          better = attempt(p, -n_[p], q, d) || better;  // let another place do the work
        }
      }
    }
    return better;
  }

  [[nodiscard]] bool allowed(std::size_t p, int n) const {
    return n >= places_[p].least && n <= places_[p].most;
  }
  [[nodiscard]] double own(std::size_t p, int n) const {
    return steps_.noise[p] * n * n + (n != 0 ? per_place_ : 0.0);
  }

  bool attempt(std::size_t p, int dp, std::size_t q, int dq) {
    if ((dp == 0 && dq == 0) || !allowed(p, n_[p] + dp) || (q != p && !allowed(q, n_[q] + dq))) return false;
    OutputVector x = x_ + steps_.answer[p] * dp;
    double c = cost_ - x_.squaredNorm() + own(p, n_[p] + dp) - own(p, n_[p]);
    if (q != p) {
      x += steps_.answer[q] * dq;
      c += own(q, n_[q] + dq) - own(q, n_[q]);
    }
    c += x.squaredNorm();
    if (!(c < cost_ - 1e-9)) return false;
    x_ = x;
    cost_ = c;
    n_[p] += dp;
    if (q != p) n_[q] += dq;
    return true;
  }

  const std::vector<Adjustable>& places_;
  const Steps& steps_;
  double per_place_;
  std::vector<int> n_;
  OutputVector x_;
  double cost_ = 0;
};

/// Bounded least squares without whole steps, for a start: projected coordinate descent.
std::vector<int> roundedLeastSquares(const std::vector<Adjustable>& places, const Steps& steps,
                                     OutputVector x) {
  std::vector<double> n(places.size(), 0.0);
  for (int round = 0; round < 200; ++round) {
    for (std::size_t p = 0; p < places.size(); ++p) {
      const OutputVector& r = steps.answer[p];
      const double curve = r.squaredNorm() + steps.noise[p] + 1e-6;
      const double to = std::clamp(n[p] - (r.dot(x) + (steps.noise[p] + 1e-6) * n[p]) / curve,
                                   double(places[p].least), double(places[p].most));
      x += r * (to - n[p]);
      n[p] = to;
    }
  }
  std::vector<int> out;
  out.reserve(n.size());
  for (const double v : n) out.push_back(int(std::lround(v)));
  return out;
}

}  // namespace

std::vector<int> searchSteps(const std::vector<Adjustable>& places, const StepSearch& task,
                             std::vector<int> start) {
  const Steps steps = prepare(places, task);
  Search here(places, steps, task, std::move(start));
  here.run();
  Search there(places, steps, task,
               roundedLeastSquares(places, steps, task.deviation.cwiseQuotient(task.limits)));
  there.run();
  return here.best() <= there.best() ? here.steps() : there.steps();
}

namespace {

Adjustable slide(const Boat& boat, const Place& place, const Part& part, double density) {
  Adjustable a;
  a.now = part.position.x;
  a.step = place.step > 0 ? place.step : kRailStep;
  a.least = int(std::ceil((place.rail->from_x - a.now) / a.step - 1e-9));
  a.most = int(std::floor((place.rail->to_x - a.now) / a.step + 1e-9));
  a.effect = slideEffect(boat, part, a.step, density);
  return a;
}

Adjustable pieces(const Boat& boat, const Place& place, const Part& part, double density) {
  Adjustable a;
  a.now = amountOf(part);
  a.step = place.step > 0 ? place.step : part.role == Role::Foam ? kFoamStep : kLeadStep;
  a.least = int(std::ceil((place.least.value_or(0.0) - a.now) / a.step - 1e-9));
  a.most = int(std::floor((place.most.value_or(roomFor(part)) - a.now) / a.step + 1e-9));
  a.effect = amountEffect(boat, part, a.step, density);
  // Foam is cut to a fraction of itself; the gram that lead is weighed to does not grow with the steps.
  if (part.role == Role::Foam) {
    a.wrong = changeSpread(boat, {{part.name, a.now}}, {{part.name, a.now + a.step}}, density);
  }
  return a;
}

std::vector<Adjustable> adjustablesOf(const Boat& boat, double density) {
  std::vector<Adjustable> out;
  for (std::size_t i = 0; i < boat.places.size(); ++i) {
    const Place& place = boat.places[i];
    const std::size_t part = partNamed(boat, place.part);
    const Part& p = boat.parts[part];
    Adjustable a = place.rail ? slide(boat, place, p, density) : pieces(boat, place, p, density);
    a.place = i;
    a.part = part;
    a.least = std::min(a.least, 0);
    a.most = std::max(a.most, 0);
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

Boat withSteps(Boat boat, const std::vector<Adjustable>& places, const std::vector<int>& steps) {
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (steps[i] == 0) continue;
    const Adjustable& a = places[i];
    const double to = a.now + steps[i] * a.step;
    Part& part = boat.parts[a.part];
    if (boat.places[a.place].rail) {
      part.position.x = to;
    } else {
      setAmount(part, std::abs(to) < 1e-9 * a.step ? 0.0 : to);
    }
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
  StepSearch task;
  task.limits = limitsOf(tolerance);
  task.per_place = kPerPlace;
  std::vector<int> steps(places.size(), 0);
  Boat changed = plain;
  // The answer to a step is linear only near the wanted planes: look again from where the change leads.
  for (int round = 0; round < 4; ++round) {
    const auto model = buildModel(changed, &bench->file);
    if (!model) return fail(model.error());
    const auto outputs = outputsOf(changed, *model, mean);
    if (!outputs) return fail(outputs.error());
    task.rows = outputs->balanced_rows;
    task.deviation = outputs->balanced;
    for (std::size_t i = 0; i < steps.size(); ++i) task.deviation -= task.rows * places[i].effect * steps[i];
    const std::vector<int> next = searchSteps(places, task, steps);
    if (next == steps) break;
    steps = next;
    changed = withSteps(plain, places, steps);
  }

  NextChange out;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] == 0) continue;
    const Adjustable& a = places[i];
    out.changes.push_back(
        {boat.places[a.place].part, a.now, a.now + steps[i] * a.step, boat.places[a.place].rail.has_value()});
  }
  const UnknownCovariance more =
      changeSpread(plain, installedIn(plain), installedIn(changed), bench->density);
  auto after = predict(changed, withMoreSpread(estimate, more), tolerance, &bench->file);
  if (!after) return fail(after.error());
  out.after = *after;
  out.boat = std::move(changed);
  out.boat.correction = boat.correction;
  return out;
}

}  // namespace pondtrim
