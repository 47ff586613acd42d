#pragma once
// The trim plan's linear programme, and which of its bounds and rows is which limit.
//
// Columns: one a place, v_i = (a_i - before_i) / unit_i (unit: what counts about a kilogram); the tank's
// capacity as a change from what it is, in kg of water; then what the goal needs.
#include <optional>

#include "milp.hpp"
#include "plan_linear.hpp"

namespace pondtrim {

/// A limit and where it stands in the programme. `to_si`: of the bound's unit.
struct ProgrammeLimit {
  LimitKind kind = LimitKind::PlaceMost;
  std::size_t index = 0;
  bool is_row = false;
  std::size_t at = 0;                ///< row or column
  bool least = false, most = false;  ///< which of its bounds
  double zero = 0, to_si = 1;        ///< value = zero + to_si x bound
  double floor = 0;                  ///< GM and BG: value = floor + (zero + to_si x bound) / mass
  MilpRow mass{};                    ///< its least + terms; no terms: another limit
  /// Bounds that a boat can say without becoming another: room in the shape, the tank's bore. Not floors.
  double can_least = -kNoLimit, can_most = kNoLimit;
};

struct Programme {
  Milp milp;
  std::size_t tank = 0;  ///< column
  std::vector<ProgrammeLimit> limits;
};

[[nodiscard]] Programme makeProgramme(const PlanBasis& basis, const PlanState& state,
                                      const PlanRequest& request);
/// The limited quantity, in SI, at a bound of the programme when its columns have these values.
[[nodiscard]] double valueAt(const ProgrammeLimit& limit, double bound, const std::vector<double>& values);
[[nodiscard]] std::vector<double> amountsOf(const PlanBasis& basis, const std::vector<double>& values);

}  // namespace pondtrim
