// The planner works in pieces and is of one boat and wish; a plan on the screen is what the core proves.
#include "session/planner.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <pondtrim/file/plan_json.hpp>

#include "session/plan_words.hpp"
#include "session/presets.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;

namespace {
Session crooked() {
  for (const PresetName& name : presetNames()) {
    if (name.name.find("Crooked") == std::string::npos) continue;
    auto session = Session::start(*preset(name.index));
    REQUIRE(session);
    return std::move(*session);
  }
  FAIL("there is no such preset");
  return test::firstSession();
}

void workAll(Planner& planner, const Session& session) {
  for (int i = 0; planner.owes(session) && i < 9; ++i) planner.work(session);
  REQUIRE_FALSE(planner.owes(session));
}
}  // namespace

TEST_CASE("the planner owes until plan, polygons and curve are there, and again after an edit or a wish") {
  Session session = crooked();
  Planner planner;
  CHECK(planner.owes(session));
  planner.work(session);
  CHECK(planner.isFresh(session));
  CHECK(planner.owes(session));  // the plots come later
  REQUIRE(planner.plan());
  CHECK(planner.plan()->found);
  workAll(planner, session);
  CHECK(planner.diagrams().size() == 2);
  CHECK(planner.curve().size() > 2);

  PlanRequest wish = session.planWish();
  wish.goal = Goal::FewestChanges;
  session.setPlanWish(wish);
  CHECK_FALSE(planner.isFresh(session));
  workAll(planner, session);
  CHECK(planner.request().goal == Goal::FewestChanges);
  CHECK(planner.boat() == session.boat());
}

TEST_CASE("a plan in the boat puts her on her line; one undo takes all of it out") {
  Session session = crooked();
  const Boat before = session.boat();
  REQUIRE(std::abs(session.empty().bow->line_above_water) > 0.003);
  Planner planner;
  workAll(planner, session);
  REQUIRE(planner.plan()->found);
  REQUIRE(session.edit(installPlan(session.boat(), *planner.plan())));
  CHECK(std::abs(session.empty().bow->line_above_water) < 0.001);
  CHECK(std::abs(session.empty().stern->line_above_water) < 0.001);
  CHECK(std::abs(session.full().sail_showing - before.aims.sail_showing) < 0.002);
  session.undo();
  CHECK(session.boat() == before);
}

TEST_CASE("the water as planned is where it lies once the plan is in, at any fill; then there is none") {
  Session session = crooked();
  Planner planner;
  CHECK_FALSE(planner.plannedWater(session));
  workAll(planner, session);
  const Boat fitted = installPlan(session.boat(), *planner.plan());
  std::vector<Plane> planned;
  for (const double fill : {0.0, 0.4, 1.0}) {
    session.setFillShare(fill);
    const auto water = planner.plannedWater(session);
    REQUIRE(water);
    CHECK(water->level == planner.plannedWater(session)->level);
    CHECK(std::abs(water->level - session.atFill().rest.plane.level) > 1e-4);  // not where she lies now
    planned.push_back(*water);
  }
  REQUIRE(session.edit(fitted));
  CHECK_FALSE(planner.plannedWater(session));
  int i = 0;
  for (const double fill : {0.0, 0.4, 1.0}) {
    session.setFillShare(fill);
    CHECK(planned[std::size_t(i)].level == doctest::Approx(session.atFill().rest.plane.level).epsilon(1e-6));
    CHECK(planned[std::size_t(i++)].up.x == doctest::Approx(session.atFill().rest.plane.up.x).epsilon(1e-6));
  }
  workAll(planner, session);
  CHECK_FALSE(planner.plannedWater(session));  // nothing is left to do
}

TEST_CASE("before and after of a plan are those of the boat, in both conditions") {
  Session session = crooked();
  Planner planner;
  workAll(planner, session);
  const Plan& plan = *planner.plan();
  REQUIRE(plan.present.size() == plan.proofs.size());
  CHECK(plan.present[0].report.bow->draft == session.empty().bow->draft);
  CHECK(plan.present[1].report.sail_showing == session.full().sail_showing);
  CHECK_FALSE(plan.present[0].holds);
  CHECK(plan.proofs[0].holds);
}

