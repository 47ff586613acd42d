// The plan in whole pieces: the deviations of both conditions and the goal as one search over steps
// (step_search.hpp). The equalities of the linear programme cannot be met in whole pieces, so they become
// squares; limits stay limits.
#include <algorithm>
#include <cmath>

#include "plan_search.hpp"
#include "step_search.hpp"

namespace pondtrim {

namespace {

// What the goal is worth in squared deviations (1: 1 mm at a mark, half a degree or 5 g): right comes before
// light. Twenty for the whole weight: a tenth of a unit of deviation (squared) for half a per cent.
constexpr double kPerWeight = 20.0, kPerPlace = 0.3, kHardly = 0.01;
constexpr double kFirm = 1e4;  // a limit that must hold
constexpr double kMillimetre = 0.001, kClear = 0.0002, kClearing = 100;

/// "Any amount" is weighed to a tenth of a gram, cut to a tenth of a millilitre, slid by a tenth of a
/// millimetre.
double fineStep(PlaceKind kind) { return kind == PlaceKind::Foam ? 1e-7 : 1e-4; }

struct StepRange {
  double step;
  int least, most;
};

StepRange rangeOf(const PlaceTerms& p) {
  const auto within = [&](double step) {
    return StepRange{step, int(std::ceil((p.least - p.before) / step - 1e-9)),
                     int(std::floor((p.most - p.before) / step + 1e-9))};
  };
  const double fine = fineStep(p.kind);
  StepRange range = within(p.step > 0 ? p.step : fine);
  if (range.least > range.most) range = within(fine);  // no whole step leads to within the limits
  return range;
}

class Pieces {
 public:
  Pieces(const PlanBasis& basis, const PlanRequest& request, const Search& start)
      : basis_(basis), request_(request), freely_(start) {
    for (const PlaceTerms& p : basis.places) {
      ranges_.push_back(rangeOf(p));
      unit_.push_back(ranges_.back().step);
    }
  }

  [[nodiscard]] std::vector<int> rounded(const std::vector<double>& amounts) const {
    std::vector<int> out;
    for (std::size_t i = 0; i < unit_.size(); ++i) {
      const double steps = std::round((amounts[i] - basis_.places[i].before) / unit_[i]);
      out.push_back(int(std::clamp(steps, double(ranges_[i].least), double(ranges_[i].most))));
    }
    return out;
  }

  [[nodiscard]] std::vector<double> amounts(const std::vector<int>& steps) const {
    std::vector<double> out;
    for (std::size_t i = 0; i < unit_.size(); ++i) {
      const PlaceTerms& p = basis_.places[i];
      const double amount = p.before + steps[i] * unit_[i], dust = 1e-8 * p.size;
      out.push_back(std::abs(amount) < dust ? 0.0 : std::clamp(amount, p.least, p.most));
    }
    return out;
  }

  [[nodiscard]] StepProblem problem(const PlanState& state) const {
    StepProblem out;
    const PlanLinear linear(basis_, state, unit_);
    for (std::size_t k = 0; k < 2; ++k) {
      for (const Linear& f : linear.deviations(k)) out.deviations.push_back(row(f));
    }
    addLimits(out, linear, state);
    addGoal(out, linear, state);
    return out;
  }

 private:
  [[nodiscard]] StepRow row(const Linear& f) const {
    return {f.constant, {f.rate.begin(), f.rate.begin() + std::ptrdiff_t(unit_.size())}};
  }
  void addFloor(StepProblem& out, Linear f, double least, double scale, double weight) const {
    f.constant -= least;
    f *= 1 / scale;
    out.floors.push_back({row(f), weight});
  }

  void addLimits(StepProblem& out, const PlanLinear& linear, const PlanState& state) const {
    const Aims& aims = basis_.boat->aims;
    const auto stability = [&](const Linear& moment, std::size_t k, double least) {
      const Linear mass = linear.mass(k);
      const double scale = mass.constant * kMillimetre;
      addFloor(out, combined(moment, 1, mass, -least), 0, scale, kFirm);
      // A deviation of the draft moves GM, on hulls that narrow at the line.
      addFloor(out, combined(moment, 1, mass, -(least + kClear)), 0, scale, kClearing);
    };
    stability(linear.massGm(), 0, aims.least_gm);
    stability(linear.massBg(), 1, aims.least_bg);
    for (std::size_t k = 2; k < state.conditions.size(); ++k) {
      for (const Linear& f : linear.further(k)) {
        addFloor(out, f, -1, 1, kFirm);
        addFloor(out, combined(f, -1, f, 0), -1, 1, kFirm);
      }
    }
    if (!request_.lead_budget) return;
    const Linear lead = linear.leadMass();
    addFloor(out, combined(lead, -1, lead, 0), -*request_.lead_budget, 0.001, kFirm);
  }

  void addGoal(StepProblem& out, const PlanLinear& linear, const PlanState& state) const {
    const Linear mass = linear.placeMass();
    const double price =
        kPerWeight / basis_.model.mass * (request_.goal == Goal::LeastWeight ? 1.0 : kHardly);
    const double touched = request_.goal == Goal::FewestChanges ? kPerPlace : kHardly;
    for (std::size_t i = 0; i < unit_.size(); ++i)
      out.places.push_back({ranges_[i].least, ranges_[i].most, 0.0, price * mass.rate[i], touched});
    if (request_.goal != Goal::MostStability) return;
    // As stiff as she can be in any amounts.
    const ConditionTerms &empty = state.conditions[0], &full = state.conditions[1];
    const Sums up = empty.at(basis_, freely_.amounts), down = full.at(basis_, freely_.amounts);
    const double most = std::min(massGm(empty, up) / up.mass, massBg(full, down, down) / down.mass);
    const auto stiff = [&](const Linear& moment, std::size_t k) {
      const Linear weight = linear.mass(k);
      addFloor(out, combined(moment, 1, weight, -most), 0, weight.constant * kMillimetre, 1.0);
    };
    stiff(linear.massGm(), 0);
    stiff(linear.massBg(), 1);
  }

  const PlanBasis& basis_;
  const PlanRequest& request_;
  const Search& freely_;
  std::vector<StepRange> ranges_;
  std::vector<double> unit_;
};

constexpr int kRounds = 5;

}  // namespace

Result<Search> searchWhole(const PlanBasis& basis, const PlanRequest& request, const Search& start) {
  const Pieces pieces(basis, request, start);
  Search best;
  best.best = false;  // whole numbers this many are searched, not proved
  double least = 0;
  std::vector<int> steps = pieces.rounded(start.amounts);
  PlanState state = start.state;
  // What the moments turn her by moves a little with the answer: each answer is judged where it leads.
  for (int round = 0; round <= kRounds; ++round) {
    const std::vector<double> at = round == 0 ? start.amounts : pieces.amounts(steps);
    auto there = makeState(basis, at, restPlanes(basis, at), std::move(state));
    if (!there) return fail(there.error());
    state = std::move(*there);
    const StepProblem problem = pieces.problem(state);
    const double cost = stepCost(problem, steps);
    if (round > 0 && (best.amounts.empty() || cost < least)) {
      least = cost;
      best.amounts = at;
      best.state = state;
    }
    const std::vector<int> next = searchSteps(problem, {steps});
    if (round > 0 && next == steps) break;
    steps = next;
  }
  return best;
}

}  // namespace pondtrim
