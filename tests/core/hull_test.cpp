// Skin mass, painted line, trapped air.
#include <doctest/doctest.h>

#include <cmath>
#include <pondtrim/hull.hpp>
#include <pondtrim/report.hpp>

#include "support/boats.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

/// A tube with flat ends as good as: radius 50 mm, 1 m long, axis at z = 50 mm.
Boat tubeBoat() {
  Boat boat = fullBoat();
  boat.skins.resize(1);
  boat.skins[0].form = SpindleForm{1.0, 0.1, 0.1, 1e-4, 1e-4, 8, 8, 8, 8};
  boat.skins[0].position = {0, 0, 0.05};
  boat.marks.line_height = 0.05;
  return boat;
}

Plane level(double z) { return {{0, 0, 1}, z}; }

/// The tube alone, with nothing in it.
Boat emptyTubeBoat() {
  Boat boat = tubeBoat();
  boat.parts.clear();
  boat.places.clear();
  boat.log.clear();
  boat.cylinders.clear();
  boat.tank.reset();
  boat.ballast.reset();
  return boat;
}

}  // namespace

TEST_CASE("a skin's mass by area, thickness and density stands beside what was weighed") {
  Boat boat = tubeBoat();
  boat.skins[0].thickness = 0.002;
  boat.skins[0].mass = 0.9;
  boat.skins[0].density = 1500;
  const auto model = buildModel(boat);
  REQUIRE(model);
  const SkinMass mass = skinMass(model->skins[0]);
  const double area = 2 * kPi * 0.05 * 1.0 + 2 * kPi * 0.0025;
  CHECK(mass.area == doctest::Approx(area).epsilon(1e-3));
  CHECK(mass.volume == doctest::Approx(area * 0.002).epsilon(1e-3));
  REQUIRE(mass.reckoned);
  CHECK(*mass.reckoned == doctest::Approx(area * 0.002 * 1500).epsilon(1e-3));
  CHECK(mass.weighed == 0.9);
  boat.skins[0].density.reset();
  CHECK_FALSE(skinMass(buildModel(boat)->skins[0]).reckoned);
}

TEST_CASE("the room inside a sail and a casing is that above their feet") {
  Skin sail;
  sail.form = SailForm{0.1, 0.1, 0.15, 1.0, 0.0, 0.5};  // a round tower
  CHECK(roomInside(sail).volume == doctest::Approx(kPi * 0.0025 * 0.15).epsilon(1e-4));
  CHECK(roomInside(sail).centroid.z == doctest::Approx(0.075));
  Skin casing;
  casing.form = CasingForm{0.4, 0.06, 0.03, 0.03, 0.03, 2, 2, 2};  // half a capsule
  CHECK(roomInside(casing).volume ==
        doctest::Approx(0.5 * kPi * 0.0009 * 0.34 + 2.0 / 3 * kPi * 0.000027).epsilon(2e-4));
  Skin plate;
  plate.form = PlateForm{};
  CHECK(roomInside(plate).volume == 0);
}

TEST_CASE(
    "the painted line of a tube lies a quarter of its girth from keel and deck, and follows its height") {
  Boat boat = tubeBoat();
  for (const double z : {0.05, 0.02, 0.09}) {
    boat.marks.line_height = z;
    const auto line = paintedLine(boat, 0.1);
    REQUIRE(line.size() >= 9);
    const double angle = std::acos((0.05 - z) / 0.05);  // from the keel
    for (const LinePoint& p : line) {
      if (p.x < 0.05 || p.x > 0.95) continue;
      CAPTURE(p.x);
      CHECK(p.from_keel == doctest::Approx(0.05 * angle).epsilon(1e-3));
      CHECK(p.from_deck == doctest::Approx(0.05 * (kPi - angle)).epsilon(1e-3));
      CHECK(p.half_breadth == doctest::Approx(0.05 * std::sin(angle)).epsilon(1e-3));
      CHECK(std::abs(p.x * 10 - std::round(p.x * 10)) < 1e-9);
    }
  }
  boat.marks.line_height = 0.2;
  CHECK(paintedLine(boat, 0.1).empty());
  boat.skins.clear();
  CHECK(paintedLine(boat, 0.1).empty());
}

