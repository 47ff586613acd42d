#include "step_search.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <set>

namespace pondtrim {

namespace {

double valueOf(const StepRow& row, const std::vector<int>& steps) {
  double v = row.now;
  for (std::size_t p = 0; p < steps.size(); ++p) v += row.rate[p] * steps[p];
  return v;
}

double missing(const StepFloor& floor, double value) {
  return value < 0 ? floor.weight * value * value : 0.0;
}

/// The squares as a quadratic form: half its gradient, its curvature.
struct Squares {
  std::size_t count = 0;
  std::vector<double> gradient;   ///< with nothing changed
  std::vector<double> curvature;  ///< count x count
  std::vector<double> own;        ///< its diagonal
  std::vector<double> touched;    ///< of each place, for it lies closer here

  explicit Squares(const StepProblem& s) : count(s.places.size()), gradient(count), curvature(count * count) {
    for (const StepRow& row : s.deviations) {
      for (std::size_t p = 0; p < count; ++p) {
        gradient[p] += row.rate[p] * row.now;
        for (std::size_t q = 0; q < count; ++q) curvature[p * count + q] += row.rate[p] * row.rate[q];
      }
    }
    for (std::size_t p = 0; p < count; ++p) {
      curvature[p * count + p] += s.places[p].noise;
      own.push_back(at(p, p));
      touched.push_back(s.places[p].touched);
    }
  }
  [[nodiscard]] double at(std::size_t p, std::size_t q) const { return curvature[p * count + q]; }
  [[nodiscard]] const double* row(std::size_t p) const { return curvature.data() + p * count; }
};

/// A change of up to three places at once, put together one place at a time.
struct Move {
  std::size_t place[3] = {};
  int by[3] = {};
  int count = 0;
  double gain = 0;  ///< of the cost without floors: negative is better
};

class Search {
 public:
  Search(const StepProblem& problem, const Squares& squares, std::vector<int> start)
      : s_(problem), quadratic_(squares), n_(std::move(start)), slope_(squares.gradient) {
    for (std::size_t p = 0; p < n_.size(); ++p) {
      n_[p] = std::clamp(n_[p], s_.places[p].least, s_.places[p].most);
      slope_[p] += s_.places[p].price / 2;
    }
    for (std::size_t p = 0; p < n_.size(); ++p) addRow(slope_, p, n_[p]);
    for (const StepFloor& f : s_.floors) floor_.push_back(valueOf(f.row, n_));
    cost_ = stepCost(s_, n_);
    missing_ = missingNow();
  }

  [[nodiscard]] double cost() const { return cost_; }
  [[nodiscard]] const std::vector<int>& steps() const { return n_; }

  void run(int farthest) {
    for (int stride = farthest; stride > 0; stride /= 2) {
      while (twoAtATime(stride)) {
      }
    }
  }
  void polish() {
    while (threeAtATime() && twoAtATime(1)) {
    }
  }

 private:
  [[nodiscard]] std::size_t count() const { return n_.size(); }

  [[nodiscard]] bool allowed(std::size_t p, int by) const {
    return n_[p] + by >= s_.places[p].least && n_[p] + by <= s_.places[p].most;
  }

  /// What the squares' slope becomes when a place moves.
  void addRow(std::vector<double>& slope, std::size_t p, int by) const {
    const double* row = quadratic_.row(p);
    for (std::size_t q = 0; q < slope.size(); ++q) slope[q] += row[q] * by;
  }

  /// What moving this place costs, where the slope is so; negative is better.
  [[nodiscard]] double price(std::size_t p, int by, double slope) const {
    const int from = n_[p], to = from + by;
    return (2 * slope + quadratic_.at(p, p) * by) * by +
           s_.places[p].touched * ((to != 0 ? 1 : 0) - (from != 0 ? 1 : 0));
  }

  /// The move with this place in it too, where the slope after the move is so.
  [[nodiscard]] Move with(Move m, std::size_t p, int by, double slope) const {
    m.gain += price(p, by, slope);
    m.place[m.count] = p;
    m.by[m.count++] = by;
    return m;
  }

