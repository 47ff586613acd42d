// A what-if on the dive: compared with the boat as she was, kept or dropped, one step of undo either way.
#include "session/dive_trial.hpp"

#include <doctest/doctest.h>

#include "session/presets.hpp"
#include "session/study_words.hpp"

using namespace pondtrim;

namespace {

Session anyBoat() {
  auto document = preset(0);
  REQUIRE(document);
  auto session = Session::start(std::move(*document));
  REQUIRE(session);
  REQUIRE(session->boat().tank);
  return std::move(*session);
}

Boat heavier(Boat boat) {
  boat.water.salinity = 20;
  return boat;
}

}  // namespace

TEST_CASE("a trial adds up, is compared with the boat before it, and dropped as a whole") {
  Session session = anyBoat();
  const Boat was = session.boat();
  const double gm = session.studies().sweep()->least_gm_transverse.gm;
  DiveTrial trial;
  CHECK_FALSE(trial.stands(session));
  trial.tryOn(session, withBulkheads(session.boat(), 1));
  REQUIRE(session.studies().sweep());
  trial.tryOn(session, heavier(withBulkheads(session.boat(), 3)));
  CHECK(trial.stands(session));
  CHECK(session.boat().tank->bulkheads.size() == 3);
  REQUIRE(session.diveBefore());
  CHECK(session.diveBefore()->least_gm_transverse.gm == gm);
  const auto now = session.studies().sweep();
  REQUIRE(now);
  const std::string words = trialSentence(*session.diveBefore(), *now, file::kMetricUnits);
  CHECK(words.find("Most trim ") == 0);
  CHECK(words.find("least GM ") != std::string::npos);
  CHECK(session.past().size() == 1);
  trial.drop(session);
  CHECK(session.boat() == was);
  CHECK_FALSE(trial.stands(session));
  CHECK_FALSE(session.canUndo());
}

TEST_CASE("what is kept stays, and the next trial is a step of its own") {
  Session session = anyBoat();
  DiveTrial trial;
  trial.tryOn(session, withBulkheads(session.boat(), 1));
  trial.keep();
  CHECK_FALSE(trial.stands(session));
  const Boat kept = session.boat();
  trial.tryOn(session, withBulkheads(session.boat(), 2));
  CHECK(session.past().size() == 2);
  trial.drop(session);
  CHECK(session.boat() == kept);
}

TEST_CASE("a trial taken back by hand, undone, or followed by another edit is over") {
  Session session = anyBoat();
  const Boat was = session.boat();
  DiveTrial trial;
  trial.tryOn(session, heavier(session.boat()));
  trial.tryOn(session, was);
  CHECK_FALSE(trial.stands(session));
  CHECK(session.boat() == was);
  CHECK_FALSE(session.canUndo());

  trial.tryOn(session, heavier(session.boat()));
  session.undo();
  CHECK_FALSE(trial.stands(session));

  trial.tryOn(session, heavier(session.boat()));
  Boat other = session.boat();
  other.water.salinity = 10;
  REQUIRE(session.edit(other));
  CHECK_FALSE(trial.stands(session));
  trial.drop(session);  // nothing to drop
  CHECK(session.boat() == other);
  session.undo();
  CHECK(session.boat() == heavier(was));
}

TEST_CASE("a change that is no boat is refused, and what was tried before it stays") {
  Session session = anyBoat();
  DiveTrial trial;
  trial.tryOn(session, heavier(session.boat()));
  Boat wrong = session.boat();
  wrong.tank->fore_end = 99;
  trial.tryOn(session, wrong);
  REQUIRE(session.notice());
  CHECK(session.notice()->kind == Notice::Kind::Refused);
  CHECK(trial.stands(session));
  CHECK(session.boat().water.salinity == 20);
}
