// Every wrong input names its place as the file spells it, the value as typed, and what is allowed.
#include <doctest/doctest.h>

#include <pondtrim/file/boat_file.hpp>

#include "support/presets.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

constexpr const char* kGood = R"({
  "pondtrim_boat": 1,
  "name": "Bath Tub",
  "length_mm": 1000,
  "skins": [
    {"name": "hull", "position_mm": [0, 0, 60], "thickness_mm": 2, "mass_g": 700,
     "form": {"kind": "spindle", "length_mm": 1000, "breadth_mm": 120, "height_mm": 120,
              "nose_length_mm": 200, "tail_length_mm": 400, "nose_lift": 0.5}},
    {"name": "sail", "position_mm": [600, 0, 118], "thickness_mm": 1.5, "mass_g": 60,
     "form": {"kind": "sail", "length_mm": 150, "breadth_mm": 40, "height_mm": 80, "top_scale": 0.9}}
  ],
  "cylinders": [
    {"name": "tube", "position_mm": [300, 0, 55], "length_mm": 400, "diameter_mm": 80, "wall_thickness_mm": 3,
     "cap_thickness_mm": 8, "mass_g": 500}
  ],
  "tank": {"cylinder": "tube", "aft_end_mm": 450, "fore_end_mm": 550, "bulkheads_mm": [500]},
  "parts": [
    {"name": "battery", "role": "dry", "shape": {"kind": "box", "size_mm": [100, 40, 30]},
     "position_mm": [640, 0, 45], "inside": "tube", "mass_g": 400},
    {"name": "keel", "role": "lead", "shape": {"kind": "strip", "length_mm": 300, "aft_breadth_mm": 20,
     "aft_height_mm": 8, "fore_breadth_mm": 20, "fore_height_mm": 8}, "position_mm": [500, 0, 8],
     "mass_g": 300, "density_kg_per_m3": 11340},
    {"name": "bow foam", "role": "foam", "shape": {"kind": "cylinder", "axis": "x", "diameter_mm": 60,
     "length_mm": 80}, "position_mm": [850, 0, 60], "volume_mL": 150, "density_kg_per_m3": 33}
  ],
  "marks": {"bow_x_mm": 900, "stern_x_mm": 150, "line_height_mm": 85, "deck_height_mm": 120, "sail_top_mm": [600, 0, 198]},
  "water": {"temperature_degC": 15, "salinity_g_per_kg": 0},
  "aims": {"sail_showing_mm": 30}
})";

std::string with(const std::string& from, const std::string& to) {
  std::string text = kGood;
  const std::size_t at = text.find(from);
  if (at == std::string::npos) FAIL("the test's own text has no " << from);
  return text.replace(at, from.size(), to);
}

struct Case {
  const char *from, *to;              // the edit that spoils the good file
  const char *field, *was, *allowed;  // of the error; was and allowed: part of
  const char* other = "";
};

