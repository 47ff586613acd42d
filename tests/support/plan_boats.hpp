#pragma once
// Boats for the tests of the trim plan. Invented.
#include <pondtrim/plan.hpp>
#include <pondtrim/report.hpp>

#include "random.hpp"

namespace pondtrim::test {

/// A boat whose answer is known: random amounts at proposed places, the boat's own weights chosen so that
/// with those amounts she floats level and upright at the line, and lies level when dived; then other amounts
/// are put in. Empty when the draw has no stable boat.
std::optional<Boat> solvableBoat(const Boat& start, Random& random);

/// In the boat's own water, tank full or empty. Fails the test when it cannot be solved.
Report solve(const Boat& boat, bool full);

/// What may stay off, solved anew. SI.
struct Allowed {
  double mark = 0.001, sail = 0.001;
  double sail_mass = 0.001;  ///< of the buoyancy that shows too much or too little, or is left over
  double angle = 0.1 * kPi / 180, dived_angle = 0.1 * kPi / 180;
  double floor = 1e-6;  ///< GM and BG under theirs
};

/// Solves the fitted boat anew, without anything that the plan says of itself.
void checkFitted(const Boat& boat, const Plan& plan, const Allowed& allowed = {});
/// Every change is a whole number of the place's steps, where it has any.
void checkWhole(const Boat& boat, const Plan& plan);

}  // namespace pondtrim::test
