// Whole steps by branch and bound: the squares of step_search.hpp as tangents to them, which lie below
// everywhere, so that what the mixed-integer programme cannot do the squares cannot do either (outer
// approximation: Duran and Grossmann 1986, Mathematical Programming 36, from memory).
#include <cmath>

#include "milp.hpp"
#include "step_search.hpp"

namespace pondtrim {

namespace {

class Branching {
 public:
  explicit Branching(const StepProblem& problem) : problem_(problem) {
    for (const StepPlace& p : problem.places)
      milp_.addColumn({double(p.least), double(p.most), p.price, true});
    for (std::size_t i = 0; i < problem.places.size(); ++i) addTouched(i);
    for (const StepRow& row : problem.deviations) squares_.push_back({row, 1.0, addSquare(), false});
    for (const StepFloor& f : problem.floors) squares_.push_back({f.row, f.weight, addSquare(), true});
    for (const Square& s : squares_) {
      for (const double t : {0.25, 1.0, 4.0}) {
        touch(s, -t / std::sqrt(s.weight));
        if (!s.one_sided) touch(s, t);
      }
    }
    MilpRow cost;
    for (std::size_t i = 0; i < milp_.columns.size(); ++i) {
      if (milp_.columns[i].cost != 0) cost.terms.push_back({i, milp_.columns[i].cost});
    }
    ceiling_ = milp_.rows.size();
    milp_.rows.push_back(cost);
  }

  [[nodiscard]] MilpAnswer under(double cost, int branches) {
    milp_.rows[ceiling_].most = cost;
    return solveMilp(milp_, branches);
  }

  [[nodiscard]] std::vector<int> steps(const MilpAnswer& answer) const {
    std::vector<int> out;
    for (std::size_t p = 0; p < problem_.places.size(); ++p)
      out.push_back(int(std::lround(answer.values[p])));
    return out;
  }

  /// A tangent to each square where this answer lies.
  void touchAt(const MilpAnswer& answer) {
    for (const Square& s : squares_) {
      double v = s.row.now;
      for (std::size_t p = 0; p < s.row.rate.size(); ++p) v += s.row.rate[p] * answer.values[p];
      if (v < 0 || !s.one_sided) touch(s, v);
    }
  }

 private:
  /// weight x row^2, or of what is missing below 0 alone, at least the value of `column`.
  struct Square {
    StepRow row;
    double weight = 1;
    std::size_t column = 0;
    bool one_sided = false;
  };

  std::size_t addSquare() { return milp_.addColumn({0, kNoLimit, 1, false}); }

  /// A whole 0 or 1: whether the place is touched.
  void addTouched(std::size_t place) {
    const StepPlace& p = problem_.places[place];
    if (!(p.touched > 0) || p.least == p.most) return;
    const std::size_t t = milp_.addColumn({0, 1, p.touched, true});
    milp_.rows.push_back({-kNoLimit, 0, {{place, 1.0}, {t, -double(p.most)}}});
    milp_.rows.push_back({0, kNoLimit, {{place, 1.0}, {t, -double(p.least)}}});
  }

  /// square >= weight (2 v row - v^2)
  void touch(const Square& s, double v) {
    MilpRow row{s.weight * v * (2 * s.row.now - v), kNoLimit, {}};
    for (std::size_t p = 0; p < s.row.rate.size(); ++p) {
      if (s.row.rate[p] != 0) row.terms.push_back({p, -2 * s.weight * v * s.row.rate[p]});
    }
    row.terms.push_back({s.column, 1.0});
    milp_.rows.push_back(row);
  }

  const StepProblem& problem_;
  Milp milp_;
  std::vector<Square> squares_;
  std::size_t ceiling_ = 0;
};

}  // namespace

BranchAnswer branchSteps(const StepProblem& problem, const std::vector<int>& start, double worth,
                         int branches) {
  BranchAnswer out{start, false};
  Branching branching(problem);
  double least = stepCost(problem, start);
  constexpr int kRounds = 6;
  for (int round = 0; round < kRounds; ++round) {
    const MilpAnswer answer = branching.under(least - worth, branches);
    out.proved = answer.status == MilpStatus::Infeasible;
    if (!answer.solved()) break;
    const std::vector<int> steps = branching.steps(answer);
    const double cost = stepCost(problem, steps);
    if (cost < least) {
      least = cost;
      out.steps = steps;
    }
    branching.touchAt(answer);
  }
  return out;
}

}  // namespace pondtrim
