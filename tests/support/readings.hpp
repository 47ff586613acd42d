#pragma once
// Simulated dips.
#include <pondtrim/boat.hpp>

namespace pondtrim::test {

/// What a ruler (spread [m]) and a clinometer (spread [rad]) would read of `truth`, without any error.
Reading readingOf(const Boat& truth, TankState tank, double ruler, double clinometer);

}  // namespace pondtrim::test
