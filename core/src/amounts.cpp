#include "amounts.hpp"

namespace pondtrim {

bool isFoamOrLead(const Part& part) { return part.role == Role::Foam || part.role == Role::Lead; }

double amountOf(const Part& part) {
  const double volume = displacedVolume(part).value_or(shapeVolume(part));
  if (part.role == Role::Foam) return volume;
  return part.mass ? *part.mass : part.density.value_or(0.0) * volume;
}

void setAmount(Part& part, double amount) {
  if (part.role == Role::Foam) {
    // A measured mass belongs to the old amount: keep what it says of the foam.
    const double before = amountOf(part);
    if (part.mass && before > 0) part.density = *part.mass / before;
    if (part.density) part.mass.reset();
    part.volume = amount;
  } else {
    part.mass = amount;
    if (part.density) part.volume.reset();
  }
}

double roomFor(const Part& part) {
  const double volume = shapeVolume(part);
  return part.role == Role::Foam ? volume : volume * part.density.value_or(0.0);
}

}  // namespace pondtrim
