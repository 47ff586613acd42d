// Ballast system, depth and strength in a builder's words.
#include <pondtrim/file/ballast_json.hpp>

#include "number_words.hpp"

namespace pondtrim::file {
namespace {

using Lines = std::vector<std::string>;

std::string sayDepth(double depth, const UnitSet& units) {
  return say(depth, unitFor(Quantity::Depth, units), 1);
}

std::string sayPressure(double pressure, const UnitSet& units) {
  return say(pressure, unitFor(Quantity::Pressure, units), units.metric() ? 2 : 1);
}

/// Of the gas in one blow: a few grams.
std::string sayGas(double mass, const UnitSet& units) {
  return say(mass, units.mass, units.metric() ? 1 : 2);
}

void addRun(Lines& out, const BallastRun& run, const char* battery, const char* what, const char* whole,
            const BallastReport& report, const UnitSet& units) {
  const std::string start =
      std::string(battery) + (run.voltage > 0 ? " (" + say(run.voltage, kVolt, 1) + ")" : "") + " ";
  if (run.completes) {
    out.push_back(start + whole + " takes " + say(run.time, kSecond, 0) + ".");
    return;
  }
  out.push_back(start + what + " stops with " + sayVolume(run.stall_fill.value_or(0.0), units) + " of " +
                sayVolume(report.tank_capacity, units) + " in the tank: it cannot push harder.");
}

void addPump(Lines& out, const BallastReport& r, const UnitSet& units) {
  const std::string at = "emptying it at " + sayDepth(r.depth, units);
  const char* full = r.fill_tired ? "On a full battery" : "At the rated voltage";
  addRun(out, r.fill_full, full, "filling", "filling the tank", r, units);
  addRun(out, r.blow_full, full, "emptying", at.c_str(), r, units);
  if (r.fill_tired) addRun(out, *r.fill_tired, "On a tired battery", "filling", "filling the tank", r, units);
  if (r.blow_tired) addRun(out, *r.blow_tired, "On a tired battery", "emptying", at.c_str(), r, units);
  if (r.air_pressure && r.fill_full.completes)
    out.push_back("With the tank full the air is squeezed to " + sayPressure(*r.air_pressure, units) +
                  " above the atmosphere, or " + sayPressure(*r.air_pressure_sudden, units) +
                  " for a moment when it fills fast.");
  else if (!r.air_pressure)
    out.push_back("The air in the tank has nowhere to go, so the tank can never fill to the top.");
  const BallastRun& worst = r.fill_tired ? *r.fill_tired : r.fill_full;
  if (worst.margin && *worst.margin >= 1 && *worst.margin < 1.5)
    out.push_back("At the end of the fill the pump has only " + fixedText(*worst.margin, 2) +
                  " times the pressure it needs.");
  if (r.dives_per_charge)
    out.push_back("The charge lasts for about " + fixedText(std::floor(*r.dives_per_charge), 0) +
                  " dives, the pump alone.");
}

void addGas(Lines& out, const BallastReport& r, const UnitSet& units) {
  const GasAnswer& g = *r.gas;
  out.push_back("With the vent open the tank floods in about " + say(r.fill_full.time, kSecond, 0) + ".");
  if (!g.can_blow)
    out.push_back("In this water the can's pressure is too low to blow the tank at " +
                  sayDepth(r.depth, units) + "; it reaches down to " + sayDepth(g.deepest_blow, units) + ".");
  else
    out.push_back("One blow at " + sayDepth(r.depth, units) + " uses " + sayGas(g.mass_per_blow, units) +
                  " of gas and takes " + say(r.blow_full.time, kSecond, 0) + "; a full can holds " +
                  std::to_string(g.blows) + " of them.");
  out.push_back("The can's pressure is " + sayPressure(g.can_pressure, units) +
                " above the atmosphere at the water's temperature; each blow chills it below that.");
}

void addDepth(Lines& out, const DepthCurve& curve, const UnitSet& units) {
  const DepthPoint& top = curve.points.front();
  if (top.net_buoyancy <= 0) {
    out.push_back("With the tank full she is " + sayMass(-top.net_buoyancy, units) +
                  " too heavy already at the surface: she does not come up by herself.");
  } else {
    const std::string spare = "With the tank full she has " + sayMass(top.net_buoyancy, units) + " to spare";
    out.push_back(curve.point_of_no_return ? spare + "; below " + sayDepth(*curve.point_of_no_return, units) +
                                                 " that is gone and she no longer comes up by herself."
                                           : spare + " and still comes up by herself from " +
                                                 sayDepth(curve.points.back().depth, units) + ".");
  }
  if (curve.foam_assumed) out.push_back("Foam without a stiffness in the file is counted as soft foam.");
  if (curve.hull_from_sheet)
    out.push_back(
        "The cylinder gives way as the softest of its material would; a volume measured under pressure is "
        "better.");
  if (curve.hull_assumed_rigid)
    out.push_back(
        "A cylinder of unknown material, without elastic modulus or measured volume lost, is counted as "
        "rigid.");
}

void addStrength(Lines& out, const Boat& boat, const Strengths& strengths, double depth,
                 const UnitSet& units) {
  for (std::size_t i = 0; i < strengths.size(); ++i) {
    const std::string& name = boat.cylinders[i].name;
    if (!strengths[i]) {
      out.push_back("No estimate for \"" + name + "\": its material is not known to this program.");
      continue;
    }
    const StrengthEstimate& s = *strengths[i];
    out.push_back("A perfect tube like \"" + name + "\" would collapse somewhere from " +
                  sayDepth(s.collapse_depth.low, units) +
                  (s.unsupported_length < s.tube_length ? " (no disc inside counted on)" : "") + " to " +
                  sayDepth(s.collapse_depth.high, units) +
                  "; a real one earlier. The lower figure over a factor of " + fixedText(s.factor, 0) +
                  " is " + sayDepth(s.collapse_depth_over_factor, units) + ".");
    if (!s.within_factor)
      out.push_back("At " + sayDepth(depth, units) + " \"" + name +
                    "\" does not keep that factor: make it stronger or stay shallower.");
    if (s.flexes)
      out.push_back("The flat caps of \"" + name +
                    "\" bend by more than half their thickness: too thin for this estimate.");
  }
}

}  // namespace

const char* waterWords(NamedWater water) {
  switch (water) {
    case NamedWater::WarmPool:
      return "warm pool";
    case NamedWater::ColdLake:
      return "cold lake";
    case NamedWater::WarmSea:
      return "warm sea";
    case NamedWater::ColdSea:
      break;
  }
  return "cold sea";
}

std::vector<std::string> pumpSentences(const BallastReport& report, const UnitSet& units) {
  Lines out;
  if (report.gas) {
    addGas(out, report, units);
  } else {
    addPump(out, report, units);
  }
  return out;
}

std::vector<std::string> depthSentences(const DepthCurve& curve, const UnitSet& units) {
  Lines out;
  addDepth(out, curve, units);
  return out;
}

std::vector<std::string> strengthSentences(const Boat& boat, const Strengths& strengths, double depth,
                                           const UnitSet& units) {
  Lines out;
  addStrength(out, boat, strengths, depth, units);
  out.emplace_back(kPressureCaution);
  return out;
}

std::vector<std::string> ballastSentences(const Boat& boat, const BallastAnswer& answer,
                                          const UnitSet& units) {
  Lines out = pumpSentences(answer.report, units);
  addDepth(out, answer.depth, units);
  addStrength(out, boat, answer.strength, answer.report.depth, units);
  out.emplace_back(kPressureCaution);
  return out;
}

}  // namespace pondtrim::file
