#pragma once
// Arithmetic of plots: extents, round ticks, and a line read between its points.
#include <algorithm>
#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace pondtrim {

struct PlotPoint {
  double x = 0.0, y = 0.0;  ///< y not finite: the line has a gap here
};

/// The values that were added lie from low to high.
struct Extent {
  double low = std::numeric_limits<double>::infinity(), high = -std::numeric_limits<double>::infinity();
  void add(double v) {
    low = std::min(low, v);
    high = std::max(high, v);
  }
  [[nodiscard]] bool empty() const { return high < low; }
  [[nodiscard]] double at(float share) const { return low + static_cast<double>(share) * (high - low); }
  [[nodiscard]] float share(double v) const {
    return high > low ? static_cast<float>((v - low) / (high - low)) : 0.5f;
  }
};

/// An axis with ticks at whole multiples of `step` (1, 2 or 5 times a power of ten).
struct Scale {
  double low = 0.0, high = 1.0;
  double step = 0.5;
  int decimals = 1;  ///< that the ticks need
};

/// The smallest round axis over [low, high] with at most `most` steps (2 or more).
[[nodiscard]] Scale roundScale(double low, double high, int most);

/// The line at x, straight between its points (x rising); nothing outside it or in a gap.
[[nodiscard]] std::optional<double> valueAt(const std::vector<PlotPoint>& line, double x);

}  // namespace pondtrim
