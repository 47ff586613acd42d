#include "session/plot_scale.hpp"

#include <algorithm>
#include <cmath>

namespace pondtrim {

Scale roundScale(double low, double high, int most) {
  if (!(high > low)) {
    const double room = std::max(1e-9, 0.5 * std::abs(low));
    low -= room;
    high += room;
  }
  constexpr double kRound[] = {1, 2, 5, 10};
  int power = static_cast<int>(std::floor(std::log10((high - low) / std::max(2, most))));
  for (;; ++power) {
    for (const double r : kRound) {
      const double step = r * std::pow(10.0, power);
      // A hair's breadth off a tick is rounding, not a reason for another step.
      const double from = std::floor(low / step + 1e-9), to = std::ceil(high / step - 1e-9);
      if (to - from > std::max(2, most)) continue;
      const int exponent = r == 10 ? power + 1 : power;
      return {from * step, to * step, step, std::max(0, -exponent)};
    }
  }
}

std::optional<double> valueAt(const std::vector<PlotPoint>& line, double x) {
  if (line.empty() || x < line.front().x || x > line.back().x) return std::nullopt;
  const auto after = std::lower_bound(line.begin(), line.end(), x,
                                      [](const PlotPoint& p, double wanted) { return p.x < wanted; });
  const PlotPoint& b = *after;
  const auto finite = [](double y) { return std::isfinite(y) ? std::optional<double>(y) : std::nullopt; };
  if (b.x == x || after == line.begin()) return finite(b.y);
  const PlotPoint& a = *(after - 1);
  return finite(a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x));
}

}  // namespace pondtrim
