// Plots: round ticks that hold the range, lines read between their points.
#include "session/plot_scale.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace pondtrim;

TEST_CASE("an axis is round, holds its range and is no larger than one step more at each end") {
  const double ranges[][2] = {{0, 1},       {0, 437},       {-3.2, 71}, {0.0123, 0.0131}, {-180, 180},
                              {-0.4, -0.1}, {1e-7, 3.3e-7}, {0, 180},   {99.99, 100.01}};
  for (const auto& range : ranges) {
    const double low = range[0], high = range[1];
    for (const int most : {2, 4, 7}) {
      CAPTURE(low);
      CAPTURE(high);
      CAPTURE(most);
      const Scale s = roundScale(low, high, most);
      CHECK(s.low <= low + 1e-6 * s.step);
      CHECK(s.high >= high - 1e-6 * s.step);
      CHECK(low - s.low < s.step);
      CHECK(s.high - high < s.step);
      CHECK(std::round((s.high - s.low) / s.step) <= most);
      const double lead = s.step / std::pow(10.0, std::floor(std::log10(s.step) + 1e-9));
      CHECK((std::abs(lead - 1) < 1e-6 || std::abs(lead - 2) < 1e-6 || std::abs(lead - 5) < 1e-6));
      const double shown = s.step * std::pow(10.0, s.decimals);
      CHECK(std::abs(shown - std::round(shown)) < 1e-6);  // the ticks' decimals say the step in full
    }
  }
}

TEST_CASE("a range of no width still makes an axis") {
  for (const double at : {0.0, 5.0, -2.0}) {
    const Scale s = roundScale(at, at, 4);
    CHECK(s.low < at);
    CHECK(s.high > at);
  }
}

TEST_CASE("a line is read between its points, not beyond them and not in its gaps") {
  const std::vector<PlotPoint> line = {{0, 1}, {2, 5}, {3, NAN}, {4, 7}, {5, 9}};
  CHECK(valueAt(line, 0) == 1);
  CHECK(valueAt(line, 0.5) == doctest::Approx(2));
  CHECK(valueAt(line, 2) == 5);
  CHECK_FALSE(valueAt(line, 2.5));
  CHECK_FALSE(valueAt(line, 3.5));
  CHECK(valueAt(line, 4.5) == doctest::Approx(8));
  CHECK_FALSE(valueAt(line, -0.1));
  CHECK_FALSE(valueAt(line, 5.1));
  CHECK_FALSE(valueAt({}, 0));
}
