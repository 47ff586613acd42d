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