TEST_CASE("conditions besides the usual two are added, planned for and left out again") {
  Session session = crooked();
  const Boat before = session.boat();
  const Boat sea = withOtherWater(before);
  REQUIRE(sea.aims.further.size() == before.aims.further.size() + 1);
  CHECK(sea.aims.further.back().water->salinity == 35);
  CHECK(withoutFurther(sea, before.aims.further.size()) == before);
  CHECK(withOtherWater(sea).aims.further.back().name != sea.aims.further.back().name);
  const auto part = partToSwap(before);
  REQUIRE(part);
  CHECK(before.parts[*part].name == "gel battery");  // outside the cylinder, the heaviest item
  const Boat other = withOtherMass(before, *part);
  CHECK(other.aims.further.back().part == before.parts[*part].name);
  REQUIRE(session.edit(other));
  Planner planner;
  workAll(planner, session);
  REQUIRE(planner.plan());
  REQUIRE(planner.plan()->found);  // the same weight: as easy as without
  CHECK(planner.plan()->proofs.size() == 3);
  Boat light = before;  // now the pump is the heaviest item, until it is a place itself
  light.parts[*part].mass = 0.01;
  const auto pump = partToSwap(light);
  REQUIRE(pump);
  CHECK(light.parts[*pump].name == "pump");
  const Boat railed = withRail(light, *pump);
  REQUIRE(railed.places.back().rail);
  CHECK(railed.parts[partToSwap(railed).value()].name == "drive motor");
  REQUIRE(session.edit(withRail(before, *pump)));
}

TEST_CASE("a boat without places gets a reason, not a plan") {
  Session session = crooked();
  Boat bare = session.boat();
  bare.places.clear();
  REQUIRE(session.edit(bare));
  Planner planner;
  workAll(planner, session);
  CHECK_FALSE(planner.plan());
  CHECK(planner.fault().find("place") != std::string::npos);
  CHECK(planner.diagrams().empty());
}

TEST_CASE("a part becomes a place and stops being one") {
  Session session = test::firstSession();
  Boat bare = session.boat();
  bare.places.clear();
  for (std::size_t i = 0; i < bare.parts.size(); ++i) {
    if (bare.parts[i].role != Role::Foam) continue;
    const Boat with = withPlace(bare, i);
    REQUIRE(with.places.size() == 1);
    CHECK(partOf(with, with.places[0]) == i);
    CHECK(amountQuantity(with, with.places[0]) == Quantity::Volume);
    CHECK(withoutPlace(with, 0) == bare);
  }
}

TEST_CASE("what a plan leaves over is said with its side") {
  Proof proof;
  proof.wanted.name = "tank empty";
  proof.bow_off = 0.0012;
  proof.stern_off = -0.0004;
  proof.heel_off = 0.02;
  CHECK(proofWords(proof, file::kMetricUnits) ==
        "Tank empty: bow 1.2\u00a0mm low, stern 0.4\u00a0mm high, 1.15\u00b0 to starboard.");
  Plan plan;
  plan.tank = TankRange{320e-6, 410e-6};
  CHECK(tankWords(plan, file::kMetricUnits) ==
        "With these places a tank of 320\u00a0mL to 410\u00a0mL can be trimmed.");
  plan.tank->largest.reset();
  CHECK(tankWords(plan, file::kMetricUnits).find("from 320") != std::string::npos);
}

TEST_CASE("a point of the polygon is read against the boat as she is") {
  BalanceDiagram diagram;
  const Supply lead[] = {{"fore", 0.2, 0.04}, {"aft", 0.2, -0.04}};
  diagram.polygon = balancePolygon(lead);
  diagram.present = {0.1, 0.0};
  CHECK(balanceWords(diagram, {0.2, 0.01}, file::kMetricUnits) ==
        "100\u00a0g heavier than now, and as if 100\u00a0g were moved 100\u00a0mm forward: within reach.");
  CHECK(balanceWords(diagram, {0.9, 0.0}, file::kMetricUnits).find("out of reach") != std::string::npos);
}
