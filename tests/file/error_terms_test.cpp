#include <doctest/doctest.h>

#include <pondtrim/file/error_terms.hpp>

using namespace pondtrim;
using namespace pondtrim::file;

TEST_CASE("paths as the file spells them") {
  CHECK(filePath("cylinders[0].wall_thickness") == "cylinders[0].wall_thickness_mm");
  CHECK(filePath("parts[3].position.y") == "parts[3].position_mm[1]");
  CHECK(filePath("parts[3].shape.size.x") == "parts[3].shape.size_mm[0]");
  CHECK(filePath("marks.sail_top.z") == "marks.sail_top_mm[2]");
  CHECK(filePath("tank.bulkheads[2]") == "tank.bulkheads_mm[2]");
  CHECK(filePath("tank.capacity") == "tank.capacity_mL");
  CHECK(filePath("water.temperature") == "water.temperature_degC");
  CHECK(filePath("water.salinity") == "water.salinity_g_per_kg");
  CHECK(filePath("skins[1].form.nose_power") == "skins[1].form.nose_power");
  CHECK(filePath("parts[0].name") == "parts[0].name");
  CHECK(filePath("") == "");
}

TEST_CASE("numbers in the file's units, both places named") {
  const Error e = inFileTerms({"tank.fore_end", "0.61", "at most 0.59", "cylinders[0].length", "in SI"});
  CHECK(e.field == "tank.fore_end_mm");
  CHECK(e.was == "610");
  CHECK(e.allowed == "at most 590");
  CHECK(e.other_field == "cylinders[0].length_mm");
  CHECK(e.message == "tank.fore_end_mm is 610; allowed: at most 590 (see cylinders[0].length_mm).");
}

TEST_CASE("only numbers that stand alone are converted") {
  const Error e = inFileTerms(
      {"parts[2].position.z", "-0.04", "within 3.75e-2 m of the axis at z 0.05, not m3 nor [2].", "", ""});
  CHECK(e.was == "-40");
  CHECK(e.allowed == "within 37.5 of the axis at z 50, not m3 nor [2].");
}

TEST_CASE("temperatures move their zero") {
  const Error e = inFileTerms({"water.temperature", "333.15", "273.15 to 313.15", "", ""});
  CHECK(e.was == "60");
  CHECK(e.allowed == "0 to 40");
}

TEST_CASE("words and counts stay as they are") {
  const Error missing = inFileTerms({"parts[0].mass", "missing", "a mass or a density", "", ""});
  CHECK(missing.message == "parts[0].mass_g is missing; allowed: a mass or a density.");
  const Error name =
      inFileTerms({"parts[1].name", "\"lead 2\"", "a name not used before", "parts[0].name", ""});
  CHECK(name.was == "\"lead 2\"");
  const Error count = inFileTerms({"tank.bulkheads", "51", "at most 50", "", ""});
  CHECK(count.was == "51");
  CHECK(count.allowed == "at most 50");
}

TEST_CASE("an error without a value keeps its sentence") {
  const Error e = inFileTerms({"parts", "", "", "", "The boat weighs nothing."});
  CHECK(e.message == "The boat weighs nothing.");
}

TEST_CASE("a screen shows the chosen units and their symbols") {
  const Error e{"cylinders[0].diameter", "0.0254", "0.0508 to 0.254", "", ""};
  CHECK(inUnits(e, kInchUnits).was == "1 in");
  CHECK(inUnits(e, kInchUnits).allowed == "2 in to 10 in");
  CHECK(inUnits(e, kMetricUnits).was == "25.4 mm");
  CHECK(inUnits(e, kMetricUnits).field == "cylinders[0].diameter");
}
