// The trim sheet: all of the boat is on it, and no name can make markup of its own.
#include <doctest/doctest.h>

#include <pondtrim/file/trim_sheet.hpp>

#include "support/presets.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

TrimSheet sheetOf(const Boat& boat, const UnitSet& units = kMetricUnits) {
  const auto model = buildModel(boat);
  if (!model) FAIL(model.error().message);
  const auto empty = evaluate(*model, {boat.water, 0}),
             full = evaluate(*model, {boat.water, model->tank_capacity});
  REQUIRE(empty);
  REQUIRE(full);
  return makeTrimSheet(boat, *model, *empty, *full, units);
}

bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

}  // namespace

TEST_CASE("every weight and place of every preset is on the sheet, in both forms") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat boat = test::presetBoat(path).boat;
    const TrimSheet sheet = sheetOf(boat);
    const std::string text = sheetText(sheet), markdown = sheetMarkdown(sheet);
    for (const Part& part : boat.parts) {
      CHECK(has(text, part.name));
      CHECK(has(markdown, "| " + part.name + " |"));
    }
    CHECK(markdown.rfind("# " + boat.name + "\n", 0) == 0);
    CHECK(has(text, "Take care"));
    for (const SheetSection& section : sheet.sections) {
      CHECK(section.table.heads.size() == section.table.numbers.size());
      for (const auto& row : section.table.rows) CHECK(row.size() == section.table.heads.size());
    }
  }
}

TEST_CASE("the numbers are those of the report") {
  const Boat boat = test::presetBoat(test::presetPaths().front()).boat;
  const auto model = buildModel(boat);
  const auto empty = evaluate(*model, {boat.water, 0});
  char carry[40];
  std::snprintf(carry, sizeof carry, "To carry: %.0f g.", empty->carry_mass * 1000);
  CHECK(has(sheetText(sheetOf(boat)), carry));
  std::snprintf(carry, sizeof carry, "To carry: %.2f oz.", empty->carry_mass / 0.028349523125);
  CHECK(has(sheetText(sheetOf(boat, kInchUnits)), carry));
}

TEST_CASE("names and notes cannot make markup") {
  Boat boat = test::presetBoat(test::presetPaths().front()).boat;
  boat.name = "<script>alert(1)</script> | [x](http://y) **b** `c`";
  boat.notes = "# big\n\n<img src=x onerror=alert(1)>\n| a | b |";
  boat.parts[0].name = "a|b\n<b>";
  boat.places.clear();
  const std::string markdown = sheetMarkdown(sheetOf(boat));
  CHECK_FALSE(has(markdown, "<"));
  CHECK(has(markdown, "a\\|b &lt;b\\>"));
  CHECK(has(markdown, "\\[x\\](http"));
  CHECK_FALSE(has(markdown, "\n# big"));
  CHECK_FALSE(has(markdown, "**b**"));
}

TEST_CASE("the text is set in columns: every line of a table ends its numbers at the same place") {
  Boat boat = test::presetBoat(test::presetPaths().front()).boat;
  boat.parts[0].name = "Kiel\u00f6";  // characters, not bytes
  boat.places.clear();
  const std::string text = sheetText(sheetOf(boat));
  const std::size_t at = text.find("Weights\n");
  REQUIRE(at != std::string::npos);
  const std::string table = text.substr(text.find("What", at));
  std::size_t width = 0, from = 0;
  for (int i = 0; i < 10; ++i) {
    const std::size_t end = table.find('\n', from);
    std::size_t characters = 0;
    for (const char c : table.substr(from, end - from)) characters += (c & 0xC0) != 0x80;
    if (i > 0) CHECK(characters == width);
    width = characters;
    from = end + 1;
  }
}
