// From a dozen numbers to a boat that can be trimmed; full size to model.
#include <doctest/doctest.h>

#include <algorithm>
#include <pondtrim/estimate.hpp>
#include <pondtrim/model.hpp>
#include <pondtrim/plan.hpp>
#include <pondtrim/scale.hpp>

using namespace pondtrim;

namespace {

/// A slim boat of that length with everything in proportion.
RoughBoat slim(double length) {
  const double k = length / 1.0;
  RoughBoat r;
  r.length *= k;
  r.breadth *= k;
  r.height *= k;
  r.line_height *= k;
  r.sail_height *= k;
  r.sail_showing *= k;
  r.cylinder_length *= k;
  r.cylinder_diameter *= k;
  r.battery_mass *= k * k * k;
  return r;
}

}  // namespace

TEST_CASE("from a dozen numbers to a plan that brings her to her line and to the wanted sail") {
  for (const double length : {1.0, 1.5, 2.0}) {
    CAPTURE(length);
    const RoughBoat rough = slim(length);
    const auto boat = estimateBoat(rough);
    REQUIRE_MESSAGE(boat, boat.error().message);
    const auto plan = makePlan(*boat);
    REQUIRE_MESSAGE(plan, plan.error().message);
    REQUIRE(plan->found);
    const auto model = buildModel(installPlan(*boat, *plan));
    REQUIRE(model);
    const auto empty = evaluate(*model, {boat->water, 0}),
               full = evaluate(*model, {boat->water, model->tank_capacity});
    REQUIRE(empty);
    REQUIRE(full);
    CHECK(empty->bow->line_above_water == doctest::Approx(0).epsilon(1).scale(0.001));
    CHECK(empty->stern->line_above_water == doctest::Approx(0).epsilon(1).scale(0.001));
    CHECK(full->sail_showing == doctest::Approx(rough.sail_showing).epsilon(0.05));
    CHECK(empty->gm_transverse >= boat->aims.least_gm * 0.99);
  }
}

TEST_CASE("a model of a full-size boat gets a cylinder that carries her, and a plan") {
  for (const double scale : {72.0, 60.0, 40.0}) {
    CAPTURE(scale);
    FullSize full;
    full.scale = scale;
    const auto model = scaleDown(full, {});
    REQUIRE(model);
    RoughBoat weighed;
    weighed.skin_mass = 5;  // of another boat
    const RoughBoat rough = sizedAs(*model, weighed);
    CHECK(rough.line_height == full.draft / scale);
    CHECK_FALSE(rough.skin_mass);
    const auto boat = estimateBoat(rough);
    REQUIRE(boat);
    const auto plan = makePlan(*boat);
    REQUIRE(plan);
    CHECK(plan->found);
  }
}

TEST_CASE("too small a boat for its skin has no plan, and is told why") {
  const auto boat = estimateBoat(slim(0.5));
  REQUIRE(boat);
  const auto plan = makePlan(*boat);
  REQUIRE(plan);
  CHECK_FALSE(plan->found);
  CHECK_FALSE(plan->blame.conflict.empty());
}

TEST_CASE("what was given stands in the boat, all other weights are marked as estimated or have none") {
  RoughBoat rough;
  rough.skin_mass = 0.64;
  rough.tank_capacity = 0.0004;
  const auto boat = estimateBoat(rough);
  REQUIRE(boat);
  const auto model = buildModel(*boat);
  REQUIRE(model);
  CHECK(model->tank_capacity == doctest::Approx(0.0004));
  CHECK(boat->skins[0].mass == 0.64);
  CHECK_FALSE(boat->skins[1].mass);
  CHECK_FALSE(boat->cylinders[0].mass);
  int estimated = 0;
  for (const Part& p : boat->parts) {
    CAPTURE(p.name);
    const bool weighty = p.mass.value_or(0) > 0;
    if (p.name == "battery") {
      CHECK(p.mass == rough.battery_mass);
      CHECK_FALSE(isEstimate(p));
    } else if (weighty) {
      CHECK(isEstimate(p));
      ++estimated;
    }
  }
  CHECK(estimated == 7);
}

TEST_CASE("a heavier battery or a heavier skin makes a heavier boat by just that much") {
  const auto massOf = [](const RoughBoat& r) { return buildModel(*estimateBoat(r))->mass; };
  RoughBoat rough;
  rough.skin_mass = 0.5;
  rough.tank_capacity = 0.0004;
  const double before = massOf(rough);
  rough.battery_mass += 0.1;
  rough.skin_mass = 0.7;
  CHECK(massOf(rough) - before == doctest::Approx(0.3));
}

TEST_CASE("numbers that make no boat are refused by name") {
  const auto fieldOf = [](const auto& change) {
    RoughBoat rough;
    change(rough);
    const auto boat = estimateBoat(rough);
    return boat ? std::string() : boat.error().field;
  };
  CHECK(fieldOf([](RoughBoat& r) { r.length = 0; }) == "start.length");
  CHECK(fieldOf([](RoughBoat& r) { r.line_height = 2 * r.height; }) == "start.line_height");
  CHECK(fieldOf([](RoughBoat& r) { r.cylinder_diameter = r.breadth; }) == "start.cylinder.diameter");
  CHECK(fieldOf([](RoughBoat& r) { r.cylinder_length = r.length; }) == "start.cylinder.length");
  CHECK(fieldOf([](RoughBoat& r) { r.sail_showing = 2 * r.sail_height; }) == "start.sail_showing");
  CHECK(fieldOf([](RoughBoat& r) { r.tank_capacity = 1; }) == "start.tank.capacity");
  CHECK(fieldOf([](RoughBoat& r) { r.water.temperature = 0; }) == "water.temperature");
}

TEST_CASE("scale: lengths by the scale, weight by its cube, and lighter in fresh water than in salt") {
  FullSize full;
  full.scale = 50;
  full.length = 60;
  full.draft = 4;
  full.displacement = 800e3;
  const auto fresh = scaleDown(full, {288.15, 0}), salt = scaleDown(full, {288.15, 35});
  REQUIRE(fresh);
  REQUIRE(salt);
  CHECK(fresh->length == doctest::Approx(1.2));
  CHECK(fresh->line_height == doctest::Approx(0.08));
  CHECK(salt->mass == doctest::Approx(800e3 / 125e3));  // same water: by the cube alone
  CHECK(fresh->mass < salt->mass);
  CHECK(fresh->mass / salt->mass ==
        doctest::Approx(*waterDensity({288.15, 0}) / *waterDensity({288.15, 35})));
  CHECK_FALSE(fresh->estimated);
  full.displacement.reset();
  const auto guessed = scaleDown(full, {288.15, 0});
  REQUIRE(guessed);
  CHECK(guessed->estimated);
  CHECK(guessed->volume == doctest::Approx(0.6 * 60 * full.breadth * 4 / 125e3));
  full.scale = 0;
  CHECK(scaleDown(full, {288.15, 0}).error().field == "scale.scale");
}
