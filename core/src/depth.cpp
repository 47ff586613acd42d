#include <algorithm>
#include <cmath>
#include <pondtrim/ballast.hpp>
#include <pondtrim/depth.hpp>
#include <pondtrim/strength.hpp>

#include "faults.hpp"

namespace pondtrim {

namespace {

constexpr double kZero = 273.15;

struct Foam {
  double volume, modulus;
};

/// What gives way, gathered once.
struct Compliance {
  double density = 1000.0;
  double mass = 0.0;          ///< with tank water and soaked foam [kg]
  double whole_volume = 0.0;  ///< at the surface, gas in an open tank not counted [m^3]
  std::vector<Foam> foams;
  double trapped_air = 0.0;  ///< [m^3]
  double open_gas = 0.0;     ///< gas in an open tank at the surface [m^3]
  double hull = 0.0;         ///< volume lost over pressure [m^3/Pa]
};

void addParts(Compliance& out, DepthCurve& curve, const Boat& boat, const Model& model) {
  for (const Displacer& d : model.displacers) {
    if (d.source.owner != Owner::Part) continue;
    const Part& part = boat.parts[d.source.index];
    if (part.role == Role::TrappedAir) out.trapped_air += d.whole.volume;
    if (part.role != Role::Foam) continue;
    out.foams.push_back({d.whole.volume, part.bulk_modulus.value_or(kSoftFoam)});
    curve.foam_assumed = curve.foam_assumed || !part.bulk_modulus;
    curve.soaked_loss += out.density * d.whole.volume * part.water_uptake.value_or(0.0);
  }
}

void addCylinders(Compliance& out, DepthCurve& curve, const Boat& boat) {
  for (const SealedCylinder& c : boat.cylinders) {
    const auto flexibility = flexibilityOf(c);
    out.hull += flexibility.value_or(0.0);
    curve.hull_assumed_rigid = curve.hull_assumed_rigid || !flexibility;
    const bool by_sheet = flexibility && !c.flexibility && !c.elastic_modulus;
    curve.hull_from_sheet = curve.hull_from_sheet || by_sheet;
  }
}

bool tankOpen(const Boat& boat) {
  return boat.ballast && std::holds_alternative<GasBlow>(boat.ballast->kind);
}

DepthPoint pointAt(const Compliance& c, double depth) {
  DepthPoint out;
  out.depth = depth;
  out.pressure = pressureAtDepth(c.density, depth);
  const double air = 1 - kAtmosphere / (kAtmosphere + out.pressure);
  for (const Foam& f : c.foams) out.foam_loss -= c.density * f.volume * std::expm1(-out.pressure / f.modulus);
  out.air_loss = c.density * c.trapped_air * air;
  out.gas_loss = c.density * c.open_gas * air;
  out.hull_loss = c.density * c.hull * out.pressure;
  out.net_buoyancy =
      c.density * c.whole_volume - c.mass - out.foam_loss - out.air_loss - out.gas_loss - out.hull_loss;
  return out;
}

/// Net buoyancy only falls with depth, so there is one depth where it is gone: bisection.
std::optional<double> noReturn(const Compliance& c, double deepest) {
  if (pointAt(c, 0).net_buoyancy <= 0) return 0.0;
  if (pointAt(c, deepest).net_buoyancy > 0) return std::nullopt;
  double lo = 0, hi = deepest;
  for (int i = 0; i < 60; ++i) {
    const double mid = (lo + hi) / 2;
    (pointAt(c, mid).net_buoyancy > 0 ? lo : hi) = mid;
  }
  return (lo + hi) / 2;
}

}  // namespace

std::optional<double> flexibilityOf(const SealedCylinder& c) {
  if (c.flexibility) return c.flexibility;
  const TubeMaterial* sheet = findTubeMaterial(c.material);
  if (!c.elastic_modulus && sheet == nullptr) return std::nullopt;
  const double modulus = c.elastic_modulus ? *c.elastic_modulus : sheet->modulus_low;
  const double poisson = c.poisson_ratio.value_or(sheet != nullptr ? sheet->poisson : 0.35);
  // Thin closed tube: hoop strain twice, axial strain once.
  const double r = (c.diameter - c.wall_thickness) / 2;
  const double volume = kPi * c.diameter * c.diameter / 4 * c.length;
  return volume * (2.5 - 2 * poisson) * r / (modulus * c.wall_thickness);
}

Result<DepthCurve> depthCurve(const Boat& boat, const Model& model, const Condition& condition,
                              double deepest, int points) {
  if (auto e = outside("depth", deepest, 0.01, 200)) return fail(*e);
  if (auto e = outside("points", points, 2, 2000)) return fail(*e);
  const auto density = waterDensity(condition.water);
  if (!density) return fail(density.error());
  if (auto tank = settleTank(model, condition.tank_fill, Vec3(0, 0, 1)); !tank) return fail(tank.error());
  DepthCurve out;
  Compliance c;
  c.density = *density;
  c.whole_volume = model.whole_volume;
  addParts(c, out, boat, model);
  addCylinders(c, out, boat);
  if (tankOpen(boat)) c.open_gas = std::max(0.0, model.tank_capacity - condition.tank_fill);
  c.mass = model.mass + c.density * condition.tank_fill + out.soaked_loss;
  for (int i = 0; i < points; ++i) out.points.push_back(pointAt(c, deepest * i / (points - 1)));
  out.point_of_no_return = noReturn(c, deepest);
  return out;
}

Water waterOf(NamedWater water) {
  switch (water) {
    case NamedWater::WarmPool:
      return {kZero + 28, 0};
    case NamedWater::ColdLake:
      return {kZero + 5, 0};
    case NamedWater::WarmSea:
      return {kZero + 25, 35};
    case NamedWater::ColdSea:
      break;
  }
  return {kZero + 8, 35};
}

Result<std::array<WaterAnswer, kNamedWaters>> depthInWaters(const Boat& boat, const Model& model,
                                                            const Condition& condition, double deepest) {
  std::array<WaterAnswer, kNamedWaters> out;
  for (int i = 0; i < kNamedWaters; ++i) {
    WaterAnswer& a = out[static_cast<std::size_t>(i)];
    a.water = static_cast<NamedWater>(i);
    const Water water = waterOf(a.water);
    const auto curve = depthCurve(boat, model, {water, condition.tank_fill}, deepest, 2);
    if (!curve) return fail(curve.error());
    a.net_buoyancy = curve->points.front().net_buoyancy;
    a.point_of_no_return = curve->point_of_no_return;
    // The tank takes its water from around her: that part of her weight changes by itself.
    const auto change = massForWater(model.mass, condition.water, water);
    if (!change) return fail(change.error());
    a.ballast_change = *change;
  }
  return out;
}

Result<double> massForWater(double mass, const Water& from, const Water& to) {
  const auto a = waterDensity(from), b = waterDensity(to);
  if (!a) return fail(a.error());
  if (!b) return fail(b.error());
  return mass * (*b / *a - 1);
}

}  // namespace pondtrim
