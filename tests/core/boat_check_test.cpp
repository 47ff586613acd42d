// Every number of a boat has its range, and a fault is named by the field at fault.
#include <doctest/doctest.h>

#include <functional>
#include <limits>
#include <pondtrim/model.hpp>
#include <string>
#include <variant>
#include <vector>

#include "support/boats.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kInf = std::numeric_limits<double>::infinity();

using Pick = std::function<double&(Boat&)>;

struct Number {
  std::string field;
  Pick pick;
  std::vector<double> bad;  // besides NaN and the infinities
};

double& some(std::optional<double>& value) { return value ? *value : value.emplace(0.0); }

SpindleForm& spindle(Boat& b) { return std::get<SpindleForm>(b.skins[0].form); }
SailForm& sail(Boat& b) { return std::get<SailForm>(b.skins[1].form); }
std::size_t indexOf(const Boat& b, const std::string& name) {
  for (std::size_t i = 0; i < b.parts.size(); ++i) {
    if (b.parts[i].name == name) return i;
  }
  FAIL("no part " << name);
  return 0;
}
std::string at(const std::string& name) { return "parts[" + std::to_string(indexOf(fullBoat(), name)) + "]"; }
Part& named(Boat& b, const std::string& name) { return b.parts[indexOf(b, name)]; }

// Lengths: nothing, less than nothing, longer than any boat.
const std::vector<double> kLength{0.0, -0.1, 1e-7, 11.0, 1e9};
const std::vector<double> kPlace{-11.0, 11.0, 1e9};

std::vector<Number> skinNumbers() {
  std::vector<Number> out;
  const auto add = [&](const char* field, Pick pick, std::vector<double> bad) {
    out.push_back({field, std::move(pick), std::move(bad)});
  };
  add(
      "skins[0].form.length", [](Boat& b) -> double& { return spindle(b).length; }, kLength);
  add(
      "skins[0].form.breadth", [](Boat& b) -> double& { return spindle(b).breadth; }, kLength);
  add(
      "skins[0].form.height", [](Boat& b) -> double& { return spindle(b).height; }, kLength);
  add("skins[0].form.nose_length", [](Boat& b) -> double& { return spindle(b).nose_length; },
      {0.0, -0.1, 0.9});
  add("skins[0].form.tail_length", [](Boat& b) -> double& { return spindle(b).tail_length; },
      {0.0, -0.1, 11.0});
  add("skins[0].form.nose_power", [](Boat& b) -> double& { return spindle(b).nose_power; }, {0.9, 8.1, -2.0});
  add("skins[0].form.nose_root", [](Boat& b) -> double& { return spindle(b).nose_root; }, {0.9, 8.1, 0.0});
  add("skins[0].form.tail_power", [](Boat& b) -> double& { return spindle(b).tail_power; }, {0.9, 8.1, 0.0});
  add("skins[0].form.tail_root", [](Boat& b) -> double& { return spindle(b).tail_root; }, {0.9, 8.1, 0.0});
  add("skins[0].form.nose_lift", [](Boat& b) -> double& { return spindle(b).nose_lift; }, {-1.1, 1.1});
  add("skins[0].form.tail_lift", [](Boat& b) -> double& { return spindle(b).tail_lift; }, {-1.1, 1.1});
  add("skins[0].form.section_power", [](Boat& b) -> double& { return spindle(b).section_power; },
      {1.1, 12.1, 0.0});
  add(
      "skins[1].form.length", [](Boat& b) -> double& { return sail(b).length; }, kLength);
  add(
      "skins[1].form.breadth", [](Boat& b) -> double& { return sail(b).breadth; }, kLength);
  add(
      "skins[1].form.height", [](Boat& b) -> double& { return sail(b).height; }, kLength);
  add("skins[1].form.top_scale", [](Boat& b) -> double& { return sail(b).top_scale; },
      {0.05, 1.1, 0.0, -1.0});
  add(
      "skins[1].form.rake", [](Boat& b) -> double& { return sail(b).rake; }, kPlace);
  add("skins[1].form.shoulder", [](Boat& b) -> double& { return sail(b).shoulder; }, {0.05, 0.95, -1.0});
  add(
      "skins[0].position.x", [](Boat& b) -> double& { return b.skins[0].position.x; }, kPlace);
  add(
      "skins[0].position.y", [](Boat& b) -> double& { return b.skins[0].position.y; }, kPlace);
  add(
      "skins[0].position.z", [](Boat& b) -> double& { return b.skins[0].position.z; }, kPlace);
  add("skins[0].thickness", [](Boat& b) -> double& { return b.skins[0].thickness; }, {0.0, -0.001, 0.2});
  add("skins[0].density", [](Boat& b) -> double& { return some(b.skins[0].density); }, {-1.0, 3e4});
  add("skins[1].mass", [](Boat& b) -> double& { return some(b.skins[1].mass); }, {-0.1, 1e5});
  return out;
}

