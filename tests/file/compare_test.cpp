// Two boats side by side: exactly what was changed is listed, in the person's units.
#include <doctest/doctest.h>

#include <pondtrim/file/compare.hpp>

#include "support/presets.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {
Boat boat() { return test::presetBoat(test::presetPaths().front()).boat; }
Part& battery(Boat& b) {
  for (Part& p : b.parts)
    if (p.name == "battery") return p;
  FAIL("no battery");
  return b.parts.front();
}
}  // namespace

TEST_CASE("a boat does not differ from itself, whatever its origin or the order of its parts") {
  for (const std::string& path : test::presetPaths()) {
    const Boat b = test::presetBoat(path).boat;
    CHECK(compareBoats(b, b).empty());
    Boat other = b;
    other.origin = "a link";
    std::swap(other.parts.front(), other.parts.back());
    CHECK(compareBoats(b, other).empty());
  }
}

TEST_CASE("each change is one line with both values") {
  const Boat mine = boat();
  Boat theirs = mine;
  battery(theirs).mass = 0.275;
  battery(theirs).position.x += 0.0125;
  theirs.skins[0].thickness = 0.003;
  theirs.water.temperature = 293.15;
  theirs.name = "Other";
  const auto d = compareBoats(mine, theirs);
  REQUIRE(d.size() == 5);
  CHECK(d[0] == Difference{"", "name", mine.name, "Other"});
  CHECK(d[1] == Difference{"hull", "thickness", "1.6 mm", "3 mm"});
  CHECK(d[2].thing == "battery");
  CHECK(d[2].what == "place along");
  CHECK(d[3] == Difference{"battery", "mass", "260 g", "275 g"});
  CHECK(differenceSentence(d[3]) == "battery: mass: mine 260 g, theirs 275 g.");
  CHECK(d[4] == Difference{"", "temperature", "15 °C", "20 °C"});
  CHECK(compareBoats(mine, theirs, kInchUnits)[3] == Difference{"battery", "mass", "9.171 oz", "9.7 oz"});
  CHECK(compareBoats(theirs, mine)[3].mine == "275 g");
}

TEST_CASE("things that only one has, numbers that only one has, places, readings") {
  const Boat mine = boat();
  Boat theirs = mine;
  Part spare;
  spare.name = "spare lead";
  spare.shape = PointShape{};
  spare.mass = 0.1;
  theirs.parts.push_back(spare);
  battery(theirs).volume = 3e-5;
  theirs.tank.reset();
  theirs.places.erase(theirs.places.begin());
  theirs.log.resize(2);
  const auto d = compareBoats(mine, theirs);
  const auto has = [&](const Difference& wanted) { return std::find(d.begin(), d.end(), wanted) != d.end(); };
  CHECK(has({"spare lead", "", "", "there"}));
  CHECK(has({"battery", "volume", "", "30 mL"}));
  CHECK(has({"tank", "", "there", ""}));
  CHECK(has({mine.places[0].part + " as a place", "", "there", ""}));
  CHECK(has({"", "readings", "0", "2"}));
  CHECK(d.size() == 5);
  CHECK(differenceSentence({"tank", "", "there", ""}) == "\"tank\" is only in mine.");
  Boat other_log = theirs;
  other_log.log[1].note = "windy";
  CHECK(compareBoats(theirs, other_log) == std::vector{Difference{"", "readings", "others", "others"}});
}

TEST_CASE("numbers that differ never look alike") {
  const Boat mine = boat();
  Boat theirs = mine;
  battery(theirs).mass = 0.26000000000001;
  const auto d = compareBoats(mine, theirs);
  REQUIRE(d.size() == 1);
  CHECK(d[0].mine != d[0].theirs);
}

TEST_CASE("every number that is changed is found: 300 changes, one at a time") {
  test::Random random(7);
  const Boat mine = boat();
  for (int i = 0; i < test::effort(300); ++i) {
    Boat theirs = mine;
    Part& part = theirs.parts[static_cast<std::size_t>(random.index(static_cast<int>(theirs.parts.size())))];
    part.position.z += random.between(1e-4, 1e-3);
    const auto d = compareBoats(mine, theirs);
    REQUIRE(d.size() == 1);
    REQUIRE(d[0].thing == part.name);
    REQUIRE(d[0].what == "height of place");
  }
}
