// The search for whole steps, against every combination where there are few.
#include <doctest/doctest.h>

#include <step_search.hpp>

#include "support/random.hpp"

using namespace pondtrim;
using test::Random;

namespace {

StepProblem randomProblem(Random& random, int places, int deviations, int most) {
  StepProblem s;
  for (int p = 0; p < places; ++p)
    s.places.push_back({-int(random.index(most + 1)), int(random.index(most + 1)), random.between(0, 0.01),
                        random.between(-0.02, 0.02), random.between(0, 0.05)});
  const auto row = [&](double now) {
    StepRow r{now, {}};
    for (int p = 0; p < places; ++p) r.rate.push_back(random.between(-1, 1));
    return r;
  };
  for (int i = 0; i < deviations; ++i) s.deviations.push_back(row(random.between(-2, 2)));
  s.floors.push_back({row(random.between(-0.5, 1)), 10});
  return s;
}

/// The least cost of all combinations.
double bruteForce(const StepProblem& s) {
  std::vector<int> n;
  for (const StepPlace& p : s.places) n.push_back(p.least);
  double best = stepCost(s, n);
  for (std::size_t p = 0; p < n.size();) {
    if (n[p] == s.places[p].most) {
      n[p] = s.places[p].least;
      ++p;
      continue;
    }
    ++n[p];
    best = std::min(best, stepCost(s, n));
    p = 0;
  }
  return best;
}

}  // namespace

TEST_SUITE("step search") {
  TEST_CASE("finds the best of all combinations nearly always, and never one that is not allowed") {
    Random random(20261125);
    int best = 0;
    constexpr int kProblems = 150;
    for (int i = 0; i < kProblems; ++i) {
      const StepProblem s = randomProblem(random, 5, 3, 3);
      const std::vector<int> found = searchSteps(s, {std::vector<int>(s.places.size(), 0)});
      REQUIRE(found.size() == s.places.size());
      for (std::size_t p = 0; p < found.size(); ++p) {
        CHECK(found[p] >= s.places[p].least);
        CHECK(found[p] <= s.places[p].most);
      }
      const double least = bruteForce(s);
      CHECK(stepCost(s, found) >= least - 1e-9);
      if (stepCost(s, found) <= least + 1e-9) ++best;
    }
    CHECK(best >= kProblems * 97 / 100);
  }

  TEST_CASE("branch and bound proves only what is true, and finds what is better") {
    Random random(11);
    int proved = 0, bettered = 0, improvable = 0;
    constexpr int kProblems = 120;
    constexpr double kWorth = 0.05;
    for (int i = 0; i < kProblems; ++i) {
      CAPTURE(i);
      const StepProblem s = randomProblem(random, 5, 3, 3);
      const double least = bruteForce(s);
      const std::vector<int> start(s.places.size(), 0);
      const BranchAnswer found = branchSteps(s, start, kWorth, 2000);
      const double cost = stepCost(s, found.steps);
      CHECK(cost <= stepCost(s, start));
      if (found.proved) {
        ++proved;
        CHECK(cost < least + kWorth + 1e-6);
      }
      if (stepCost(s, start) > least + kWorth) ++improvable;
      if (cost < stepCost(s, start)) ++bettered;
    }
    CHECK(improvable > kProblems / 2);
    CHECK(bettered >= improvable * 9 / 10);
    CHECK(proved > kProblems / 2);
  }

  TEST_CASE("an answer that meets everything exactly is found among many places") {
    Random random(5);
    int met = 0;
    constexpr int kProblems = 20;
    for (int i = 0; i < kProblems; ++i) {
      StepProblem s = randomProblem(random, 12, 6, 0);
      s.floors.clear();
      std::vector<int> known;
      for (StepPlace& p : s.places) {
        p = {-20, 20, 0, 0, 0};
        known.push_back(random.index(31) - 15);
      }
      for (StepRow& row : s.deviations) {
        row.now = 0;
        for (std::size_t p = 0; p < known.size(); ++p) row.now -= row.rate[p] * known[p];
      }
      // Six dense equalities in whole numbers: near nothing is what a builder needs.
      if (stepCost(s, searchSteps(s, {})) < 0.5) ++met;
    }
    CHECK(met == kProblems);
  }

  TEST_CASE("a floor costs what is missing of it, and no places give no steps") {
    StepProblem s;
    s.places.push_back({-10, 10, 0, 1.0, 0});  // dear: wants to go down
    s.deviations.push_back({0.0, {0.0}});
    s.floors.push_back({{2.0, {1.0}}, 1e4});  // at least -2 steps
    CHECK(searchSteps(s, {{0}}) == std::vector<int>{-2});
    CHECK(searchSteps({}, {}).empty());
  }
}
