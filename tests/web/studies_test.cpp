// Studies: worked out when asked for, once for each boat; edits of the ballast system.
#include "session/studies.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "session/ballast_edits.hpp"
#include "session/presets.hpp"
#include "session/session.hpp"
#include "session/study_words.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;

namespace {

Session sessionOf(const char* name) {
  for (const PresetName& entry : presetNames()) {
    if (entry.name != name) continue;
    auto document = preset(entry.index);
    REQUIRE(document);
    auto session = Session::start(std::move(*document));
    REQUIRE(session);
    return std::move(*session);
  }
  FAIL("no such preset");
  std::abort();
}

/// A boat whose weight balances far from the tank's middle, with a tank as long as its cylinder.
Boat withLongTank(Boat boat) {
  const auto home = std::find_if(boat.cylinders.begin(), boat.cylinders.end(),
                                 [&](const SealedCylinder& c) { return c.name == boat.tank->cylinder; });
  boat.tank->aft_end = home->position.x + home->cap_thickness;
  boat.tank->fore_end = home->position.x + home->length - home->cap_thickness;
  boat.tank->capacity.reset();
  return boat;
}

}  // namespace

TEST_CASE("a study is that of the core, and is kept until the boat changes") {
  Session session = sessionOf("Brindle");
  const DiveSweep* first = &*session.studies().sweep();
  CHECK(&*session.studies().sweep() == first);
  const auto core = sweepDive(session.model(), session.boat().water, 40);
  REQUIRE(core);
  CHECK(first->down.size() == core->down.size());
  CHECK(first->least_gm_transverse.gm == core->least_gm_transverse.gm);
  CHECK(first->down.front().draft_bow.value() == doctest::Approx(session.empty().bow->draft).epsilon(1e-6));
  CHECK(first->down.back().trim == doctest::Approx(session.full().rest.attitude.trim).epsilon(1e-4));

  Boat wetter = session.boat();
  wetter.water.salinity = 35;
  REQUIRE(session.edit(wetter));
  CHECK(*session.studies().sweep()->down.front().draft_bow < *core->down.front().draft_bow);
  session.undo();
  CHECK(session.studies().sweep()->down.front().draft_bow == core->down.front().draft_bow);
}

TEST_CASE("a tank as long as the cylinder goes wrong, and a bulkhead tried puts less water on the run") {
  Session session = sessionOf("Brindle");
  REQUIRE(session.edit(withLongTank(session.boat())));
  const auto sweep = session.studies().sweep();
  REQUIRE(sweep);
  REQUIRE_FALSE(sweep->findings.empty());
  const double free_surface = sweep->down[20].free_surface_longitudinal_level;
  CHECK_FALSE(session.studies().knownHelps());  // not tried yet
  for (int i = 0; i < 20; ++i) session.studies().tryOneHelp();
  REQUIRE(session.studies().knownHelps());
  REQUIRE_FALSE(session.studies().knownHelps()->empty());
  REQUIRE(session.edit(withBulkheads(session.boat(), 2)));
  const auto divided = session.studies().sweep();
  REQUIRE(divided);
  CHECK(divided->down[20].free_surface_longitudinal_level < 0.5 * free_surface);
  session.undo();
  CHECK(session.boat().tank->bulkheads.empty());
}

TEST_CASE("the dive before the last change stays to compare with, if it was looked at") {
  Session session = sessionOf("Brindle");
  REQUIRE(session.edit(withBulkheads(session.boat(), 1)));
  CHECK_FALSE(session.diveBefore());  // nobody looked
  const double one = session.studies().sweep()->least_gm_longitudinal_level.gm;
  REQUIRE(session.edit(withBulkheads(session.boat(), 2)));
  REQUIRE(session.diveBefore());
  CHECK(session.diveBefore()->least_gm_longitudinal_level.gm == one);
  const double two = session.studies().sweep()->least_gm_longitudinal_level.gm;
  CHECK(two > one);
  session.undo();
  REQUIRE(session.diveBefore());
  CHECK(session.diveBefore()->least_gm_longitudinal_level.gm == two);
  // A gesture that goes on is compared with the boat that it began from.
  CHECK(session.studies().sweep());
  Boat longer = session.boat();
  for (int i = 1; i <= 3; ++i) {
    longer.tank->aft_end -= 0.002;
    REQUIRE(session.edit(longer, 77));
    CHECK(session.studies().sweep());
    REQUIRE(session.diveBefore());
    CHECK(session.diveBefore()->least_gm_longitudinal_level.gm == one);
  }
}

TEST_CASE("righting curves are kept by fill, and empty and full are never thrown away") {
  Session session = sessionOf("Brindle");
  REQUIRE(session.studies().righting(0));
  REQUIRE(session.studies().righting(1));
  for (int i = 1; i < 20; ++i) REQUIRE(session.studies().righting(i / 20.0));
  CHECK(session.studies().hasRighting(0));
  CHECK(session.studies().hasRighting(1));
  CHECK(session.studies().hasRighting(0.95));
}

