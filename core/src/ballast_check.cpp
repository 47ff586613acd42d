// Which numbers make a ballast system. The ranges keep slips out, not unusual pumps.
#include <pondtrim/ballast.hpp>

#include "checker.hpp"

namespace pondtrim {

namespace {

constexpr double kMostVoltage = 1000, kMostCurrent = 1000;
constexpr double kMostPressure = 1e8;

void checkVoltage(Checker& c, const std::string& field, double v) { c.range(field, v, 0.1, kMostVoltage); }

void checkCurrents(Checker& c, const std::string& at, const std::optional<double>& free_current,
                   const std::optional<double>& stall_current) {
  c.range(at + ".free_current", free_current, 0, kMostCurrent);
  c.range(at + ".stall_current", stall_current, 0, kMostCurrent);
  if (free_current && stall_current)
    c.atLeast(at + ".stall_current", *stall_current, at + ".free_current", *free_current);
  if (free_current.has_value() != stall_current.has_value()) {
    const std::string missing = free_current ? ".stall_current" : ".free_current";
    c.fault(at + missing, "missing", "both currents or none",
            at + (free_current ? ".free_current" : ".stall_current"),
            at + " has one motor current of two: give both, free and stalled");
  }
}

/// Above 0, with the reason when it is not.
void checkAbove0(Checker& c, const std::string& field, double v, double most, const std::string& otherwise) {
  if (v == 0) c.fault(field, "0", "more than 0: " + otherwise, "", field + " is 0: " + otherwise);
  c.range(field, v, 1e-12, most);
}

void checkPump(Checker& c, const Pump& p) {
  const std::string at = "ballast.pump";
  checkAbove0(c, at + ".free_flow", p.free_flow, 0.1, "else the pump moves no water");
  checkAbove0(c, at + ".stall_pressure", p.stall_pressure, kMostPressure, "else the pump moves no water");
  checkVoltage(c, at + ".rated_voltage", p.rated_voltage);
  c.range(at + ".hose_loss", p.hose_loss, 0, kMostPressure);
  checkCurrents(c, at, p.free_current, p.stall_current);
}

struct TankPlace {
  const SealedCylinder* cylinder;
  std::string field;  ///< of the cylinder
  double bore_area, capacity;
};

double boreVolume(const TankPlace& tank) { return tank.bore_area * tank.cylinder->length; }

void check(Checker& c, const SealedTankPump& s, const TankPlace& tank) {
  checkPump(c, s.pump);
  c.range("ballast.air", s.air, 1e-9, kLargest);
  if (!s.air) return;
  c.atLeast("ballast.air", *s.air, "tank.capacity", tank.capacity);
  c.atMost("ballast.air", *s.air, tank.field + ".length", boreVolume(tank));
}

void check(Checker& c, const VentedTankPump& s, const TankPlace& tank) {
  checkPump(c, s.pump);
  checkAbove0(c, "ballast.cylinder_air", s.cylinder_air, kLargest, "else the vent leads nowhere");
  c.atMost("ballast.cylinder_air", s.cylinder_air, tank.field + ".length", boreVolume(tank));
}

void check(Checker& c, const PistonTank& s, const TankPlace& tank) {
  checkAbove0(c, "ballast.diameter", s.diameter, kLongest, "else the piston moves no water");
  c.atMost("ballast.diameter", s.diameter, tank.field + ".wall_thickness",
           tank.cylinder->diameter - 2 * tank.cylinder->wall_thickness);
  checkAbove0(c, "ballast.free_speed", s.free_speed, 10, "else the piston moves no water");
  checkAbove0(c, "ballast.stall_force", s.stall_force, 1e6, "else the piston moves no water");
  checkVoltage(c, "ballast.rated_voltage", s.rated_voltage);
  checkAbove0(c, "ballast.cylinder_air", s.cylinder_air, kLargest, "else nothing gives way to the piston");
  c.atMost("ballast.cylinder_air", s.cylinder_air, tank.field + ".length", boreVolume(tank));
  checkCurrents(c, "ballast", s.free_current, s.stall_current);
}

void check(Checker& c, const GasBlow& s, const TankPlace&) {
  if (auto gas = findGas(s.gas); !gas) {
    const Error& e = gas.error();
    c.fault("ballast.gas", e.was, e.allowed, "", "ballast.gas: " + e.message);
  }
  checkAbove0(c, "ballast.can_mass", s.can_mass, 100, "else there is no gas to blow with");
  checkAbove0(c, "ballast.vent_diameter", s.vent_diameter, 1,
              "without a vent the air cannot leave and the tank cannot flood");
  checkAbove0(c, "ballast.hole_diameter", s.hole_diameter, 1, "without a hole no water comes in");
  checkAbove0(c, "ballast.blow_flow", s.blow_flow, 1, "else no gas comes");
}

void checkBattery(Checker& c, const Battery& b) {
  checkVoltage(c, "ballast.battery.full_voltage", b.full_voltage);
  checkVoltage(c, "ballast.battery.tired_voltage", b.tired_voltage);
  c.atMost("ballast.battery.tired_voltage", b.tired_voltage, "ballast.battery.full_voltage", b.full_voltage);
  checkAbove0(c, "ballast.battery.charge", b.charge, 1e8, "an empty battery does nothing");
}

}  // namespace

void checkBallast(Checker& c, const Boat& boat) {
  if (!boat.tank) {
    c.fault("ballast", "given", "a ballast system only with a tank", "tank",
            "the boat has a ballast system but no tank");
    return;
  }
  std::size_t i = 0;
  const SealedCylinder* in = findCylinder(boat, boat.tank->cylinder, &i);  // checked with the tank
  const double radius = in->diameter / 2 - in->wall_thickness, area = kPi * radius * radius;
  const TankPlace tank{in, item("cylinders", i), area, boat.tank->capacity.value_or(boreBetweenEnds(boat))};
  std::visit([&](const auto& kind) { check(c, kind, tank); }, boat.ballast->kind);
  if (boat.ballast->battery) checkBattery(c, *boat.ballast->battery);
}

}  // namespace pondtrim
