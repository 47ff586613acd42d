#include <doctest/doctest.h>

#include <pondtrim/file/units.hpp>
#include <string>

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

constexpr Unit kAll[] = {kMetre,
                         kMillimetre,
                         kSquareCentimetre,
                         kMillilitre,
                         kGram,
                         kDegree,
                         kKilogramPerCubicMetre,
                         kDegreeCelsius,
                         kGramPerKilogram,
                         kNewton,
                         kGramPerMillimetre,
                         kGramMillimetrePerDegree,
                         kInch,
                         kOunce,
                         kFluidOunce,
                         kCubicInch,
                         kNumber};

}  // namespace

TEST_CASE("one of each unit in SI") {
  CHECK(toSi(1.0, kMillimetre) == 1e-3);
  CHECK(toSi(1.0, kGram) == 1e-3);
  CHECK(toSi(1.0, kMillilitre) == 1e-6);
  CHECK(toSi(1.0, kSquareCentimetre) == 1e-4);
  CHECK(toSi(0.0, kDegreeCelsius) == 273.15);
  CHECK(toSi(180.0, kDegree) == doctest::Approx(3.14159265358979).epsilon(1e-14));
  // NIST Handbook 44, appendix C: exact.
  CHECK(toSi(1.0, kInch) == 0.0254);
  CHECK(toSi(16.0, kOunce) == 0.45359237);
  CHECK(toSi(128.0, kFluidOunce) == doctest::Approx(0.003785411784).epsilon(1e-15));
  CHECK(toSi(231.0, kCubicInch) == doctest::Approx(0.003785411784).epsilon(1e-15));
}

TEST_CASE("a gram moved by a millimetre a degree is a moment of 9.80665e-6 N.m a degree") {
  const double newton_metre_per_radian = toSi(1.0, kGramMillimetrePerDegree);
  CHECK(newton_metre_per_radian * kPi / 180.0 == doctest::Approx(9.80665e-6).epsilon(1e-14));
}

TEST_CASE("a whole number of millimetres, grams or millilitres becomes the nearest SI value") {
  for (int n = 0; n < 3000; ++n) {
    CHECK(toSi(n, kMillimetre) == std::stod(std::to_string(n) + "e-3"));
    CHECK(toSi(n, kMillilitre) == std::stod(std::to_string(n) + "e-6"));
  }
}

TEST_CASE("there and back changes no more than the last digit") {
  for (const Unit& unit : kAll) {
    CAPTURE(unit.symbol);
    for (const double value : {-3.7, 0.0, 0.1, 12.345, 9876.5})
      CHECK(fromSi(toSi(value, unit), unit) == doctest::Approx(value).epsilon(1e-13));
  }
}

TEST_CASE("a unit's power of ten is its factor") {
  int checked = 0;
  for (const Unit& unit : kAll) {
    if (unit.power_of_ten == 0) continue;
    CHECK(std::stod("1e" + std::to_string(unit.power_of_ten)) == unit.numerator / unit.denominator);
    ++checked;
  }
  CHECK(checked == 4);
}

TEST_CASE("what a field holds is known by the last name of its path") {
  CHECK(quantityOf("skins[0].form.breadth") == Quantity::Length);
  CHECK(quantityOf("parts[12].position.z") == Quantity::Length);
  CHECK(quantityOf("tank.bulkheads[1]") == Quantity::Length);
  CHECK(quantityOf("parts[2].mass") == Quantity::Mass);
  CHECK(quantityOf("tank.capacity") == Quantity::Volume);
  CHECK(quantityOf("tank_fill") == Quantity::Volume);
  CHECK(quantityOf("water.temperature") == Quantity::Temperature);
  CHECK(quantityOf("skins[0].form.nose_power") == Quantity::Number);
  CHECK(quantityOf("parts[2].name") == std::nullopt);
  CHECK(quantityOf("") == std::nullopt);
}

TEST_CASE("units made of others are their product") {
  const double inch = toSi(1, kInch), ounce = toSi(1, kOunce);
  CHECK(toSi(1, kSquareInch) == doctest::Approx(inch * inch).epsilon(1e-14));
  CHECK(toSi(1, kOuncePerInch) == doctest::Approx(ounce / inch).epsilon(1e-14));
  CHECK(toSi(1, kOunceInchPerDegree) == doctest::Approx(kGravity * ounce * inch * 180 / kPi).epsilon(1e-14));
  // NIST Special Publication 811 (2008), appendix B.8: lbf to N 4.448222 E+00, psi to Pa 6.894757 E+03.
  CHECK(toSi(1, kPoundForce) == doctest::Approx(4.448222).epsilon(1e-7));
  CHECK(toSi(1, kPsi) == doctest::Approx(6894.757).epsilon(1e-7));
  CHECK(toSi(1, kPsiStress) == toSi(1, kPsi));
  CHECK(toSi(1, kFluidOuncePerPsi) == doctest::Approx(29.5735295625e-6 / toSi(1, kPsi)).epsilon(1e-14));
  CHECK(toSi(1, kCubicInchPerPsi) == doctest::Approx(inch * inch * inch / toSi(1, kPsi)).epsilon(1e-14));
  CHECK(toSi(1, kFluidOuncePerSecond) == doctest::Approx(29.5735295625e-6).epsilon(1e-14));
  CHECK(toSi(1, kCubicInchPerSecond) == doctest::Approx(inch * inch * inch).epsilon(1e-14));
  CHECK(toSi(1, kInchPerSecond) == doctest::Approx(inch).epsilon(1e-14));
  CHECK(toSi(212, kDegreeFahrenheit) == doctest::Approx(373.15).epsilon(1e-14));
  CHECK(fromSi(277.15, kDegreeFahrenheit) == doctest::Approx(39.2).epsilon(1e-12));
}

TEST_CASE("a set of units chooses lengths, volumes and masses; others follow the length") {
  CHECK(std::string(unitFor(Quantity::Length, kInchUnits).suffix) == "in");
  CHECK(std::string(unitFor(Quantity::Volume, kInchUnits).suffix) == "fl_oz");
  CHECK(std::string(unitFor(Quantity::Mass, kInchUnits).suffix) == "oz");
  CHECK(std::string(unitFor(Quantity::Temperature, kInchUnits).suffix) == "degF");
  CHECK(std::string(unitFor(Quantity::MassPerLength, kInchUnits).suffix) == "oz_per_in");
  CHECK(std::string(unitFor(Quantity::Density, kInchUnits).suffix) == "kg_per_m3");
  for (const Quantity q : {Quantity::Pressure, Quantity::Stress})
    CHECK(std::string(unitFor(q, kInchUnits).suffix) == "psi");
  CHECK(std::string(unitFor(Quantity::Flow, kInchUnits).suffix) == "fl_oz_per_s");
  CHECK(std::string(unitFor(Quantity::Flow, {kInch, kCubicInch, kOunce}).suffix) == "in3_per_s");
  CHECK(std::string(unitFor(Quantity::Compliance, {kInch, kCubicInch, kOunce}).suffix) == "in3_per_psi");
  CHECK(std::string(unitFor(Quantity::Force, kInchUnits).suffix) == "lbf");
  CHECK(std::string(unitFor(Quantity::Speed, kInchUnits).suffix) == "in_per_s");
  CHECK(std::string(unitFor(Quantity::Pressure).suffix) == "bar");
  CHECK(std::string(unitFor(Quantity::Length).suffix) == "mm");
}
