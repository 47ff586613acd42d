#include <algorithm>
#include <cmath>
#include <pondtrim/ballast.hpp>

#include "faults.hpp"
#include "pump_run.hpp"

namespace pondtrim {

namespace {

constexpr double kSudden = 1.4;      // ratio of specific heats of air
constexpr double kDeepest = 100;     // [m]
constexpr double kOrifice = 0.6;     // discharge coefficient of a sharp-edged hole (textbook value)
constexpr double kAirDensity = 1.2;  // near the surface [kg/m^3]
constexpr int kCurvePoints = 41;

struct Setting {
  double density, depth, capacity;
  double temperature;
};

/// A pump with the air that its water squeezes.
struct PumpAndAir {
  Pump pump;
  double air;  ///< with the tank empty [m^3]
};

PumpAndAir pumpAndAir(const SealedTankPump& s, double capacity) { return {s.pump, s.air.value_or(capacity)}; }
PumpAndAir pumpAndAir(const VentedTankPump& s, double capacity) {
  return {s.pump, s.cylinder_air + capacity};
}
PumpAndAir pumpAndAir(const PistonTank& s, double) { return {pumpLikePiston(s), s.cylinder_air}; }

/// Air pressure above the atmosphere at a fill [Pa]; without bound when no air is left.
double airPressure(double air, double fill, double exponent = 1.0) {
  return squeezedPressure(kAtmosphere, std::min(fill / air, 1.0), exponent) - kAtmosphere;
}

void runAt(const PumpAndAir& p, const Setting& set, double voltage, BallastRun& fill, BallastRun& blow) {
  const double outside_pressure = pressureAtDepth(set.density, set.depth);
  fill = runPump({p.pump, voltage, 0.0, set.capacity, [&](double v) { return airPressure(p.air, v); }});
  // She blows from where the fill ended.
  blow = runPump({p.pump, voltage, fill.curve.back().fill, 0.0,
                  [&](double v) { return outside_pressure - airPressure(p.air, v); }});
}

std::optional<double> chargePerDive(const BallastRun& fill, const BallastRun& blow) {
  if (!fill.completes || !blow.completes || !fill.charge || !blow.charge) return std::nullopt;
  return *fill.charge + *blow.charge;
}

void evaluatePump(BallastReport& out, const PumpAndAir& p, const std::optional<Battery>& battery,
                  const Setting& set) {
  const auto deepest = [&](double voltage) {
    return p.pump.stall_pressure * voltage / p.pump.rated_voltage / (set.density * kGravity);
  };
  const double full = battery ? battery->full_voltage : p.pump.rated_voltage;
  runAt(p, set, full, out.fill_full, out.blow_full);
  out.deepest_blow_full = deepest(full);
  if (p.air > set.capacity) {
    out.air_pressure = airPressure(p.air, set.capacity);
    out.air_pressure_sudden = airPressure(p.air, set.capacity, kSudden);
  }
  if (!battery) return;
  out.fill_tired.emplace();
  out.blow_tired.emplace();
  runAt(p, set, battery->tired_voltage, *out.fill_tired, *out.blow_tired);
  out.deepest_blow_tired = deepest(battery->tired_voltage);
  const auto fresh = chargePerDive(out.fill_full, out.blow_full);
  const auto tired = chargePerDive(*out.fill_tired, *out.blow_tired);
  if (fresh && tired) out.dives_per_charge = battery->charge / std::max(*fresh, *tired);
}

/// Flooding through vent and holes in a row under a head that falls in proportion to the fill, the water
/// outside standing at the tank's top: dt = dV / (Q0 sqrt(1 - f)), so t = 2 V / Q0 (1 - sqrt(1 - f)).
BallastRun flood(const GasBlow& g, const Setting& set, double height) {
  const auto resistance = [](double diameter, double density) {
    const double area = kPi * diameter * diameter / 4;
    return density / 2 / std::pow(kOrifice * area, 2);
  };
  const double head = pressureAtDepth(set.density, height);
  const double q0 =
      std::sqrt(head / (resistance(g.hole_diameter, set.density) + resistance(g.vent_diameter, kAirDensity)));
  BallastRun out;
  out.completes = true;
  out.greatest_pressure = head;
  for (int i = 0; i < kCurvePoints; ++i) {
    const double f = double(i) / (kCurvePoints - 1);
    out.curve.push_back(
        {2 * set.capacity / q0 * (1 - std::sqrt(1 - f)), set.capacity * f, head * (1 - f), 0.0});
  }
  out.time = out.curve.back().time;
  return out;
}

BallastRun blow(const GasBlow& g, const Setting& set, bool can_blow) {
  BallastRun out;
  out.completes = can_blow;
  if (!can_blow) out.stall_fill = set.capacity;
  out.greatest_pressure = pressureAtDepth(set.density, set.depth);
  if (!can_blow) return out;
  out.time = set.capacity / g.blow_flow;
  for (int i = 0; i < kCurvePoints; ++i) {
    const double f = double(i) / (kCurvePoints - 1);
    out.curve.push_back({out.time * f, set.capacity * (1 - f), out.greatest_pressure, 0.0});
  }
  return out;
}

Result<void> evaluateGas(BallastReport& out, const GasBlow& g, const Setting& set, double tank_height) {
  auto gas = findGas(g.gas);
  if (!gas) {
    gas.error().field = "ballast.gas";
    return fail(gas.error());
  }
  const auto saturated = saturationPressure(*gas, set.temperature);
  if (!saturated) return fail(saturated.error());
  const double outside_pressure = kAtmosphere + pressureAtDepth(set.density, set.depth);
  GasAnswer a;
  a.can_pressure = *saturated - kAtmosphere;
  a.mass_per_blow = vapourDensity(*gas, outside_pressure, set.temperature) * set.capacity;
  a.deepest_blow = std::max(0.0, a.can_pressure) / (set.density * kGravity);
  a.can_blow = *saturated > outside_pressure;
  if (a.can_blow) a.blows = static_cast<int>(std::floor(g.can_mass / a.mass_per_blow));
  out.gas = a;
  out.fill_full = flood(g, set, tank_height);
  out.blow_full = blow(g, set, a.can_blow);
  return {};
}

Error missing(const char* field, const char* message) { return {field, "missing", "given", "", message}; }

}  // namespace

double pressureAtDepth(double density, double depth) { return density * kGravity * depth; }

double squeezedPressure(double absolute, double share, double exponent) {
  return absolute * std::pow(1 - share, -exponent);
}

Result<BallastReport> evaluateBallast(const Boat& boat, const Model& model, const Water& water,
                                      double depth) {
  if (!boat.tank || model.tank_cells.empty())
    return fail(missing("tank", "the boat has no ballast tank to fill"));
  if (!boat.ballast)
    return fail(Error{"ballast", "missing",
                      "a pump into a sealed tank, a pump into a vented tank, a piston, or gas", "",
                      "the boat file names no ballast system"});
  if (auto e = outside("depth", depth, 0, kDeepest)) return fail(*e);
  const auto density = waterDensity(water);
  if (!density) return fail(density.error());
  const Setting set{*density, depth, model.tank_capacity, water.temperature};
  BallastReport out;
  out.tank_capacity = model.tank_capacity;
  out.depth = depth;
  const BallastSystem& system = *boat.ballast;
  if (const auto* gas = std::get_if<GasBlow>(&system.kind)) {
    if (auto ok = evaluateGas(out, *gas, set, 2 * model.tank_cells.front().bore.radius); !ok)
      return fail(ok.error());
    return out;
  }
  std::visit(
      [&](const auto& kind) {
        if constexpr (!std::is_same_v<std::decay_t<decltype(kind)>, GasBlow>)
          evaluatePump(out, pumpAndAir(kind, set.capacity), system.battery, set);
      },
      system.kind);
  return out;
}

}  // namespace pondtrim