std::vector<Number> cylinderNumbers() {
  std::vector<Number> out;
  const auto add = [&](const char* field, Pick pick, std::vector<double> bad) {
    out.push_back({field, std::move(pick), std::move(bad)});
  };
  add(
      "cylinders[0].position.x", [](Boat& b) -> double& { return b.cylinders[0].position.x; }, kPlace);
  add(
      "cylinders[0].position.y", [](Boat& b) -> double& { return b.cylinders[0].position.y; }, kPlace);
  add(
      "cylinders[0].position.z", [](Boat& b) -> double& { return b.cylinders[0].position.z; }, kPlace);
  add(
      "cylinders[0].length", [](Boat& b) -> double& { return b.cylinders[0].length; }, kLength);
  add("cylinders[0].diameter", [](Boat& b) -> double& { return b.cylinders[0].diameter; }, {0.0, -1.0, 11.0});
  add("cylinders[0].wall_thickness", [](Boat& b) -> double& { return b.cylinders[0].wall_thickness; },
      {0.0, -0.001, 0.04, 0.05});
  add("cylinders[0].cap_thickness", [](Boat& b) -> double& { return b.cylinders[0].cap_thickness; },
      {0.0, -0.001, 0.25});
  add("cylinders[0].fore_dome", [](Boat& b) -> double& { return b.cylinders[0].fore_dome; },
      {-0.01, 0.001, 11.0});
  add("cylinders[0].aft_dome", [](Boat& b) -> double& { return b.cylinders[0].aft_dome; },
      {-0.01, 0.001, 11.0});
  add("cylinders[0].mass", [](Boat& b) -> double& { return some(b.cylinders[0].mass); }, {-0.1, 1e5});
  add("cylinders[0].density", [](Boat& b) -> double& { return some(b.cylinders[0].density); }, {-0.1, 1e5});
  add("tank.aft_end", [](Boat& b) -> double& { return b.tank->aft_end; }, {0.2, -11.0});
  add("tank.fore_end", [](Boat& b) -> double& { return b.tank->fore_end; }, {0.8, 0.4, 11.0});
  add("tank.capacity", [](Boat& b) -> double& { return some(b.tank->capacity); }, {0.0, -1.0, 0.001, 11.0});
  add("tank.bulkheads[0]", [](Boat& b) -> double& { return b.tank->bulkheads[0]; }, {0.4, 0.47, 0.58, 0.7});
  return out;
}

