#pragma once
// Two boats side by side: what differs, in words.
#include <pondtrim/boat.hpp>
#include <pondtrim/file/units.hpp>
#include <string>
#include <vector>

namespace pondtrim::file {

/// One line of the comparison. Numbers are rounded as people read them, but never so far that two that differ
/// look alike. A side that lacks the thing or the number is empty.
struct Difference {
  std::string thing;  ///< "battery", "bow foam as a place"; empty: the boat herself
  std::string what;   ///< "mass", "place along"; empty: the whole thing is on one side only
  std::string mine, theirs;
  bool operator==(const Difference&) const = default;
};

/// In the order of the file. Things are matched by their names. Notes, origin and readings are told apart
/// only by there being others. Empty: the boats are the same.
[[nodiscard]] std::vector<Difference> compareBoats(const Boat& mine, const Boat& theirs,
                                                   const UnitSet& units = kMetricUnits);

/// "battery: mass 240 g, there 260 g."
[[nodiscard]] std::string differenceSentence(const Difference& difference);

}  // namespace pondtrim::file
