// What a plan may change: each wrong place or further aim is refused by the name of its field.
#include <doctest/doctest.h>

#include <functional>
#include <limits>
#include <pondtrim/boat.hpp>
#include <pondtrim/plan.hpp>

#include "support/boats.hpp"

using namespace pondtrim;

namespace {

Part& part(Boat& boat, const std::string& name) {
  for (Part& p : boat.parts) {
    if (p.name == name) return p;
  }
  FAIL("no part " << name);
  return boat.parts.front();
}

/// Places of each kind, all sound.
Boat boatWithPlaces() {
  Boat boat = test::fullBoat();
  boat.places = {{"foam", {}, {}, 1e-6, {}},
                 {"keel", 0.1, 0.3, 0.01, {}},
                 {"battery", {}, {}, 0.001, Rail{0.62, 0.68}},
                 {"hook", {}, 0.05, 0.0, {}}};
  part(boat, "hook").role = Role::Lead;
  FurtherAim aim;
  aim.name = "in the sea";
  aim.water = Water{288.15, 35.0};
  boat.aims.further = {aim};
  return boat;
}

struct Case {
  const char* field;
  std::function<void(Boat&)> spoil;
};

const Case kCases[] = {
    {"places[0].part", [](Boat& b) { b.places[0].part = "no such part"; }},
    {"places[0].part", [](Boat& b) { b.places[0].part = "shaft"; }},
    {"places[0].part",
     [](Boat& b) {
       b.places[0].rail = Rail{0.8, 0.9};
     }},
    {"places[3].part", [](Boat& b) { b.places[3].part = "keel"; }},
    {"parts[4].mass",
     [](Boat& b) {
       part(b, "foam").volume = 0.0;
       part(b, "foam").mass = 0.001;
     }},
    {"parts[6].volume", [](Boat& b) { part(b, "keel").volume = 1e-5; }},
    {"parts[6].density", [](Boat& b) { part(b, "keel").density.reset(); }},
    {"places[0].step", [](Boat& b) { b.places[0].step = -1e-6; }},
    {"places[2].rail.from_x", [](Boat& b) { b.places[2].rail->from_x = -11; }},
    {"places[2].rail.to_x",
     [](Boat& b) { b.places[2].rail->to_x = std::numeric_limits<double>::quiet_NaN(); }},
    {"places[2].rail.from_x",
     [](Boat& b) {
       b.places[2].rail = Rail{0.68, 0.62};
     }},
    {"places[2].least", [](Boat& b) { b.places[2].least = 0.1; }},
    {"places[2].most", [](Boat& b) { b.places[2].most = 0.4; }},
    {"places[1].least", [](Boat& b) { b.places[1].least = -0.1; }},
    {"places[1].most", [](Boat& b) { b.places[1].most = 3000; }},
    {"places[1].most", [](Boat& b) { b.places[1].most = 5; }},
    {"places[1].least", [](Boat& b) { b.places[1].least = 0.31; }},
    {"places[0].least", [](Boat& b) { b.places[0].least = 0.1; }},
    {"places[3].most", [](Boat& b) { b.places[3].most.reset(); }},
    {"places", [](Boat& b) { b.places.assign(101, b.places[0]); }},
    {"aims.further", [](Boat& b) { b.aims.further.assign(101, b.aims.further[0]); }},
    {"aims.net_buoyancy", [](Boat& b) { b.aims.net_buoyancy = 0.0; }},
    {"aims.least_gm", [](Boat& b) { b.aims.least_gm = -0.001; }},
    {"aims.least_bg", [](Boat& b) { b.aims.least_bg = 11; }},
    {"aims.further[0].name", [](Boat& b) { b.aims.further[0].name.clear(); }},
    {"aims.further[0].water.salinity", [](Boat& b) { b.aims.further[0].water->salinity = 50; }},
    {"aims.further[0].part", [](Boat& b) { b.aims.further[0].part = "no such part"; }},
    {"aims.further[0].part", [](Boat& b) { b.aims.further[0].part = "keel"; }},
    {"aims.further[0].mass",
     [](Boat& b) {
       b.aims.further[0].part = "motor";
       b.aims.further[0].mass = -1;
     }},
    {"aims.further[0].mark_tolerance", [](Boat& b) { b.aims.further[0].mark_tolerance = 0.0; }},
    {"aims.further[0].trim_tolerance", [](Boat& b) { b.aims.further[0].trim_tolerance = 2; }},
};

}  // namespace

TEST_CASE("each wrong place or further aim is refused: the field, what it was, what is allowed") {
  const auto sound = checkBoat(boatWithPlaces());
  if (!sound) FAIL(sound.error().field << ": " << sound.error().message);
  for (const Case& c : kCases) {
    CAPTURE(c.field);
    Boat boat = boatWithPlaces();
    c.spoil(boat);
    const auto checked = checkBoat(boat);
    REQUIRE_FALSE(checked);
    CAPTURE(checked.error().message);
    CHECK(checked.error().field == c.field);
    CHECK_FALSE(checked.error().was.empty());
    CHECK_FALSE(checked.error().allowed.empty());
    CHECK_FALSE(checked.error().message.empty());
    // The same answer by the door of the plan.
    const auto plan = makePlan(boat);
    REQUIRE_FALSE(plan);
    CHECK(plan.error().field == c.field);
  }
}
