#pragma once
// What was read of the boat as she is now, number by number, before any estimate.
#include <pondtrim/pond_log.hpp>

#include "outlook.hpp"

namespace pondtrim {

/// Notes in `out` which conditions were read, and how what was read of them compares with the limits.
void noteReadings(Outlook& out, const Boat& boat, const std::vector<Doubt>& doubts,
                  const Tolerance& tolerance, const Outputs& outputs);

}  // namespace pondtrim
