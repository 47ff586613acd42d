#include <algorithm>
#include <cmath>
#include <pondtrim/ballast.hpp>
#include <pondtrim/strength.hpp>
#include <string>

#include "faults.hpp"

namespace pondtrim {

namespace {

constexpr double kMPa = 1e6, kGPa = 1e9;

/// Data of one cylinder's material: a single value typed in the boat file is a range of no width.
struct Elastic {
  std::string_view name;
  EstimateRange modulus, strength;
  double poisson;
};

std::string materialNames() {
  std::string out;
  for (const TubeMaterial& m : tubeMaterials()) out += (out.empty() ? "" : ", ") + std::string(m.name);
  return out + ", or elastic_modulus and strength of the tube";
}

Result<Elastic> elasticOf(const SealedCylinder& c, std::size_t index) {
  const TubeMaterial* known = findTubeMaterial(c.material);
  Elastic out{"as given in the boat file", {}, {}, c.poisson_ratio.value_or(0.35)};
  if (known != nullptr) {
    out.name = known->name;
    out.modulus = {known->modulus_low, known->modulus_high};
    out.strength = {known->strength_low, known->strength_high};
    out.poisson = c.poisson_ratio.value_or(known->poisson);
  }
  if (c.elastic_modulus) out.modulus = {*c.elastic_modulus, *c.elastic_modulus};
  if (c.strength) out.strength = {*c.strength, *c.strength};
  if (out.modulus.low > 0 && out.strength.low > 0) return out;
  const std::string field = "cylinders[" + std::to_string(index) + "].material";
  const std::string was = c.material.empty() ? "missing" : "\"" + c.material + "\"";
  return fail({field, was, materialNames(), "",
               field + " is " + was + ": nothing is known of its strength; allowed: " + materialNames()});
}

/// The longest tube without a stiffening disc, if tank ends and bulkheads inside hold it round. A piston does
/// not: it moves.
double unsupportedLength(const Boat& boat, const SealedCylinder& c) {
  std::vector<double> discs{c.position.x, c.position.x + c.length};
  const bool piston = boat.ballast && std::holds_alternative<PistonTank>(boat.ballast->kind);
  if (boat.tank && boat.tank->cylinder == c.name && !piston) {
    discs.push_back(boat.tank->aft_end);
    discs.push_back(boat.tank->fore_end);
    discs.insert(discs.end(), boat.tank->bulkheads.begin(), boat.tank->bulkheads.end());
  }
  std::sort(discs.begin(), discs.end());
  double longest = 0;
  for (std::size_t i = 1; i < discs.size(); ++i) longest = std::max(longest, discs[i] - discs[i - 1]);
  return longest;
}

double collapseOf(double modulus, double poisson, const SealedCylinder& c, double length) {
  const double d = c.diameter - c.wall_thickness;
  const double longest = longTubeCollapse(modulus, poisson, d / 2, c.wall_thickness);
  // The short-tube formula falls below the long tube's for very long tubes and fails for rings.
  if (length / d <= 0.45 * std::sqrt(c.wall_thickness / d)) return longest;
  return std::max(longest, shortTubeCollapse(modulus, poisson, d, c.wall_thickness, length));
}

double plateStiffness(double modulus, double poisson, double t) {
  return modulus * t * t * t / (12 * (1 - poisson * poisson));
}

void estimateCaps(StrengthEstimate& out, const SealedCylinder& c, const Elastic& m, double pressure) {
  if (c.fore_dome > 0 && c.aft_dome > 0) return;
  const double r = c.diameter / 2 - c.wall_thickness;
  out.supported_cap = supportedCap(pressure, r, c.cap_thickness, m.modulus.low, m.poisson);
  out.clamped_cap = clampedCap(pressure, r, c.cap_thickness, m.modulus.low, m.poisson);
  out.flexes = out.supported_cap->deflection > c.cap_thickness / 2;
}

}  // namespace

TubeStress tubeStress(double pressure, double diameter, double wall) {
  const double hoop = pressure * diameter / (2 * wall);
  // Hoop and half of it at right angles: sqrt(h^2 - h h/2 + h^2/4).
  return {hoop, hoop / 2, hoop * std::sqrt(3.0) / 2};
}

double shortTubeCollapse(double modulus, double poisson, double diameter, double wall, double length) {
  const double t = wall / diameter;
  return 2.42 * modulus * std::pow(t, 2.5) /
         (std::pow(1 - poisson * poisson, 0.75) * (length / diameter - 0.45 * std::sqrt(t)));
}

double longTubeCollapse(double modulus, double poisson, double radius, double wall) {
  return modulus / (4 * (1 - poisson * poisson)) * std::pow(wall / radius, 3);
}

PlateStress supportedCap(double pressure, double radius, double thickness, double modulus, double poisson) {
  const double load = pressure * radius * radius;
  return {3 * (3 + poisson) * load / (8 * thickness * thickness),
          (5 + poisson) * load * radius * radius /
              (64 * (1 + poisson) * plateStiffness(modulus, poisson, thickness))};
}

PlateStress clampedCap(double pressure, double radius, double thickness, double modulus, double poisson) {
  const double load = pressure * radius * radius;
  return {3 * load / (4 * thickness * thickness),
          load * radius * radius / (64 * plateStiffness(modulus, poisson, thickness))};
}

const std::array<TubeMaterial, kTubeMaterials>& tubeMaterials() {
  // Strengths of PMMA, PVC and PC: ACS Omega 7 (2022) 13403, table 1. Everything else: ranges that data
  // sheets of such stock commonly give, from memory.
  static const std::array<TubeMaterial, kTubeMaterials> all{{
      {"acrylic", 2.4 * kGPa, 3.3 * kGPa, 48 * kMPa, 76 * kMPa, 0.37,
       "strength: ACS Omega 7 (2022) 13403, table 1; modulus: from memory"},
      {"PVC", 2.4 * kGPa, 3.5 * kGPa, 40.7 * kMPa, 51.7 * kMPa, 0.38,
       "strength: ACS Omega 7 (2022) 13403, table 1; modulus: from memory"},
      {"polycarbonate", 2.0 * kGPa, 2.4 * kGPa, 55 * kMPa, 65.5 * kMPa, 0.37,
       "upper strength: ACS Omega 7 (2022) 13403, table 1; the rest from memory"},
      {"ABS", 1.8 * kGPa, 2.6 * kGPa, 30 * kMPa, 45 * kMPa, 0.38, "from memory"},
      {"PETG", 1.9 * kGPa, 2.2 * kGPa, 40 * kMPa, 53 * kMPa, 0.38, "from memory"},
      {"glass-fibre laminate", 6 * kGPa, 15 * kGPa, 80 * kMPa, 200 * kMPa, 0.30, "from memory"},
      {"aluminium", 68 * kGPa, 71 * kGPa, 110 * kMPa, 240 * kMPa, 0.33, "yield stress, from memory"},
  }};
  return all;
}

const TubeMaterial* findTubeMaterial(std::string_view name) {
  const std::string_view stock = name.substr(0, name.find(','));  // "PVC, rigid"
  const auto& all = tubeMaterials();
  const auto* found =
      std::find_if(all.begin(), all.end(), [&](const TubeMaterial& m) { return m.name == stock; });
  return found == all.end() ? nullptr : found;
}

Result<StrengthEstimate> estimateStrength(const Boat& boat, std::size_t cylinder, const Water& water,
                                          double depth, double inside_pressure) {
  if (cylinder >= boat.cylinders.size()) {
    const std::string field = "cylinders[" + std::to_string(cylinder) + "]";
    return fail({field, "missing", "a sealed cylinder of the boat", "", field + " does not exist"});
  }
  if (auto e = outside("depth", depth, 0, 100)) return fail(*e);
  if (auto e = outside("inside_pressure", inside_pressure, 0, 1e7)) return fail(*e);
  const auto density = waterDensity(water);
  if (!density) return fail(density.error());
  const SealedCylinder& c = boat.cylinders[cylinder];
  const auto material = elasticOf(c, cylinder);
  if (!material) return fail(material.error());
  StrengthEstimate out;
  out.material = material->name;
  out.strength = material->strength;
  out.outside_pressure = pressureAtDepth(*density, depth);
  out.inside_pressure = inside_pressure;
  const double mean = c.diameter - c.wall_thickness;
  out.outside_stress = tubeStress(out.outside_pressure, mean, c.wall_thickness);
  out.inside_stress = tubeStress(inside_pressure, mean, c.wall_thickness);
  out.tube_length = c.length;
  out.unsupported_length = unsupportedLength(boat, c);
  // Whether discs inside sit tight enough to hold the tube round is not known: the low figure does without.
  out.collapse_pressure = {collapseOf(material->modulus.low, material->poisson, c, out.tube_length),
                           collapseOf(material->modulus.high, material->poisson, c, out.unsupported_length)};
  const double per_metre = *density * kGravity;
  out.collapse_depth = {out.collapse_pressure.low / per_metre, out.collapse_pressure.high / per_metre};
  out.collapse_depth_over_factor = out.collapse_depth.low / out.factor;
  estimateCaps(out, c, *material, std::max(out.outside_pressure, inside_pressure));
  const double tube = std::max(out.outside_stress.von_mises, out.inside_stress.von_mises);
  const double worst = std::max(tube, out.supported_cap ? out.supported_cap->stress : 0.0);
  out.share_of_strength = worst / out.strength.low;
  out.within_factor = out.share_of_strength <= 1 / out.factor &&
                      out.outside_pressure * out.factor <= out.collapse_pressure.low;
  return out;
}

}  // namespace pondtrim
