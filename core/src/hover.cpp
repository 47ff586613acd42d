// How much tank water moves the sail by how much, around a wanted height.
#include <cmath>
#include <pondtrim/stability.hpp>

#include "faults.hpp"

namespace pondtrim {

namespace {

class SailFinder {
 public:
  SailFinder(const Model& model, const Water& water) : model_(model), water_(water) {}

  /// Height of the sail top above the water at a fill; far below the surface when she sinks.
  double sailAt(double fill) {
    const Condition condition{water_, fill};
    const auto rest =
        near_ ? findEquilibriumNear(model_, condition, *near_) : findEquilibrium(model_, condition);
    if (!rest || rest->outcome == Outcome::Sinks) return -2 * kReachLimit;
    near_ = rest->plane;
    return glm::dot(rest->plane.up, model_.marks.sail_top) - rest->plane.level;
  }
  /// The fill at which the sail shows `height`: bisection, for the sail goes down as the tank fills.
  std::optional<double> fillFor(double height) {
    double lo = 0, hi = model_.tank_capacity;
    near_.reset();
    if (sailAt(lo) < height || sailAt(hi) > height) return std::nullopt;
    near_.reset();
    for (int i = 0; i < 60 && hi - lo > 1e-12 * model_.tank_capacity; ++i) {
      const double mid = (lo + hi) / 2;
      (sailAt(mid) > height ? lo : hi) = mid;
    }
    // Where she jumps past the height, no fill holds her there.
    if (std::abs(sailAt(lo) - height) > 1e-5) return std::nullopt;
    return (lo + hi) / 2;
  }
  /// Tank water for each length, over `step` to either side of the height at which the fill is `middle`; to
  /// one side where the tank has no more water to give.
  double volumePerLength(double height, double middle, double step) {
    const auto above = fillFor(height + step), below = fillFor(height - step);
    if (above && below) return (*below - *above) / (2 * step);
    if (above) return (middle - *above) / step;
    return below ? (*below - middle) / step : 0.0;
  }

 private:
  const Model& model_;
  const Water& water_;
  std::optional<Plane> near_;
};

}  // namespace

Result<std::optional<HoverAnswer>> hoverAt(const Model& model, const Water& water, double sail_showing,
                                           double band) {
  if (auto e = outside("band", band, 1e-6, 10)) return fail(*e);
  const auto density = waterDensity(water);
  if (!density) return fail(density.error());
  std::optional<HoverAnswer> out;
  if (model.tank_cells.empty()) return out;
  SailFinder finder(model, water);
  const double left = finder.sailAt(model.tank_capacity);
  if (left > sail_showing) sail_showing = left;  // the lowest that the tank can bring her to
  const auto middle =
      left == sail_showing ? std::optional(model.tank_capacity) : finder.fillFor(sail_showing);
  if (!middle) return out;
  out.emplace();
  out->sail_showing = sail_showing;
  out->band = band;
  out->tank_fill = *middle;
  out->volume_per_length = finder.volumePerLength(sail_showing, *middle, std::min(band / 2, 1e-4));
  out->mass_per_length = out->volume_per_length * *density;
  out->metering = finder.volumePerLength(sail_showing, *middle, band / 2) * band;
  return out;
}

double massPerLengthOfScope(double diameter, double density) {
  return density * kPi * diameter * diameter / 4;
}

}  // namespace pondtrim
