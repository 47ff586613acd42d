// Every preset: plan, install, solve again. For every goal, in any amounts and in whole pieces.
#include <doctest/doctest.h>

#include <algorithm>
#include <pondtrim/plan.hpp>
#include <pondtrim/report.hpp>

#include "support/plan_boats.hpp"
#include "support/presets.hpp"

using namespace pondtrim;

namespace {

constexpr double kDegree = kPi / 180;
constexpr Goal kGoals[] = {Goal::LeastWeight, Goal::FewestChanges, Goal::MostStability};

}  // namespace

TEST_CASE("every preset has places and a plan, right to a millimetre and a tenth of a degree") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat boat = test::presetBoat(path).boat;
    CHECK(boat.places.size() >= 8);
    double carried[3] = {};
    for (const Goal goal : kGoals) {
      PlanRequest request;
      request.goal = goal;
      const auto plan = makePlan(boat, request);
      REQUIRE(plan);
      REQUIRE(plan->found);
      for (const Proof& proof : plan->proofs) CHECK(proof.holds);
      test::checkFitted(boat, *plan);
      carried[std::size_t(goal)] = plan->carry_mass_after;
    }
    CHECK(carried[0] <= carried[1] + 1e-9);
    CHECK(carried[0] <= carried[2] + 1e-9);
  }
}

/// Pieces that must make trim, heel and both marks at once bring the sail within about one of the finest
/// [kg]; foam by lift.
double finestStep(const Boat& boat) {
  double finest = 1;
  for (const Place& place : boat.places) {
    if (place.rail || place.step <= 0) continue;
    const auto part = std::find_if(boat.parts.begin(), boat.parts.end(),
                                   [&](const Part& p) { return p.name == place.part; });
    REQUIRE(part != boat.parts.end());
    finest = std::min(finest, part->role == Role::Foam ? 1000 * place.step : place.step);
  }
  return finest;
}

// Their steps: a millilitre or a gram in the small boats, ten and fifty in the largest. A gram at an end of
// the small ones turns them by a degree when dived; several places together come nearer than one step of any.
TEST_CASE("every preset has a plan in whole pieces as near as its steps allow") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat boat = test::presetBoat(path).boat;
    for (const Goal goal : kGoals) {
      PlanRequest request;
      request.goal = goal;
      request.whole_pieces = true;
      const auto plan = makePlan(boat, request);
      REQUIRE(plan);
      REQUIRE(plan->found);
      for (const Proof& proof : plan->proofs) CHECK(proof.holds);
      test::Allowed allowed;
      allowed.mark = 0.0005;
      allowed.sail = 1;  // grams count: the thin sail turns two into centimetres
      allowed.sail_mass = std::max(0.002, finestStep(boat));
      allowed.angle = 0.3 * kDegree;
      allowed.dived_angle = 0.7 * kDegree;
      allowed.floor = 1e-4;
      test::checkFitted(boat, *plan, allowed);
      test::checkWhole(boat, *plan);
    }
  }
}

TEST_CASE("the places of the good presets leave room to undo what a pond shows") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat boat = test::presetBoat(path).boat;
    if (boat.name.find("poor trim") != std::string::npos) continue;
    const auto model = buildModel(boat);
    REQUIRE(model);
    // A fiftieth of what she displaces, above the line and below it, to put in and to take out.
    const double wanted = 0.018 * model->whole_volume;
    double in[2] = {}, room[2] = {}, port = 0, starboard = 0;
    for (const Place& place : boat.places) {
      const auto part = std::find_if(boat.parts.begin(), boat.parts.end(),
                                     [&](const Part& p) { return p.name == place.part; });
      REQUIRE(part != boat.parts.end());
      const double pieces = part->mirrored ? 2 : 1;
      if (part->role == Role::Foam) {
        const int above = part->position.z > boat.marks.line_height ? 1 : 0;
        in[above] += pieces * *part->volume;
        room[above] += pieces * (shapeVolume(*part) - *part->volume);
      }
      if (part->role == Role::Lead && !part->mirrored) {
        const double free = *part->density * shapeVolume(*part) - *part->mass;
        if (part->position.y > 0.02) port += free * part->position.y;
        if (part->position.y < -0.02) starboard -= free * part->position.y;
      }
    }
    CHECK(in[1] > wanted);
    CHECK(room[1] > wanted);
    CHECK(room[0] > wanted);
    // Battery, motor and pump a few millimetres off the middle: a gram-metre a kilogram.
    CHECK(port > 0.0008 * model->mass);
    CHECK(starboard > 0.0008 * model->mass);
  }
}

TEST_CASE("every preset's polygons hold what balances it, and its weight rises with stability") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat boat = test::presetBoat(path).boat;
    const auto diagrams = balanceDiagrams(boat);
    REQUIRE(diagrams);
    REQUIRE(diagrams->size() == 2);
    for (const BalanceDiagram& d : *diagrams) {
      CHECK(d.inside);
      CHECK(d.polygon.contains(d.present));
    }
    const auto curve = stabilityCurve(boat, {}, 4);
    REQUIRE(curve);
    REQUIRE(curve->size() == 4);
    for (std::size_t i = 1; i < curve->size(); ++i)
      CHECK((*curve)[i].carry_mass >= (*curve)[i - 1].carry_mass - 1e-9);
    CHECK(curve->back().stability > curve->front().stability);
  }
}
