#include "plan_search.hpp"

#include <algorithm>
#include <cmath>

namespace pondtrim {

namespace {

bool still(const PlanBasis& basis, const std::vector<double>& a, const std::vector<double>& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (std::abs(a[i] - b[i]) > 1e-7 * basis.places[i].size) return false;
  }
  return true;
}

/// GM and BG themselves, not their rows.
bool floorsHold(const PlanBasis& basis, const PlanState& state, const std::vector<double>& amounts) {
  const ConditionTerms &empty = state.conditions[0], &full = state.conditions[1];
  const Sums up = empty.at(basis, amounts), down = full.at(basis, amounts);
  constexpr double kSlack = 1e-6;  // [m]
  const Aims& aims = basis.boat->aims;
  return massGm(empty, up) >= (aims.least_gm - kSlack) * up.mass &&
         massBg(full, down, down) >= (aims.least_bg - kSlack) * down.mass;
}

std::vector<double> nearest(const PlanBasis& basis, const PlanState& state, PlanRequest request) {
  request.goal = Goal::LeastWeight;
  const Remedy remedy = remedyFor(makeProgramme(basis, state, request));
  return remedy.values.empty() ? std::vector<double>() : amountsOf(basis, remedy.values);
}

/// Stands in when counting places takes too long: some answer is better than none.
MilpAnswer lightest(const PlanBasis& basis, const PlanState& state, PlanRequest request) {
  request.goal = Goal::LeastWeight;
  MilpAnswer answer = solveMilp(makeProgramme(basis, state, request).milp);
  if (answer.status == MilpStatus::Best) answer.status = MilpStatus::Good;
  return answer;
}

/// The whole numbers of an earlier answer hold if they can: the rows have moved a little, the places touched
/// hardly ever.
MilpAnswer solveAgain(const Milp& milp, const MilpAnswer& before, int branches) {
  if (before.values.size() == milp.columns.size()) {
    Milp settled = milp;
    for (std::size_t i = 0; i < settled.columns.size(); ++i) {
      MilpColumn& c = settled.columns[i];
      if (c.whole) c = {before.values[i], before.values[i], c.cost, false};
    }
    MilpAnswer answer = solveMilp(settled);
    if (answer.solved()) {
      answer.status = before.status;
      return answer;
    }
  }
  return solveMilp(milp, branches);
}

// Counting places touched branches; a few hundred find the fewest or next to it within a phone's patience.
constexpr int kBranches = 400;

/// Floors, net level and further planes move a little with the answer: a few rounds settle them.
constexpr int kRounds = 6;

}  // namespace

Result<Search> searchPlan(const PlanBasis& basis, const PlanRequest& request) {
  Search out;
  std::vector<double> at = basis.before;
  std::vector<std::optional<Plane>> planes;
  MilpAnswer answer;
  for (int round = 0; round < kRounds; ++round) {
    auto state = makeState(basis, at, planes, std::move(out.state));
    if (!state) return fail(state.error());
    out.state = std::move(*state);
    out.programme = makeProgramme(basis, out.state, request);
    answer = solveAgain(out.programme.milp, answer, kBranches);
    if (answer.status == MilpStatus::GaveUp && request.goal == Goal::FewestChanges)
      answer = lightest(basis, out.state, request);
    out.amounts = answer.solved() ? amountsOf(basis, answer.values) : std::vector<double>();
    out.best = answer.status == MilpStatus::Best;
    // Without an answer the rows are those of a boat that may be far from any: look again from the nearest.
    const std::vector<double> next = answer.solved() ? out.amounts : nearest(basis, out.state, request);
    if (next.empty() || (round > 0 && still(basis, next, at))) break;
    at = next;
    planes = restPlanes(basis, at);
  }
  // Never an answer that keeps to the rows and not to the limits.
  if (!out.amounts.empty() && !floorsHold(basis, out.state, out.amounts)) out.amounts.clear();
  return out;
}

}  // namespace pondtrim
