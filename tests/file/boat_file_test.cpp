// What is read is what is written, to the last bit.
#include <doctest/doctest.h>

#include <algorithm>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/units.hpp>
#include <pondtrim/model.hpp>
#include <sstream>

#include "support/presets.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::file;
using test::Random;

namespace {

// A number of a random size within the range, with all 53 bits in use or with few digits, as typed.
double anyNumber(Random& random, double low, double high) {
  const double value = random.between(low, high);
  if (random.chance(0.3)) return static_cast<double>(static_cast<long long>(value * 1e4)) / 1e4;
  return random.chance(0.3) ? value * 1e-6 : value;
}

double anyLength(Random& random) { return 2e-3 + anyNumber(random, 0.0, 1.9); }
Vec3 anyPlace(Random& random) {
  return {anyNumber(random, -9, 9), anyNumber(random, -9, 9), anyNumber(random, -9, 9)};
}

std::string anyName(Random& random, int number) {
  constexpr const char* kWords[] = {"foam",      "lead \"heavy\"", "Kiel\u00f6", "a\\b",
                                    "tab\there", "\u7af9",         "{[,:]}"};
  return kWords[random.index(7)] + std::string(" ") + std::to_string(number);
}

void maybe(Random& random, std::optional<double>& value, double high) {
  if (random.chance(0.5)) value = anyNumber(random, 0.0, high);
}

OffsetsForm anyOffsets(Random& random) {
  OffsetsForm form;
  for (std::size_t i = 0, count = 3 + random.index(8); i < count; ++i) {
    OffsetStation s;
    s.at_x = 0.1 * static_cast<double>(i) + anyNumber(random, 0.0, 0.09);
    for (std::size_t k = 0, points = 2 + random.index(5); k < points; ++k) {
      s.heights.push_back(0.1 * static_cast<double>(k) + anyNumber(random, 0.0, 0.09));
      s.half_breadths.push_back(1e-3 + anyNumber(random, 0.0, 0.5));
    }
    form.stations.push_back(s);
  }
  return form;
}

MeshForm anyMesh(Random& random) {
  std::vector<std::uint16_t> corners, triangles;
  const int count = 4 + int(random.index(20));
  for (int i = 0; i < 3 * count; ++i) corners.push_back(std::uint16_t(random.index(65536)));
  for (int i = 0; i < 3 * count; ++i) triangles.push_back(std::uint16_t(random.index(count)));
  // One triangle at least has an area.
  const std::uint16_t corner[] = {0, 0, 0, 900, 0, 0, 0, 900, 0};
  std::copy(std::begin(corner), std::end(corner), corners.begin());
  triangles.insert(triangles.end(), {0, 1, 2});
  const auto mesh = PackedMesh::make(corners, triangles);
  REQUIRE(mesh);
  return {{anyLength(random), anyLength(random), anyLength(random)}, false, *mesh};
}

SkinForm anyNewerForm(Random& random) {
  const double length = anyLength(random);
  const double nose = length * random.between(0.01, 0.4), tail = length * random.between(0.01, 0.4);
  switch (random.index(6)) {
    case 5:
      return anyMesh(random);
    case 4:
      return anyOffsets(random);
    case 0:
      return SuboffForm{length, anyLength(random), nose, tail};
    case 1:
      return MyringForm{
          length,     nose, anyLength(random),           tail,
          nose * 0.3, 0.0,  1 + anyNumber(random, 0, 7), toSi(1 + anyNumber(random, 0, 60), kDegree)};
    case 2:
      return CasingForm{length, anyLength(random),          anyLength(random), nose, tail,
                        2,      1 + anyNumber(random, 0, 7)};
    default:
      return PlateForm{length,
                       anyLength(random),
                       anyLength(random),
                       anyNumber(random, -1, 1),
                       toSi(anyNumber(random, -170, 170), kDegree),
                       random.chance(0.5)};
  }
}

SkinForm anyForm(Random& random) {
  if (random.chance(0.5)) return anyNewerForm(random);
  if (random.chance(0.4)) {
    SailForm f{anyLength(random), anyLength(random), anyLength(random)};
    f.rake = anyNumber(random, -1, 1);
    f.shoulder = 0.1 + anyNumber(random, 0, 0.8);
    f.top_scale = 0.1 + anyNumber(random, 0, 0.9);
    return f;
  }
  SpindleForm f;
  f.length = anyLength(random);
  f.breadth = anyLength(random);
  f.height = anyLength(random);
  f.nose_length = f.length * random.between(0.01, 0.4);
  f.tail_length = f.length * random.between(0.01, 0.4);
  f.nose_power = 1 + anyNumber(random, 0, 7);
  f.tail_root = 1 + anyNumber(random, 0, 7);
  f.nose_lift = anyNumber(random, -1, 1);
  if (random.chance(0.5)) f.section_power = 1.2 + anyNumber(random, 0, 10);
  return f;
}

Shape anyShape(Random& random) {
  switch (random.index(3)) {
    case 0:
      return BoxShape{{anyLength(random), anyLength(random), anyLength(random)}};
    case 1: {
      CylinderShape s{static_cast<Axis>(random.index(3)), anyLength(random), anyLength(random), 0, 0};
      if (random.chance(0.5)) s.fore_dome = anyLength(random);
      return s;
    }
    default:
      return StripShape{anyLength(random), anyLength(random), anyLength(random), anyLength(random),
                        anyLength(random)};
  }
}

Part anyPart(Random& random, int number) {
  Part p;
  p.name = anyName(random, number);
  p.role = static_cast<Role>(random.index(3));
  p.shape = anyShape(random);
  p.position = anyPlace(random);
  p.mirrored = random.chance(0.3);
  p.volume = shapeVolume(p) * random.between(0.0, 1.0);
  p.mass = anyNumber(random, 0.0, 100.0);
  maybe(random, p.density, 20000);
  if (random.chance(0.5)) p.material = "stuff";
  return p;
}

SealedCylinder anyCylinder(Random& random, int number) {
  SealedCylinder c;
  c.name = anyName(random, number);
  c.position = anyPlace(random);
  c.length = 0.2 + anyLength(random) * 0.5;
  c.diameter = 0.1 + anyLength(random) * 0.1;
  c.wall_thickness = c.diameter * random.between(0.01, 0.2);
  c.cap_thickness = 0.001 + anyNumber(random, 0, 0.05);
  maybe(random, c.mass, 100);
  c.density = anyNumber(random, 0, 10000);
  return c;
}

Boat anyBoat(Random& random) {
  Boat b;
  b.name = anyName(random, 0);
  if (random.chance(0.5)) b.notes = "first line\nsecond line";
  b.length = 0.1 + anyLength(random);
  int number = 1;
  for (int i = random.index(3); i > 0; --i)
    b.skins.push_back({anyName(random, number++),
                       anyForm(random),
                       anyPlace(random),
                       0.001 + anyNumber(random, 0, 0.01),
                       1.5,
                       {},
                       ""});
  if (!b.skins.empty() && random.chance(0.5))
    b.openings.push_back({anyName(random, 99), b.skins.back().name, anyPlace(random), {}});
  for (int i = random.index(3); i > 0; --i) b.cylinders.push_back(anyCylinder(random, number++));
  for (int i = random.index(6); i > 0; --i) b.parts.push_back(anyPart(random, number++));
  if (!b.cylinders.empty()) {
    const SealedCylinder& c = b.cylinders.back();
    b.tank = BallastTank{c.name, c.position.x + c.length * 0.25, c.position.x + c.length * 0.75, {}, {}};
    if (random.chance(0.3)) b.tank->bulkheads = {c.position.x + c.length * random.between(0.3, 0.7)};
  }
  b.marks.stern_x = anyNumber(random, -1, 0.1);
  b.marks.bow_x = b.marks.stern_x + anyLength(random);
  b.marks.line_height = anyNumber(random, 0, 1);
  b.marks.deck_height = b.marks.line_height + anyNumber(random, 0, 1);
  b.marks.sail_top = {anyNumber(random, -1, 1), 0.0, b.marks.deck_height + anyNumber(random, 0, 1)};
  b.water = {273.15 + anyNumber(random, 0, 40), random.chance(0.5) ? 0.0 : anyNumber(random, 0, 42)};
  b.aims.sail_showing = anyNumber(random, -0.1, 0.1);
  return b;
}

constexpr const char* kLeast = R"({"pondtrim_boat": 1, "name": "Raft", "length_mm": 300,
  "marks": {"bow_x_mm": 250, "stern_x_mm": 50, "line_height_mm": 20, "deck_height_mm": 40, "sail_top_mm": [150, 0, 60]},
  "parts": [
    {"name": "raft", "role": "solid", "shape": {"kind": "box", "size_mm": [300, 100, 40]}, "position_mm": [150, 0, 20],
     "mass_g": 600}
  ]})";

}  // namespace

