#pragma once
// What a plan puts right, as linear functions of steps at its places: of the programme's columns (their
// units) or of whole pieces. Taken at the state's amounts, exact but for GM's middle and the trim that a
// moment gives.
#include "plan_state.hpp"

namespace pondtrim {

/// Of the places, one rate each, then of the tank's capacity in kg of water; zero steps: what is there now.
struct Linear {
  double constant = 0;
  std::vector<double> rate;

  Linear& operator*=(double k);
};
[[nodiscard]] Linear combined(const Linear& a, double ka, const Linear& b, double kb);

class PlanLinear {
 public:
  /// `unit`: amount of each place per step. `k` is everywhere the condition.
  PlanLinear(const PlanBasis& basis, const PlanState& state, const std::vector<double>& unit);

  /// See residualsOf [kg, kg.m, kg.m].
  [[nodiscard]] Linear residual(std::size_t k, int which) const;
  [[nodiscard]] Linear mass(std::size_t k) const;
  [[nodiscard]] Linear massGm() const;  ///< tank empty [kg.m]
  [[nodiscard]] Linear massBg() const;  ///< tank full [kg.m]

  /// Tank empty or full: how far the three that count are off, over what a ruler and a kitchen scale show
  /// (1 mm at the marks, half a degree, 5 g). Dived moments are turned into angles as if the weight were
  /// right.
  [[nodiscard]] std::vector<Linear> deviations(std::size_t k) const;
  /// A further condition: how far marks, trim and heel are off, over their tolerances.
  [[nodiscard]] std::vector<Linear> further(std::size_t k) const;

  /// Mass carried at the places together [kg]; of the weights alone.
  [[nodiscard]] Linear placeMass() const;
  [[nodiscard]] Linear leadMass() const;

 private:
  template <class Value, class Rate>
  [[nodiscard]] Linear linear(std::size_t k, Value value, Rate rate) const;
  template <class Counts>
  [[nodiscard]] Linear carried(Counts counts) const;
  [[nodiscard]] Linear answer(std::size_t k, const Response& response, int output) const;

  const PlanBasis& basis_;
  const PlanState& state_;
  const std::vector<double>& unit_;
  std::vector<Sums> there_;  ///< of each condition, at the state's amounts
};

}  // namespace pondtrim
