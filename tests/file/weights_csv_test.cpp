// The table of weights: out and in again without a change, and what a builder types in a spreadsheet.
#include <doctest/doctest.h>

#include <algorithm>
#include <pondtrim/file/weights_csv.hpp>

#include "support/presets.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

Boat boat() { return test::presetBoat(test::presetPaths().front()).boat; }

const Part& partNamed(const Boat& b, const std::string& name) {
  const auto found =
      std::find_if(b.parts.begin(), b.parts.end(), [&](const Part& p) { return p.name == name; });
  REQUIRE(found != b.parts.end());
  return *found;
}

Boat read(const std::string& text) {
  auto b = readWeightsCsv(text, boat());
  if (!b) FAIL(b.error().message);
  return *b;
}

Error errorOf(const std::string& text) {
  const auto b = readWeightsCsv(text, boat());
  REQUIRE_FALSE(b);
  return b.error();
}

}  // namespace

TEST_CASE("every preset's table comes back without a change, in every set of units") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat b = test::presetBoat(path).boat;
    const auto metric = readWeightsCsv(writeWeightsCsv(b), b);
    if (!metric) FAIL(metric.error().message);
    CHECK(*metric == b);
    const auto inch = readWeightsCsv(writeWeightsCsv(b, kInchUnits), b);
    if (!inch) FAIL(inch.error().message);
    CHECK(*inch == b);
  }
}

TEST_CASE("a table rebuilds a boat's parts from nothing but their names, boxes and points") {
  Boat whole = boat();
  whole.places.clear();
  std::erase_if(whole.parts, [](const Part& p) {
    return !std::holds_alternative<BoxShape>(p.shape) && !std::holds_alternative<PointShape>(p.shape);
  });
  Boat bare = whole;
  bare.parts.clear();
  const auto again = readWeightsCsv(writeWeightsCsv(whole), bare);
  if (!again) FAIL(again.error().message);
  CHECK(*again == whole);
}

TEST_CASE("what a builder types: a weight, a new part, a part taken from the plan") {
  const Boat before = boat();
  const Boat after = read("name,mass_g\nbattery,275.5\n");
  CHECK(partNamed(after, "battery").mass == 0.2755);
  Boat same = after;
  *std::find_if(same.parts.begin(), same.parts.end(), [](const Part& p) { return p.name == "battery"; }) =
      partNamed(before, "battery");
  CHECK(same == before);

  const Boat added =
      read("name;role;mass_oz;x_in;y_in;z_in\r\n\"camera; \"\"small\"\"\";solid;2,5;10;0;4,25\r\n");
  const Part& camera = partNamed(added, "camera; \"small\"");
  CHECK(camera.mass == doctest::Approx(2.5 * 0.028349523125).epsilon(1e-15));
  CHECK(camera.position.x == doctest::Approx(0.254).epsilon(1e-15));
  CHECK(camera.position.z == doctest::Approx(0.10795).epsilon(1e-15));
  CHECK(std::holds_alternative<PointShape>(camera.shape));
  CHECK(added.parts.size() == before.parts.size() + 1);

  const std::string placed = before.places.front().part;
  const Boat fixed = read("name\tplace\n" + placed + "\t\n");
  CHECK(fixed.places.size() == before.places.size() - 1);
  const Boat limited = read("name,place,most,step\n\"" + placed + "\",yes,60,2\n");
  CHECK(limited.places.size() == before.places.size());
  CHECK(limited.places.front().most == 60e-6);
  CHECK(limited.places.front().step == 2e-6);
}

TEST_CASE("an empty cell takes an optional number away, a missing column or row nothing") {
  const Boat after = read("name,volume_mL,mass_g\npropeller,,25\n");
  CHECK_FALSE(partNamed(after, "propeller").volume);
  CHECK(partNamed(after, "propeller").mass == 0.025);
  CHECK(partNamed(after, "propeller").material == partNamed(boat(), "propeller").material);
}

TEST_CASE("a name that a spreadsheet would take for a formula travels as text") {
  Boat b = boat();
  for (const char* name : {"=1+1", "+lead", "-foam", "@home", "'quoted", "\ttab"}) {
    Part p;
    p.name = name;
    p.shape = PointShape{};
    p.mass = 0.01;
    b.parts.push_back(p);
  }
  const std::string csv = writeWeightsCsv(b);
  for (const char* start : {"\n=", "\n+", "\n-", "\n@"}) CHECK(csv.find(start) == std::string::npos);
  const auto again = readWeightsCsv(csv, b);
  if (!again) FAIL(again.error().message);
  CHECK(*again == b);
}

TEST_CASE("each fault names its row and column") {
  CHECK(errorOf("").field == "table");
  CHECK(errorOf("mass_g\n3\n").field == "row 1");
  CHECK(errorOf("name,mass_g,mass_g\n").was == "\"mass_g\" twice");
  const Error word = errorOf("name,mass_g\n\nbattery,heavy\n");
  CHECK(word.field == "row 3, mass_g");
  CHECK(word.was == "\"heavy\"");
  for (const char* number : {"0x10", "nan", "inf", "1e999", "1,5", "--1", "1 2", "e"})
    CHECK_MESSAGE(errorOf(std::string("name,mass_g\nbattery,\"") + number + "\"\n").field == "row 2, mass_g",
                  number);
  CHECK(errorOf("name,role\nnew,ghost\n").field == "row 2, role");
  CHECK(errorOf("name,role,mass_g,place,least\nbattery,dry,260,rail,5\n").field == "row 2, most");
  CHECK(errorOf("name\n\"battery\n").was.find("quotation") != std::string::npos);
  CHECK(errorOf("name,mass_g\nbattery,-5\n").field.find("mass_g") != std::string::npos);  // checkBoat's
  std::string many = "name\n";
  for (int i = 0; i < 2001; ++i) many += "battery\n";
  CHECK(errorOf(many).allowed.find("2000") != std::string::npos);
  CHECK(errorOf(std::string(5u << 20, 'x')).field == "table");
}