TEST_CASE("every preset survives reading, writing and reading again") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const BoatDocument first = test::presetBoat(path);
    CHECK(first.notices.empty());
    const std::string text = writeBoatFile(first);
    const auto second = readBoatFile(text);
    REQUIRE(second);
    CHECK(*second == first);
    CHECK(writeBoatFile(*second) == text);
  }
}

TEST_CASE("the presets are in the form that Pondtrim writes") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const bool same = writeBoatFile(test::presetBoat(path)) == test::textOf(path);
    CHECK(same);
  }
}

TEST_CASE("random boats come back bit for bit") {
  constexpr std::uint64_t kSeed = 20261125;
  Random random(kSeed);
  CAPTURE(kSeed);
  const int count = test::effort(2000);
  int good = 0;
  for (int i = 0; i < count; ++i) {
    CAPTURE(i);
    const BoatDocument document{anyBoat(random), {}, {}};
    if (!checkBoat(document.boat)) continue;  // a few random boats break a rule
    const std::string text = writeBoatFile(document);
    const auto again = readBoatFile(text);
    if (!again) FAIL(again.error().message << "\n" << text);
    REQUIRE(again->boat == document.boat);
    REQUIRE(writeBoatFile(*again) == text);
    ++good;
  }
  MESSAGE(good << " boats");
  CHECK(2 * good > count);
}