  /// What this place would best do, where the slope is so.
  [[nodiscard]] int best(std::size_t p, double slope) const {
    const double curve = quadratic_.at(p, p);
    if (!(curve > 0)) return 0;
    const double to =
        std::clamp(n_[p] - slope / curve, double(s_.places[p].least), double(s_.places[p].most));
    return int(std::floor(to + 0.5)) - n_[p];
  }

  bool take(const Move& m) {
    // Floors only add to the cost: what they take away now is the most that a move can win from them.
    if (!(m.gain - missing_ < -kWorth)) return false;
    double after = 0;
    for (std::size_t f = 0; f < floor_.size(); ++f) after += missing(s_.floors[f], floorAfter(f, m));
    if (!(m.gain + after - missing_ < -kWorth)) return false;
    for (std::size_t f = 0; f < floor_.size(); ++f) floor_[f] = floorAfter(f, m);
    for (int i = 0; i < m.count; ++i) {
      n_[m.place[i]] += m.by[i];
      addRow(slope_, m.place[i], m.by[i]);
    }
    cost_ += m.gain + after - missing_;
    missing_ = after;
    return true;
  }

  /// One place moves, alone or with another that answers it; or a place is left alone after all.
  bool twoAtATime(int stride) {
    bool better = false;
    for (std::size_t p = 0; p < count(); ++p) {
      for (const int kind : {-1, 1, 0}) {
        const int by = kind == 0 ? -n_[p] : kind * stride;
        if (by == 0 || !allowed(p, by)) continue;
        const Move one = with({}, p, by, slope_[p]);
        if (take(one) || answered(one)) better = true;
      }
    }
    return better;
  }

  /// Takes the move of one or two places with an answer of one more, if there is one that makes it worth
  /// while. This is where the time goes: only those that could win are looked at.
  bool answered(const Move& m) {
    const bool two = m.count > 1;
    const double *one = quadratic_.row(m.place[0]), *other = quadratic_.row(m.place[two ? 1 : 0]);
    const double by_one = m.by[0], by_other = two ? m.by[1] : 0;
    const double owed = m.gain - missing_;  // that an answer must win back
    for (std::size_t q = 0; q < count(); ++q) {
      const double slope = slope_[q] + one[q] * by_one + other[q] * by_other, curve = quadratic_.own[q];
      // The best of any answer, whole or not; written so that a curve of 0 passes.
      if (slope * slope < (owed - quadratic_.touched[q]) * curve || isIn(m, q)) continue;
      const int by = best(q, slope);
      if (by != 0 && owed + price(q, by, slope) < -kWorth && take(with(m, q, by, slope))) return true;
      const int off = -n_[q];
      if (off != 0 && by != off && allowed(q, off) && owed + price(q, off, slope) < -kWorth &&
          take(with(m, q, off, slope)))
        return true;
    }
    return false;
  }

  bool threeAtATime() {
    bool better = false;
    for (std::size_t p = 0; p < count(); ++p) {
      for (std::size_t q = p + 1; q < count(); ++q) {
        for (const int dp : {-1, 1}) {
          for (const int dq : {-1, 1}) {
            if (!allowed(p, dp) || !allowed(q, dq)) continue;
            const Move one = with({}, p, dp, slope_[p]);
            better = answered(with(one, q, dq, slope_[q] + quadratic_.at(p, q) * dp)) || better;
          }
        }
      }
    }
    return better;
  }

  [[nodiscard]] static bool isIn(const Move& m, std::size_t p) {
    return std::find(m.place, m.place + m.count, p) != m.place + m.count;
  }
  [[nodiscard]] double floorAfter(std::size_t f, const Move& m) const {
    double v = floor_[f];
    for (int i = 0; i < m.count; ++i) v += s_.floors[f].row.rate[m.place[i]] * m.by[i];
    return v;
  }
  [[nodiscard]] double missingNow() const {
    double sum = 0;
    for (std::size_t f = 0; f < floor_.size(); ++f) sum += missing(s_.floors[f], floor_[f]);
    return sum;
  }

  static constexpr double kWorth = 1e-9;  // a smaller gain is rounding

