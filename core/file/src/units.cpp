#include <array>
#include <pondtrim/file/units.hpp>
#include <utility>

namespace pondtrim::file {
namespace {

using Entry = std::pair<std::string_view, Quantity>;
constexpr std::array kQuantities{
    Entry{"length", Quantity::Length},
    Entry{"breadth", Quantity::Length},
    Entry{"height", Quantity::Length},
    Entry{"nose_length", Quantity::Length},
    Entry{"tail_length", Quantity::Length},
    Entry{"nose_power", Quantity::Number},
    Entry{"nose_root", Quantity::Number},
    Entry{"tail_power", Quantity::Number},
    Entry{"tail_root", Quantity::Number},
    Entry{"nose_lift", Quantity::Number},
    Entry{"tail_lift", Quantity::Number},
    Entry{"section_power", Quantity::Number},
    Entry{"top_scale", Quantity::Number},
    Entry{"rake", Quantity::Length},
    Entry{"shoulder", Quantity::Number},
    Entry{"middle_length", Quantity::Length},
    Entry{"nose_offset", Quantity::Length},
    Entry{"tail_offset", Quantity::Length},
    Entry{"tail_angle", Quantity::Angle},
    Entry{"tip_length", Quantity::Length},
    Entry{"span", Quantity::Length},
    Entry{"slant", Quantity::Angle},
    Entry{"heights", Quantity::Length},
    Entry{"half_breadths", Quantity::Length},
    Entry{"position", Quantity::Length},
    Entry{"thickness", Quantity::Length},
    Entry{"mass", Quantity::Mass},
    Entry{"density", Quantity::Density},
    Entry{"diameter", Quantity::Length},
    Entry{"wall_thickness", Quantity::Length},
    Entry{"cap_thickness", Quantity::Length},
    Entry{"fore_dome", Quantity::Length},
    Entry{"aft_dome", Quantity::Length},
    Entry{"aft_end", Quantity::Length},
    Entry{"fore_end", Quantity::Length},
    Entry{"capacity", Quantity::Volume},
    Entry{"bulkheads", Quantity::Length},
    Entry{"size", Quantity::Length},
    Entry{"aft_breadth", Quantity::Length},
    Entry{"aft_height", Quantity::Length},
    Entry{"fore_breadth", Quantity::Length},
    Entry{"fore_height", Quantity::Length},
    Entry{"volume", Quantity::Volume},
    Entry{"bow_x", Quantity::Length},
    Entry{"stern_x", Quantity::Length},
    Entry{"line_height", Quantity::Length},
    Entry{"deck_height", Quantity::Length},
    Entry{"sail_top", Quantity::Length},
    Entry{"temperature", Quantity::Temperature},
    Entry{"salinity", Quantity::Salinity},
    Entry{"sail_showing", Quantity::Length},
    Entry{"tank_fill", Quantity::Volume},
    Entry{"density_low", Quantity::Density},
    Entry{"density_high", Quantity::Density},
    Entry{"cylinder_air", Quantity::Volume},
    Entry{"air", Quantity::Volume},
    Entry{"free_flow", Quantity::Flow},
    Entry{"blow_flow", Quantity::Flow},
    Entry{"stall_pressure", Quantity::Pressure},
    Entry{"hose_loss", Quantity::Pressure},
    Entry{"rated_voltage", Quantity::Voltage},
    Entry{"full_voltage", Quantity::Voltage},
    Entry{"tired_voltage", Quantity::Voltage},
    Entry{"free_current", Quantity::Current},
    Entry{"stall_current", Quantity::Current},
    Entry{"charge", Quantity::Charge},
    Entry{"free_speed", Quantity::Speed},
    Entry{"stall_force", Quantity::Force},
    Entry{"can_mass", Quantity::Mass},
    Entry{"vent_diameter", Quantity::Length},
    Entry{"hole_diameter", Quantity::Length},
    Entry{"elastic_modulus", Quantity::Stress},
    Entry{"bulk_modulus", Quantity::Stress},
    Entry{"strength", Quantity::Stress},
    Entry{"poisson_ratio", Quantity::Number},
    Entry{"flexibility", Quantity::Compliance},
    Entry{"water_uptake", Quantity::Share},
    Entry{"depth", Quantity::Depth},
    Entry{"scope", Quantity::Length},
    Entry{"deepest", Quantity::Depth},
    Entry{"band", Quantity::Length},
    Entry{"inside_pressure", Quantity::Pressure},
    Entry{"steps", Quantity::Number},
    Entry{"points", Quantity::Number},
    Entry{"net_buoyancy", Quantity::Mass},
    Entry{"least_gm", Quantity::Length},
    Entry{"least_bg", Quantity::Length},
    Entry{"mark_tolerance", Quantity::Length},
    Entry{"trim_tolerance", Quantity::Angle},
    Entry{"from_x", Quantity::Length},
    Entry{"to_x", Quantity::Length},
    Entry{"step", Quantity::Length},
    Entry{"least_volume", Quantity::Volume},
    Entry{"most_volume", Quantity::Volume},
    Entry{"volume_step", Quantity::Volume},
    Entry{"least_mass", Quantity::Mass},
    Entry{"most_mass", Quantity::Mass},
    Entry{"mass_step", Quantity::Mass},
    Entry{"lead_budget", Quantity::Mass},
    Entry{"bow", Quantity::Length},
    Entry{"stern", Quantity::Length},
    Entry{"sail_showing_spread", Quantity::Length},
    Entry{"bow_spread", Quantity::Length},
    Entry{"stern_spread", Quantity::Length},
    Entry{"trim", Quantity::Angle},
    Entry{"trim_spread", Quantity::Angle},
    Entry{"heel", Quantity::Angle},
    Entry{"heel_spread", Quantity::Angle},
    Entry{"pull", Quantity::Mass},
    Entry{"pull_spread", Quantity::Mass},
    Entry{"bow_pull", Quantity::Mass},
    Entry{"bow_pull_spread", Quantity::Mass},
    Entry{"stern_pull", Quantity::Mass},
    Entry{"stern_pull_spread", Quantity::Mass},
    Entry{"laid_mass", Quantity::Mass},
    Entry{"held_x", Quantity::Length},
    Entry{"held_z", Quantity::Length},
    Entry{"at_x", Quantity::Length},
    Entry{"bow_hook_x", Quantity::Length},
    Entry{"stern_hook_x", Quantity::Length},
    Entry{"shifted_mass", Quantity::Mass},
    Entry{"shifted_by", Quantity::Length},
    Entry{"mass_moment", Quantity::MassMoment},
    Entry{"upper_volume", Quantity::Volume},
    Entry{"upper_x", Quantity::VolumeMoment},
    Entry{"upper_y", Quantity::VolumeMoment},
    Entry{"tank_factor", Quantity::Number},
};

std::string_view lastName(std::string_view path) {
  const auto cut = [&](char mark) {
    const auto at = path.rfind(mark);
    return at == std::string_view::npos ? std::string_view{} : path.substr(at + 1);
  };
  const std::string_view last = cut('.');
  if (last == "x" || last == "y" || last == "z") return lastName(path.substr(0, path.rfind('.')));
  const std::string_view name = last.empty() ? path : last;
  return name.substr(0, name.find('['));
}

}  // namespace

Unit unitFor(Quantity quantity, const UnitSet& set) {
  const bool cubic_inches = set.volume.suffix == std::string_view("in3");
  switch (quantity) {
    case Quantity::Number:
      return kNumber;
    case Quantity::Length:
      return set.length;
    case Quantity::Area:
      return set.metric() ? kSquareCentimetre : kSquareInch;
    case Quantity::Volume:
      return set.volume;
    case Quantity::Mass:
      return set.mass;
    case Quantity::Density:
      return kKilogramPerCubicMetre;
    case Quantity::Temperature:
      return set.metric() ? kDegreeCelsius : kDegreeFahrenheit;
    case Quantity::Salinity:
      return kGramPerKilogram;
    case Quantity::Angle:
      return kDegree;
    case Quantity::Force:
      return set.metric() ? kNewton : kPoundForce;
    case Quantity::MassPerLength:
      return set.metric() ? kGramPerMillimetre : kOuncePerInch;
    case Quantity::MomentPerAngle:
      return set.metric() ? kGramMillimetrePerDegree : kOunceInchPerDegree;
    case Quantity::Share:
      return kPercent;
    case Quantity::Flow:
      if (set.metric()) return kMillilitrePerSecond;
      return cubic_inches ? kCubicInchPerSecond : kFluidOuncePerSecond;
    case Quantity::Speed:
      return set.metric() ? kMillimetrePerSecond : kInchPerSecond;
    case Quantity::Pressure:
      return set.metric() ? kBar : kPsi;
    case Quantity::Stress:
      return set.metric() ? kMegapascal : kPsiStress;
    case Quantity::Compliance:
      if (set.metric()) return kMillilitrePerBar;
      return cubic_inches ? kCubicInchPerPsi : kFluidOuncePerPsi;
    case Quantity::Voltage:
      return kVolt;
    case Quantity::Current:
      return kAmpere;
    case Quantity::Charge:
      return kMilliampereHour;
    case Quantity::Time:
      return kSecond;
    case Quantity::Energy:
      return kJoule;
    case Quantity::MassMoment:
      return kGramMillimetre;
    case Quantity::VolumeMoment:
      return kMillilitreMillimetre;
    case Quantity::Depth:
      return set.metric() ? kMetreDeep : kFootDeep;
  }
  return kNumber;
}

std::optional<Quantity> quantityOf(std::string_view field_path) {
  const std::string_view name = lastName(field_path);
  for (const auto& [known, quantity] : kQuantities)
    if (known == name) return quantity;
  return std::nullopt;
}

}  // namespace pondtrim::file
