#pragma once
// Whole steps at places that bring several deviations as near nothing as can be: the search behind the plan
// in whole pieces and the next change at the pond.
//
// n_p: steps at place p, from what is there now. Cost:
//   sum_rows (now_r + sum_p rate_rp n_p)^2 + sum_p (noise_p n_p^2 + price_p n_p + touched_p [n_p != 0])
//   + sum_floors weight (what is missing of the floor)^2
// A closest-vector problem in integers, for which no method is both quick and sure: a proof of the best is
// not given, the answer is that of a local search over one, two and three places at a time from several
// starts.
#include <vector>

namespace pondtrim {

struct StepPlace {
  int least = 0, most = 0;  ///< allowed steps; 0 lies between
  double noise = 0.0, price = 0.0, touched = 0.0;
};

/// A quantity linear in the steps.
struct StepRow {
  double now = 0.0;
  std::vector<double> rate;  ///< of each place
};

/// It should be at least 0; each unit missing costs `weight`, squared.
struct StepFloor {
  StepRow row;
  double weight = 1.0;
};

struct StepProblem {
  std::vector<StepPlace> places;
  std::vector<StepRow> deviations;
  std::vector<StepFloor> floors;
};

[[nodiscard]] double stepCost(const StepProblem& problem, const std::vector<int>& steps);

/// The best found from these starts (clamped to what is allowed), from no steps at all and from the rounded
/// least-squares answer.
[[nodiscard]] std::vector<int> searchSteps(const StepProblem& problem,
                                           const std::vector<std::vector<int>>& starts);

struct BranchAnswer {
  std::vector<int> steps;  ///< better than the start, or it
  bool proved = false;     ///< none is better than these by `worth`
};
/// Looks by branch and bound for what is better than `start` by at least `worth`; ends after so many branches
/// a round.
[[nodiscard]] BranchAnswer branchSteps(const StepProblem& problem, const std::vector<int>& start,
                                       double worth, int branches);

}  // namespace pondtrim
