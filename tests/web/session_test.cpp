// Session: an edit is Boat -> Result; what is refused changes nothing; undo leads back.
#include "session/session.hpp"

#include <doctest/doctest.h>

#include <glm/geometric.hpp>
#include <pondtrim/hull.hpp>

#include "browser/browser.hpp"
#include "session/edits.hpp"
#include "session/history_store.hpp"
#include "session/presets.hpp"
#include "session/shelf.hpp"
#include "session/store.hpp"
#include "session/structure.hpp"
#include "session/words.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;
using test::firstSession;

namespace {
std::size_t firstOf(const Boat& boat, Role role) {
  for (std::size_t i = 0; i < boat.parts.size(); ++i)
    if (boat.parts[i].role == role) return i;
  FAIL("the preset lacks such a part");
  return 0;
}
}  // namespace

TEST_CASE("every preset opens, and tells how it lies") {
  const auto names = presetNames();
  REQUIRE(names.size() >= 1);
  for (const PresetName& name : names) {
    CAPTURE(name.name);
    auto document = preset(name.index);
    REQUIRE(document);
    const auto session = Session::start(std::move(*document));
    REQUIRE(session);
    CHECK(liesSentence(*session).size() > 20);
  }
  CHECK_FALSE(preset(names.size()).has_value());
}

TEST_CASE("more lead makes her deeper, and undo brings the old draft back exactly") {
  Session session = firstSession();
  const double before = session.empty().bow->draft;
  const std::size_t lead = firstOf(session.boat(), Role::Lead);
  REQUIRE(session.edit(withMass(session.boat(), lead, *session.boat().parts[lead].mass + 0.1)));
  CHECK(session.empty().bow->draft > before + 0.001);
  REQUIRE(session.before());
  CHECK(session.before()->bow->draft == before);
  session.undo();
  CHECK(session.empty().bow->draft == before);
  CHECK_FALSE(session.canUndo());
  session.redo();
  CHECK(session.empty().bow->draft > before + 0.001);
}

TEST_CASE("a refused edit keeps boat and history and says why") {
  Session session = firstSession();
  const Boat kept = session.boat();
  const auto revision = session.revision();
  Boat wrong = kept;
  wrong.cylinders.at(0).diameter = -0.1;
  const auto refused = session.edit(wrong);
  REQUIRE_FALSE(refused);
  CHECK(session.boat() == kept);
  CHECK(session.revision() == revision);
  CHECK_FALSE(session.canUndo());
  REQUIRE(session.notice());
  CHECK(session.notice()->kind == Notice::Kind::Refused);
  CHECK(session.notice()->field == "cylinders[0].diameter");
  CHECK(session.notice()->text.find("mm") != std::string::npos);
  session.dismissNotice();
  CHECK_FALSE(session.notice());
}

TEST_CASE("one press of a slider is one step of undo") {
  Session session = firstSession();
  const Boat first = session.boat();
  const std::size_t lead = firstOf(first, Role::Lead);
  for (int i = 1; i <= 5; ++i) REQUIRE(session.edit(withMass(session.boat(), lead, 0.2 + 0.001 * i), 7));
  REQUIRE(session.edit(withMass(session.boat(), lead, 0.3), 8));
  session.undo();
  CHECK(*session.boat().parts[lead].mass == doctest::Approx(0.205));
  session.undo();
  CHECK(session.boat() == first);
  CHECK_FALSE(session.canUndo());
}

TEST_CASE("the tank slider runs from the empty report to the full one") {
  Session session = firstSession();
  const double empty_draft = session.atFill().bow->draft;
  CHECK(empty_draft == session.empty().bow->draft);
  session.setFillShare(0.5);
  CHECK(session.atFill().tank_water_mass ==
        doctest::Approx(0.5 * session.full().tank_water_mass).epsilon(1e-9));
  session.setFillShare(2);
  CHECK(session.fillShare() == 1);
  CHECK(session.atFill().total_mass == session.full().total_mass);
}

TEST_CASE("parts can be added, copied and taken away") {
  Session session = firstSession();
  const std::size_t count = session.boat().parts.size();
  for (const Role role : {Role::Solid, Role::Foam, Role::Lead, Role::Dry, Role::TrappedAir}) {
    CAPTURE(static_cast<int>(role));
    REQUIRE(session.edit(withNewPart(session.boat(), role)));
  }
  CHECK(session.boat().parts.size() == count + 5);
  session.select(Selection{Owner::Part, count + 4});
  REQUIRE(session.edit(withCopyOfPart(session.boat(), count)));
  CHECK(session.boat().parts.back().name != session.boat().parts[count].name);
  REQUIRE(session.edit(withoutPart(session.boat(), count + 5)));
  REQUIRE(session.edit(withoutPart(session.boat(), count + 4)));
  CHECK_FALSE(session.selection());  // what was looked at is gone
}

