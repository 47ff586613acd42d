// How long a plan takes with 40 places: the least of many (others may be at work on the machine), natively
// and, built with Emscripten, under Node. Prints milliseconds for each goal, and as a ratio to one solve of
// the equilibrium in the same run.
#include <cstdio>
#include <pondtrim/plan.hpp>
#include <pondtrim/report.hpp>

#include "bench/bench.hpp"

using namespace pondtrim;
using namespace pondtrim::bench;

int main() {
  const Boat boat = boatWithPlaces(40);
  const auto model = buildModel(boat);
  if (!model) return std::fprintf(stderr, "%s\n", model.error().message.c_str()), 1;
  constexpr int kSolves = 100;  // in one measurement: under Node the clock of the processor is coarse
  const double solve = leastMilliseconds(9,
                                         [&] {
                                           for (int i = 0; i < kSolves; ++i)
                                             (void)evaluate(*model, {boat.water, 0.0});
                                         }) /
                       kSolves;
  std::printf("one equilibrium: %.3f ms\n", solve);
  constexpr const char* kGoals[] = {"least weight", "fewest changes", "most stability"};
  for (int goal = 0; goal < 3; ++goal) {
    for (const bool whole : {false, true}) {
      PlanRequest request;
      request.goal = static_cast<Goal>(goal);
      request.whole_pieces = whole;
      bool found = false;
      const double time = leastMilliseconds(9, [&] {
        const auto plan = makePlan(boat, request);
        found = plan && plan->found;
      });
      std::printf("%-15s %-12s %s: %8.2f ms, %6.0f equilibria\n", kGoals[goal],
                  whole ? "whole pieces" : "any amount", found ? "found   " : "no plan", time, time / solve);
    }
  }
  return 0;
}
