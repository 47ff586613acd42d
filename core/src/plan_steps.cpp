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

/// The best of the answers so far, each judged where it leads: what the moments turn her by moves a little
/// with the answer.
class Descent {
 public:
  Descent(const PlanBasis& basis, const PlanRequest& request, const Search& start)
      : basis_(basis), pieces_(basis, request, start) {
    best_.best = false;
  }

  /// The problem where these amounts lead.
  Result<StepProblem> around(const std::vector<double>& amounts) {
    auto there = makeState(basis_, amounts, restPlanes(basis_, amounts), std::move(state_));
    if (!there) return fail(there.error());
    state_ = std::move(*there);
    return pieces_.problem(state_);
  }

  /// The problem there; takes the steps if they are the best so far.
  Result<StepProblem> judge(const std::vector<int>& steps) {
    auto problem = around(pieces_.amounts(steps));
    if (!problem) return problem;
    const double cost = stepCost(*problem, steps);
    if (!steps_.empty() && cost >= least_) return problem;
    least_ = cost;
    steps_ = steps;
    best_.amounts = state_.at;
    best_.state = state_;
    return problem;
  }

  [[nodiscard]] const Pieces& pieces() const { return pieces_; }
  [[nodiscard]] const std::vector<int>& steps() const { return steps_; }
  [[nodiscard]] Search take(bool proved) {
    best_.best = proved;
    return std::move(best_);
  }

 private:
  const PlanBasis& basis_;
  Pieces pieces_;
  PlanState state_;
  std::vector<int> steps_;
  double least_ = 0;
  Search best_;
};

/// The local search, until it stays where it is.
Result<void> search(Descent& descent, const std::vector<double>& start) {
  std::vector<int> steps = descent.pieces().rounded(start);
  auto problem = descent.around(start);
  for (int round = 0; problem && round <= kRounds; ++round) {
    const std::vector<int> next = searchSteps(*problem, {steps});
    if (round > 0 && next == steps) break;
    steps = next;
    problem = descent.judge(steps);
  }
  if (!problem) return fail(problem.error());
  return {};
}

// A twentieth of a millimetre, squared, or so: nobody would cut again for less.
constexpr double kWorth = 0.05;
constexpr int kBranches = 2000;  // over the places: more of them, and each branch takes longer

/// Mixed-integer programming on what the local search found: better, or the proof that there is none.
Result<bool> prove(Descent& descent) {
  constexpr int kTries = 2;
  for (int i = 0; i < kTries; ++i) {
    const std::vector<int> from = descent.steps();
    auto problem = descent.judge(from);
    if (!problem) return fail(problem.error());
    const BranchAnswer answer = branchSteps(*problem, from, kWorth, kBranches / int(from.size()));
    if (answer.steps == from) return answer.proved;
    if (auto better = descent.judge(searchSteps(*problem, {answer.steps})); !better)
      return fail(better.error());
    if (descent.steps() == from) break;
  }
  return false;
}

}  // namespace

Result<Search> searchWhole(const PlanBasis& basis, const PlanRequest& request, const Search& start) {
  Descent descent(basis, request, start);
  if (auto ok = search(descent, start.amounts); !ok) return fail(ok.error());
  const auto proved = prove(descent);
  if (!proved) return fail(proved.error());
  return descent.take(*proved);
}

}  // namespace pondtrim
