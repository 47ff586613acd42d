// The pond log in the boat file: what is read is what is written, and wrong readings are named.
#include <doctest/doctest.h>

#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/units.hpp>

#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::file;
using test::Random;

namespace {

const std::string kBoat = R"({"pondtrim_boat": 1, "name": "Raft", "length_mm": 300,
  "marks": {"bow_x_mm": 250, "stern_x_mm": 50, "line_height_mm": 20, "deck_height_mm": 40, "sail_top_mm": [150, 0, 60]},
  "water": {"temperature_degC": 8, "salinity_g_per_kg": 0},
  "cylinders": [
    {"name": "tube", "position_mm": [100, 0, 20], "length_mm": 100, "diameter_mm": 30, "wall_thickness_mm": 1,
     "cap_thickness_mm": 1, "mass_g": 20}],
  "tank": {"cylinder": "tube", "aft_end_mm": 120, "fore_end_mm": 180, "capacity_mL": 40},
  "parts": [
    {"name": "foam", "role": "foam", "shape": {"kind": "box", "size_mm": [300, 100, 40]}, "position_mm": [150, 0, 20],
     "density_kg_per_m3": 33, "volume_mL": 800},
    {"name": "lead", "role": "lead", "shape": {"kind": "point"}, "position_mm": [150, 0, 2], "mass_g": 300}
  ],
  "log": [LOG], "correction": {"mass_g": 12.5, "mass_moment_g_mm": [900, -30, 0], "upper_volume_mL": -3,
    "upper_x_mL_mm": 40, "upper_y_mL_mm": 0, "tank_factor": 1.02}})";

std::string withLog(const std::string& readings) {
  std::string text = kBoat;
  return text.replace(text.find("LOG"), 3, readings);
}

Boat read(const std::string& readings) {
  const auto d = readBoatFile(withLog(readings));
  if (!d) FAIL(d.error().message);
  return d->boat;
}

std::optional<Measured> maybe(Random& random, double most, double standard) {
  if (random.chance(0.4)) return std::nullopt;
  return Measured{random.between(-most, most), random.chance(0.5) ? standard : random.between(1e-4, most)};
}

/// In whole bits of degrees, as a person or a file gives it.
std::optional<Measured> maybeAngle(Random& random) {
  std::optional<Measured> out = maybe(random, 85, 0.5);
  if (out) out = Measured{toSi(out->value, kDegree), toSi(out->spread + 0.01, kDegree)};
  return out;
}

Reading anyReading(Random& random) {
  Reading r;
  if (random.chance(0.7)) r.date = "2026-05-0" + std::to_string(random.index(9)) + "T10:30";
  if (random.chance(0.3)) r.note = "windy, \"ripples\" \xc2\xb1 2 mm";
  r.used = random.chance(0.7);
  r.tank = static_cast<TankState>(random.index(3));
  if (r.tank == TankState::Measured) r.tank_fill = random.between(0.0, 4e-5);
  r.water = {273.15 + random.between(0.0, 40.0), random.chance(0.5) ? 0.0 : random.between(0.0, 42.0)};
  r.bow = maybe(random, 1, kRulerSpread);
  r.stern = maybe(random, 1, kRulerSpread);
  r.sail_showing = maybe(random, 1, kRulerSpread);
  r.trim = maybeAngle(random);
  r.heel = maybeAngle(random);
  r.pull = maybe(random, 100, kScaleSpread);
  if (!r.pull && random.chance(0.3)) {
    r.laid_mass = random.between(0.0, 1.0);
  } else if (random.chance(0.3)) {
    r.held_x = random.between(0.0, 1.0);
    r.held_z = random.between(-1.0, 1.0);
    r.bow_pull = Measured{random.between(0.0, 1.0), kScaleSpread};
    r.stern_pull = Measured{random.between(0.0, 1.0), random.between(1e-4, 1.0)};
    r.bow_hook_x = random.between(0.2, 0.3);
    r.stern_hook_x = random.between(0.0, 0.1);
  }
  if (random.chance(0.3)) r.shifted_mass = random.between(0.0, 1.0);
  if (random.chance(0.3)) r.shifted_by = random.between(-2.0, 2.0);
  if (random.chance(0.5)) r.installed.push_back({"foam", random.between(0.0, 1e-3)});
  if (random.chance(0.5)) r.installed.push_back({"lead", random.between(0.0, 2.0)});
  if (!r.installed.empty() && random.chance(0.3)) r.installed.back().at_x = random.between(-1.0, 1.0);
  if (random.chance(0.2)) r.installed.push_back({"a part of long ago", random.between(0.0, 1.0)});
  return r;
}

