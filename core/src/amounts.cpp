#include "amounts.hpp"

namespace pondtrim {

bool isFoamOrLead(const Part& part) { return part.role == Role::Foam || part.role == Role::Lead; }

double amountOf(const Part& part) {
  const double volume = displacedVolume(part).value_or(shapeVolume(part));
  if (part.role == Role::Foam) return volume;
  return part.mass ? *part.mass : part.density.value_or(0.0) * volume;
}

void setAmount(Part& part, double amount) {
  const double before = amountOf(part);
  if (amount == before) return;
  // Measured mass and volume belong to the old amount: keep what they say of the material.
  const auto volume = part.role == Role::Foam ? std::optional(before) : part.volume;
  if (part.role != Role::Dry && part.mass && volume && *part.mass > 0 && *volume > 0)
    part.density = *part.mass / *volume;
  if (part.role == Role::Foam) {
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
