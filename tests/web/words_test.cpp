// Numbers and sentences as the builder reads them.
#include "session/words.hpp"

#include <doctest/doctest.h>

#include "session/quantities.hpp"

using namespace pondtrim;

TEST_CASE("numbers carry the person's units") {
  CHECK(valueText(0.0973, Quantity::Length, file::kMetricUnits) == "97.3\u00a0mm");
  CHECK(valueText(0.1, Quantity::Length, file::kMetricUnits) == "100\u00a0mm");
  CHECK(valueText(-0.02, Quantity::Mass, file::kMetricUnits) == "\u221220\u00a0g");
  CHECK(valueText(-1e-9, Quantity::Length, file::kMetricUnits) == "0\u00a0mm");
  CHECK(valueText(0.0254, Quantity::Length, file::kInchUnits) == "1\u00a0in");
  CHECK(valueText(kPi / 180, Quantity::Angle, file::kMetricUnits) == "1\u00b0");
}

TEST_CASE("typed numbers are read with point or comma, or not at all") {
  CHECK(typedValue("97.3", Quantity::Length, file::kMetricUnits) == 0.0973);
  CHECK(typedValue("97,3", Quantity::Length, file::kMetricUnits) == 0.0973);
  CHECK(typedValue("-4", Quantity::Temperature, file::kMetricUnits) == doctest::Approx(269.15));
  for (const char* wrong : {"", "-", ".", "1.2.3", "12x", "nan", "inf", "1e999"}) {
    CAPTURE(wrong);
    CHECK_FALSE(typedValue(wrong, Quantity::Length, file::kMetricUnits));
  }
}

TEST_CASE("a mark is high when the painted line is over the water") {
  const UnitSet units = file::kMetricUnits;
  CHECK(markWords(MarkReading{0.07, 0.0042}, units).word == "high");
  CHECK(markWords(MarkReading{0.07, 0.0042}, units).number == "4");
  CHECK(markWords(MarkReading{0.07, -0.0042}, units).word == "low");
  CHECK(markWords(MarkReading{0.07, -0.0004}, units).word == "on line");
  CHECK(markWords(std::nullopt, units).number.empty());
}

TEST_CASE("a field of the file is named as the panels name it") {
  Boat boat;
  boat.cylinders.push_back({});
  boat.cylinders[0].name = "main cylinder";
  boat.parts.push_back({});
  boat.parts[0].name = "keel lead";
  CHECK(fieldWords(boat, "cylinders[0].diameter") == "main cylinder: diameter");
  CHECK(fieldWords(boat, "cylinders[0].wall_thickness") == "main cylinder: wall thickness");
  CHECK(fieldWords(boat, "parts[0].shape.size.z") == "keel lead: height");
  CHECK(fieldWords(boat, "parts[0]") == "keel lead");
  CHECK(fieldWords(boat, "parts[7].mass") == "mass");
  CHECK(fieldWords(boat, "marks.bow_x") == "bow mark");
  CHECK(fieldWords(boat, "tank.fore_end") == "tank fore end");
  CHECK(fieldWords(boat, "").empty());
}

TEST_CASE("trim and heel are said with their sides") {
  const UnitSet units = file::kMetricUnits;
  const double degree = kPi / 180;
  CHECK(trimWords(1.2 * degree, units) == "1.2\u00b0 bow up");
  CHECK(trimWords(-1.2 * degree, units) == "1.2\u00b0 bow down");
  CHECK(trimWords(0.1 * degree, units) == "level");
  CHECK(heelWords(3 * degree, units) == "heeled 3\u00b0 to starboard");
  CHECK(heelWords(-3 * degree, units) == "heeled 3\u00b0 to port");
  CHECK(heelWords(0.5 * degree, units) == "upright");
}
