// Ballast, depth and cylinder strength against published and derived numbers (check values G1-G19, C1-C10).
#include <doctest/doctest.h>

#include <cmath>
#include <pondtrim/ballast.hpp>
#include <pondtrim/depth.hpp>
#include <pondtrim/strength.hpp>

#include "pump_run.hpp"
#include "quadrature.hpp"
#include "support/models.hpp"

using namespace pondtrim;
using doctest::Approx;

namespace {

constexpr double kFresh20 = 998.2067, kSea = 1025.97275;
constexpr double kZero = 273.15, kBar = 1e5;

Pump examplePump() {
  Pump pump;
  pump.free_flow = 1.2e-3 / 60;
  pump.stall_pressure = 2 * kBar;
  pump.rated_voltage = 12;
  return pump;
}

double litresPerMinute(double q) { return q * 60e3; }

Gas gasOf(const char* name) {
  const auto gas = findGas(name);
  REQUIRE(gas);
  return *gas;
}

double pressureOf(const Gas& gas, double celsius) {
  const auto p = saturationPressure(gas, kZero + celsius);
  REQUIRE(p);
  return *p / kBar;
}

}  // namespace

TEST_SUITE("ballast values") {
  TEST_CASE("pressure at depth (G1-G3, G17; definition)") {
    CHECK(pressureAtDepth(kFresh20, 1) == Approx(9789.06).epsilon(1e-6));
    CHECK(pressureAtDepth(kFresh20, 10) == Approx(97890.64).epsilon(1e-7));
    CHECK((pressureAtDepth(kFresh20, 10) + kAtmosphere) / kAtmosphere == Approx(1.966105).epsilon(1e-6));
    CHECK(pressureAtDepth(kSea, 3) == Approx(30184.07).epsilon(1e-6));
    CHECK(pressureAtDepth(kFresh20, 2) == Approx(19578.13).epsilon(1e-6));
    CHECK(pressureAtDepth(kFresh20, 6) == Approx(58734.38).epsilon(1e-6));
  }

  TEST_CASE("air squeezed by water (G5, G7, G8, G18; Boyle and gamma 1.4)") {
    const auto bar = [](double share, double exponent) {
      return squeezedPressure(kAtmosphere, share, exponent) / kBar;
    };
    CHECK(bar(0.25, 1.0) == Approx(1.3510).epsilon(1e-4));
    CHECK(bar(0.25, 1.4) == Approx(1.5158).epsilon(1e-4));
    CHECK(bar(0.50, 1.0) == Approx(2.0265).epsilon(1e-4));
    CHECK(bar(0.50, 1.4) == Approx(2.6740).epsilon(1e-4));
    // G5: 3 m down, squeezed suddenly, 0.833773 of the volume is left.
    CHECK(squeezedPressure(kAtmosphere, 1 - 0.833773, 1.4) ==
          Approx(kAtmosphere + pressureAtDepth(kFresh20, 3)).epsilon(1e-6));
    CHECK(bar(0.15, 1.0) == Approx(1.19206).epsilon(1e-5));
    CHECK(bar(0.35, 1.0) == Approx(1.55885).epsilon(1e-5));
    CHECK(bar(0.45, 1.0) == Approx(1.84227).epsilon(1e-5));
  }

  TEST_CASE("trapped air shrinks with depth as Boyle says (G4, G6)") {
    Boat boat = test::boatOf(BoxShape{{0.4, 0.1, 0.1}}, 500, 0.5);
    Part air;
    air.name = "air under the deck";
    air.role = Role::TrappedAir;
    air.shape = BoxShape{{0.1, 0.1, 0.1}};
    air.position = {0.2, 0, 0.2};
    boat.parts.push_back(air);
    boat.water = {kZero + 20, 0};
    const auto model = buildModel(boat);
    REQUIRE(model);
    const auto curve = depthCurve(boat, *model, {boat.water, 0.0}, 3, 4);
    REQUIRE(curve);
    const double all = waterDensity(boat.water).value() * 1e-3;
    CHECK(1 - curve->points[3].air_loss / all == Approx(0.775295).epsilon(1e-6));
    CHECK(1 - curve->points[1].air_loss / all == Approx(0.911901).epsilon(1e-6));
  }

  TEST_CASE("R-134a keeps to the handbook's table, and between its rows to its own curve (G9, G10)") {
    const Gas gas = gasOf("R-134a");
    CHECK(pressureOf(gas, 8.86) == Approx(4.0).epsilon(1e-9));
    CHECK(pressureOf(gas, 21.54) == Approx(6.0).epsilon(1e-9));
    CHECK(pressureOf(gas, 31.35) == Approx(8.0).epsilon(1e-9));
    CHECK(gas.molar_mass == 0.10203);
    // Monotone, and smooth to the eye: each row lies within 0.5 % of the line between its neighbours.
    for (std::size_t i = 1; i + 1 < gas.table.size(); ++i) {
      Gas without = gas;
      without.table.erase(without.table.begin() + static_cast<std::ptrdiff_t>(i));
      const auto bridged = saturationPressure(without, gas.table[i].first);
      REQUIRE(bridged);
      CHECK(*bridged == Approx(gas.table[i].second).epsilon(0.005));
    }
  }

  TEST_CASE("n-butane by Antoine's equation (G11: Das, Reed and Eubank 1973)") {
    const Gas gas = gasOf("n-butane");
    CHECK(pressureOf(gas, 10) == Approx(1.4906).epsilon(1e-4));
    CHECK(pressureOf(gas, 20) == Approx(2.0752).epsilon(1e-4));
    CHECK(pressureOf(gas, 30) == Approx(2.8262).epsilon(1e-4));
  }

  TEST_CASE("gases boil at the atmosphere's pressure where they are known to (G19)") {
    // The two whose data reach down to their boiling points; tolerance 0.5 degC in temperature.
    for (const auto& row : {std::pair{"n-butane", -0.5}, {"isobutane", -11.7}}) {
      const char* name = row.first;
      const double celsius = row.second;
      const Gas gas = gasOf(name);
      const double low =
          std::pow(10.0, gas.antoine_a - gas.antoine_b / (kZero + celsius - 0.5 + gas.antoine_c));
      const double high =
          std::pow(10.0, gas.antoine_a - gas.antoine_b / (kZero + celsius + 0.5 + gas.antoine_c));
      CAPTURE(name);
      CHECK(low < kAtmosphere / kBar);
      CHECK(high > kAtmosphere / kBar);
    }
    CHECK(pressureOf(gasOf("propane"), 20) > pressureOf(gasOf("isobutane"), 20));
    CHECK(pressureOf(gasOf("isobutane"), 20) > pressureOf(gasOf("n-butane"), 20));
  }

  TEST_CASE("vapour density and the gas for half a litre (G12, G13; ideal gas)") {
    const double t = kZero + 20;
    CHECK(vapourDensity(gasOf("R-134a"), kAtmosphere, t) == Approx(4.2416).epsilon(1e-3));
    CHECK(vapourDensity(gasOf("n-butane"), kAtmosphere, t) == Approx(2.4162).epsilon(1e-3));
    CHECK(vapourDensity(gasOf("R-134a"), 111.5e3, t) * 0.5e-3 == Approx(2.334e-3).epsilon(1e-3));
  }

  TEST_CASE("the pump's straight line (G14)") {
    const Pump pump = examplePump();
    CHECK(litresPerMinute(pumpFlow(pump, 12, 0.3 * kBar)) == Approx(1.02).epsilon(1e-9));
    CHECK(litresPerMinute(pumpFlow(pump, 10, 0.3 * kBar)) == Approx(0.82).epsilon(1e-9));
    CHECK(pumpFlow(pump, 12, 2.1 * kBar) == 0.0);
    CHECK(pumpFlow(pump, 6, 1.01 * kBar) == 0.0);
    CHECK(pumpFlow(pump, 12, -kBar) == pumpFlow(pump, 12, 0.0));
  }

  TEST_CASE("time to fill a sealed hull, by quadrature and in closed form (G15)") {
    const double air = 1e-3, water = 0.3e-3;
    const PumpTask task{examplePump(), 12, 0.0, water,
                        [&](double v) { return squeezedPressure(kAtmosphere, v / air) - kAtmosphere; }};
    const BallastRun run = runPump(task);
    CHECK(run.completes);
    CHECK(std::abs(run.time - 16.668) < 0.01);
    // integral of ps (A - v) / (ps A - (ps + p0) v) dv / Q0
    const double ps = task.pump.stall_pressure, p0 = kAtmosphere, q = task.pump.free_flow;
    const double k = ps + p0, w0 = ps * air, w1 = ps * air - k * water;
    const double closed = ps / q * (water / k + (air - w0 / k) / k * std::log(w0 / w1));
    CHECK(run.time == Approx(closed).epsilon(1e-8));
    const BallastRun easy = runPump({examplePump(), 12, 0.0, water, [](double) { return 0.0; }});
    CHECK(easy.time == Approx(15.0).epsilon(1e-12));
    CHECK_FALSE(easy.margin);
  }

  TEST_CASE("the pump stalls where its stall pressure is the air's") {
    // p0 v / (A - v) = ps V / Vn  =>  v = A ps' / (p0 + ps')
    const double air = 1e-3, voltage = 6, stall = kBar;
    const BallastRun run = runPump({examplePump(), voltage, 0.0, 0.9e-3, [&](double v) {
                                      return squeezedPressure(kAtmosphere, v / air) - kAtmosphere;
                                    }});
    CHECK_FALSE(run.completes);
    REQUIRE(run.stall_fill);
    CHECK(*run.stall_fill == Approx(air * stall / (kAtmosphere + stall)).epsilon(1e-9));
    REQUIRE(run.margin);
    CHECK(*run.margin < 1);
    CHECK(std::isfinite(run.time));
  }

  TEST_CASE("hose loss: flow and head meet (Q from both sides)") {
    Pump pump = examplePump();
    pump.hose_loss = 0.4 * kBar;
    const double q = pumpFlow(pump, 12, 0.3 * kBar);
    const double head = 0.3 * kBar + 0.4 * kBar * std::pow(q / pump.free_flow, 2);
    CHECK(q == Approx(pumpFlow(examplePump(), 12, head)).epsilon(1e-12));
    CHECK(q < pumpFlow(examplePump(), 12, 0.3 * kBar));
  }

  TEST_CASE("adaptive quadrature against closed forms") {
    CHECK(integrate([](double x) { return std::exp(x); }, 0, 1, 1e-13) ==
          Approx(std::exp(1.0) - 1).epsilon(1e-13));
    CHECK(integrate([](double x) { return 1 / (1.01 - x); }, 0, 1, 1e-12) ==
          Approx(std::log(101.0)).epsilon(1e-11));
    CHECK(integrate([](double x) { return std::sqrt(x); }, 0, 1, 1e-12) == Approx(2.0 / 3).epsilon(1e-10));
  }

  TEST_CASE("from fresh to sea water (G16, and the 8 kg boat of section 1)") {
    const auto more = massForWater(8, {kZero + 20, 0}, {kZero + 15, 35});
    REQUIRE(more);
    CHECK(std::abs(*more - 0.2225) < 1e-4);
    const auto less = massForWater(8, {kZero + 5, 0}, {kZero + 25, 0});
    REQUIRE(less);
    CHECK(std::abs(*less + 0.0234) < 1e-4);
    const Model model = test::barge(1, 0.2, 0.2, 0.1 * 0.2 * kFresh20, 0.05);
    const double fresh = test::rest(model, {{kZero + 20, 0}, 0}).plane.level;
    const double sea = test::rest(model, {{kZero + 15, 35}, 0}).plane.level;
    CHECK(fresh == Approx(0.1).epsilon(1e-6));
    CHECK(sea / fresh == Approx(0.0972937 / 0.1).epsilon(1e-6));
  }
}