TEST_CASE("each kind of ballast system begins at numbers that the core takes and that fill the tank") {
  Session session = sessionOf("Marrow");
  REQUIRE_FALSE(session.boat().ballast);
  for (const BallastChoice choice : {BallastChoice::SealedTankPump, BallastChoice::VentedTankPump,
                                     BallastChoice::Piston, BallastChoice::Gas}) {
    CAPTURE(static_cast<int>(choice));
    REQUIRE(session.edit(withBallastKind(session.boat(), session.model(), choice)));
    CHECK(ballastChoice(session.boat()) == choice);
    const auto& report = session.studies().ballast(1.0);
    REQUIRE(report);
    CHECK(report->fill_full.curve.size() > 5);
    if (choice != BallastChoice::SealedTankPump) CHECK(report->fill_full.completes);
    CHECK(report->fill_full.time > 5);
    CHECK(report->fill_full.time < 300);
  }
  REQUIRE(session.edit(withoutBallast(session.boat())));
  CHECK_FALSE(session.boat().ballast);
}

TEST_CASE("pump, air and battery go along from one kind to another") {
  Session session = sessionOf("Brindle");
  const auto vented = std::get<VentedTankPump>(session.boat().ballast->kind);
  const Boat sealed = withBallastKind(session.boat(), session.model(), BallastChoice::SealedTankPump);
  CHECK(std::get<SealedTankPump>(sealed.ballast->kind).pump == vented.pump);
  CHECK(sealed.ballast->battery == session.boat().ballast->battery);
  const Boat piston = withBallastKind(session.boat(), session.model(), BallastChoice::Piston);
  CHECK(
      std::get<PistonTank>(piston.ballast->kind).cylinder_air ==
      doctest::Approx(vented.cylinder_air + session.model().tank_capacity));  // the tank's room is behind it
  const Boat back = withBallastKind(piston, session.model(), BallastChoice::VentedTankPump);
  CHECK(std::get<VentedTankPump>(back.ballast->kind).cylinder_air == doctest::Approx(vented.cylinder_air));
  CHECK_FALSE(withoutBattery(sealed).ballast->battery);
  CHECK(withBattery(withoutBattery(sealed)).ballast->battery->full_voltage == vented.pump.rated_voltage);
}

TEST_CASE("a depth out of reach is refused in the person's unit, and the depth in hand stays") {
  Session session = sessionOf("Brindle");
  REQUIRE(session.setDepth(3));
  CHECK_FALSE(session.setDepth(-1));
  CHECK(session.depth() == 3);
  REQUIRE(session.notice());
  CHECK(session.notice()->text == "depth is -1 m; allowed: 0 m to 100 m.");
  CHECK(session.notice()->field == "depth");
  CHECK(session.studies().depthCurve(3)->points.back().depth == doctest::Approx(10));
  CHECK(session.studies().depthCurve(30)->points.back().depth == doctest::Approx(60));
  CHECK(session.studies().strengths(3).size() == session.boat().cylinders.size());
}

TEST_CASE("stability and hover are told in the units of the screen") {
  Session session = sessionOf("Brindle");
  const auto& curve = session.studies().righting(0);
  REQUIRE(curve);
  const std::string metric = rightingSentence("Surfaced", *curve, file::kMetricUnits);
  CHECK(metric.find("Surfaced: GM is ") == 0);
  CHECK(metric.find("mm") != std::string::npos);
  CHECK(rightingSentence("Surfaced", *curve, file::kInchUnits).find("mm") == std::string::npos);
  const auto& hover = session.studies().hover();
  REQUIRE(hover);
  REQUIRE(hover->has_value());
  const std::string text = hoverSentence(*hover, session.boat().aims.sail_showing, file::kMetricUnits);
  CHECK(text.find("moves her by 1\u00a0mm") != std::string::npos);
  CHECK(hoverSentence(std::nullopt, 0.03, file::kMetricUnits).find("No fill") == 0);
}

TEST_CASE("a scope of another thickness asks for another metering; one that cannot be is refused") {
  Session session = test::firstSession();
  const double density = session.empty().rest.density;
  const auto words = [&] { return scopeSentence(session.scope(), density, session.units()); };
  CHECK(words().find("0.028") != std::string::npos);  // 6 mm
  REQUIRE(session.setScope(0.012));
  CHECK(words().find("0.113") != std::string::npos);
  CHECK_FALSE(session.setScope(0.2));
  CHECK(session.scope() == 0.012);
  REQUIRE(session.notice());
  CHECK(session.notice()->field == "scope");
}