TEST_CASE("a part keeps room for its volume and mass when a slider moves them") {
  Session session = firstSession();
  const std::size_t foam = firstOf(session.boat(), Role::Foam), lead = firstOf(session.boat(), Role::Lead);
  for (const double share : {0.2, 1.7, 4.0}) {
    CAPTURE(share);
    const Boat lighter = withVolume(session.boat(), foam, share * *session.boat().parts[foam].volume);
    CHECK(checkBoat(lighter));
    const Boat heavier = withMass(session.boat(), lead, share * *session.boat().parts[lead].mass);
    CHECK(checkBoat(heavier));
  }
}

TEST_CASE("the boat kept in the browser comes back; a damaged one is set aside") {
  Session session = firstSession();
  Boat renamed = session.boat();
  renamed.name = "Kept boat";
  REQUIRE(session.edit(renamed));
  REQUIRE(keepBoat(session));
  auto again = resumeSession();
  REQUIRE(again);
  CHECK(again->boat() == renamed);
  CHECK_FALSE(again->notice());

  REQUIRE(browser::keep("boat", "{\"pondtrim_boat\": 1, \"name\""));
  auto fallen_back = resumeSession();
  REQUIRE(fallen_back);
  CHECK(fallen_back->notice());
  const std::string first_text = "{\"pondtrim_boat\": 1, \"name\"", second_text = "not a boat at all";
  CHECK(setAsideTexts() == std::vector<std::string>{first_text});
  // The next one that cannot be read takes nobody's place, and the same one again takes none.
  for (const std::string& damaged : {second_text, first_text, second_text}) {
    REQUIRE(browser::keep("boat", damaged));
    REQUIRE(resumeSession());
    CHECK(setAsideTexts() == std::vector<std::string>{first_text, second_text});
  }
}

TEST_CASE("the depth asked about comes back with the next visit; nonsense does not") {
  Session session = firstSession();
  REQUIRE(session.setDepth(2.35));
  REQUIRE(keepBoat(session));  // a damaged boat's notice would have its say first
  REQUIRE(keepDepth(session));
  auto again = resumeSession();
  REQUIRE(again);
  CHECK(again->depth() == 2.35);
  for (const char* nonsense : {"", "deep", "-1", "1e9", "nan", "2 m"}) {
    CAPTURE(nonsense);
    REQUIRE(browser::keep("depth_m", nonsense));
    again = resumeSession();
    REQUIRE(again);
    CHECK(again->depth() == 1.0);
  }
}

TEST_CASE("a handle changes one measure of a hull of any kind; its aft end and keel stay") {
  auto document = preset(0);
  REQUIRE(document);
  auto started = Session::start(std::move(*document));
  REQUIRE(started);
  Session& session = *started;
  for (const NewSkin kind : {NewSkin::Suboff, NewSkin::Myring, NewSkin::Offsets, NewSkin::Spindle}) {
    REQUIRE(session.edit(withHullForm(session.boat(), 0, kind)));
    for (const HullNumber number : {HullNumber::Length, HullNumber::Beam, HullNumber::Height}) {
      const int axis = static_cast<int>(number);
      const Skin before = session.boat().skins[0];
      const double wanted = 1.1 * hullSize(before.form)[axis];
      REQUIRE(session.edit(withHullNumber(session.boat(), 0, number, wanted)));
      const Skin& now = session.boat().skins[0];
      CHECK(hullSize(now.form)[axis] == doctest::Approx(wanted));
      const Vec3 was = before.position + hullBox(before.form).low, is = now.position + hullBox(now.form).low;
      CHECK(is.x == doctest::Approx(was.x));
      CHECK(is.z == doctest::Approx(was.z));
    }
  }
  REQUIRE(session.edit(withHullNumber(session.boat(), 0, HullNumber::Line, 0.07)));
  CHECK(session.boat().marks.line_height == 0.07);
}

