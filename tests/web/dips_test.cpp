// Readings of the pond log as the screen edits and tells them.
#include "session/dips.hpp"

#include <doctest/doctest.h>

#include "session/advisor.hpp"
#include "session/words.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;

namespace {
constexpr double kDegrees = kPi / 180;

Session withDip(TankState tank) {
  Session session = test::firstSession();
  REQUIRE(session.edit(withReading(session.boat(), tank, "2026-05-02T10:30")));
  return session;
}

/// Reads off a report what a person would read, each number a little off the file's boat.
void readAll(Session& session, std::size_t i, double bow, double stern) {
  const Reading& r = session.boat().log[i];
  const Report& report = r.tank == TankState::Full ? session.full() : session.empty();
  Boat changed = session.boat();
  if (r.tank == TankState::Full) {
    changed = pondtrim::withDip(changed, dipIndex(i, Dip::Sail), report.sail_showing - bow);
    changed = pondtrim::withDip(changed, dipIndex(i, Dip::Trim), report.rest.attitude.trim);
  } else {
    changed = pondtrim::withDip(changed, dipIndex(i, Dip::Bow), report.bow->line_above_water - bow);
    changed = pondtrim::withDip(changed, dipIndex(i, Dip::Stern), report.stern->line_above_water - stern);
  }
  changed = pondtrim::withDip(changed, dipIndex(i, Dip::Heel), report.rest.attitude.heel);
  REQUIRE(session.edit(changed));
}
}  // namespace

TEST_CASE("a number read comes with the usual spread, keeps one that was given, and goes again") {
  Session session = withDip(TankState::Empty);
  const std::size_t bow = dipIndex(0, Dip::Bow);
  CHECK_FALSE(dipAt(session.boat(), bow));
  Boat boat = withDip(session.boat(), bow, 0.003);
  CHECK(dipAt(boat, bow) == 0.003);
  CHECK(boat.log[0].bow->spread == kRulerSpread);
  boat.log[0].bow->spread = 0.004;
  boat = withDip(boat, bow, -0.002);
  CHECK(boat.log[0].bow == Measured{-0.002, 0.004});
  CHECK_FALSE(withDip(boat, bow, std::nullopt).log[0].bow);
  CHECK_FALSE(dipAt(boat, dipIndex(7, Dip::Bow)));
}

TEST_CASE("the pulls of both hooks come and go together, so that the boat is never refused for it") {
  Session session = withDip(TankState::Full);
  Boat boat = withDip(session.boat(), dipIndex(0, Dip::BowPull), 0.02);
  CHECK(boat.log[0].stern_pull == Measured{0, kScaleSpread});
  CHECK(boat.log[0].bow_hook_x > boat.log[0].stern_hook_x);
  REQUIRE(session.edit(boat));
  boat = withDip(boat, dipIndex(0, Dip::SternPull), 0.01);
  CHECK(boat.log[0].bow_pull->value == 0.02);
  boat = withDip(boat, dipIndex(0, Dip::BowPull), std::nullopt);
  CHECK_FALSE(boat.log[0].stern_pull);
  CHECK(session.edit(boat));
}

TEST_CASE("the tank's state keeps its amount only when it was measured") {
  Session session = withDip(TankState::Full);
  const double capacity = session.model().tank_capacity;
  Boat boat = withTankState(session.boat(), 0, TankState::Measured, capacity);
  CHECK(boat.log[0].tank_fill == capacity);
  CHECK(fillOf(boat.log[0], capacity) == 1.0);
  boat = withTankState(boat, 0, TankState::Empty, capacity);
  CHECK(boat.log[0].tank_fill == 0.0);
  CHECK(session.edit(boat));
}

TEST_CASE("a dip is told in one line, with sides in words") {
  Session session = withDip(TankState::Empty);
  Boat boat = session.boat();
  CHECK(readingLine(boat.log[0], file::kMetricUnits) == "Tank empty, nothing read yet");
  boat = withDip(boat, dipIndex(0, Dip::Bow), 0.003);
  boat = withDip(boat, dipIndex(0, Dip::Stern), -0.0025);
  boat = withDip(boat, dipIndex(0, Dip::Heel), -0.5 * kDegrees);
  const std::string line = readingLine(boat.log[0], file::kMetricUnits);
  CHECK(line.find("Tank empty: bow 3") == 0);
  CHECK(line.find("mm high, stern 2.5\u00a0mm low") != std::string::npos);
  CHECK(line.find("heel 0.5\u00b0 to port") != std::string::npos);
  CHECK(dipWords(Dip::Bow, 0, file::kMetricUnits) == "on the line");
  CHECK(fieldWords(boat, "log[2].heel") == "dip 3: heel");
}

