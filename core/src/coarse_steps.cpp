// Places where one whole step is too much.
#include <cmath>

#include "next_change.hpp"

namespace pondtrim {

Result<std::vector<CoarseStep>> coarseSteps(const Boat& boat, const Estimate& estimate,
                                            const Tolerance& tolerance, const Model* previous) {
  const auto bench = benchOf(boat, previous);
  if (!bench) return fail(bench.error());
  const auto outputs = outputsOf(bench->plain, bench->file, meanOf(estimate));
  if (!outputs) return fail(outputs.error());

  std::vector<CoarseStep> out;
  for (const Adjustable& a : bench->places) {
    const double turn = std::abs(outputs->rows.row(kDivedTrim).dot(a.effect));
    const Place& place = bench->plain.places[a.place];
    if (turn > tolerance.trim) out.push_back({place.part, a.step, turn, place.rail.has_value()});
  }
  return out;
}

}  // namespace pondtrim