TEST_CASE("air stays above the highest opening, less what stands there, and only under water") {
  Boat boat = emptyTubeBoat();
  boat.openings = {{"limber holes", "hull", {0.5, 0, 0.0}, std::nullopt},
                   {"vent", "hull", {0.5, 0.05, 0.05}, std::nullopt}};
  const double half = kPi * 0.0025 / 2;
  auto model = buildModel(boat);
  REQUIRE(model);
  auto pockets = trappedAir(boat, *model, level(1));
  REQUIRE(pockets.size() == 1);
  CHECK(pockets[0].skin == 0);
  CHECK(pockets[0].volume == doctest::Approx(half).epsilon(3e-3));
  CHECK(pockets[0].highest.z == doctest::Approx(0.1));
  // The water half way up from the vent: what is above it is not trapped under water.
  const double strip = 0.05 * 0.05 * (kPi / 6 + 0.5 * std::sqrt(0.75));  // between the axis and r/2
  CHECK(trappedAir(boat, *model, level(0.075))[0].volume == doctest::Approx(strip).epsilon(3e-3));
  CHECK(trappedAir(boat, *model, level(0.05)).empty());
  // A block of foam near the top takes its own volume.
  Part foam;
  foam.name = "foam";
  foam.role = Role::Foam;
  foam.shape = BoxShape{{0.2, 0.03, 0.01}};
  foam.position = {0.5, 0, 0.08};
  foam.density = 30;
  boat.parts.push_back(foam);
  model = buildModel(boat);
  CHECK(trappedAir(boat, *model, level(1))[0].volume == doctest::Approx(half - 6e-5).epsilon(3e-3));
  // A vent in the top lets all of it out.
  boat.openings.push_back({"top vent", "hull", {0.3, 0, 0.1}, 0.004});
  CHECK(trappedAir(boat, *model, level(1)).empty());
}

TEST_CASE("bow up, the air runs forward of a vent amidships") {
  Boat boat = emptyTubeBoat();
  boat.openings = {{"vent", "hull", {0.5, 0, 0.1}, std::nullopt}};
  const auto model = buildModel(boat);
  REQUIRE(model);
  CHECK(trappedAir(boat, *model, level(1)).empty());
  const double t = 0.02;
  const Plane tilted{{std::sin(t), 0, std::cos(t)}, 1};
  const auto pockets = trappedAir(boat, *model, tilted);
  REQUIRE(pockets.size() == 1);
  CHECK(pockets[0].highest.x > 0.99);
  CHECK(pockets[0].volume > 0);
}

TEST_CASE("a sail without a vent keeps its air; a hull of which nothing is listed is left out") {
  Boat boat = fullBoat();
  const auto model = buildModel(boat);
  REQUIRE(model);
  CHECK(trappedAir(boat, *model, level(1)).empty());  // no opening is listed at all
  boat.openings = {{"limber hole", "sail", {0.6, 0, 0.1}, 0.003}};
  const auto pockets = trappedAir(boat, *model, level(1));
  REQUIRE(pockets.size() == 1);
  CHECK(pockets[0].skin == 1);
  Skin sail = boat.skins[1];
  CHECK(pockets[0].volume < roomInside(sail).volume);
  CHECK(pockets[0].volume > 0.8 * roomInside(sail).volume);
}

TEST_CASE("an opening names a skin that is there") {
  Boat boat = fullBoat();
  boat.openings = {{"vent", "sale", {0, 0, 0}, std::nullopt}};
  const auto checked = checkBoat(boat);
  REQUIRE_FALSE(checked);
  CHECK(checked.error().field == "openings[0].skin");
  CHECK(checked.error().allowed == "\"hull\", \"sail\"");
  boat.openings[0].skin = "sail";
  CHECK(checkBoat(boat));
  boat.openings[0].diameter = 0.0;
  CHECK(checkBoat(boat).error().field == "openings[0].diameter");
  boat.openings[0] = {"", "sail", {0, 0, 0}, std::nullopt};
  CHECK(checkBoat(boat).error().field == "openings[0].name");
}
