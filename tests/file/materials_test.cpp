#include <doctest/doctest.h>

#include <map>
#include <pondtrim/file/materials.hpp>
#include <set>

#include "support/presets.hpp"
#include "support/reference.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

TEST_CASE("every material has a density within its range and a source") {
  const auto materials = readMaterials(test::textOf("presets/materials.json"));
  if (!materials) FAIL(materials.error().message);
  std::set<std::string> names;
  for (const Material& m : *materials) {
    CAPTURE(m.name);
    CHECK(m.low > 5.0);
    CHECK(m.low <= m.density);
    CHECK(m.density <= m.high);
    CHECK(m.high < 12000.0);
    CHECK(m.source.size() > 5);
    CHECK(names.insert(m.name).second);
  }
  CHECK(materials->size() >= 20);
}

TEST_CASE("lead is the 11340 kg/m3 of the tables, and carries its caution") {
  const auto materials = readMaterials(test::textOf("presets/materials.json"));
  REQUIRE(materials);
  REQUIRE(materials->front().name == "lead");
  CHECK(materials->front().density == 11340.0);
  CHECK(materials->front().note.find("hands") != std::string::npos);
}

TEST_CASE("every material's density lies where the published tables put it (M1-M16, M19, M23, M26, M27)") {
  const auto materials = readMaterials(test::textOf("presets/materials.json"));
  REQUIRE(materials);
  std::map<std::string, double> ours;
  for (const Material& m : *materials) ours[m.name] = m.density;
  const auto rows = test::referenceTable("materials");
  for (const auto& row : rows) {
    CAPTURE(row.text("name"));
    REQUIRE(ours.count(row.text("name")) == 1);
    CHECK(ours[row.text("name")] >= row.number("low"));
    CHECK(ours[row.text("name")] <= row.number("high"));
  }
  CHECK(rows.size() == ours.size());
}

TEST_CASE("a wrong table is refused by path") {
  const std::string start = R"({"pondtrim_materials": 1, "materials": [{"name": "cork", "source": "s",)";
  const auto error = [&](const std::string& rest) {
    const auto m = readMaterials(start + rest);
    REQUIRE_FALSE(m);
    return m.error();
  };
  CHECK(error(R"("density_kg_per_m3": 300, "density_low_kg_per_m3": 310, "density_high_kg_per_m3": 400}]})")
            .field == "materials[0].density_kg_per_m3");
  CHECK(error(R"("density_kg_per_m3": 300}]})").field == "materials[0].density_low_kg_per_m3");
  CHECK_FALSE(readMaterials("[]"));
  CHECK_FALSE(readMaterials("{"));
}
