// Places where one whole step is too much.
#include <cmath>

#include "next_change.hpp"

namespace pondtrim {

Result<std::vector<CoarseStep>> coarseSteps(const Boat& boat, const Estimate& estimate,
                                            const Tolerance& tolerance, const Model* previous) {
  const auto density = waterDensity(boat.water);
  if (!density) return fail(density.error());
  Boat plain = boat;
  plain.correction.reset();
  const auto file = buildModel(plain, previous);
  if (!file) return fail(file.error());
  const auto places = adjustablesOf(plain, *density);
  if (!places) return fail(places.error());
  Unknowns mean;
  for (unsigned i = 0; i < kUnknowns; ++i) mean(i) = estimate.mean[i];
  const auto outputs = outputsOf(plain, *file, mean);
  if (!outputs) return fail(outputs.error());

  std::vector<CoarseStep> out;
  for (const Adjustable& a : *places) {
    const double turn = std::abs(outputs->rows.row(kDivedTrim).dot(a.effect));
    const Place& place = plain.places[a.place];
    if (turn > tolerance.trim) out.push_back({place.part, a.step, turn, place.rail.has_value()});
  }
  return out;
}

}  // namespace pondtrim
