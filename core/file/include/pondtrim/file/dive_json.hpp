#pragma once
// The dive in words and as JSON text.
#include <pondtrim/file/units.hpp>
#include <pondtrim/stability.hpp>
#include <string>
#include <vector>

namespace pondtrim::file {

/// What the terminal's "dive" answers.
struct DiveAnswer {
  DiveSweep sweep;
  std::vector<HelpTried> helps;
  RightingCurve surfaced, dived;
  std::optional<HoverAnswer> hover;  ///< around the boat's aim
  double scope = kScopeDiameter;     ///< diameter of the scope in the surface when the sail is under [m]
  double scope_mass_per_length = 0;  ///< weight that sinks her by a length of it [kg/m]
  double density = 0;                ///< of the water [kg/m^3]
};

/// Everything of the above. Error: as sweepDive; "scope" outside 0.5 to 100 mm.
[[nodiscard]] Result<DiveAnswer> answerDive(const Boat& boat, const Model& model, const Water& water,
                                            int steps, double scope = kScopeDiameter);

/// What goes wrong, why, and what was tried and helps (empty: not tried yet), one sentence each; never empty.
[[nodiscard]] std::vector<std::string> diveSentences(const DiveSweep& sweep,
                                                     const std::optional<std::vector<HelpTried>>& helps,
                                                     const UnitSet& units = kMetricUnits);

[[nodiscard]] std::string diveJson(const Boat& boat, const DiveAnswer& answer);

}  // namespace pondtrim::file
