#pragma once
// What the ballast system can do: times, pressures, where the pump gives up, gas and charge used.
#include <pondtrim/model.hpp>
#include <string>
#include <vector>

namespace pondtrim {

inline constexpr double kAtmosphere = 101325.0;      ///< standard atmosphere [Pa] (exact)
inline constexpr double kGasConstant = 8.314462618;  ///< [J/(mol K)], SI 2019 (exact to the digits given)

/// rho g h [Pa].
[[nodiscard]] double pressureAtDepth(double density, double depth);

/// Absolute pressure [Pa] of closed-in air, `absolute` at first, when `share` (0 to below 1) of its volume is
/// taken by water: exponent 1 for slow (isothermal, Boyle), 1.4 for sudden (adiabatic) squeezing.
[[nodiscard]] double squeezedPressure(double absolute, double share, double exponent = 1.0);

// ---- Pump -------------------------------------------------------------------------------------------------

/// Flow [m^3/s] at a voltage against a back pressure [Pa]: free_flow V/Vn - free_flow p/p_stall, never below
/// 0, p including what the hose eats (hose_loss (Q/free_flow)^2). The straight line is a modelling choice.
/// Help from outside (p < 0) is not counted on.
[[nodiscard]] double pumpFlow(const Pump& pump, double voltage, double back_pressure);

/// Motor current at a voltage against a back pressure up to its stall [A]; empty when the currents are not
/// given.
[[nodiscard]] std::optional<double> pumpCurrent(const Pump& pump, double voltage, double back_pressure);

/// The piston as a pump of the same line: flow = speed x area, pressure = force / area.
[[nodiscard]] Pump pumpLikePiston(const PistonTank& piston);

/// One moment of a fill or a blow.
struct BallastPoint {
  double time = 0.0;      ///< since the start [s]
  double fill = 0.0;      ///< [m^3]
  double pressure = 0.0;  ///< against the pump, hose not counted [Pa]
  double current = 0.0;   ///< [A]; 0 when not known
};

/// Filling (empty to full) or blowing (full to empty) at one voltage.
struct BallastRun {
  double voltage = 0.0;
  bool completes = false;
  double time = 0.0;                 ///< to the end [s]; when it stalls, to 99 % of the way to the stall
  std::optional<double> stall_fill;  ///< tank fill at which the pump gives up [m^3]
  double greatest_pressure = 0.0;    ///< against the pump on the way, hose not counted [Pa]
  /// Stall pressure at this voltage over the greatest pressure on a whole run; below 1 it cannot finish.
  /// Empty without any back pressure.
  std::optional<double> margin;
  std::optional<double> greatest_current;  ///< [A]
  std::optional<double> charge;            ///< used [A s]
  std::vector<BallastPoint> curve;
};

// ---- Gas --------------------------------------------------------------------------------------------------

/// A liquefied gas: saturation pressure from a table (ln p straight over 1/T between rows) or Antoine's
/// equation. Generic names only.
struct Gas {
  std::string name;
  double molar_mass = 0.0;                             ///< [kg/mol]
  double coldest = 0.0, warmest = 0.0;                 ///< range of the saturation data [K]
  std::vector<std::pair<double, double>> table;        ///< (T [K], p [Pa]); empty: Antoine
  double antoine_a = 0, antoine_b = 0, antoine_c = 0;  ///< log10(p / bar) = a - b / (T + c)
  std::string source;
};
[[nodiscard]] const std::vector<Gas>& knownGases();
/// Error: field "gas", with the names that are known.
[[nodiscard]] Result<Gas> findGas(const std::string& name);
/// Absolute [Pa]. Error: "water.temperature" outside the data.
[[nodiscard]] Result<double> saturationPressure(const Gas& gas, double temperature);
/// Ideal gas, p M / (R T) [kg/m^3]; real vapour is 2 to 4 % denser.
[[nodiscard]] double vapourDensity(const Gas& gas, double absolute, double temperature);

/// What a can gives.
struct GasAnswer {
  double can_pressure = 0.0;   ///< above the atmosphere, at the water's temperature [Pa]
  double mass_per_blow = 0.0;  ///< to empty a full tank at the depth asked for [kg]
  int blows = 0;               ///< whole tanks from a full can; 0 where it cannot blow
  double deepest_blow = 0.0;   ///< where the can's pressure is that of the water [m]
  bool can_blow = false;       ///< at the depth asked for
};

// ---- The whole system -------------------------------------------------------------------------------------

struct BallastReport {
  double tank_capacity = 0.0;  ///< [m^3]
  double depth = 0.0;          ///< asked for [m]
  /// Filling at the surface, blowing at `depth` from where the fill ended. Without a battery: full only, at
  /// the rated voltage. With gas the runs have no voltage and no pump.
  BallastRun fill_full, blow_full;
  std::optional<BallastRun> fill_tired, blow_tired;
  /// Air in tank or cylinder with the tank full, above the atmosphere [Pa]: slow and sudden.
  std::optional<double> air_pressure, air_pressure_sudden;
  /// Depth from which the pump can still empty the tank [m].
  std::optional<double> deepest_blow_full, deepest_blow_tired;
  std::optional<double> dives_per_charge;  ///< fill and blow, the pump alone, at the worse of the voltages
  std::optional<GasAnswer> gas;
};

/// Error: "ballast" or "tank" missing; "depth" outside 0 to 100; "ballast.gas" unknown; as waterDensity
/// and saturationPressure.
[[nodiscard]] Result<BallastReport> evaluateBallast(const Boat& boat, const Model& model, const Water& water,
                                                    double depth);

}  // namespace pondtrim
