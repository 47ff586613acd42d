// What if: a draft stands over the boat and changes nothing of her until it is kept.
#include "session/drafts.hpp"

#include <doctest/doctest.h>

#include "browser/browser.hpp"
#include "scene/scene.hpp"
#include "session/edits.hpp"
#include "session/history_store.hpp"
#include "session/shelf.hpp"
#include "session/store.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;

namespace {

Session freshSession() {
  for (const std::string& key : browser::keptKeys("")) browser::forget(key);
  return test::firstSession();
}

/// 100 g more in the battery.
Boat heavier(const Boat& boat) {
  Boat changed = boat;
  for (Part& p : changed.parts)
    if (p.name == "battery") *p.mass += 0.1;
  return changed;
}

double carried(const Session& session) { return session.empty().carry_mass; }

}  // namespace

TEST_CASE("a draft is changed, the boat under it is not; before is the boat, not the last step") {
  Session session = freshSession();
  const Boat boat = session.boat();
  const double weight = carried(session);
  startDraft(session);
  REQUIRE(session.inDraft());
  CHECK(session.draftName() == "Draft 1");
  REQUIRE(session.edit(heavier(session.boat())));
  REQUIRE(session.edit(heavier(session.boat())));
  CHECK(carried(session) == doctest::Approx(weight + 0.2));
  CHECK(session.base().document.boat == boat);
  REQUIRE(session.before());
  CHECK(session.before()->carry_mass == doctest::Approx(weight));
  session.undo();
  CHECK(carried(session) == doctest::Approx(weight + 0.1));
  session.undo();
  CHECK_FALSE(session.canUndo());  // the boat's own steps are not the draft's
}

TEST_CASE("kept, a draft is one step of undo; dropped, it has never been") {
  Session session = freshSession();
  const Boat boat = session.boat();
  REQUIRE(session.edit(heavier(boat)));
  startDraft(session);
  REQUIRE(session.edit(heavier(session.boat())));
  REQUIRE(session.edit(heavier(session.boat())));
  dropDraft(session);
  CHECK_FALSE(session.inDraft());
  CHECK(session.boat() == heavier(boat));
  CHECK(draftsOf(session).empty());

  startDraft(session);
  REQUIRE(session.edit(heavier(session.boat())));
  REQUIRE(session.edit(heavier(session.boat())));
  const Boat drafted = session.boat();
  keepDraft(session);
  CHECK_FALSE(session.inDraft());
  CHECK(session.boat() == drafted);
  session.undo();
  CHECK(session.boat() == heavier(boat));
  session.undo();
  CHECK(session.boat() == boat);
}

TEST_CASE("several drafts are put aside and taken up again by their names") {
  Session session = freshSession();
  const double weight = carried(session);
  startDraft(session);
  REQUIRE(session.edit(heavier(session.boat())));
  startDraft(session);
  CHECK(session.draftName() == "Draft 2");
  CHECK(carried(session) == doctest::Approx(weight));
  renameDraft(session, "two more");
  REQUIRE(session.edit(heavier(heavier(session.boat()))));
  CHECK(draftsOf(session) == std::vector<std::string>{"Draft 1"});
  REQUIRE(takeUpDraft(session, "Draft 1"));
  CHECK(carried(session) == doctest::Approx(weight + 0.1));
  CHECK_FALSE(session.notice());
  REQUIRE(takeUpDraft(session, "two more"));
  CHECK(carried(session) == doctest::Approx(weight + 0.2));
  putAside(session);
  CHECK(carried(session) == doctest::Approx(weight));
  removeDraft(session, "Draft 1");
  CHECK(draftsOf(session) == std::vector<std::string>{"two more"});
}

TEST_CASE("a draft begun over an older boat says so when it is taken up") {
  Session session = freshSession();
  startDraft(session);
  REQUIRE(session.edit(heavier(session.boat())));
  putAside(session);
  Boat boat = session.boat();
  boat.notes = "painted";
  REQUIRE(session.edit(boat));
  REQUIRE(takeUpDraft(session, "Draft 1"));
  CHECK(session.notice());
}

