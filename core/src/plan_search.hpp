#pragma once
// The steps of making a plan, each a value (plan.cpp puts them together).
#include "plan_programme.hpp"

namespace pondtrim {

/// Amounts that meet every limit, or the programme that cannot be met.
struct Search {
  PlanState state;
  Programme programme;
  std::vector<double> amounts;  ///< empty: none
  bool best = true;
};
/// Solves, moves the few things that are not linear to the answer, solves again, until nothing moves.
[[nodiscard]] Result<Search> searchPlan(const PlanBasis& basis, const PlanRequest& request);
/// From a search without steps: the nearest that whole pieces come, and the goal among those.
[[nodiscard]] Result<Search> searchWhole(const PlanBasis& basis, const PlanRequest& request,
                                         const Search& start);

/// Why the programme cannot be met.
[[nodiscard]] Blame blameLimits(const Programme& programme);
/// The least that would have to give, and the columns' values then, beyond their limits perhaps.
struct Remedy {
  std::vector<Limit> limits;
  std::vector<double> values;  ///< empty: there is no way out
};
[[nodiscard]] Remedy remedyFor(const Programme& programme);
/// Capacities that would do; empty: none.
[[nodiscard]] std::optional<TankRange> tankRange(const Programme& programme);

}  // namespace pondtrim
