#pragma once
// What the core says of the hull (hull.hpp), in words and as JSON text.
#include <pondtrim/file/units.hpp>
#include <pondtrim/hull.hpp>
#include <string>

namespace pondtrim::file {

/// Area, what the skin displaces, and what it should weigh beside what it was weighed.
[[nodiscard]] std::string skinMassSentence(const SkinMass& mass, const UnitSet& units = kMetricUnits);
/// What the table's hull holds and how surely, and the number that fits its neighbours least.
[[nodiscard]] std::string fairingSentence(const OffsetsForm& form, const Fairing& fairing,
                                          const UnitSet& units = kMetricUnits);
[[nodiscard]] std::string airSentence(const Boat& boat, const AirPocket& pocket,
                                      const UnitSet& units = kMetricUnits);
/// Between stations of the painted line's table: a round number that gives about 15 [m].
[[nodiscard]] double lineStep(const Boat& boat, const UnitSet& units = kMetricUnits);

/// Everything: pieces with area, mass and room, sectional areas, painted line, air that stays tank empty and
/// full. Error: as evaluate.
[[nodiscard]] Result<std::string> hullJson(const Boat& boat, const Model& model);

}  // namespace pondtrim::file
