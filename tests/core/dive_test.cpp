// The dive sweep: what is known to go wrong does, and for the reason that is known.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <pondtrim/stability.hpp>

#include "support/dive_boat.hpp"
#include "support/models.hpp"

using namespace pondtrim;
using doctest::Approx;

namespace {

Model modelOf(const Boat& boat) {
  auto model = buildModel(boat);
  REQUIRE(model);
  return std::move(*model);
}
DiveSweep sweepOf(const Model& model, int steps) {
  auto sweep = sweepDive(model, Water{}, steps);
  REQUIRE(sweep);
  return std::move(*sweep);
}
bool found(const DiveSweep& sweep, Trouble trouble) {
  return std::any_of(sweep.findings.begin(), sweep.findings.end(),
                     [&](const Finding& f) { return f.trouble == trouble; });
}

/// Energy of boat, displaced water and tank water over g, heights from the pond's surface [kg m].
double energyAt(const Model& model, double fill, const Plane& near, double* lift) {
  const auto rest = findEquilibriumNear(model, {Water{}, fill}, near);
  REQUIRE(rest);
  const Plane& p = rest->plane;
  *lift = 0;
  for (std::size_t i = 0; i < model.tank_cells.size(); ++i)
    *lift += model.tank_cells[i].capacity / model.tank_capacity * (rest->tank.levels[i] - p.level);
  *lift *= rest->density;
  return rest->mass * (glm::dot(p.up, rest->centre_of_gravity) - p.level) +
         rest->density * (p.level * rest->cut.volume - glm::dot(p.up, rest->cut.moment));
}

}  // namespace