TEST_CASE("an opening keeps to its skin when that gets another name, and goes with it") {
  auto document = preset(0);
  REQUIRE(document);
  auto started = Session::start(std::move(*document));
  REQUIRE(started);
  Session& session = *started;
  REQUIRE(session.edit(withNewOpening(session.boat(), 0)));
  const Opening& vent = session.boat().openings.back();
  CHECK(vent.skin == session.boat().skins[0].name);
  REQUIRE(session.edit(withName(session.boat(), {Owner::Skin, 0}, "outer hull")));
  CHECK(session.boat().openings.back().skin == "outer hull");
  REQUIRE(session.edit(withoutOpening(withNewOpening(session.boat(), 1), 0)));
  CHECK(session.boat().openings.size() == 1);
  REQUIRE(session.edit(withoutSkin(session.boat(), 1)));
  CHECK(session.boat().openings.empty());
}

TEST_CASE("structure can be added and taken away, on every preset") {
  for (const PresetName& preset_name : presetNames()) {
    CAPTURE(preset_name.name);
    auto document = preset(preset_name.index);
    REQUIRE(document);
    auto started = Session::start(std::move(*document));
    REQUIRE(started);
    Session& session = *started;
    const std::size_t skins = session.boat().skins.size(), tubes = session.boat().cylinders.size();
    CHECK(session.edit(withNewSkin(session.boat(), NewSkin::Spindle)));
    for (const NewSkin kind : {NewSkin::Suboff, NewSkin::Myring, NewSkin::Offsets, NewSkin::Spindle}) {
      const Vec3 size = hullSize(session.boat().skins.back().form);
      CHECK(session.edit(withHullForm(session.boat(), skins, kind)));
      CHECK(glm::length(hullSize(session.boat().skins.back().form) - size) < 1e-3);
    }
    CHECK(session.edit(withNewSkin(session.boat(), NewSkin::Sail)));
    CHECK(session.boat().skins.size() == skins + 2);
    CHECK(session.edit(withoutSkin(session.boat(), skins)));
    CHECK(session.boat().skins.back().name != session.boat().skins.front().name);
    for (const NewSkin piece :
         {NewSkin::Suboff, NewSkin::Myring, NewSkin::Casing, NewSkin::Keel, NewSkin::Planes, NewSkin::Skeg})
      CHECK(session.edit(withNewSkin(session.boat(), piece)));
    CHECK(session.boat().skins.size() == skins + 7);
    CHECK(session.edit(withNewCylinder(session.boat())));
    CHECK(session.edit(withoutCylinder(session.boat(), tubes)));
    CHECK(session.edit(withoutTank(session.boat())));
    CHECK(session.model().tank_capacity == 0.0);
    CHECK_FALSE(session.boat().ballast);
    CHECK(session.edit(withNewTank(session.boat())));
    CHECK(session.model().tank_capacity > 0.0);
    CHECK(session.edit(withNewBulkhead(session.boat())));
    CHECK(session.edit(withNewBulkhead(session.boat())));
    CHECK(session.model().tank_cells.size() == 3);
    CHECK(session.edit(withoutBulkhead(session.boat(), 0)));
    CHECK(session.model().tank_cells.size() == 2);
  }
}

TEST_CASE("a cylinder with weights inside is not taken away; the refusal names the weight") {
  Session session = firstSession();
  const std::size_t dry = firstOf(session.boat(), Role::Dry);
  const auto before = session.revision();
  CHECK_FALSE(session.edit(withoutCylinder(session.boat(), 0)));
  CHECK(session.revision() == before);
  REQUIRE(session.notice());
  CHECK(session.notice()->text.find(session.boat().parts[dry].name) != std::string::npos);
}

TEST_CASE("a new name is followed wherever the boat speaks of it") {
  Session session = firstSession();
  CHECK(session.edit(withName(session.boat(), {Owner::Cylinder, 0}, "drum")));
  CHECK(session.boat().tank->cylinder == "drum");
  CHECK(session.boat().parts[firstOf(session.boat(), Role::Dry)].inside == "drum");
  Boat placed = session.boat();
  const std::size_t lead = firstOf(placed, Role::Lead);
  placed.places = {{placed.parts[lead].name, {}, {}, 0.005, {}}};
  placed.aims.further.emplace_back();
  placed.aims.further[0].part = placed.parts[lead].name;
  placed.log.emplace_back();
  placed.log[0].installed = {{placed.parts[lead].name, 0.1}};
  placed = withName(placed, {Owner::Part, lead}, "keel slab");
  CHECK(placed.places[0].part == "keel slab");
  CHECK(placed.aims.further[0].part == "keel slab");
  CHECK(placed.log[0].installed[0].part == "keel slab");
  CHECK(withoutPart(placed, lead).places.empty());
}

