#pragma once
// A trim plan in words and as JSON text, keys with unit suffixes.
#include <pondtrim/file/units.hpp>
#include <pondtrim/plan.hpp>
#include <string>
#include <vector>

namespace pondtrim::file {

/// One thing to do, as read aloud: "Take 120 mL out of bow foam below the line." Of a mirrored part: "on each
/// side".
[[nodiscard]] std::string changeSentence(const Boat& boat, const Change& change,
                                         const UnitSet& units = kMetricUnits);

/// Where a moved weight's middle comes to lie [m].
[[nodiscard]] double destinationOf(const Boat& boat, const Change& move);

/// A limit in the way: "The tank holds 400 mL; it would have to be 485 mL."
[[nodiscard]] std::string limitSentence(const Boat& boat, const Limit& limit,
                                        const UnitSet& units = kMetricUnits);

/// What the plan leaves off by more than counts as right, a sentence for each condition; none when all hold.
[[nodiscard]] std::vector<std::string> shortfallSentences(const Plan& plan,
                                                          const UnitSet& units = kMetricUnits);

/// "place most", "tank capacity"...
[[nodiscard]] const char* limitWord(LimitKind kind);

/// What more there is to draw: carried weight against stability, and each condition's equilibrium polygon.
struct PlanDiagrams {
  std::vector<StabilityPoint> curve;
  std::vector<BalanceDiagram> balance;
};

/// The plan, its proof and sensitivity; or the blame; and the diagrams if given. Numbers have ten significant
/// digits.
[[nodiscard]] std::string planJson(const Boat& boat, const Plan& plan,
                                   const PlanDiagrams* diagrams = nullptr);

}  // namespace pondtrim::file