TEST_SUITE("dive") {
  TEST_CASE("a long central tank pitches her over, water running along it is named, and bulkheads cure it") {
    const Boat boat = test::longTankBoat();
    const DiveSweep sweep = sweepOf(modelOf(boat), 40);
    REQUIRE(found(sweep, Trouble::Pitches));
    for (const Finding& f : sweep.findings) {
      CAPTURE(static_cast<int>(f.trouble));
      CHECK(f.water_runs);
      CHECK(std::abs(f.worst_frozen) < sweep.limits.trim);
      CHECK(f.from_fill > 0.5 * sweep.down.back().tank_fill);
    }
    CHECK(sweep.least_gm_longitudinal_level.gm < 0);
    const auto helps = tryHelps(boat, sweep, Water{});
    REQUIRE(helps);
    const auto bulkheads = std::find_if(helps->begin(), helps->end(),
                                        [](const HelpTried& h) { return h.help == Help::Bulkheads; });
    REQUIRE(bulkheads != helps->end());
    CHECK(bulkheads->remaining.empty());
    CHECK(bulkheads->greatest_trim < sweep.limits.trim);
    CHECK(bulkheads->boat.tank->bulkheads.size() == static_cast<std::size_t>(bulkheads->amount));
    // What the help promises, the sweep of its boat keeps.
    CHECK(sweepOf(modelOf(bulkheads->boat), 40).findings.empty());
  }

  TEST_CASE("where she snaps from level to pitched, coming up is not the way she went down") {
    const DiveSweep sweep = sweepOf(modelOf(test::longTankBoat()), 200);
    REQUIRE(sweep.gaps.size() == 1);
    const DiveGap& gap = sweep.gaps.front();
    CHECK(gap.trim > 5 * kPi / 180);
    CHECK(gap.to_fill < 0.85 * sweep.down.back().tank_fill);
    // Inside the gap both are rest positions: level is still stable, pitched already is.
    const auto in = std::find_if(sweep.down.begin(), sweep.down.end(),
                                 [&](const DiveStep& s) { return s.tank_fill >= gap.from_fill; });
    CHECK(std::abs(in->trim) < 1e-6);
    CHECK(in->gm_longitudinal_level > 0);
    CHECK(std::abs(sweep.up[static_cast<std::size_t>(in - sweep.down.begin())].trim) > 5 * kPi / 180);
  }

  TEST_CASE("a boat with a well divided tank goes down as she comes up, with nothing to report") {
    const DiveSweep sweep = sweepOf(modelOf(withBulkheads(test::longTankBoat(), 3)), 30);
    CHECK(sweep.gaps.empty());
    CHECK(sweep.findings.empty());
    REQUIRE(sweep.down.size() == 31);
    for (std::size_t i = 0; i < sweep.down.size(); ++i) {
      const DiveStep &a = sweep.down[i], &b = sweep.up[i];
      CHECK(a.tank_fill == b.tank_fill);
      CHECK(a.trim == Approx(b.trim).epsilon(1e-7));
      REQUIRE(a.sail_showing);
      REQUIRE(b.sail_showing);
      CHECK(std::abs(*a.sail_showing - *b.sail_showing) < 1e-9);
      CHECK(std::abs(a.gm_transverse - b.gm_transverse) < 1e-8);
    }
    CHECK(*sweep.down.back().sail_showing == Approx(0.04).epsilon(1e-6));
  }

  TEST_CASE("GM of the sweep is that of the report, where she lies upright and level") {
    const Model model = modelOf(withBulkheads(test::longTankBoat(), 3));
    for (const DiveStep& s : sweepOf(model, 7).down) {
      const auto report = evaluateNear(model, {Water{}, s.tank_fill}, s.plane);
      REQUIRE(report);
      CHECK(s.gm_transverse == Approx(report->gm_transverse).epsilon(1e-9));
      CHECK(s.gm_longitudinal == Approx(report->gm_longitudinal).epsilon(1e-9));
      CHECK(s.gm_longitudinal_level == Approx(report->gm_longitudinal).epsilon(1e-6));
      CHECK(s.free_surface_longitudinal_level ==
            Approx(report->free_surface_rise_longitudinal).epsilon(1e-6));
    }
  }

  TEST_CASE("n equal cells have 1/n^2 of the free surface along the tank (Derrett, pp. 193-195)") {
    const Boat boat = test::longTankBoat(0.2);
    const Model whole = modelOf(boat);
    const double half = whole.tank_capacity / 2;
    const double one = sweepOf(whole, 2).down[1].free_surface_longitudinal_level;
    // Half full, the surface is as broad as the bore: i = b l^3 / 12.
    const double i = 0.054 * std::pow(0.46, 3) / 12, density = test::freshDensity();
    CHECK(one == Approx(density * i / (whole.mass + density * half)).epsilon(1e-9));
    for (int n = 2; n <= 5; ++n) {
      const DiveSweep sweep = sweepOf(modelOf(withBulkheads(boat, n - 1)), 2);
      CHECK(sweep.down[1].free_surface_longitudinal_level == Approx(one / (n * n)).epsilon(1e-9));
      CHECK(sweep.down[1].free_surface_transverse == Approx(sweep.up[1].free_surface_transverse));
    }
  }

  TEST_CASE("filling does the work that the heights of tank and pond ask for") {
    // dW/dV = rho g (tank level - pond level): Simpson over the fill against the difference of the energies.
    const Model model = modelOf(withBulkheads(test::longTankBoat(), 3));
    const double from = 0.1 * model.tank_capacity, to = 0.7 * model.tank_capacity;
    constexpr int kSteps = 40;
    Plane near{{0, 0, 1}, 0.1};
    double sum = 0, first = 0, last = 0;
    for (int k = 0; k <= kSteps; ++k) {
      const double fill = from + (to - from) * k / kSteps;
      double lift = 0;
      const double energy = energyAt(model, fill, near, &lift);
      if (k == 0) first = energy;
      last = energy;
      sum += lift * (k == 0 || k == kSteps ? 1 : k % 2 == 1 ? 4 : 2);
    }
    const double work = sum * (to - from) / kSteps / 3;
    REQUIRE(std::abs(work) > 1e-3);
    CHECK(last - first == Approx(work).epsilon(1e-6));
  }

  TEST_CASE("a lopsided boat lolls as far as she comes to rest, whichever side that is") {
    for (const double side : {-1.0, 1.0}) {
      CAPTURE(side);
      Boat boat = withBulkheads(test::longTankBoat(-0.005), 3);
      Part weight;
      weight.name = "forgotten weight";
      weight.shape = PointShape{};
      weight.position = {0.5, side * 0.004, 0.2};
      weight.mass = 0.02;
      weight.volume = 0.0;
      boat.parts.push_back(weight);
      const Model model = modelOf(boat);
      const Condition full{Water{}, 0.8 * model.tank_capacity};
      const auto curve = rightingCurve(model, full, 37);
      REQUIRE(curve);
      REQUIRE(curve->lopsided);
      REQUIRE(curve->gm_transverse < 0);
      const auto rest = findEquilibrium(model, full);
      REQUIRE(rest);
      CHECK(std::abs(rest->attitude.heel) > 0.1);
      CHECK(curve->angle_of_loll == Approx(std::abs(rest->attitude.heel)));
    }
  }

  TEST_CASE("a boat whose weight lies too high lolls, and water held still does not save her") {
    const DiveSweep sweep = sweepOf(modelOf(withBulkheads(test::longTankBoat(-0.01), 3)), 20);
    REQUIRE(found(sweep, Trouble::RollsOver));
    const Finding& f = sweep.findings.front();
    CHECK(f.worst < 0);
    CHECK_FALSE(f.water_runs);
    CHECK(sweep.least_gm_transverse.gm <= f.worst + 1e-12);
    CHECK(std::any_of(sweep.down.begin(), sweep.down.end(),
                      [](const DiveStep& s) { return std::abs(s.heel) > 0.05; }));
  }

  TEST_CASE(
      "heels of 179 and -179 degrees lie 2 apart: down and up of a boat bottom up do not differ by 358") {
    const DiveSweep sweep = sweepOf(modelOf(withBulkheads(test::longTankBoat(-0.01), 3)), 20);
    CHECK(std::any_of(sweep.up.begin(), sweep.up.end(),
                      [](const DiveStep& s) { return std::abs(s.heel) > 3; }));
    for (const DiveGap& g : sweep.gaps) CHECK(g.heel <= kPi);
    // Bottom up is one place, whichever side she went over.
    for (std::size_t i = 0; i < sweep.down.size(); ++i) {
      const bool both = std::abs(sweep.down[i].heel) > 3.14 && std::abs(sweep.up[i].heel) > 3.14;
      if (!both) continue;
      for (const DiveGap& g : sweep.gaps)
        CHECK_FALSE((g.from_fill <= sweep.down[i].tank_fill && sweep.down[i].tank_fill <= g.to_fill));
    }
  }

  TEST_CASE("a boat that rolled and stays over is not blamed on a weight off the centreline") {
    // BG so small that she lolls part-full and stands again nearly full: coming up and going down differ.
    const Boat boat = withBulkheads(test::longTankBoat(0.004), 3);
    const DiveSweep sweep = sweepOf(modelOf(boat), 40);
    REQUIRE(found(sweep, Trouble::RollsOver));
    CHECK_FALSE(found(sweep, Trouble::Heels));
    for (const auto* way : {&sweep.down, &sweep.up})
      for (const DiveStep& s : *way) CHECK(std::abs(s.upright_lever) < 1e-9);  // she is symmetric
    // The same boat with its battery off the centreline does hang, by its moment over weight and GM.
    Boat crooked = withBulkheads(test::longTankBoat(0.012), 3);
    crooked.parts.back().position.y = -0.006;
    const DiveSweep hangs = sweepOf(modelOf(crooked), 4);
    CHECK(found(hangs, Trouble::Heels));
    CHECK_FALSE(found(hangs, Trouble::RollsOver));
    const DiveStep& full = hangs.down.back();
    const Model model = modelOf(crooked);
    const double mass = model.mass + test::freshDensity() * model.tank_capacity;
    CHECK(std::abs(full.upright_lever) == Approx(*crooked.parts.back().mass * 0.006 / mass).epsilon(1e-6));
  }

  TEST_CASE("a shorter tank pitches less and holds less; what it costs in sail is the water it lacks") {
    const Boat boat = test::longTankBoat();
    const DiveSweep sweep = sweepOf(modelOf(boat), 40);
    const auto helps = tryHelps(boat, sweep, Water{});
    REQUIRE(helps);
    const auto shorter = std::find_if(helps->begin(), helps->end(),
                                      [](const HelpTried& h) { return h.help == Help::ShorterTank; });
    REQUIRE(shorter != helps->end());
    CHECK(shorter->remaining.empty());
    const BallastTank &was = *boat.tank, &now = *shorter->boat.tank;
    CHECK(was.fore_end - now.fore_end == Approx(shorter->amount / 2));
    CHECK(now.aft_end - was.aft_end == Approx(shorter->amount / 2));
    REQUIRE(shorter->sail_showing);
    const double lacks = shorter->amount * kPi * 0.027 * 0.027;  // bore of 54 mm
    // 40 mm of sail 150 x 30 mm in the water carry the whole of it, then the tube comes out.
    CHECK(lacks > 0.15 * 0.03 * 0.04);
    CHECK(*shorter->sail_showing > 0.08);
    CHECK(sweepOf(modelOf(shorter->boat), 40).findings.empty());
  }

  TEST_CASE("where no single change cures all, those that help somewhat are tried together") {
    const Boat boat = test::longTankBoat(0.004);  // rolls, and pitches
    const DiveSweep sweep = sweepOf(modelOf(boat), 40);
    REQUIRE(found(sweep, Trouble::RollsOver));
    REQUIRE(found(sweep, Trouble::Pitches));
    auto search = HelpSearch::start(boat, sweep, Water{});
    REQUIRE(search);
    int steps = 0;
    for (; !search->done() && steps < 50; ++steps) REQUIRE(search->step());
    CHECK(steps > 5);
    const std::vector<HelpTried>& helps = search->helps();
    REQUIRE(helps.size() >= 3);
    CHECK(helps.back().help == Help::Together);
    CHECK(helps.back().remaining.empty());
    for (std::size_t i = 0; i + 1 < helps.size(); ++i) CHECK_FALSE(helps[i].remaining.empty());
    CHECK(sweepOf(modelOf(helps.back().boat), 40).findings.empty());
    CHECK(greatestTrim(sweepOf(modelOf(helps.back().boat), 40)) == helps.back().greatest_trim);
  }

  TEST_CASE("a boat too heavy sinks at the end, by what it weighs too much") {
    Boat boat = withBulkheads(test::longTankBoat(), 3);
    *boat.parts.back().mass += 0.3;
    const Model model = modelOf(boat);
    const DiveSweep sweep = sweepOf(model, 20);
    REQUIRE(found(sweep, Trouble::Sinks));
    const double density = test::freshDensity();
    const double missing = model.mass + density * (model.tank_capacity - model.whole_volume);
    const auto sinks = std::find_if(sweep.findings.begin(), sweep.findings.end(),
                                    [](const Finding& f) { return f.trouble == Trouble::Sinks; });
    CHECK(sinks->worst == Approx(missing).epsilon(1e-9));
    CHECK_FALSE(sweep.down.back().sail_showing);
  }

  TEST_CASE("the tank's shift to the fore-and-aft balance levels a boat that a tank off centre tips") {
    Boat boat = withBulkheads(test::longTankBoat(0.012, 0.7), 3);
    const double shift = 0.10;
    boat.tank->aft_end += shift;
    boat.tank->fore_end += shift;
    for (double& x : boat.tank->bulkheads) x += shift;
    const DiveSweep sweep = sweepOf(modelOf(boat), 20);
    REQUIRE_FALSE(sweep.findings.empty());
    const auto helps = tryHelps(boat, sweep, Water{});
    REQUIRE(helps);
    const auto centred = std::find_if(helps->begin(), helps->end(),
                                      [](const HelpTried& h) { return h.help == Help::TankCentred; });
    REQUIRE(centred != helps->end());
    CHECK(centred->amount == Approx(-shift).epsilon(0.02));
  }

  TEST_CASE(
      "a tank far aft stands her on end, as far as its moment over weight times BG, and centred it does "
      "not") {
    Boat boat = withBulkheads(test::longTankBoat(0.012, 0.98), 3);
    const double shift = -0.2;
    boat.tank->aft_end += shift;
    boat.tank->fore_end += shift;
    for (double& x : boat.tank->bulkheads) x += shift;
    const Model model = modelOf(boat);
    const DiveSweep sweep = sweepOf(model, 40);
    REQUIRE(found(sweep, Trouble::StandsOnEnd));
    const Finding& on_end = sweep.findings.back();
    CHECK(on_end.worst > sweep.limits.on_end);  // bow up: the tank is aft
    CHECK_FALSE(on_end.water_runs);
    CHECK(on_end.to_fill == doctest::Approx(model.tank_capacity));
    const auto helps = tryHelps(boat, sweep, Water{});
    REQUIRE(helps);
    const auto centred = std::find_if(helps->begin(), helps->end(),
                                      [](const HelpTried& h) { return h.help == Help::TankCentred; });
    REQUIRE(centred != helps->end());
    CHECK(centred->amount == Approx(-shift).epsilon(0.02));
    CHECK(centred->remaining.empty());
    CHECK(centred->cured == std::vector<Trouble>{Trouble::Pitches, Trouble::StandsOnEnd});
    // Only a much shorter tank does the same: its water weighs less, so far aft.
    for (const HelpTried& h : *helps) CHECK((h.help == Help::TankCentred || h.help == Help::ShorterTank));
  }

  TEST_CASE("under water a tank aft by d stands her at tan = w d / (m BG)") {
    const double shift = -0.2;
    Boat boat = withBulkheads(test::longTankBoat(0.012, 0.98), 3);
    boat.tank->aft_end += shift;
    boat.tank->fore_end += shift;
    for (double& x : boat.tank->bulkheads) x += shift;
    const Model light = modelOf(boat);
    const double water = test::freshDensity() * light.tank_capacity, mass = light.mass + water;
    Part extra =
        boat.parts.back();  // half the sail, and a little: she goes under. At G of the full, level boat.
    extra.name = "too much";
    extra.mass = 0.3;
    extra.position.z = light.whole_centroid.z - 0.012;
    boat.parts.push_back(extra);
    const DiveSweep sweep = sweepOf(modelOf(boat), 40);
    REQUIRE(found(sweep, Trouble::Sinks));
    REQUIRE(found(sweep, Trouble::StandsOnEnd));
    const double trim = std::atan(water * -shift / ((mass + 0.3) * 0.012));
    CHECK(sweep.down.back().trim == Approx(trim).epsilon(1e-7));
  }

  TEST_CASE("lead lowered just enough cures a boat that rolls over, by (its weight - its water) d / weight") {
    const Boat boat = withBulkheads(test::longTankBoat(0.004), 3);
    const DiveSweep sweep = sweepOf(modelOf(boat), 40);
    REQUIRE(sweep.findings.size() == 1);
    REQUIRE(sweep.findings.front().trouble == Trouble::RollsOver);
    const auto helps = tryHelps(boat, sweep, Water{});
    REQUIRE(helps);
    REQUIRE(helps->size() == 1);
    const HelpTried& lower = helps->front();
    CHECK(lower.help == Help::LeadLower);
    CHECK(lower.remaining.empty());
    const Model model = modelOf(lower.boat);
    const auto gm = [](const Model& m, double fill) {
      const DiveSweep s = sweepOf(m, 2);
      return fill == 0 ? s.down.front().gm_transverse : s.down.back().gm_transverse;
    };
    const double pull = 0.4 * (1 - test::freshDensity() / 11340);  // the lead is under water all the way
    const double before = gm(modelOf(boat), 0);
    CHECK(gm(model, 0) == Approx(before + pull * lower.amount / model.mass).epsilon(1e-6));
    // The step before would have left her rolling at the worst fill.
    Boat less = boat;
    for (Part& p : less.parts)
      if (p.role == Role::Lead) p.position.z -= lower.amount - 0.005;
    CHECK(found(sweepOf(modelOf(less), 40), Trouble::RollsOver));
    CHECK(lower.amount > 0.005);
  }

  TEST_CASE("hover: grams for a millimetre of sail are its waterplane, and the band is metered by it") {
    const Model model = modelOf(withBulkheads(test::longTankBoat(), 3));
    const auto hover = hoverAt(model, Water{}, 0.045);
    REQUIRE(hover);
    REQUIRE(hover->has_value());
    const double plane = 0.15 * 0.03, density = test::freshDensity();
    CHECK((*hover)->mass_per_length == Approx(density * plane).epsilon(1e-4));
    CHECK((*hover)->metering == Approx(plane * kHoverBand).epsilon(1e-4));
    // Weighed by hand: full, 40 mm show; 5 mm more of sail out is that much less water in.
    CHECK((*hover)->tank_fill == Approx(model.tank_capacity - plane * 0.005).epsilon(1e-6));
    const auto beyond = hoverAt(model, Water{}, 0.01);
    REQUIRE(beyond);
    REQUIRE(beyond->has_value());
    CHECK((*beyond)->sail_showing == Approx(0.04).epsilon(1e-6));  // what the full tank leaves
    CHECK((*beyond)->tank_fill == model.tank_capacity);
    CHECK((*beyond)->mass_per_length == Approx(density * plane).epsilon(1e-4));
    CHECK_FALSE(hoverAt(model, Water{}, 0.2)->has_value());  // higher than she ever floats
    CHECK(massPerLengthOfScope(0.006, 1000) == Approx(0.0282743).epsilon(1e-5));
  }

  TEST_CASE("wrong input to the sweep names what is wrong") {
    const Model model = modelOf(test::longTankBoat());
    CHECK(sweepDive(model, Water{}, 1).error().field == "steps");
    CHECK(sweepDive(model, Water{500.0, 0.0}, 10).error().field == "water.temperature");
    CHECK(sweepDive(test::barge(1, 0.2, 0.2, 10, 0.05), Water{}, 10).error().field == "tank");
    CHECK(rightingCurve(model, {Water{}, 1.0}, 19).error().field == "tank_fill");
    CHECK(rightingCurve(model, {Water{}, 0.0}, 2).error().field == "points");
    CHECK(hoverAt(model, Water{}, 0.03, 0.0).error().field == "band");
    CHECK(withBulkheads(Boat{}, 2) == Boat{});
  }
}