struct Case {
  const char* reading;
  const char *field, *was, *allowed;
  const char* other = "";
};

constexpr Case kCases[] = {
    {R"({"bow_mm": 3})", "log[1].tank", "missing", "\"empty\", \"full\", \"measured\""},
    {R"({"tank": "half"})", "log[1].tank", "\"half\"", "\"empty\""},
    {R"({"tank": "full", "tank_fill_mL": 12})", "log[1].tank_fill_mL", "12", "0 unless the tank is measured",
     "log[1].tank"},
    {R"({"tank": "measured", "tank_fill_mL": 90})", "log[1].tank_fill_mL", "90", "0 to 48"},
    {R"({"tank": "empty", "bow_mm": 1200})", "log[1].bow_mm", "1200", "-1000 to 1000"},
    {R"({"tank": "empty", "bow_mm": 3, "bow_spread_mm": 0})", "log[1].bow_spread_mm", "0", "0.1 to 1000"},
    {R"({"tank": "empty", "stern_spread_mm": 2})", "log[1].stern_spread_mm", "2", "only beside stern_mm"},
    {R"({"tank": "empty", "bow_cm": 3})", "log[1].bow_cm", "3", "the key bow_mm"},
    {R"({"tank": "empty", "heel_deg": 190})", "log[1].heel_deg", "190", "85.9"},
    {R"({"tank": "empty", "heel": 3})", "log[1].heel", "3", "the key heel_deg"},
    {R"({"tank": "full", "pull_g": 200000})", "log[1].pull_g", "200000", "-100000 to 100000"},
    {R"({"tank": "full", "bow_pull_g": 20})", "log[1].bow_pull_g", "20", "both hooks", "log[1].stern_pull_g"},
    {R"({"tank": "full", "bow_pull_g": 20, "stern_pull_g": 20, "bow_hook_x_mm": 12, "stern_hook_x_mm": 10})",
     "log[1].bow_hook_x_mm", "12", "at least 20", "log[1].stern_hook_x_mm"},
    {R"({"tank": "empty", "shifted_mass_g": -5})", "log[1].shifted_mass_g", "-5", "0 to 10000"},
    {R"({"tank": "empty", "water": {"temperature_degC": 60, "salinity_g_per_kg": 0}})",
     "log[1].water.temperature_degC", "60", "0 to 40"},
    {R"({"tank": "empty", "installed": [{"part": "foam", "mass_g": 5}]})", "log[1].installed[0].mass_g", "5",
     "the key volume_mL"},
    {R"({"tank": "empty", "installed": [{"part": "lead", "volume_mL": 5}]})", "log[1].installed[0].volume_mL",
     "5", "the key mass_g"},
    {R"({"tank": "empty", "installed": [{"part": "lead"}]})", "log[1].installed[0].mass_g", "missing",
     "a number"},
    {R"({"tank": "empty", "installed": [{"part": "foam", "volume_mL": 2000}]})",
     "log[1].installed[0].volume_mL", "2000", "at most 1200", "parts[0].shape"},
    {R"({"tank": "empty", "used": "no"})", "log[1].used", "\"no\"", "true or false"},
    {R"(3)", "log[1]", "3", "an object"},
};

}  // namespace

TEST_CASE("random readings come back bit for bit") {
  constexpr std::uint64_t kSeed = 77;
  Random random(kSeed);
  CAPTURE(kSeed);
  BoatDocument document{read(""), {}, {}};
  for (int i = 0; i < test::effort(2000); ++i) {
    document.boat.log = {anyReading(random), anyReading(random)};
    document.boat.correction =
        Correction{random.between(-1.0, 1.0),   random.inBox(Vec3(-1), Vec3(1)), random.between(-1e-3, 1e-3),
                   random.between(-1e-4, 1e-4), random.between(-1e-4, 1e-4),     random.between(0.5, 2.0)};
    const std::string text = writeBoatFile(document);
    const auto again = readBoatFile(text);
    if (!again) FAIL(again.error().message << "\n" << text);
    REQUIRE(again->boat == document.boat);
    REQUIRE(writeBoatFile(*again) == text);
  }
}

