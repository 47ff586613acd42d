#pragma once
// Readings that could be fitted, but only with a boat that is hardly the one in the file.
#include <pondtrim/pond_log.hpp>

#include "log_plane.hpp"

namespace pondtrim {

/// Whether there is anything for addUnlikely to find; as a rule not.
[[nodiscard]] bool mayBeUnlikely(const Reading& r, const std::vector<Fact>& facts, const Marks& marks,
                                 bool strange);

/// Numbers of reading `index` that ask for a second look: all of them when it is `strange` even for the
/// widest priors, else marks that would leave the water under the keel or over the deck. `by_file`: the plane
/// that the boat of the file would have had. One who reads the same twice is believed: nothing then.
void addUnlikely(std::vector<Doubt>& doubts, const Boat& boat, std::size_t index,
                 const std::vector<Fact>& facts, const Model& file, const Plane& by_file, bool strange);

}  // namespace pondtrim