TEST_CASE("any SI value comes back bit for bit, whatever its size") {
  constexpr std::uint64_t kSeed = 4;
  Random random(kSeed);
  BoatDocument document{readBoatFile(kLeast)->boat, {}, {}};
  for (int i = 0; i < test::effort(3000); ++i) {
    Vec3& p = document.boat.parts[0].position;
    p = {random.scale(1e-320, 10.0), -random.scale(1e-9, 10.0), random.between(-10.0, 10.0)};
    document.boat.parts[0].mass = random.scale(1e-9, 1e3);
    document.boat.parts[0].volume = random.scale(1e-12, 1e-3);
    document.boat.water.temperature = random.between(273.15, 313.15);
    const auto again = readBoatFile(writeBoatFile(document));
    if (!again) FAIL(again.error().message);
    REQUIRE(again->boat == document.boat);
  }
}

TEST_CASE("numbers are written as a person would") {
  BoatDocument d = *readBoatFile(kLeast);
  d.boat.parts[0].position = {0.0973, -0.00001, 1.0 / 3.0};
  d.boat.parts[0].mass = 0.6;
  d.boat.water.temperature = 273.15 + 12.3;
  const std::string text = writeBoatFile(d);
  CHECK(text.find("[97.3, -0.01, 333.3333333333333]") != std::string::npos);
  CHECK(text.find("\"mass_g\": 600\n") != std::string::npos);
  CHECK(text.find("\"temperature_degC\": 12.3,") != std::string::npos);
}

TEST_CASE("what may be left out has its standard value") {
  const auto d = readBoatFile(kLeast);
  REQUIRE(d);
  CHECK(d->boat.water == Water{});
  CHECK(d->boat.aims == Aims{});
  CHECK(d->boat.skins.empty());
  CHECK_FALSE(d->boat.tank);
  CHECK_FALSE(d->boat.parts[0].mirrored);
  CHECK_FALSE(d->boat.parts[0].density);
}

TEST_CASE("typed digits beyond a double round to the nearest SI value") {
  std::string text = kLeast;
  text.replace(text.find("[150, 0, 20]"), 12, "[97.30000000000000000000000001, 1.0e2, 2e-2]");
  const auto d = readBoatFile(text);
  REQUIRE(d);
  CHECK(d->boat.parts[0].position == Vec3(0.0973, 0.1, 0.00002));
}

TEST_CASE("the example in DEVELOPERS.md is a boat once its comments are gone") {
  const std::string page = test::textOf("DEVELOPERS.md");
  const std::size_t start = page.find("```jsonc\n") + 9, end = page.find("```", start);
  REQUIRE(end != std::string::npos);
  std::istringstream lines(page.substr(start, end - start));
  std::string text;
  for (std::string line; std::getline(lines, line);) text += line.substr(0, line.find("//")) + "\n";
  const auto d = readBoatFile(text);
  if (!d) FAIL(d.error().message);
  CHECK(d->notices.empty());
  CHECK(buildModel(d->boat));
}