TEST_CASE("other units change no number of the boat, and are kept") {
  Session session = firstSession();
  const std::string before = file::writeBoatFile(session.document());
  const std::string sentence = liesSentence(session);
  CHECK(sentence.find("mm") != std::string::npos);
  session.setPreferences({true, false, true});
  CHECK(file::writeBoatFile(session.document()) == before);
  CHECK(liesSentence(session).find("mm") == std::string::npos);
  CHECK(std::string(session.units().volume.suffix) == "in3");
  CHECK(keepPreferences(session.preferences()));
  CHECK(recallPreferences() == Preferences{true, false, true});
  CHECK(keepPreferences({}));
  CHECK(recallPreferences() == Preferences{});
  session.setPreferences({});
  CHECK(liesSentence(session) == sentence);
}

namespace {
void forgetAll() {
  for (const std::string& key : browser::keptKeys("")) browser::forget(key);
}

void addLead(Session& session, double mass) {
  Boat changed = session.boat();
  *changed.parts[firstOf(changed, Role::Lead)].mass += mass;
  REQUIRE(session.edit(changed));
}
}  // namespace

TEST_CASE("a later visit can go back and forth as far as the one before") {
  forgetAll();
  std::vector<Boat> boats;
  HistoryStore store;
  Session session = firstSession();
  for (int i = 0; i < 4; ++i) {
    boats.push_back(session.boat());
    addLead(session, 0.005);
    REQUIRE(store.keep(session));
  }
  boats.push_back(session.boat());
  session.undo();
  REQUIRE(store.keep(session));
  REQUIRE(keepBoat(session));
  CHECK(browser::keptKeys("step.").size() == 4);  // three behind, one before her

  auto later = resumeSession();
  REQUIRE(later);
  HistoryStore later_store;
  later_store.restore(*later);
  CHECK(later->boat() == boats[3]);
  later->redo();
  CHECK(later->boat() == boats[4]);
  for (int i = 3; i >= 0; --i) {
    REQUIRE(later->canUndo());
    later->undo();
    CHECK(later->boat() == boats[static_cast<std::size_t>(i)]);
  }
  CHECK_FALSE(later->canUndo());
  // A new edit ends the way forth; nothing of it stays behind in the store.
  addLead(*later, 0.002);
  REQUIRE(later_store.keep(*later));
  CHECK(browser::keptKeys("step.").size() == 1);
}

TEST_CASE("a step that cannot be read is passed over with a word, the ones beyond it are there") {
  forgetAll();
  HistoryStore store;
  Session session = firstSession();
  const Boat first = session.boat();
  addLead(session, 0.01);
  addLead(session, 0.01);
  REQUIRE(store.keep(session));
  REQUIRE(keepBoat(session));
  REQUIRE(browser::keep(browser::keptKeys("step.").back(), "{"));
  auto later = resumeSession();
  REQUIRE(later);
  HistoryStore().restore(*later);
  later->undo();
  CHECK(later->notice());
  CHECK(later->boat() == session.boat());
  later->undo();
  CHECK(later->boat() == first);
}

TEST_CASE("boats on the shelf: work is put there by itself, none takes another's place") {
  forgetAll();
  Session session = firstSession();
  const std::string name = session.boat().name;
  REQUIRE(openAnother(session, std::move(*preset(1))));
  CHECK(boatsOnShelf().empty());  // a preset nobody touched
  REQUIRE(openAnother(session, std::move(*preset(0))));
  addLead(session, 0.01);
  const Boat mine = session.boat();
  REQUIRE(openAnother(session, std::move(*preset(0))));
  CHECK(boatsOnShelf() == std::vector<std::string>{name});
  addLead(session, 0.02);
  const Boat other = session.boat();
  REQUIRE(openFromShelf(session, name));
  CHECK(session.boat() == mine);
  CHECK(boatsOnShelf() == std::vector<std::string>{name, name + " (2)"});
  addLead(session, 0.03);
  const Boat mine_further = session.boat();
  REQUIRE(openFromShelf(session, name + " (2)"));
  CHECK(session.boat() == other);
  REQUIRE(openFromShelf(session, name));
  CHECK(session.boat() == mine_further);  // she went back to her own place
  CHECK(boatsOnShelf().size() == 2);
  removeFromShelf(name + " (2)");
  CHECK(boatsOnShelf() == std::vector<std::string>{name});
  CHECK_FALSE(openFromShelf(session, "nobody"));
  forgetAll();
}
