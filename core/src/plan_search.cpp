#include "plan_search.hpp"

#include <algorithm>
#include <cmath>

namespace pondtrim {

namespace {

Boat installed(const PlanBasis& basis, const std::vector<double>& amounts) {
  Boat boat = *basis.boat;
  for (std::size_t i = 0; i < amounts.size(); ++i)
    setAmount(basis.places[i].kind, boat.parts[basis.places[i].part], amounts[i]);
  boat.places.clear();  // relaxed amounts lie beyond the limits
  return boat;
}

/// Where the further conditions come to rest with these amounts; empty for those that sink.
std::vector<std::optional<Plane>> restPlanes(const PlanBasis& basis, const std::vector<double>& amounts) {
  std::vector<std::optional<Plane>> planes;
  for (const FurtherAim& aim : basis.boat->aims.further) {
    Boat boat = installed(basis, amounts);
    if (!aim.part.empty()) boat.parts[partNamed(boat, aim.part)].mass = aim.mass;
    std::optional<Plane> plane;
    if (const auto model = buildModel(boat, &basis.model)) {
      const auto rest = findEquilibrium(
          *model, {aim.water.value_or(boat.water), aim.tank_full ? model->tank_capacity : 0.0});
      // Beyond half a right angle from level the marks say nothing.
      if (rest && rest->outcome != Outcome::Sinks && rest->plane.up.z > 0.7) plane = rest->plane;
    }
    planes.push_back(plane);
  }
  return planes;
}

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
  return relaxedAmounts(basis, makeProgramme(basis, state, request, Balance::Exact));
}

/// Stands in when counting places takes too long: some answer is better than none.
MilpAnswer lightest(const PlanBasis& basis, const PlanState& state, PlanRequest request) {
  request.goal = Goal::LeastWeight;
  MilpAnswer answer = solveMilp(makeProgramme(basis, state, request, Balance::Exact).milp);
  if (answer.status == MilpStatus::Best) answer.status = MilpStatus::Good;
  return answer;
}

// Counting places touched branches; a few hundred find the fewest or next to it within a phone's patience.
constexpr int kBranches = 400, kWholeBranches = 3000;

/// Floors, net level and further planes move a little with the answer: a few rounds settle them.
constexpr int kRounds = 6;

}  // namespace

Result<Search> searchPlan(const PlanBasis& basis, const PlanRequest& request) {
  Search out;
  std::vector<double> at = basis.before;
  std::vector<std::optional<Plane>> planes;
  for (int round = 0; round < kRounds; ++round) {
    auto state = makeState(basis, at, planes);
    if (!state) return fail(state.error());
    out.state = std::move(*state);
    out.programme = makeProgramme(basis, out.state, request, Balance::Exact);
    MilpAnswer answer = solveMilp(out.programme.milp, kBranches);
    if (answer.status == MilpStatus::GaveUp && request.goal == Goal::FewestChanges)
      answer = lightest(basis, out.state, request);
    out.amounts = answer.solved() ? amountsOf(basis, out.programme, answer) : std::vector<double>();
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

Result<Search> searchWhole(const PlanBasis& basis, const PlanRequest& request, const Search& start) {
  Search out;
  auto state = makeState(basis, start.amounts, restPlanes(basis, start.amounts));
  if (!state) return fail(state.error());
  out.state = std::move(*state);
  out.programme = makeProgramme(basis, out.state, request, Balance::WithinSteps);
  const MilpAnswer answer = solveMilp(out.programme.milp, kWholeBranches);
  out.best = answer.status == MilpStatus::Best;
  if (answer.solved()) out.amounts = amountsOf(basis, out.programme, answer);
  return out;
}

}  // namespace pondtrim
