#pragma once
// The conditions of a plan at the planes about which its rows are linear.
#include <optional>

#include "plan_terms.hpp"

namespace pondtrim {

struct PlanState {
  std::vector<double> at;  ///< amounts there
  std::vector<ConditionTerms> conditions;
};
/// At these amounts; `planes`: where the further conditions come to rest, empty at first; `previous`: what it
/// says of planes that stay is taken over.
[[nodiscard]] Result<PlanState> makeState(const PlanBasis& basis, const std::vector<double>& at,
                                          const std::vector<std::optional<Plane>>& planes,
                                          PlanState previous = {});
/// Where the further conditions come to rest with these amounts; empty for those that sink.
[[nodiscard]] std::vector<std::optional<Plane>> restPlanes(const PlanBasis& basis,
                                                           const std::vector<double>& amounts);

}  // namespace pondtrim
