#pragma once
// What moves the water in and out of the ballast tank, as the boat file says it. What it can do: ballast.hpp.
#include <optional>
#include <string>
#include <variant>

namespace pondtrim {

/// A water pump: flow falls in a straight line from `free_flow` without back pressure to nothing at
/// `stall_pressure`, both at `rated_voltage` and in proportion to the voltage.
struct Pump {
  double free_flow = 0.0;           ///< [m^3/s]
  double stall_pressure = 0.0;      ///< [Pa]
  double rated_voltage = 0.0;       ///< [V]
  std::optional<double> hose_loss;  ///< pressure lost in hoses and valves at the free flow [Pa]
  /// Motor current at the rated voltage, running free and stalled [A]; a straight line between.
  std::optional<double> free_current, stall_current;
  bool operator==(const Pump&) const = default;
};

/// Pump into a sealed tank: the water squeezes the tank's own air.
struct SealedTankPump {
  Pump pump;
  std::optional<double> air;  ///< in the empty tank [m^3]; not given: the tank's capacity
  bool operator==(const SealedTankPump&) const = default;
};

/// Pump into a tank whose air goes through a vent into the sealed cylinder round it.
struct VentedTankPump {
  Pump pump;
  double cylinder_air = 0.0;  ///< free air in the cylinder beside the tank [m^3]
  bool operator==(const VentedTankPump&) const = default;
};

/// A piston on a screw that draws the water in; behind it the cylinder's air is squeezed.
struct PistonTank {
  double diameter = 0.0;                              ///< [m]
  double free_speed = 0.0;                            ///< without load, at the rated voltage [m/s]
  double stall_force = 0.0;                           ///< at the rated voltage [N]
  double rated_voltage = 0.0;                         ///< [V]
  double cylinder_air = 0.0;                          ///< behind the piston with the tank empty [m^3]
  std::optional<double> free_current, stall_current;  ///< as Pump
  bool operator==(const PistonTank&) const = default;
};

/// A tank open at the bottom: floods through its holes when the vent on top opens, and is blown empty with
/// gas from a can.
struct GasBlow {
  std::string gas;             ///< a name of knownGases(), ballast.hpp
  double can_mass = 0.0;       ///< liquid gas in a full can [kg]
  double vent_diameter = 0.0;  ///< of the open vent [m]
  double hole_diameter = 0.0;  ///< of one round hole as large as all flood holes together [m]
  double blow_flow = 0.0;      ///< gas into the tank, at the tank's pressure, as measured [m^3/s]
  bool operator==(const GasBlow&) const = default;
};

using BallastKind = std::variant<SealedTankPump, VentedTankPump, PistonTank, GasBlow>;

struct Battery {
  double full_voltage = 0.0;   ///< under load, charged [V]
  double tired_voltage = 0.0;  ///< under load, when it is time to come home [V]
  double charge = 0.0;         ///< [A s]
  bool operator==(const Battery&) const = default;
};

struct BallastSystem {
  BallastKind kind = SealedTankPump{};
  std::optional<Battery> battery;  ///< none: everything at the rated voltage
  bool operator==(const BallastSystem&) const = default;
};

}  // namespace pondtrim