std::vector<Number> partNumbers() {
  std::vector<Number> out;
  const auto add = [&](const char* name, const char* field, std::function<double&(Part&)> pick,
                       std::vector<double> bad) {
    const std::string part = name;
    out.push_back({at(part) + field, [part, pick](Boat& b) -> double& { return pick(named(b, part)); }, bad});
  };
  add(
      "stern foam", ".position.x", [](Part& p) -> double& { return p.position.x; }, kPlace);
  add(
      "stern foam", ".position.y", [](Part& p) -> double& { return p.position.y; }, kPlace);
  add(
      "stern foam", ".position.z", [](Part& p) -> double& { return p.position.z; }, kPlace);
  add("stern foam", ".density", [](Part& p) -> double& { return some(p.density); }, {-1.0, 3e4});
  add("foam", ".volume", [](Part& p) -> double& { return some(p.volume); }, {-1e-6, 1.0, 11.0});
  add("keel", ".mass", [](Part& p) -> double& { return some(p.mass); }, {-0.1, 1e5});
  const auto box = [](Part& p) -> BoxShape& { return std::get<BoxShape>(p.shape); };
  add(
      "stern foam", ".shape.size.x", [box](Part& p) -> double& { return box(p).size.x; }, kLength);
  add(
      "stern foam", ".shape.size.y", [box](Part& p) -> double& { return box(p).size.y; }, kLength);
  add(
      "stern foam", ".shape.size.z", [box](Part& p) -> double& { return box(p).size.z; }, kLength);
  const auto round = [](Part& p) -> CylinderShape& { return std::get<CylinderShape>(p.shape); };
  add(
      "periscope", ".shape.diameter", [round](Part& p) -> double& { return round(p).diameter; }, kLength);
  add("periscope", ".shape.length", [round](Part& p) -> double& { return round(p).length; }, {-0.1, 11.0});
  add("periscope", ".shape.fore_dome", [round](Part& p) -> double& { return round(p).fore_dome; },
      {-0.1, 11.0});
  add("periscope", ".shape.aft_dome", [round](Part& p) -> double& { return round(p).aft_dome; },
      {-0.1, 11.0});
  const auto strip = [](Part& p) -> StripShape& { return std::get<StripShape>(p.shape); };
  add(
      "keel", ".shape.length", [strip](Part& p) -> double& { return strip(p).length; }, kLength);
  add(
      "keel", ".shape.aft_breadth", [strip](Part& p) -> double& { return strip(p).aft_breadth; }, kLength);
  add(
      "keel", ".shape.aft_height", [strip](Part& p) -> double& { return strip(p).aft_height; }, kLength);
  add(
      "keel", ".shape.fore_breadth", [strip](Part& p) -> double& { return strip(p).fore_breadth; }, kLength);
  add(
      "keel", ".shape.fore_height", [strip](Part& p) -> double& { return strip(p).fore_height; }, kLength);
  return out;
}

std::vector<Number> boatNumbers() {
  std::vector<Number> out;
  const auto add = [&](const char* field, Pick pick, std::vector<double> bad) {
    out.push_back({field, std::move(pick), std::move(bad)});
  };
  add("length", [](Boat& b) -> double& { return b.length; }, {0.0, -1.0, 0.01, 11.0});
  add("marks.bow_x", [](Boat& b) -> double& { return b.marks.bow_x; }, {0.18, 0.1, -11.0, 11.0});
  add("marks.stern_x", [](Boat& b) -> double& { return b.marks.stern_x; }, {-11.0, 11.0});
  add("marks.line_height", [](Boat& b) -> double& { return b.marks.line_height; }, {-0.1, 11.0});
  add("marks.deck_height", [](Boat& b) -> double& { return b.marks.deck_height; }, {-0.1, 0.05, 11.0});
  add(
      "marks.sail_top.x", [](Boat& b) -> double& { return b.marks.sail_top.x; }, kPlace);
  add(
      "marks.sail_top.y", [](Boat& b) -> double& { return b.marks.sail_top.y; }, kPlace);
  add("marks.sail_top.z", [](Boat& b) -> double& { return b.marks.sail_top.z; }, {0.05, -11.0, 11.0});
  add("water.temperature", [](Boat& b) -> double& { return b.water.temperature; }, {15.0, 272.0, 314.0});
  add("water.salinity", [](Boat& b) -> double& { return b.water.salinity; }, {-1.0, 43.0});
  add("aims.sail_showing", [](Boat& b) -> double& { return b.aims.sail_showing; }, {-11.0, 11.0});
  return out;
}

void checkRefused(const Boat& boat, const std::string& field) {
  const Result<void> result = checkBoat(boat);
  REQUIRE_MESSAGE(!result.has_value(), "accepted");
  const Error& e = result.error();
  CAPTURE(e.message);
  CHECK(e.field == field);
  CHECK(!e.was.empty());
  CHECK(!e.allowed.empty());
  // The sentence stands alone: it names the field, or the thing whose field is missing or misplaced.
  CHECK(e.message.find(field.substr(0, field.find('.'))) != std::string::npos);
  // buildModel says the same and builds nothing.
  const Result<Model> model = buildModel(boat);
  REQUIRE(!model.has_value());
  CHECK(model.error() == e);
}

}  // namespace

