#pragma once
// The amount of a part: what a builder adds or takes out. Volume [m^3] of foam, mass [kg] of anything else,
// of one piece.
#include <pondtrim/model.hpp>

namespace pondtrim {

[[nodiscard]] bool isFoamOrLead(const Part& part);
[[nodiscard]] double amountOf(const Part& part);
/// Sets it. What was measured of the old amount is kept as the density of the material; the same amount again
/// changes nothing.
void setAmount(Part& part, double amount);
/// The most that the shape holds.
[[nodiscard]] double roomFor(const Part& part);

}  // namespace pondtrim