TEST_SUITE("strength values") {
  TEST_CASE("thin tube (C1, C10)") {
    const TubeStress a = tubeStress(0.05e6, 0.1, 0.003);
    CHECK(a.hoop == Approx(0.8333e6).epsilon(1e-4));
    CHECK(a.axial == Approx(0.4167e6).epsilon(1e-4));
    CHECK(a.von_mises == Approx(0.7217e6).epsilon(1e-4));
    const TubeStress b = tubeStress(0.2e6, 0.08, 0.002);
    CHECK(b.hoop == Approx(4e6));
    CHECK(b.axial == Approx(2e6));
    CHECK(b.von_mises == Approx(3.4641e6).epsilon(1e-4));
  }

  TEST_CASE("short tube collapse (C2-C4: Windenburg and Trilling 1934)") {
    CHECK(2.42 / std::pow(1 - 0.09, 0.75) == Approx(2.5974).epsilon(1e-4));
    CHECK(shortTubeCollapse(200e9, 0.3, 1, 0.005, 1) == Approx(0.94849e6).epsilon(1e-4));
    const double acrylic = shortTubeCollapse(2.8e9, 0.37, 0.1, 0.003, 0.4);
    CHECK(acrylic == Approx(0.30076e6).epsilon(1e-4));
    CHECK(acrylic / (kFresh20 * kGravity) == Approx(30.7).epsilon(0.05 / 30.7));
  }

  TEST_CASE("very long tube (C5: Roark, table 35, case 19a)") {
    // Pounds and inches throughout: the formula has no units of its own.
    CHECK(std::abs(longTubeCollapse(29e6, 0.29, 6.75, 0.375) - 1357) < 0.5);
  }

  TEST_CASE("flat caps (C6-C8: Mechanical Engineer's Data Handbook, p. 53)") {
    const PlateStress free = supportedCap(1, 1, 1, 1, 0.3), held = clampedCap(1, 1, 1, 1, 0.3);
    CHECK(std::abs(free.stress - 1.238) < 1e-3);
    CHECK(std::abs(free.deflection - 0.696) < 1e-3);
    CHECK(std::abs(held.stress - 0.75) < 1e-9);
    CHECK(std::abs(held.deflection - 0.171) < 1e-3);
    const PlateStress a = supportedCap(0.05e6, 0.05, 0.006, 2.8e9, 0.37);
    CHECK(a.stress == Approx(4.388e6).epsilon(1e-3));
    CHECK(a.deflection == Approx(0.3278e-3).epsilon(1e-3));
    const PlateStress b = clampedCap(0.05e6, 0.05, 0.006, 2.8e9, 0.37);
    CHECK(b.stress == Approx(2.604e6).epsilon(1e-3));
    CHECK(b.deflection == Approx(0.0836e-3).epsilon(1e-3));
  }

  TEST_CASE("library strengths keep to the published ranges (C9: ACS Omega 7, 2022, 13403, table 1)") {
    int seen = 0;
    for (const TubeMaterial& m : tubeMaterials()) {
      CHECK(m.modulus_low <= m.modulus_high);
      CHECK(m.strength_low <= m.strength_high);
      CHECK_FALSE(m.source.empty());
      const auto within = [&](double low, double high) {
        ++seen;
        CHECK(m.strength_low >= low * 1e6);
        CHECK(m.strength_high <= high * 1e6);
      };
      if (m.name == "acrylic") within(48, 76);
      if (m.name == "PVC") within(40.7, 51.7);
      if (m.name == "polycarbonate") within(0, 65.5);
    }
    CHECK(seen == 3);
    CHECK(kStrengthFactor >= 4);
  }
}
