// Trim plans: proved by the equilibrium, on boats whose answer is known to exist, and on those that have none.
#include <doctest/doctest.h>

#include <cmath>
#include <pondtrim/plan.hpp>
#include <support/boats.hpp>
#include <support/random.hpp>

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

Report solve(const Boat& boat, bool full) {
  const auto model = buildModel(boat);
  REQUIRE(model);
  const auto report = evaluate(*model, {boat.water, full ? model->tank_capacity : 0.0});
  REQUIRE(report);
  return *report;
}

}  // namespace

TEST_CASE("places are proposed for every boat with a hull, empty, and change nothing by themselves") {
  for (const auto& [name, boat] : allBoats()) {
    CAPTURE(name);
    const Boat with = proposePlaces(boat);
    REQUIRE(checkBoat(with));
    bool has_hull = false;
    for (const Skin& s : boat.skins) has_hull = has_hull || std::holds_alternative<SpindleForm>(s.form);
    if (has_hull) CHECK(with.places.size() >= 6);
    CHECK(solve(with, false).total_mass == doctest::Approx(solve(boat, false).total_mass).epsilon(1e-12));
  }
}

TEST_CASE("show") {
  for (const auto& [name, boat] : allBoats()) {
    const Boat with = proposePlaces(boat);
    for (const Place& p : with.places) {
      for (const Part& q : with.parts) if (q.name == p.part) std::printf("   %s at %.0f %.0f %.0f mm holds %.4f l\n", p.part.c_str(), q.position.x*1e3, q.position.y*1e3, q.position.z*1e3, shapeVolume(q)*1e3);
    }
    for (const Goal goal : {Goal::LeastWeight, Goal::FewestChanges, Goal::MostStability}) for (bool whole : {false, true}) {
      PlanRequest r; r.goal = goal; r.whole_pieces = whole;
      const auto plan = makePlan(with, r);
      if (!plan) { std::printf("%s: error %s\n", name.c_str(), plan.error().message.c_str()); continue; }
      std::printf("%s goal %d whole %d: found %d best %d mass %.3f -> %.3f gm %.4f bg %.4f\n", name.c_str(), int(goal), whole, plan->found, plan->best, plan->carry_mass_before, plan->carry_mass_after, plan->gm, plan->bg);
      for (const Change& c : plan->changes) std::printf("    %d %s %.5f\n", int(c.work), with.places[c.place].part.c_str(), c.amount * 1e3);
      for (const Proof& p : plan->proofs) std::printf("    proof %s holds %d: bow %.3g stern %.3g sail %.3g mm, trim %.3g heel %.3g deg\n", p.wanted.name.c_str(), p.holds, p.bow_off.value_or(0)*1e3, p.stern_off.value_or(0)*1e3, p.sail_off.value_or(0)*1e3, p.trim_off*57.3, p.heel_off*57.3);
      for (const Limit& l : plan->blame.conflict) std::printf("    conflict %d [%zu] %g -> %g\n", int(l.kind), l.index, l.limit, l.would_do.value_or(-1));
      for (const Limit& l : plan->blame.remedy) std::printf("    remedy %d [%zu] %g -> %g\n", int(l.kind), l.index, l.limit, l.would_do.value_or(-1));
      if (plan->tank) std::printf("    tank %g .. %g\n", plan->tank->smallest, plan->tank->largest.value_or(-1));
    }
  }
}
