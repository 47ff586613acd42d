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
  CHECK(valueText(29.5735295625e-6, Quantity::Volume, file::kInchUnits) == "1\u00a0fl\u00a0oz");
  CHECK(valueText(1e5, Quantity::Pressure, file::kInchUnits, 2) == "14.5\u00a0psi");
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

TEST_CASE("inches read as on a rule") {
  CHECK(sixteenthsText(3.3125) == "3 5/16");
  CHECK(sixteenthsText(0.5) == "1/2");
  CHECK(sixteenthsText(2.0) == "2");
  CHECK(sixteenthsText(-0.25) == "-1/4");
  CHECK(sixteenthsText(0.99) == "1");
  CHECK(sixteenthsText(-0.01) == "0");
  UnitSet units = file::kInchUnits;
  units.sixteenths = true;
  CHECK(valueText(3.3125 * 0.0254, Quantity::Length, units) == "3\u00a05/16\u00a0in");
  CHECK(valueText(0.0973, Quantity::Length, units) == "3.831\u00a0in");  // no sixteenth: not rounded away
  CHECK(valueText(0.0973, Quantity::Length, units, readingDecimals(units)) == "3\u00a013/16\u00a0in");
  CHECK(valueText(0.02834952, Quantity::Mass, units) == "1\u00a0oz");
  CHECK(markWords(MarkReading{0.07, 0.0006}, units).word == "on line");
  CHECK(markWords(MarkReading{0.07, 0.0016}, units).number == "1/16");
  for (int n = 0; n < 200; ++n) {  // every sixteenth that is shown can be typed again
    const double inches = n / 16.0;
    CHECK(typedValue(sixteenthsText(inches), Quantity::Length, units).value() ==
          doctest::Approx(inches * 0.0254));
  }
}

TEST_CASE("fractions are typed, by keyboard or by the pad's keys") {
  const UnitSet units = file::kInchUnits;
  const auto inches = [&](const char* typed) { return typedValue(typed, Quantity::Length, units); };
  CHECK(inches("3 5/16").value() == doctest::Approx(3.3125 * 0.0254).epsilon(1e-12));
  CHECK(inches("-5/16").value() == doctest::Approx(-0.3125 * 0.0254).epsilon(1e-12));
  for (const char* wrong : {"3 5/", "/16", "3 /16", "5/0", "1/2/4", "5/16 3", "3. 5/16", "1 2", "-"})
    CHECK_MESSAGE(!inches(wrong), wrong);
  CHECK(withSixteenths("3", 4) == "3 1/4");
  CHECK(withSixteenths(withSixteenths("3", 4), 1) == "3 5/16");
  CHECK(withSixteenths("", 8) == "1/2");
  CHECK(withSixteenths("-", 8) == "-1/2");
  CHECK(withSixteenths("1/2", 8) == "1");
  CHECK(withSixteenths("3.5", 8) == "3.5");
}

TEST_CASE("steps are stock steps in every set of units") {
  UnitSet units = file::kInchUnits;
  CHECK(nudgeStep(Quantity::Length, units) == doctest::Approx(0.0254 / 16));
  CHECK(stockStep(0.005, Quantity::Length, units) == doctest::Approx(0.0254 / 4));
  CHECK(stockStep(0.005, Quantity::Length, file::kMetricUnits) == 0.005);
  units.volume = file::kCubicInch;
  CHECK(nudgeStep(Quantity::Volume, units) == doctest::Approx(16.387064e-6 / 4));
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