TEST_SUITE("a wrong number is refused and named") {
  TEST_CASE("the boats that the other tests use are accepted") {
    for (const NamedBoat& named : allBoats()) {
      CAPTURE(named.name);
      const Result<void> result = checkBoat(named.boat);
      if (!result) FAIL(result.error().message);
    }
  }

  TEST_CASE("every number out of its range, not a number or infinite") {
    int refused = 0;
    for (const auto& numbers : {skinNumbers(), cylinderNumbers(), partNumbers(), boatNumbers()}) {
      for (const Number& number : numbers) {
        CAPTURE(number.field);
        std::vector<double> bad = number.bad;
        bad.insert(bad.end(), {kNaN, kInf, -kInf});
        for (double value : bad) {
          CAPTURE(value);
          Boat boat = fullBoat();
          number.pick(boat) = value;
          checkRefused(boat, number.field);
          ++refused;
        }
      }
    }
    CHECK(refused > 350);
  }

  TEST_CASE("the ends of the ranges are allowed") {
    int allowed = 0;
    const auto accept = [&](const Pick& pick, double value) {
      Boat boat = fullBoat();
      pick(boat) = value;
      CAPTURE(value);
      const Result<void> result = checkBoat(boat);
      if (!result) FAIL_CHECK(result.error().message);
      ++allowed;
    };
    for (double v : {1.0, 8.0}) {
      accept([](Boat& b) -> double& { return spindle(b).nose_power; }, v);
      accept([](Boat& b) -> double& { return spindle(b).tail_root; }, v);
    }
    for (double v : {-1.0, 1.0}) accept([](Boat& b) -> double& { return spindle(b).nose_lift; }, v);
    for (double v : {1.2, 12.0}) accept([](Boat& b) -> double& { return spindle(b).section_power; }, v);
    for (double v : {0.1, 1.0}) accept([](Boat& b) -> double& { return sail(b).top_scale; }, v);
    for (double v : {273.15, 313.15}) accept([](Boat& b) -> double& { return b.water.temperature; }, v);
    for (double v : {0.0, 42.0}) accept([](Boat& b) -> double& { return b.water.salinity; }, v);
    // 0.1 + 0.2 and the like: the tank may end exactly where the tube does, give or take a rounding.
    accept([](Boat& b) -> double& { return b.cylinders[0].aft_dome; }, 0.0);
    CHECK(allowed == 15);
  }

  TEST_CASE("a name that is missing or used twice") {
    Boat boat = fullBoat();
    boat.name = "";
    checkRefused(boat, "name");

    const std::vector<std::pair<std::string, std::function<std::string&(Boat&)>>> names{
        {"skins[1].name", [](Boat& b) -> std::string& { return b.skins[1].name; }},
        {"parts[3].name", [](Boat& b) -> std::string& { return b.parts[3].name; }},
    };
    for (const auto& row : names) {  // clang 14 cannot capture a structured binding
      const std::string& field = row.first;
      const auto& pick = row.second;
      CAPTURE(field);
      boat = fullBoat();
      pick(boat) = "";
      checkRefused(boat, field);
      boat = fullBoat();
      pick(boat) = "hull";  // the first skin's
      checkRefused(boat, field);
      CHECK(checkBoat(boat).error().other_field == "skins[0].name");
    }
    boat = fullBoat();
    boat.parts[2].name = "cylinder";
    checkRefused(boat, "parts[2].name");
    CHECK(checkBoat(boat).error().other_field == "cylinders[0].name");
  }

  TEST_CASE("a tank that does not fit its cylinder, or has none") {
    Boat boat = fullBoat();
    boat.tank->fore_end = 0.75;  // the tube ends at 0.72
    checkRefused(boat, "tank.fore_end");
    CHECK(!checkBoat(boat).error().other_field.empty());
    boat = fullBoat();
    boat.tank->aft_end = 0.30;  // and begins at 0.32
    checkRefused(boat, "tank.aft_end");
    CHECK(!checkBoat(boat).error().other_field.empty());
    // A flat end cap stands inside the tube, a dome outside it.
    for (const double dome : {0.0, 0.02}) {
      CAPTURE(dome);
      boat = fullBoat();
      SealedCylinder& tube = boat.cylinders[0];
      tube.fore_dome = tube.aft_dome = dome;
      boat.tank->bulkheads.clear();
      boat.tank->fore_end = 0.72 - tube.cap_thickness / 2;
      if (dome > 0)
        CHECK(checkBoat(boat));
      else
        checkRefused(boat, "tank.fore_end");
      boat.tank->fore_end = 0.72 - tube.cap_thickness;
      boat.tank->aft_end = 0.32 + tube.cap_thickness;
      CHECK(checkBoat(boat));
      boat.tank->aft_end -= tube.cap_thickness / 2;
      if (dome > 0)
        CHECK(checkBoat(boat));
      else
        checkRefused(boat, "tank.aft_end");
    }
    boat = fullBoat();
    boat.tank->cylinder = "another";
    checkRefused(boat, "tank.cylinder");
    CHECK(checkBoat(boat).error().allowed.find("cylinder") != std::string::npos);
    boat.cylinders.clear();
    boat.parts.clear();
    checkRefused(boat, "tank.cylinder");
    boat = fullBoat();
    boat.tank->bulkheads = {0.52, 0.50};
    checkRefused(boat, "tank.bulkheads[1]");
  }

  TEST_CASE("a dry item in a cylinder that is not there, or outside the one it names") {
    Boat boat = fullBoat();
    boat.parts[0].inside = "another";
    checkRefused(boat, "parts[0].inside");
    boat = fullBoat();
    boat.parts[0].inside = "";
    checkRefused(boat, "parts[0].inside");
    boat = fullBoat();
    boat.parts[0].position.x = 0.9;
    checkRefused(boat, "parts[0].position.x");
    boat = fullBoat();
    boat.parts[0].position.z = 0.2;
    checkRefused(boat, "parts[0].position.z");
    boat = fullBoat();
    named(boat, "keel").inside = "cylinder";
    checkRefused(boat, at("keel") + ".inside");
  }

  TEST_CASE("a thing without weight, and more volume or lead than its shape holds") {
    Boat boat = fullBoat();
    boat.skins[1].mass.reset();
    checkRefused(boat, "skins[1].mass");
    boat = fullBoat();
    boat.cylinders[0].mass.reset();
    checkRefused(boat, "cylinders[0].mass");
    for (const std::string& name : std::vector<std::string>{"battery", "hook", "shaft"}) {
      CAPTURE(name);
      boat = fullBoat();
      named(boat, name).mass.reset();
      checkRefused(boat, at(name) + ".mass");
    }
    boat = fullBoat();
    named(boat, "foam").volume = 1e-4;  // the strip holds 58 mL
    checkRefused(boat, at("foam") + ".volume");
    boat = fullBoat();
    named(boat, "keel").mass = 0.5;  // 44 mL of lead in a strip of 27
    checkRefused(boat, at("keel") + ".mass");
    boat = fullBoat();
    named(boat, "bubble").mass = 0.1;
    checkRefused(boat, at("bubble") + ".mass");
  }

  TEST_CASE("a boat without mass or without displacement") {
    Boat boat;
    boat.name = "nothing";
    CHECK(checkBoat(boat).has_value());
    CHECK(!buildModel(boat).has_value());
    Part weight;
    weight.name = "weight";
    weight.shape = PointShape{};
    weight.mass = 1.0;
    boat.parts.push_back(weight);
    CHECK(!buildModel(boat).has_value());
  }

  TEST_CASE("the fill of the tank is checked against its capacity") {
    const Model model = buildModel(fullBoat()).value();
    CHECK(model.tank_capacity == doctest::Approx(0.00046).epsilon(1e-12));
    for (double fill : {-1e-6, 0.00047, 1.0, kNaN, kInf, -kInf}) {
      CAPTURE(fill);
      const auto settled = settleTank(model, fill, {0, 0, 1});
      REQUIRE(!settled.has_value());
      CHECK(settled.error().field == "tank_fill");
    }
    CHECK(settleTank(model, 0.0, {0, 0, 1}).has_value());
    CHECK(settleTank(model, 0.00046, {0, 0, 1}).has_value());
    Boat dry = fullBoat();
    dry.tank.reset();
    const Model without = buildModel(dry).value();
    CHECK(settleTank(without, 0.0, {0, 0, 1}).has_value());
    CHECK(!settleTank(without, 1e-4, {0, 0, 1}).has_value());
  }
}
