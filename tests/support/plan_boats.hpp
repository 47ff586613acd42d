#pragma once
// Boats for the tests of the trim plan. Invented.
#include <pondtrim/plan.hpp>

#include "random.hpp"

namespace pondtrim::test {

/// A boat whose answer is known: random amounts at proposed places, the boat's own weights chosen so that
/// with those amounts she floats level and upright at the line, and lies level when dived; then other amounts
/// are put in. Empty when the draw has no stable boat.
std::optional<Boat> solvableBoat(const Boat& start, Random& random);

}  // namespace pondtrim::test
