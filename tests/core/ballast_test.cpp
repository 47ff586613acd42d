// The ballast system as a whole, depth, and which inputs are refused.
#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <pondtrim/ballast.hpp>
#include <pondtrim/depth.hpp>
#include <pondtrim/stability.hpp>
#include <pondtrim/strength.hpp>

#include "support/dive_boat.hpp"
#include "support/models.hpp"

using namespace pondtrim;
using doctest::Approx;

namespace {

Pump pump() {
  Pump out;
  out.free_flow = 20e-6;
  out.stall_pressure = 2e5;
  out.rated_voltage = 12;
  out.free_current = 0.5;
  out.stall_current = 4.5;
  return out;
}

Boat boatWith(BallastKind kind) {
  Boat boat = withBulkheads(test::longTankBoat(), 3);
  boat.ballast = BallastSystem{std::move(kind), Battery{12.6, 9.9, 2.0 * 3600}};
  return boat;
}

BallastReport reportOn(const Boat& boat, double depth = 1.0) {
  const auto model = buildModel(boat);
  REQUIRE(model);
  auto report = evaluateBallast(boat, *model, boat.water, depth);
  REQUIRE(report);
  return std::move(*report);
}

GasBlow gasBlow() { return {"n-butane", 0.2, 0.004, 0.02, 100e-6}; }

}  // namespace

