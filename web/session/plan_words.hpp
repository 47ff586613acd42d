#pragma once
// A trim plan in a builder's words: what stays off, what moves. What is to be done and what
// stands in the way is told by file/plan_json.hpp. No physics.
#include <pondtrim/plan.hpp>
#include <string>

#include "session/session.hpp"

namespace pondtrim {

/// "Tank empty: bow 0.3 mm high, stern on her line, upright."
[[nodiscard]] std::string proofWords(const Proof& proof, const UnitSet& units);
/// The same in two: "Tank empty", and what follows the colon.
[[nodiscard]] std::string conditionName(const Proof& proof);
[[nodiscard]] std::string restWords(const Proof& proof, const UnitSet& units);

/// With a large letter first.
[[nodiscard]] std::string sentenceCase(std::string text);

/// "If one piece is 10 % off: bow up to 0.8 mm (bow foam), ..."
[[nodiscard]] std::string sensitivityWords(const Boat& boat, const Plan& plan, const UnitSet& units);

/// A point of an equilibrium polygon: "35 g more than now, 210 g·mm further forward: within reach."
[[nodiscard]] std::string balanceWords(const BalanceDiagram& diagram, const BalancePoint& at,
                                       const UnitSet& units);

/// "A tank of 320 to 410 mL could be trimmed with these places."; empty when not known.
[[nodiscard]] std::string tankWords(const Plan& plan, const UnitSet& units);

}  // namespace pondtrim