TEST_CASE("what a reading leaves out: the boat's water, standard spreads, used") {
  const Boat boat = read(
      R"({"tank": "empty", "bow_mm": 2.5, "heel_deg": 1, "pull_g": 20}, {"tank": "full", "used": false})");
  REQUIRE(boat.log.size() == 2);
  const Reading& r = boat.log[0];
  CHECK(r.water == boat.water);
  CHECK(r.used);
  CHECK_FALSE(boat.log[1].used);
  CHECK(*r.bow == Measured{0.0025, 0.0015});
  CHECK(*r.heel == Measured{kPi / 180, 0.5 * kPi / 180});
  CHECK(*r.pull == Measured{0.02, 0.003});
  CHECK_FALSE(r.stern);
  CHECK(boat.correction->mass == 0.0125);
  CHECK(boat.correction->mass_moment == Vec3(900e-6, -30e-6, 0));
  CHECK(boat.correction->upper_x == 40e-9);
}

TEST_CASE("a boat without log and correction is written without them") {
  BoatDocument document{read(""), {}, {}};
  document.boat.correction.reset();
  const std::string text = writeBoatFile(document);
  CHECK(text.find("\"log\"") == std::string::npos);
  CHECK(text.find("\"correction\"") == std::string::npos);
}

TEST_CASE("each wrong reading: the place, the value, what is allowed") {
  for (const Case& c : kCases) {
    CAPTURE(std::string(c.reading));
    const auto d = readBoatFile(withLog(std::string(R"({"tank": "empty"}, )") + c.reading));
    CHECK_FALSE(d);
    if (d) continue;
    const Error& e = d.error();
    CAPTURE(e.message);
    CHECK(e.field == std::string(c.field));
    CHECK(e.other_field == std::string(c.other));
    CHECK_MESSAGE(e.was.find(c.was) != std::string::npos, e.was);
    CHECK_MESSAGE(e.allowed.find(c.allowed) != std::string::npos, e.allowed);
  }
}

TEST_CASE("each wrong correction is refused") {
  const std::string good = withLog("");
  const std::pair<const char*, const char*> cases[] = {
      {"\"mass_g\": 12.5", "\"mass_g\": 1e6"},         {"\"tank_factor\": 1.02", "\"tank_factor\": 3"},
      {"\"upper_volume_mL\": -3", "\"upper_mL\": -3"}, {"[900, -30, 0]", "[900, -30]"},
      {"\"upper_x_mL_mm\": 40", "\"upper_x_mm\": 40"}, {"[900, -30, 0]", "[1e9, -30, 0]"},
  };
  CHECK(readBoatFile(good));
  for (const auto& spoilt : cases) {
    const char *from = spoilt.first, *to = spoilt.second;
    CAPTURE(to);
    std::string text = good;
    text.replace(text.find(from), std::string(from).size(), to);
    const auto d = readBoatFile(text);
    REQUIRE_FALSE(d);
    CHECK(d.error().field.rfind("correction.", 0) == 0);
  }
}

TEST_CASE("unknown parts of a reading stay with it") {
  auto d = readBoatFile(withLog(
      R"({"date": "Sunday", "tank": "empty", "wind": 3, "installed": [{"part": "lead", "mass_g": 1, "cast": "old"}]})"));
  REQUIRE(d);
  REQUIRE(d->unknown.size() == 2);
  Reading earlier;
  earlier.date = "Saturday";
  d->boat.log.insert(d->boat.log.begin(), earlier);
  const auto again = readBoatFile(writeBoatFile(*d));
  REQUIRE(again);
  std::string paths;
  for (const UnknownPart& u : again->unknown) paths += u.path() + " ";
  CHECK(paths.find("log[1].wind") != std::string::npos);
  CHECK(paths.find("log[1].installed[0].cast") != std::string::npos);
  d->boat.log.clear();
  CHECK(readBoatFile(writeBoatFile(*d))->unknown.empty());
}
