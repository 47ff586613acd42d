#include "session/ballast_edits.hpp"

#include <algorithm>
#include <cmath>
#include <pondtrim/ballast.hpp>

namespace pondtrim {
namespace {

constexpr double kFillTime = 30.0;        // seconds, of a tank without back pressure: usual for a club boat
constexpr double kStallPressure = 1.5e5;  // Pa, of a small gear pump
constexpr double kVoltage = 12.0;
constexpr double kLitre = 1e-3;

const SealedCylinder* homeOf(const Boat& boat) {
  for (const SealedCylinder& c : boat.cylinders)
    if (boat.tank && c.name == boat.tank->cylinder) return &c;
  return nullptr;
}

/// Rounded to two figures, so that an invented number looks like one.
double roughly(double value) {
  if (value <= 0) return value;
  const double unit = std::pow(10.0, std::floor(std::log10(value)) - 1);
  return std::round(value / unit) * unit;
}

std::optional<Pump> pumpOf(const Boat& boat) {
  if (!boat.ballast) return std::nullopt;
  if (const auto* s = std::get_if<SealedTankPump>(&boat.ballast->kind)) return s->pump;
  if (const auto* v = std::get_if<VentedTankPump>(&boat.ballast->kind)) return v->pump;
  return std::nullopt;
}

/// Free air in the cylinder beside the tank. A piston's air counts the tank's own room too.
std::optional<double> airOf(const Boat& boat, double capacity) {
  if (!boat.ballast) return std::nullopt;
  if (const auto* v = std::get_if<VentedTankPump>(&boat.ballast->kind)) return v->cylinder_air;
  if (const auto* p = std::get_if<PistonTank>(&boat.ballast->kind))
    return std::max(p->cylinder_air - capacity, 1e-6);
  return std::nullopt;
}

Pump usualPump(double capacity) {
  Pump pump;
  pump.free_flow = roughly(capacity / kFillTime);
  pump.stall_pressure = kStallPressure;
  pump.rated_voltage = kVoltage;
  return pump;
}

/// Half of what the tank leaves of the cylinder: the other half is batteries and gear.
double usualAir(const SealedCylinder& home, double capacity) {
  const double bore = home.diameter / 2 - home.wall_thickness;
  const double rest = kPi * bore * bore * home.length - capacity;
  return roughly(std::max(rest / 2, 0.05 * kLitre));
}

PistonTank usualPiston(const SealedCylinder& home, double capacity, double length) {
  PistonTank piston;
  piston.diameter = std::min(std::sqrt(4 * capacity / (kPi * length)), home.diameter);
  piston.free_speed = length / kFillTime;
  piston.stall_force = roughly(kStallPressure * kPi / 4 * piston.diameter * piston.diameter);
  piston.rated_voltage = kVoltage;
  return piston;
}

GasBlow usualGas(double capacity) {
  GasBlow gas;
  gas.gas = knownGases().front().name;
  gas.can_mass = 0.06;
  gas.vent_diameter = 0.004;
  gas.hole_diameter = 0.016;
  gas.blow_flow = roughly(capacity / kFillTime);
  return gas;
}

}  // namespace

std::optional<BallastChoice> ballastChoice(const Boat& boat) {
  if (!boat.ballast) return std::nullopt;
  return static_cast<BallastChoice>(boat.ballast->kind.index());
}

Boat withBallastKind(const Boat& boat, const Model& model, BallastChoice choice) {
  const SealedCylinder* home = homeOf(boat);
  if (home == nullptr || ballastChoice(boat) == choice) return boat;
  const double capacity = model.tank_capacity;
  const Pump pump = pumpOf(boat).value_or(usualPump(capacity));
  const double air = airOf(boat, capacity).value_or(usualAir(*home, capacity));
  Boat changed = boat;
  if (!changed.ballast) changed.ballast.emplace();
  BallastKind& kind = changed.ballast->kind;
  switch (choice) {
    case BallastChoice::SealedTankPump:
      kind = SealedTankPump{pump, std::nullopt};
      break;
    case BallastChoice::VentedTankPump:
      kind = VentedTankPump{pump, air};
      break;
    case BallastChoice::Piston: {
      PistonTank piston = usualPiston(*home, capacity, boat.tank->fore_end - boat.tank->aft_end);
      piston.cylinder_air = air + capacity;
      kind = piston;
      break;
    }
    case BallastChoice::Gas:
      kind = usualGas(capacity);
      break;
  }
  return changed;
}

Boat withoutBallast(Boat boat) {
  boat.ballast.reset();
  return boat;
}

Boat withBattery(Boat boat) {
  if (!boat.ballast || boat.ballast->battery) return boat;
  double rated = kVoltage;
  if (const auto pump = pumpOf(boat)) rated = pump->rated_voltage;
  if (const auto* p = std::get_if<PistonTank>(&boat.ballast->kind)) rated = p->rated_voltage;
  boat.ballast->battery = Battery{rated, roughly(0.85 * rated), 2.0 * 3600};  // 2000 mAh
  return boat;
}

Boat withoutBattery(Boat boat) {
  if (boat.ballast) boat.ballast->battery.reset();
  return boat;
}

Boat withCylinderMaterial(Boat boat, std::size_t cylinder, const std::string& material) {
  boat.cylinders[cylinder].material = material;
  return boat;
}

}  // namespace pondtrim