TEST_CASE("the next visit finds boat, draft in hand and the boat's history") {
  Session session = freshSession();
  const Boat boat = session.boat();
  REQUIRE(session.edit(heavier(boat)));
  startDraft(session);
  REQUIRE(session.edit(heavier(session.boat())));
  const Boat drafted = session.boat();
  HistoryStore history;
  REQUIRE(keepBoat(session));
  REQUIRE(history.keep(session));
  REQUIRE(storeDraft(session));

  auto next = resumeSession();
  REQUIRE(next);
  HistoryStore().restore(*next);
  resumeDraft(*next);
  REQUIRE(next->inDraft());
  CHECK(next->boat() == drafted);
  CHECK(next->base().document.boat == heavier(boat));
  dropDraft(*next);
  next->undo();
  CHECK(next->boat() == boat);
}

TEST_CASE("another boat puts the draft aside, and the boat under it goes to the shelf, not the draft") {
  Session session = freshSession();
  const Boat boat = heavier(session.boat());
  REQUIRE(session.edit(boat));
  startDraft(session);
  REQUIRE(session.edit(heavier(session.boat())));
  auto other = preset(1);
  REQUIRE(other);
  REQUIRE(openAnother(session, std::move(*other)));
  CHECK_FALSE(session.inDraft());
  CHECK(draftsOf(session).empty());  // of this boat
  REQUIRE(openFromShelf(session, boat.name));
  CHECK(session.boat() == boat);
  CHECK(draftsOf(session) == std::vector<std::string>{"Draft 1"});
}

TEST_CASE("a trial weight is put where the finger rests, and moved by the next") {
  Session session = freshSession();
  const std::size_t count = session.boat().parts.size();
  Camera camera;
  const Scene scene = makeScene(
      session, {camera, {390, 270, 1}, false, {}, [](const std::string&) { return glm::vec2(9, 17); }});
  const Vec3 wanted(0.7, 0, 0.05);
  const auto place = placeAt(session.boat(), scene.projection, scene.projection.boatToPicture(wanted));
  REQUIRE(place);
  CHECK(glm::length(*place - wanted) < 1e-3);
  CHECK_FALSE(placeAt(session.boat(), scene.projection,
                      scene.projection.boatToPicture(Vec3(-0.3, 0, 0.05))));  // beside her
  std::size_t index = 0;
  REQUIRE(session.edit(withTrialWeight(session.boat(), *place, index)));
  CHECK(index == count);
  CHECK(session.before()->carry_mass + 0.05 == doctest::Approx(carried(session)));
  REQUIRE(session.edit(withTrialWeight(session.boat(), Vec3(0.2, 0, 0.05), index)));
  CHECK(index == count);
  CHECK(session.boat().parts.size() == count + 1);
  CHECK(session.boat().parts[index].position.x == 0.2);
}

TEST_CASE(
    "a boat's drafts stay hers under a new name, by undo and redo too; another boat's stay where they are") {
  Session session = freshSession();
  const std::string old = session.boat().name;
  startDraft(session);
  REQUIRE(session.edit(heavier(session.boat())));
  putAside(session);
  const auto drafts = [&] {
    followName(session);
    return draftsOf(session).size();
  };
  REQUIRE(drafts() == 1);
  Boat renamed = session.boat();
  renamed.name = "Kingfisher";
  REQUIRE(session.edit(renamed));
  CHECK(drafts() == 1);
  session.undo();
  CHECK(drafts() == 1);
  session.redo();
  CHECK(drafts() == 1);
  const double weight = carried(session);
  REQUIRE(takeUpDraft(session, "Draft 1"));
  CHECK(carried(session) == doctest::Approx(weight + 0.1));
  putAside(session);
  Boat other = heavier(session.boat());  // not the same boat under another name
  other.name = old;
  REQUIRE(session.open({other, {}, {}}));
  CHECK(drafts() == 0);
  session.undo();
  CHECK(drafts() == 1);
}