constexpr Case kCases[] = {
    // Out of range.
    {"\"length_mm\": 1000,\n  \"skins\"", "\"length_mm\": 1e6,\n  \"skins\"", "length_mm", "1e6",
     "50 to 10000"},
    {"\"diameter_mm\": 80", "\"diameter_mm\": -80", "cylinders[0].diameter_mm", "-80", "to 10000"},
    {"\"diameter_mm\": 80", "\"diameter_mm\": 0", "cylinders[0].diameter_mm", "0", "to 10000"},
    {"\"wall_thickness_mm\": 3", "\"wall_thickness_mm\": 60.50", "cylinders[0].wall_thickness_mm", "60.50",
     "at most 39.2", "cylinders[0].diameter_mm"},
    {"\"cap_thickness_mm\": 8", "\"cap_thickness_mm\": 300", "cylinders[0].cap_thickness_mm", "300",
     "at most 196", "cylinders[0].length_mm"},
    {"\"top_scale\": 0.9", "\"top_scale\": 1.1", "skins[1].form.top_scale", "1.1", "0.1 to 1"},
    {"\"nose_lift\": 0.5", "\"nose_lift\": -2", "skins[0].form.nose_lift", "-2", "-1 to 1"},
    {"\"thickness_mm\": 1.5", "\"thickness_mm\": 1500", "skins[1].thickness_mm", "1500", "to 100"},
    {"[600, 0, 118]", "[600, 0, 11800]", "skins[1].position_mm[2]", "11800", "-10000 to 10000"},
    {"\"mass_g\": 400", "\"mass_g\": -400", "parts[0].mass_g", "-400", "0 to 2000000"},
    {"\"density_kg_per_m3\": 33", "\"density_kg_per_m3\": 33000", "parts[2].density_kg_per_m3", "33000",
     "0 to 25000"},
    {"\"temperature_degC\": 15", "\"temperature_degC\": 60", "water.temperature_degC", "60", "0 to 40"},
    {"\"salinity_g_per_kg\": 0", "\"salinity_g_per_kg\": 350", "water.salinity_g_per_kg", "350", "0 to 42"},
    {"\"mass_g\": 500", "\"mass_g\": 1e400", "line 14, column 39", "1e400", "below 1e308"},
    {"\"kind\": \"sail\"", "\"kind\": \"plate\"", "skins[1].form.tip_length_mm", "missing", "a number"},
    {"\"kind\": \"sail\"", "\"kind\": \"casing\"", "skins[1].form.nose_length_mm", "missing", "a number"},
    {"\"kind\": \"spindle\"", "\"kind\": \"suboff\"", "skins[0].form.diameter_mm", "missing", "a number"},
    {R"("form": {"kind": "sail", "length_mm": 150, "breadth_mm": 40, "height_mm": 80, "top_scale": 0.9})",
     R"("form": {"kind": "myring", "diameter_mm": 30, "nose_length_mm": 40, "middle_length_mm": 50,
              "tail_length_mm": 60, "nose_power": 2, "tail_angle_deg": 50})",
     "skins[1].form.tail_angle_deg", "50", "at most 36.86", "skins[1].form.tail_length_mm"},
    // Two places that disagree.
    {"\"nose_length_mm\": 200", "\"nose_length_mm\": 700", "skins[0].form.nose_length_mm", "700",
     "at most 600", "skins[0].form.tail_length_mm"},
    {"\"fore_end_mm\": 550", "\"fore_end_mm\": 800", "tank.fore_end_mm", "800", "at most 692",
     "cylinders[0].length_mm"},
    {"\"aft_end_mm\": 450", "\"aft_end_mm\": 200", "tank.aft_end_mm", "200", "at least 308",
     "cylinders[0].position_mm[0]"},
    {"\"fore_end_mm\": 550", "\"fore_end_mm\": 400", "tank.fore_end_mm", "400", "at least 451",
     "tank.aft_end_mm"},
    {"[500]}", "[440]}", "tank.bulkheads_mm[0]", "440", "at least 451", "tank.aft_end_mm"},
    {"\"name\": \"keel\"", "\"name\": \"battery\"", "parts[1].name", "\"battery\"", "not used before",
     "parts[0].name"},
    {"\"name\": \"keel\"", "\"name\": \"hull\"", "parts[1].name", "\"hull\"", "not used before",
     "skins[0].name"},
    {"\"volume_mL\": 150", "\"volume_mL\": 300", "parts[2].volume_mL", "300", "at most 226.19",
     "parts[2].shape"},
    {"\"line_height_mm\": 85", "\"line_height_mm\": 130", "marks.deck_height_mm", "120", "at least 130",
     "marks.line_height_mm"},
    {"\"bow_x_mm\": 900", "\"bow_x_mm\": 100", "marks.bow_x_mm", "100", "at least 151", "marks.stern_x_mm"},
    {"\"mass_g\": 500", "\"mass_g\": 500, \"mass_g\": 510", "cylinders[0].mass_g", "510", "each key once",
     "cylinders[0].mass_g (line 14)"},
    // Things that do not exist, or not there.
    {"\"inside\": \"tube\"", "\"inside\": \"tub\"", "parts[0].inside", "\"tub\"", "\"tube\"", "cylinders"},
    {"\"cylinder\": \"tube\"", "\"cylinder\": \"\"", "tank.cylinder", "\"\"", "\"tube\"", "cylinders"},
    {"[640, 0, 45]", "[800, 0, 45]", "parts[0].position_mm[0]", "800", "at most 700",
     "cylinders[0].length_mm"},
    {"\"role\": \"lead\"", "\"role\": \"lead\", \"inside\": \"tube\"", "parts[1].inside", "\"tube\"",
     "unless the role is dry", "parts[1].role"},
    // Missing.
    {"\"pondtrim_boat\": 1,", "", "pondtrim_boat", "missing", "1"},
    {"\"name\": \"Bath Tub\",", "", "name", "missing", "a text"},
    {"\"name\": \"Bath Tub\"", "\"name\": \"\"", "name", "empty", "a name"},
    {"\"diameter_mm\": 80, ", "", "cylinders[0].diameter_mm", "missing", "a number"},
    {"\"role\": \"lead\",", "", "parts[1].role", "missing", "\"foam\", \"lead\""},
    {"\"kind\": \"strip\", ", "", "parts[1].shape.kind", "missing", "\"box\""},
    {", \"mass_g\": 400", "", "parts[0].mass_g", "missing", "a mass"},
    {"\"inside\": \"tube\", ", "", "parts[0].inside", "\"\"", "\"tube\"", "cylinders"},
    {", 0, 198]", ", 198]", "marks.sail_top_mm", "[600, 198]", "three numbers"},
    // The wrong kind.
    {"\"pondtrim_boat\": 1", "\"pondtrim_boat\": 2", "pondtrim_boat", "2", "1"},
    {"\"pondtrim_boat\": 1", "\"pondtrim_boat\": 0.5", "pondtrim_boat", "0.5", "1"},
    {"\"pondtrim_boat\": 1", "\"pondtrim_boat\": \"1\"", "pondtrim_boat", "\"1\"", "a number"},
    {"\"diameter_mm\": 80", "\"diameter_mm\": \"80\"", "cylinders[0].diameter_mm", "\"80\"", "a number"},
    {"\"diameter_mm\": 80", "\"diameter_mm\": \"80 mm\"", "cylinders[0].diameter_mm", "\"80 mm\"",
     "a number"},
    {"\"diameter_mm\": 80", "\"diameter_mm\": null", "cylinders[0].diameter_mm", "null", "a number"},
    {"[500]}", "500}", "tank.bulkheads_mm", "500", "a list"},
    {"[500]}", "[true]}", "tank.bulkheads_mm[0]", "true", "a number"},
    {"\"role\": \"foam\"", "\"role\": \"cork\"", "parts[2].role", "\"cork\"", "\"solid\", \"foam\""},
    {"\"kind\": \"strip\"", "\"kind\": \"sphere\"", "parts[1].shape.kind", "\"sphere\"",
     "\"box\", \"cylinder\""},
    {"\"axis\": \"x\"", "\"axis\": \"X\"", "parts[2].shape.axis", "\"X\"", "\"x\", \"y\", \"z\""},
    {"\"inside\": \"tube\",", "\"inside\": \"tube\", \"mirrored\": 1,", "parts[0].mirrored", "1",
     "true or false"},
    {"\"marks\": {", "\"marks\": 3, \"m\": {", "marks", "3", "an object"},
    // The right value under another unit's key.
    {"\"diameter_mm\": 80", "\"diameter_cm\": 8", "cylinders[0].diameter_cm", "8", "the key diameter_mm"},
    {"\"mass_g\": 400", "\"mass_g\": 400, \"density_g_cm3\": 2", "parts[0].density_g_cm3", "2",
     "the key density_kg_per_m3"},
    {"\"cylinder\": \"tube\"", "\"cylinder\": \"tube\", \"capacity\": 300", "tank.capacity", "300",
     "the key capacity_mL"},
    // Broken JSON.
    {"\"diameter_mm\": 80,", "\"diameter_mm\": 80", "line 13, column 87", "\"wall_thickness_mm\"",
     "a comma or }"},
    {"\"mass_g\": 500", "\"mass_g\": NaN", "line 14, column 39", "NaN", "a value"},
    {"\"mass_g\": 500", "\"mass_g\": Infinity", "line 14, column 39", "Infinity", "a value"},
    {"\"mass_g\": 500", "\"mass_g\": 5.", "line 14, column 41", "}", "a digit after the decimal point"},
    {"\"mass_g\": 500", "mass_g: 500", "line 14, column 29", "mass_g", "a key in quotation marks"},
    {"\"mass_g\": 500", "\"mass_g\" 500", "line 14, column 38", "500", "a colon"},
    {"Bath Tub", "Bath \xFFTub", "line 3, column 17", "", "UTF-8"},
    {"Bath Tub", "Bath\\q", "line 3, column 16", "", "after the backslash"},
    {"\"sail_showing_mm\": 30}\n}", "\"sail_showing_mm\": 30}\n} extra", "line 29, column 3", "extra",
     "the end of the file"},
};

}  // namespace