TEST_CASE("two dips give a next change; what was not done stays as it was, and old dips keep their boat") {
  Session session = withDip(TankState::Empty);
  readAll(session, 0, 0.006, 0.006);  // 6 mm deeper than the file says
  REQUIRE(session.edit(withReading(session.boat(), TankState::Full, "2026-05-02T10:40")));
  readAll(session, 1, 0.01, 0);
  Advisor advisor;
  REQUIRE(advisor.owes(session));
  advisor.work(session);
  REQUIRE_FALSE(advisor.owes(session));
  REQUIRE(advisor.answer());
  const file::CorrectAnswer& answer = *advisor.answer();
  CHECK(answer.surfaced.weight.value > 0.01);
  CHECK_FALSE(answer.outlook.done);
  const std::size_t count = answer.next.changes.size();
  REQUIRE(count > 0);

  const Boat all = withChangesDone(session.boat(), answer, std::vector<bool>(count, true));
  CHECK(all == answer.applied);
  CHECK(all.correction.has_value());
  CHECK_FALSE(all.log[0].installed.empty());
  const Boat none = withChangesDone(session.boat(), answer, std::vector<bool>(count, false));
  CHECK(none.parts == session.boat().parts);
  CHECK(none.correction.has_value());
  REQUIRE(session.edit(all));
  CHECK(advisor.owes(session));
}

TEST_CASE("lead laid on lies below the sail until its place is given, is told, and stays off the chart") {
  Session session = withDip(TankState::Full);
  Boat boat = withDip(session.boat(), dipIndex(0, Dip::Sail), 0.03);
  CHECK(dipErrors(boat, boat.aims.sail_showing).size() == 1);
  boat = withLaidLead(boat, 0, 0.04);
  CHECK(boat.log[0].held_x == boat.marks.sail_top.x);
  CHECK(session.edit(boat));
  CHECK(readingLine(boat.log[0], file::kMetricUnits).find("40\u00a0g of lead laid on her") !=
        std::string::npos);
  CHECK(dipErrors(boat, boat.aims.sail_showing).empty());
  boat.log[0].held_x = 0.3;
  CHECK(withLaidLead(boat, 0, 0.05).log[0].held_x == 0.3);
}

TEST_CASE("what was not read begins at what is wanted, not at what is expected") {
  Session session = withDip(TankState::Full);
  CHECK(firstDip(Dip::Sail, session) == session.boat().aims.sail_showing);
  CHECK(firstDip(Dip::Bow, session) == 0);
  CHECK(firstDip(Dip::Trim, session) == 0);
  // Lift wanted instead: what leaves that much displacement out of the water.
  Boat lifting = session.boat();
  lifting.aims.net_buoyancy = 0.06;
  REQUIRE(session.edit(lifting));
  const double sail = firstDip(Dip::Sail, session);
  const Plane there{Vec3(0, 0, 1), lifting.marks.sail_top.z - sail};
  const Model& model = session.model();
  CHECK((model.whole_volume - cutModel(model, there).volume) * *waterDensity(lifting.water) ==
        doctest::Approx(0.06).epsilon(1e-6));
  const Boat read = pondtrim::withDip(lifting, dipIndex(0, Dip::Sail), sail);
  CHECK(dipErrors(read, sailWanted(session)).at(0).sail.value() == 0);
}

TEST_CASE("the chart holds what was read and is in use") {
  Session session = withDip(TankState::Empty);
  readAll(session, 0, 0.002, 0.001);
  Boat boat = withReading(session.boat(), TankState::Full, "");
  boat = withDip(boat, dipIndex(1, Dip::Sail), boat.aims.sail_showing + 0.004);
  auto errors = dipErrors(boat, boat.aims.sail_showing);
  REQUIRE(errors.size() == 2);
  CHECK(errors[0].bow.has_value());
  CHECK_FALSE(errors[0].sail.has_value());
  CHECK(errors[1].sail.value() == doctest::Approx(0.004));
  boat.log[0].used = false;
  errors = dipErrors(boat, boat.aims.sail_showing);
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].reading == 1);
  CHECK(withoutReading(boat, 0).log.size() == 1);
}
