// Water density against printed values. Sources: tests/reference/water_density*.csv.
#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "support/models.hpp"
#include "support/reference.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

double density(double degC, double salinity) {
  const Result<double> d = waterDensity({degC + 273.15, salinity});
  if (!d) FAIL(d.error().message);
  return *d;
}

}  // namespace

TEST_SUITE("water density against the published formulas") {
  TEST_CASE("fresh and salt water weigh what Tanaka 2001 and EOS-80 print") {
    int rows = 0;
    for (const ReferenceRow& row : referenceTable("water_density")) {
      CAPTURE(row.text("id"));
      const double got = density(row.number("temperature_degC"), row.number("salinity"));
      CHECK(std::abs(got - row.number("density")) <= row.number("tolerance"));
      ++rows;
    }
    CHECK(rows == 10);
  }

  TEST_CASE("other formulas and tables agree with ours as well as they agree with each other") {
    int rows = 0;
    for (const ReferenceRow& row : referenceTable("water_density_others")) {
      CAPTURE(row.text("id"));
      CHECK(std::abs(density(row.number("temperature_degC"), 0) - row.number("density")) <=
            row.number("tolerance"));
      ++rows;
    }
    CHECK(rows == 10);
  }

  TEST_CASE("a neutral 8 kg boat needs 222.5 g more in the sea and 23.4 g less in a warm pond") {
    // Scale test of check values section 1.2; derived, tolerance 0.1 g. The boat: a box that just hangs.
    const double cold = density(5, 0), warm = density(25, 0);
    const double fresh = density(20, 0), sea = density(15, 35);
    CHECK(std::abs(8000 * (sea / fresh - 1) - 222.5) < 0.1);
    CHECK(std::abs(8000 * (warm / cold - 1) + 23.4) < 0.1);
    const Model model = barge(1.0, 0.1, 0.08, 8.0, 0.01);  // holds 8 L
    const Report in_fresh = reportOf(model, {{293.15, 0}, 0}), in_sea = reportOf(model, {{288.15, 35}, 0});
    const double more = in_sea.net_buoyancy_submerged - in_fresh.net_buoyancy_submerged;
    CHECK(std::abs(more * 1000 - 0.008 * (sea - fresh) * 1000) < 1e-6);
  }

  TEST_CASE("water that the formulas do not cover is refused, with the field named") {
    const double nan = std::numeric_limits<double>::quiet_NaN(),
                 inf = std::numeric_limits<double>::infinity();
    for (double t : {272.0, 313.2, 0.0, 20.0, -5.0, nan, inf}) {
      const Result<double> d = waterDensity({t, 0.0});
      CAPTURE(t);
      REQUIRE(!d.has_value());
      CHECK(d.error().field == "water.temperature");
      CHECK(!d.error().allowed.empty());
      CHECK(!d.error().message.empty());
    }
    for (double t : {271.0, 313.2}) CHECK(waterDensity({t, 35.0}).error().field == "water.temperature");
    for (double s : {-0.1, 42.1, nan, inf}) {
      CAPTURE(s);
      const Result<double> d = waterDensity({288.15, s});
      REQUIRE(!d.has_value());
      CHECK(d.error().field == "water.salinity");
    }
    CHECK(waterDensity({273.15, 0.0}).has_value());
    CHECK(waterDensity({313.15, 0.0}).has_value());
    CHECK(waterDensity({271.15, 42.0}).has_value());
  }
}