TEST_SUITE("ballast") {
  TEST_CASE("a sealed tank as large as its air can never fill, a vented one can") {
    const BallastReport sealed = reportOn(boatWith(SealedTankPump{pump(), {}}));
    CHECK_FALSE(sealed.fill_full.completes);
    REQUIRE(sealed.fill_full.stall_fill);
    // p0 f / (1 - f) = p_stall V / Vn
    const double stall = 2e5 * 12.6 / 12;
    CHECK(*sealed.fill_full.stall_fill / sealed.tank_capacity ==
          Approx(stall / (stall + kAtmosphere)).epsilon(1e-9));
    CHECK(*sealed.fill_tired->stall_fill < *sealed.fill_full.stall_fill);
    CHECK_FALSE(sealed.dives_per_charge);
    CHECK_FALSE(sealed.air_pressure);
    const BallastReport vented = reportOn(boatWith(VentedTankPump{pump(), 1.1e-3}));
    CHECK(vented.fill_full.completes);
    CHECK(vented.blow_tired->completes);
    REQUIRE(vented.air_pressure);
    CHECK(*vented.air_pressure == Approx(kAtmosphere * vented.tank_capacity / 1.1e-3).epsilon(1e-9));
    CHECK(*vented.air_pressure_sudden > *vented.air_pressure);
    REQUIRE(vented.fill_full.margin);
    CHECK(*vented.fill_full.margin == Approx(stall / *vented.air_pressure).epsilon(1e-9));
    CHECK(vented.fill_tired->time > vented.fill_full.time);
  }

  TEST_CASE("the curve runs from start to end, and charge is current times time") {
    const BallastReport r = reportOn(boatWith(VentedTankPump{pump(), 1.1e-3}));
    for (const BallastRun* run : {&r.fill_full, &r.blow_full}) {
      REQUIRE(run->curve.size() > 10);
      CHECK(run->curve.front().time == 0.0);
      CHECK(run->curve.back().time == run->time);
      double charge = 0;
      for (std::size_t i = 1; i < run->curve.size(); ++i) {
        const BallastPoint &a = run->curve[i - 1], &b = run->curve[i];
        CHECK(b.time > a.time);
        charge += (a.current + b.current) / 2 * (b.time - a.time);
      }
      REQUIRE(run->charge);
      CHECK(*run->charge == Approx(charge).epsilon(1e-3));
    }
    REQUIRE(r.dives_per_charge);
    const double worst =
        std::max(*r.fill_full.charge + *r.blow_full.charge, *r.fill_tired->charge + *r.blow_tired->charge);
    CHECK(*r.dives_per_charge == Approx(7200 / worst));
  }

  TEST_CASE("a piston is a pump of the same force and speed") {
    PistonTank piston;
    piston.diameter = 0.05;
    piston.free_speed = 0.01;
    piston.stall_force = 6000;
    piston.rated_voltage = 12;
    piston.cylinder_air = 1.1e-3;
    const Pump like = pumpLikePiston(piston);
    const double area = kPi * 0.025 * 0.025;
    CHECK(like.free_flow == Approx(0.01 * area));
    CHECK(like.stall_pressure * area == Approx(6000));
    CHECK(reportOn(boatWith(piston)).fill_full.completes);
  }

  TEST_CASE("no pump empties the tank below the depth of its stall pressure") {
    const BallastReport r = reportOn(boatWith(VentedTankPump{pump(), 1.1e-3}));
    REQUIRE(r.deepest_blow_tired);
    CHECK(reportOn(boatWith(VentedTankPump{pump(), 1.1e-3}), *r.deepest_blow_tired * 0.999)
              .blow_tired->completes);
    CHECK_FALSE(reportOn(boatWith(VentedTankPump{pump(), 1.1e-3}), *r.deepest_blow_tired * 1.001)
                    .blow_tired->completes);
  }

  TEST_CASE("gas: a deeper blow takes more, and cold water takes the can's pressure away") {
    const Boat boat = boatWith(gasBlow());
    const BallastReport shallow = reportOn(boat, 0.0), deep = reportOn(boat, 3.0);
    REQUIRE(shallow.gas);
    REQUIRE(deep.gas);
    const double density = waterDensity(boat.water).value();
    CHECK(deep.gas->mass_per_blow / shallow.gas->mass_per_blow ==
          Approx(1 + density * kGravity * 3 / kAtmosphere).epsilon(1e-9));
    CHECK(shallow.gas->blows == static_cast<int>(0.2 / shallow.gas->mass_per_blow));
    CHECK(shallow.gas->can_blow);
    // Flood: t = 2 V / Q0; three quarters of the water are in after half of that.
    const BallastRun& flood = shallow.fill_full;
    CHECK(flood.curve[30].fill == Approx(0.75 * shallow.tank_capacity));
    CHECK(flood.curve[30].time == Approx(flood.time / 2).epsilon(1e-9));
    Boat cold = boat;
    cold.water.temperature = 273.15 + 1;
    CHECK_FALSE(reportOn(cold, 3.0).gas->can_blow);
    CHECK(reportOn(cold, 3.0).gas->blows == 0);
  }

  TEST_CASE("depth takes buoyancy away, and there is one depth of no return") {
    Boat boat = withBulkheads(test::longTankBoat(), 3);
    Part foam;
    foam.name = "foam";
    foam.role = Role::Foam;
    foam.shape = BoxShape{{0.1, 0.05, 0.05}};
    foam.position = {0.5, 0, 0.1};
    foam.mass = 0.25;  // as heavy as its water: only its squeezing shows
    foam.bulk_modulus = 2e6;
    boat.parts.push_back(foam);
    const auto model = buildModel(boat);
    REQUIRE(model);
    const Condition full{boat.water, model->tank_capacity};
    const auto curve = depthCurve(boat, *model, full, 100, 101);
    REQUIRE(curve);
    CHECK(curve->points[0].net_buoyancy ==
          Approx(test::reportOf(*model, full).net_buoyancy_submerged).epsilon(1e-9));
    for (std::size_t i = 1; i < curve->points.size(); ++i)
      CHECK(curve->points[i].net_buoyancy < curve->points[i - 1].net_buoyancy);
    const DepthPoint& ten = curve->points[10];
    CHECK(ten.foam_loss ==
          Approx(test::freshDensity() * 0.25e-3 * (1 - std::exp(-ten.pressure / 2e6))).epsilon(1e-9));
    CHECK(curve->hull_assumed_rigid);
    CHECK_FALSE(curve->foam_assumed);
    // A flexible cylinder brings the depth of no return into sight.
    boat.cylinders[0].flexibility = 0.2e-3 / 5e5;  // 200 mL at 5 bar
    boat.cylinders[1].flexibility = 0.0;
    const auto soft = depthCurve(boat, *model, full, 100, 2);
    REQUIRE(soft);
    REQUIRE(soft->point_of_no_return);
    const auto there = depthCurve(boat, *model, full, *soft->point_of_no_return, 2);
    REQUIRE(there);
    CHECK(std::abs(there->points.back().net_buoyancy) < 1e-9);
    CHECK_FALSE(soft->hull_assumed_rigid);
    // A known material gives way by its data sheets' lowest modulus; what comes after a comma describes it.
    Boat sheet = boat;
    sheet.cylinders[0].flexibility.reset();
    for (const char* stock : {"acrylic", "PVC, rigid", "aluminium"}) {
      CAPTURE(stock);
      sheet.cylinders[0].material = stock;
      const TubeMaterial* known = findTubeMaterial(stock);
      REQUIRE(known != nullptr);
      const auto given = depthCurve(sheet, *model, full, 10, 2);
      REQUIRE(given);
      CHECK(given->hull_from_sheet);
      CHECK_FALSE(given->hull_assumed_rigid);
      const double r = (0.1 - 0.003) / 2, volume = kPi * 0.05 * 0.05 * 0.8;
      const double share =
          (2.5 - 2 * known->poisson) * given->points[1].pressure * r / (known->modulus_low * 0.003);
      CHECK(given->points[1].hull_loss == Approx(test::freshDensity() * volume * share).epsilon(1e-9));
    }
    sheet.cylinders[0].material = "liverwurst";
    CHECK(depthCurve(sheet, *model, full, 10, 2)->hull_assumed_rigid);
    const auto waters = depthInWaters(boat, *model, full, 100);
    REQUIRE(waters);
    CHECK((*waters)[0].net_buoyancy < (*waters)[1].net_buoyancy);  // warm pool, cold lake
    CHECK((*waters)[1].net_buoyancy < (*waters)[2].net_buoyancy);  // sea
    boat.parts.back().water_uptake = 0.02;
    const auto soaked = depthCurve(boat, *model, full, 100, 2);
    REQUIRE(soaked);
    CHECK(soaked->soaked_loss == Approx(0.02 * test::freshDensity() * 0.25e-3));
  }

  TEST_CASE("what is to be added in other water brings her back to the sail she showed") {
    const Boat boat = withBulkheads(test::longTankBoat(), 3);
    const auto model = buildModel(boat);
    REQUIRE(model);
    const Condition here{boat.water, model->tank_capacity};
    const auto waters = depthInWaters(boat, *model, here, 10);
    REQUIRE(waters);
    const Report before = test::reportOf(*model, here);
    for (const WaterAnswer& a : *waters) {
      CAPTURE(static_cast<int>(a.water));
      Boat ballasted = boat;
      Part& lead = ballasted.parts[1];
      lead.density = lead.density.value() * (*lead.mass + a.ballast_change) / *lead.mass;  // no larger
      *lead.mass += a.ballast_change;
      const auto heavier = buildModel(ballasted);
      REQUIRE(heavier);
      const Report after = test::reportOf(*heavier, {waterOf(a.water), model->tank_capacity});
      CHECK(std::abs(after.sail_showing - before.sail_showing) < 1e-6);
    }
  }

  TEST_CASE("a strength estimate always carries its caution, and knows what it does not know") {
    Boat boat = withBulkheads(test::longTankBoat(), 3);
    CHECK(estimateStrength(boat, 0, Water{}, 1).error().field == "cylinders[0].material");
    boat.cylinders[0].material = "acrylic";
    const auto s = estimateStrength(boat, 0, Water{}, 1);
    REQUIRE(s);
    CHECK(s->caution == kPressureCaution);
    CHECK(s->collapse_pressure.low < s->collapse_pressure.high);
    CHECK(s->collapse_depth_over_factor == Approx(s->collapse_depth.low / 4));
    CHECK(s->within_factor);
    CHECK(s->unsupported_length == Approx(0.8));
    boat.cylinders[0].wall_thickness = 0.0005;
    const auto thin = estimateStrength(boat, 0, Water{}, 10);
    REQUIRE(thin);
    CHECK_FALSE(thin->within_factor);
    CHECK(estimateStrength(boat, 9, Water{}, 1).error().field == "cylinders[9]");
    CHECK(estimateStrength(boat, 0, Water{}, -1).error().field == "depth");
    // The tank's bulkheads hold the tube round.
    boat.cylinders[1].material = "PVC";
    const auto tube = estimateStrength(boat, 1, Water{}, 1);
    REQUIRE(tube);
    CHECK(tube->unsupported_length == Approx(0.46 / 4));
    CHECK(tube->tube_length == Approx(0.5));
    // The low figure does not count on them.
    const SealedCylinder& c = boat.cylinders[1];
    const TubeMaterial* pvc = findTubeMaterial("PVC");
    const double mean = c.diameter - c.wall_thickness;
    const double bare =
        std::max(longTubeCollapse(pvc->modulus_low, pvc->poisson, mean / 2, c.wall_thickness),
                 shortTubeCollapse(pvc->modulus_low, pvc->poisson, mean, c.wall_thickness, 0.5));
    CHECK(tube->collapse_pressure.low == Approx(bare));
    CHECK(tube->collapse_pressure.high ==
          Approx(shortTubeCollapse(pvc->modulus_high, pvc->poisson, mean, c.wall_thickness, 0.46 / 4)));
    // A piston is no disc.
    boat.ballast = BallastSystem{PistonTank{0.05, 0.01, 300, 12, 1e-3, {}, {}}, {}};
    CHECK(estimateStrength(boat, 1, Water{}, 1)->unsupported_length == Approx(0.5));
  }

  TEST_CASE("a ballast system that cannot work is refused by name") {
    struct Case {
      const char* field;
      std::function<void(Boat&)> spoil;
    };
    const auto vented = [](Boat& b) -> VentedTankPump& { return std::get<VentedTankPump>(b.ballast->kind); };
    const Case cases[] = {
        {"ballast.pump.free_flow", [&](Boat& b) { vented(b).pump.free_flow = 0; }},
        {"ballast.pump.stall_pressure", [&](Boat& b) { vented(b).pump.stall_pressure = 0; }},
        {"ballast.pump.free_flow", [&](Boat& b) { vented(b).pump.free_flow = -1e-6; }},
        {"ballast.pump.rated_voltage", [&](Boat& b) { vented(b).pump.rated_voltage = -12; }},
        {"ballast.pump.hose_loss", [&](Boat& b) { vented(b).pump.hose_loss = -1; }},
        {"ballast.pump.stall_current", [&](Boat& b) { vented(b).pump.stall_current = 0.1; }},
        {"ballast.pump.stall_current", [&](Boat& b) { vented(b).pump.stall_current.reset(); }},
        {"ballast.cylinder_air", [&](Boat& b) { vented(b).cylinder_air = 0; }},
        {"ballast.cylinder_air", [&](Boat& b) { vented(b).cylinder_air = 1; }},
        {"ballast.battery.full_voltage", [](Boat& b) { b.ballast->battery->full_voltage = -12; }},
        {"ballast.battery.tired_voltage", [](Boat& b) { b.ballast->battery->tired_voltage = 13; }},
        {"ballast.battery.tired_voltage", [](Boat& b) { b.ballast->battery->tired_voltage = std::nan(""); }},
        {"ballast.battery.charge", [](Boat& b) { b.ballast->battery->charge = 0; }},
        {"ballast", [](Boat& b) { b.tank.reset(); }},
        {"ballast.air",
         [](Boat& b) {
           b.ballast->kind = SealedTankPump{pump(), 1e-4};
         }},
        {"ballast.air",
         [](Boat& b) {
           b.ballast->kind = SealedTankPump{pump(), 1.0};
         }},
        {"ballast.cylinder_air",
         [](Boat& b) { b.ballast->kind = PistonTank{0.05, 0.01, 300, 12, 1, {}, {}}; }},
        {"ballast.diameter",
         [](Boat& b) { b.ballast->kind = PistonTank{0.058, 0.01, 300, 12, 1e-3, {}, {}}; }},
        {"ballast.gas",
         [](Boat& b) {
           GasBlow g = gasBlow();
           g.gas = "swamp gas";
           b.ballast->kind = g;
         }},
        {"ballast.vent_diameter",
         [](Boat& b) {
           GasBlow g = gasBlow();
           g.vent_diameter = 0;
           b.ballast->kind = g;
         }},
        {"ballast.diameter", [](Boat& b) { b.ballast->kind = PistonTank{0, 0.01, 300, 12, 1e-3, {}, {}}; }},
        {"cylinders[0].poisson_ratio", [](Boat& b) { b.cylinders[0].poisson_ratio = 0.6; }},
        {"parts[0].water_uptake", [](Boat& b) { b.parts[0].water_uptake = 1.5; }},
    };
    for (const Case& c : cases) {
      // Cylinder air above the tube's bore is refused, so keep it small where nothing is spoilt.
      Boat boat = boatWith(VentedTankPump{pump(), 1e-3});
      REQUIRE(checkBoat(boat));
      c.spoil(boat);
      CAPTURE(c.field);
      const auto checked = checkBoat(boat);
      REQUIRE_FALSE(checked);
      CHECK(checked.error().field == c.field);
      CHECK_FALSE(checked.error().allowed.empty());
      CHECK_FALSE(checked.error().message.empty());
    }
    const Boat bare = withBulkheads(test::longTankBoat(), 3);
    const auto model = buildModel(bare);
    REQUIRE(model);
    CHECK(evaluateBallast(bare, *model, Water{}, 1).error().field == "ballast");
    CHECK(evaluateBallast(boatWith(gasBlow()), *model, Water{}, -1).error().field == "depth");
    CHECK(saturationPressure(*findGas("propane"), 200).error().field == "water.temperature");
  }
}
