#pragma once
// The trim plan's linear programme, and which of its bounds and rows is which limit.
//
// Columns: one a place, v_i = (a_i - before_i) / unit_i (unit: what counts about a kilogram, or with whole
// pieces the place's step, and v_i whole); the tank's capacity as a change from what it is, in kg of water;
// then what the goal and the whole pieces need.
#include <optional>

#include "milp.hpp"
#include "plan_terms.hpp"

namespace pondtrim {

/// Conditions at the planes about which the rows are linearised.
struct PlanState {
  std::vector<double> at;  ///< amounts there
  std::vector<ConditionTerms> conditions;
};
/// At these amounts; `planes`: where the further conditions come to rest, empty at first.
[[nodiscard]] Result<PlanState> makeState(const PlanBasis& basis, const std::vector<double>& at,
                                          const std::vector<std::optional<Plane>>& planes);

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
};

struct Programme {
  Milp milp;
  std::vector<double> unit;  ///< amount per v_i
  std::size_t tank = 0;      ///< column
  std::vector<ProgrammeLimit> limits;
  std::optional<std::size_t> shortfall;  ///< whole pieces: column of the largest deviation beyond its step
};

enum class Balance { Exact, WithinSteps };
[[nodiscard]] Programme makeProgramme(const PlanBasis& basis, const PlanState& state,
                                      const PlanRequest& request, Balance balance);
/// The limited quantity, in SI, at a bound of the programme when its columns have these values.
[[nodiscard]] double valueAt(const ProgrammeLimit& limit, double bound, const std::vector<double>& values);
[[nodiscard]] std::vector<double> amountsOf(const PlanBasis& basis, const Programme& programme,
                                            const MilpAnswer& answer);

}  // namespace pondtrim