TEST_CASE("the file that the cases spoil is good") { CHECK(readBoatFile(kGood)); }

TEST_CASE("each wrong input: the place, the value, what is allowed") {
  for (const Case& c : kCases) {
    CAPTURE(std::string(c.to));
    const auto d = readBoatFile(with(c.from, c.to));
    CHECK_FALSE(d);
    if (d) continue;
    const Error& e = d.error();
    CAPTURE(e.message);
    CHECK(e.field == std::string(c.field));
    CHECK(e.other_field == std::string(c.other));
    CHECK_MESSAGE(e.was.find(c.was) != std::string::npos, e.was);
    CHECK_MESSAGE(e.allowed.find(c.allowed) != std::string::npos, e.allowed);
    CHECK(e.message.size() > 10);
    CHECK(e.message.back() == '.');
  }
}

TEST_CASE("a number in quotation marks gets a hint") {
  const auto d = readBoatFile(with("\"diameter_mm\": 80", "\"diameter_mm\": \"80 mm\""));
  REQUIRE_FALSE(d);
  CHECK(d.error().message.find("without quotation marks") != std::string::npos);
  const auto word = readBoatFile(with("\"diameter_mm\": 80", "\"diameter_mm\": \"wide\""));
  REQUIRE_FALSE(word);
  CHECK(word.error().message.find("without quotation marks") == std::string::npos);
}

TEST_CASE("a newer file says that Pondtrim is too old") {
  const auto d = readBoatFile(with("\"pondtrim_boat\": 1", "\"pondtrim_boat\": 7"));
  REQUIRE_FALSE(d);
  CHECK(d.error().message.find("newer Pondtrim") != std::string::npos);
}

TEST_CASE("what is no boat file at all") {
  for (const char* text :
       {"", "   \n", "[]", "3", "\"boat\"", "null", "{}", "solid cube\nfacet", "\x89PNG\r\n"}) {
    CAPTURE(text);
    const auto d = readBoatFile(text);
    REQUIRE_FALSE(d);
    CHECK_FALSE(d.error().field.empty());
    CHECK_FALSE(d.error().allowed.empty());
    CHECK_FALSE(d.error().message.empty());
  }
}

TEST_CASE("a byte order mark does no harm") { CHECK(readBoatFile("\xEF\xBB\xBF" + std::string(kGood))); }