  const StepProblem& s_;
  const Squares& quadratic_;
  std::vector<int> n_;
  std::vector<double> slope_;  ///< half the squares' gradient at n_, and half the price
  std::vector<double> floor_;
  double cost_ = 0, missing_ = 0;
};

/// Bounded least squares without whole steps, rounded: projected coordinate descent.
std::vector<int> roundedLeastSquares(const StepProblem& problem, const Squares& squares) {
  constexpr double kRidge = 1e-6;
  std::vector<double> n(squares.count, 0.0), gradient = squares.gradient;
  for (int round = 0; round < 200; ++round) {
    for (std::size_t p = 0; p < n.size(); ++p) {
      const double curve = squares.at(p, p) + kRidge;
      const double to = std::clamp(n[p] - (gradient[p] + problem.places[p].price / 2 + kRidge * n[p]) / curve,
                                   double(problem.places[p].least), double(problem.places[p].most));
      for (std::size_t q = 0; q < n.size(); ++q) gradient[q] += squares.at(p, q) * (to - n[p]);
      n[p] = to;
    }
  }
  std::vector<int> out;
  out.reserve(n.size());
  for (const double v : n) out.push_back(int(std::lround(v)));
  return out;
}

/// A fixed stream of small numbers (linear congruential, Knuth's MMIX constants): the same problem has the
/// same answer everywhere.
class Kicks {
 public:
  std::size_t below(std::size_t n) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return std::size_t((state_ >> 33) % n);
  }

 private:
  std::uint64_t state_ = 20260501;
};

constexpr int kKicks = 200, kKicksOfMany = 40, kFar = 512;
constexpr double kNear = 0.05;    // of the best so far: worth polishing
constexpr std::size_t kFew = 16;  // places up to which three at a time cost little

}  // namespace

double stepCost(const StepProblem& problem, const std::vector<int>& steps) {
  double cost = 0;
  for (const StepRow& row : problem.deviations) {
    const double v = valueOf(row, steps);
    cost += v * v;
  }
  for (const StepFloor& f : problem.floors) cost += missing(f, valueOf(f.row, steps));
  for (std::size_t p = 0; p < steps.size(); ++p) {
    const StepPlace& place = problem.places[p];
    cost += (place.noise * steps[p] + place.price) * steps[p] + (steps[p] != 0 ? place.touched : 0.0);
  }
  return cost;
}

std::vector<int> searchSteps(const StepProblem& problem, const std::vector<std::vector<int>>& starts) {
  if (problem.places.empty()) return {};
  const Squares squares(problem);
  std::vector<std::vector<int>> from = starts;
  from.push_back(roundedLeastSquares(problem, squares));
  from.emplace_back(squares.count, 0);
  std::vector<int> best;
  double least = 0;
  const bool few = squares.count <= kFew;
  std::set<std::vector<int>> polished;  // most of what is shaken settles where it was before
  const auto tryFrom = [&](const std::vector<int>& start, int farthest, bool polish) {
    Search search(problem, squares, start);
    search.run(farthest);
    if (polish && (best.empty() || search.cost() < least + kNear)) {
      if (!polished.insert(search.steps()).second) return;
      search.polish();
    }
    if (!best.empty() && search.cost() >= least - 1e-12) return;
    best = search.steps();
    least = search.cost();
  };
  for (const std::vector<int>& start : from) tryFrom(start, kFar, few);
  // Shaken a little and let settle again, it often falls into a deeper hollow.
  Kicks kicks;
  for (int i = 0; i < (few ? kKicks : kKicksOfMany); ++i) {
    // A little at three places, or more at five.
    const bool hard = i % 3 == 2;
    const std::size_t reach = hard ? 8 : 2;
    std::vector<int> shaken = best;
    for (int k = 0; k < (hard ? 5 : 3); ++k)
      shaken[kicks.below(shaken.size())] += int(kicks.below(2 * reach + 1)) - int(reach);
    tryFrom(shaken, 4, few);
  }
  tryFrom(best, 1, true);
  return best;
}

}  // namespace pondtrim
