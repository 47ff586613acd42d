// Liquefied gases: saturation data and what a can gives.
#include <algorithm>
#include <cmath>
#include <pondtrim/ballast.hpp>

#include "faults.hpp"

namespace pondtrim {

namespace {

constexpr double kZero = 273.15;
constexpr double kBar = 1e5;

/// Mechanical Engineers' Handbook, vol. 4, table 14 (saturated refrigerant 134a): bar, degC. The printed
/// minus signs below 3 bar were lost in the copy read; they are put back.
std::vector<std::pair<double, double>> table134a() {
  const std::pair<double, double> rows[] = {{2, -10.18}, {2.5, -4.38}, {3, 0.59},   {4, 8.86},  {5, 15.68},
                                            {6, 21.54},  {8, 31.35},   {10, 39.41}, {12, 46.36}};
  std::vector<std::pair<double, double>> out;
  for (const auto& [bar, celsius] : rows) out.emplace_back(celsius + kZero, bar * kBar);
  return out;
}

std::vector<Gas> makeGases() {
  Gas refrigerant{
      "R-134a", 0.10203, 0, 0, table134a(), 0, 0, 0, "Mechanical Engineers' Handbook, vol. 4, table 14"};
  refrigerant.coldest = refrigerant.table.front().first;
  refrigerant.warmest = refrigerant.table.back().first;
  return {
      refrigerant,
      {"n-butane",
       0.0581222,
       272.66,
       425.12,
       {},
       4.35576,
       1175.581,
       -2.071,
       "Das, Reed and Eubank 1973, J. Chem. Eng. Data 18, coefficients as in the NIST WebBook"},
      {"isobutane",
       0.0581222,
       261.31,
       408.12,
       {},
       4.3281,
       1132.108,
       0.918,
       "Das, Reed and Eubank 1973, coefficients as in the NIST WebBook, from memory"},
      {"propane",
       0.0440956,
       270.0,
       360.8,
       {},
       4.53678,
       1149.36,
       24.906,
       "Helgeson and Sage 1967, coefficients as in the NIST WebBook (given from 277.6 K), from memory"},
  };
}

}  // namespace

const std::vector<Gas>& knownGases() {
  static const std::vector<Gas> gases = makeGases();
  return gases;
}

Result<Gas> findGas(const std::string& name) {
  std::string names;
  for (const Gas& gas : knownGases()) {
    if (gas.name == name) return gas;
    names += (names.empty() ? "" : ", ") + gas.name;
  }
  return fail(
      {"gas", "\"" + name + "\"", names, "", "gas \"" + name + "\" is not known; known are " + names});
}

Result<double> saturationPressure(const Gas& gas, double temperature) {
  if (auto e = outside("water.temperature", temperature, gas.coldest, gas.warmest)) return fail(*e);
  if (gas.table.empty())
    return kBar * std::pow(10.0, gas.antoine_a - gas.antoine_b / (temperature + gas.antoine_c));
  std::size_t i = 1;
  while (i + 1 < gas.table.size() && gas.table[i].first < temperature) ++i;
  const auto& [t0, p0] = gas.table[i - 1];
  const auto& [t1, p1] = gas.table[i];
  const double share = (1 / t0 - 1 / temperature) / (1 / t0 - 1 / t1);
  return p0 * std::pow(p1 / p0, share);
}

double vapourDensity(const Gas& gas, double absolute, double temperature) {
  return absolute * gas.molar_mass / (kGasConstant * temperature);
}

}  // namespace pondtrim
