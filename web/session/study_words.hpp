#pragma once
// Stability and hover in a builder's words. No physics: reads the core's answers, writes text.
#include <optional>
#include <pondtrim/stability.hpp>
#include <string>

#include "session/quantities.hpp"

namespace pondtrim {

/// "Surfaced: GM is 12 mm; she comes back from any heel up to 137°. Most lever: 14 mm at 62°."
[[nodiscard]] std::string rightingSentence(const std::string& condition, const RightingCurve& curve,
                                           const UnitSet& units);

/// What a change that is being tried does to the dive.
[[nodiscard]] std::string trialSentence(const DiveSweep& before, const DiveSweep& now, const UnitSet& units);

/// How finely the tank must be metered; for an empty answer, that no fill holds her there.
[[nodiscard]] std::string hoverSentence(const std::optional<HoverAnswer>& hover, double wanted_sail,
                                        const UnitSet& units);
/// How finely to meter with the sail under and only a scope of that diameter [m] in the surface.
[[nodiscard]] std::string scopeSentence(double diameter, double density, const UnitSet& units);

}  // namespace pondtrim
