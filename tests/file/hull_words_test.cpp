#include <doctest/doctest.h>

#include <cmath>
#include <pondtrim/file/hull_words.hpp>
#include <string>

#include "support/boats.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {
bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
}  // namespace

TEST_CASE("the skin's mass is told beside what it was weighed, and a large gap asks for the thickness") {
  SkinMass mass{0.25, 5e-4, 0.75, 0.62};
  std::string said = skinMassSentence(mass);
  CHECK(has(said, "2500 cm²"));
  CHECK(has(said, "500 mL"));
  CHECK(has(said, "should weigh 750 g; weighed: 620 g, 130 g less (17 %)"));
  CHECK_FALSE(has(said, "thickness: "));
  mass.weighed = 1.2;
  CHECK(has(skinMassSentence(mass), "450 g more (60 %). Check the thickness"));
  mass.reckoned.reset();
  CHECK(has(skinMassSentence(mass), "comes to 2400 kg/m³"));
  CHECK(has(skinMassSentence(SkinMass{0.25, 5e-4, 0.75, {}}), "should weigh 750 g; weigh it"));
  CHECK(has(skinMassSentence(SkinMass{0.25, 5e-4, 0.75, {}}, kInchUnits), "oz"));
}

TEST_CASE("the painted line's table has round steps, about fifteen of them") {
  Boat boat = test::fullBoat();
  for (const double length : {0.3, 0.73, 1.0, 1.9, 4.2}) {
    boat.length = length;
    for (const UnitSet& units : {kMetricUnits, kInchUnits}) {
      const double step = lineStep(boat, units), in_unit = fromSi(step, units.length);
      CHECK(length / step > 9);
      CHECK(length / step < 26);
      const double first = in_unit / std::pow(10, std::floor(std::log10(in_unit) + 1e-9));
      CHECK((std::abs(first - 1) < 1e-9 || std::abs(first - 2) < 1e-9 || std::abs(first - 5) < 1e-9));
    }
  }
}

TEST_CASE("all of the hull as JSON: pieces, painted line, air") {
  Boat boat = test::formsBoat();
  boat.openings = {{"limber hole", "sail", {0.6, 0, 0.1}, 0.003}};
  const auto model = buildModel(boat);
  REQUIRE(model);
  const auto json = hullJson(boat, *model);
  REQUIRE(json);
  for (const char* part : {"\"form\": \"suboff\"", "\"form\": \"offsets\"", "\"room_spread_mL\"",
                           "\"sectional_areas\"", "\"painted_line\"", "\"from_deck_mm\"", "\"air_tank_full\"",
                           "\"skin\": \"sail\"", "\"reckoned_mass_g\""})
    CHECK_MESSAGE(has(*json, part), part);
}

TEST_CASE("a number of the table that does not fit is told with its place") {
  OffsetsForm form = offsetsOf(SpindleForm{1.0, 0.1, 0.1, 0.3, 0.4}, 11, 9);
  form.stations[5].half_breadths[4] += 0.015;
  const std::string said = fairingSentence(form, fairingOf(form));
  CHECK(has(said, "give or take"));
  CHECK(has(said, "at station 500.0 mm"));
}

TEST_CASE("trapped air is told with its place") {
  Boat boat = test::fullBoat();
  const std::string said = airSentence(boat, {1, 34e-6, {0.6, 0, 0.168}});
  CHECK(has(said, "About 34 mL of air would stay in \"sail\""));
  CHECK(has(said, "600.0 mm from aft and 168.0 mm up"));
}
