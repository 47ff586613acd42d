#include <pondtrim/file/report_json.hpp>
#include <pondtrim/file/units.hpp>

#include "report_object.hpp"

namespace pondtrim::file {
namespace {

constexpr double kTrialMass = 0.01;  ///< [kg]: the 10 g of the table
constexpr int kTableSteps = 10;      ///< stations from the aft end to the fore end of the hull

ReportObject conditionObject(const Model& model, const Condition& condition, const Report& report) {
  ReportObject out;
  out.put("tank_fill", condition.tank_fill, kMillilitre);
  out.put("tank_capacity", model.tank_capacity, kMillilitre);
  out.put("temperature", condition.water.temperature, kDegreeCelsius);
  out.put("salinity", condition.water.salinity, kGramPerKilogram);
  out.put("water_density", report.rest.density, kKilogramPerCubicMetre);
  return out;
}

void putMarks(ReportObject& out, const Report& r) {
  if (r.bow) out.put("draft_bow", r.bow->draft, kMillimetre);
  if (r.stern) out.put("draft_stern", r.stern->draft, kMillimetre);
  if (r.bow) out.put("line_above_water_bow", r.bow->line_above_water, kMillimetre);
  if (r.stern) out.put("line_above_water_stern", r.stern->line_above_water, kMillimetre);
  out.put("sail_showing", r.sail_showing, kMillimetre);
  out.put("trim", r.rest.attitude.trim, kDegree);
  out.put("heel", r.rest.attitude.heel, kDegree);
}

void putMasses(ReportObject& out, const Report& r) {
  out.put("displaced", r.displaced_volume, kMillilitre);
  out.put("displaced_mass", r.displaced_mass, kGram);
  out.put("total_mass", r.total_mass, kGram);
  out.put("carry_mass", r.carry_mass, kGram);
  out.put("tank_water", r.tank_water_mass, kGram);
  out.put("reserve_buoyancy", r.reserve_buoyancy_volume, kMillilitre);
  out.put("net_buoyancy_submerged", r.net_buoyancy_submerged, kGram);
}

void putCentres(ReportObject& out, const Report& r) {
  const Vec3 &b = r.centre_of_buoyancy, &g = r.centre_of_gravity;
  out.put("lcb", b.x, kMillimetre);
  out.put("tcb", b.y, kMillimetre);
  out.put("vcb", b.z, kMillimetre);
  out.put("lcg", g.x, kMillimetre);
  out.put("tcg", g.y, kMillimetre);
  out.put("vcg", g.z, kMillimetre);
  out.put("lcf", r.lcf, kMillimetre);
}

void putStability(ReportObject& out, const Report& r) {
  out.put("waterplane_area", r.waterplane_area, kSquareCentimetre);
  out.put("bm_transverse", r.bm_transverse, kMillimetre);
  out.put("bm_longitudinal", r.bm_longitudinal, kMillimetre);
  out.put("gm_transverse", r.gm_transverse, kMillimetre);
  out.put("gm_longitudinal", r.gm_longitudinal, kMillimetre);
  out.put("free_surface_rise_transverse", r.free_surface_rise_transverse, kMillimetre);
  out.put("free_surface_rise_longitudinal", r.free_surface_rise_longitudinal, kMillimetre);
  out.put("bg_submerged", r.bg_submerged, kMillimetre);
  out.put("mass_per_immersion", r.mass_per_immersion, kGramPerMillimetre);
  out.put("moment_to_change_trim", r.moment_to_change_trim, kGramMillimetrePerDegree);
}

ReportObject effectObject(const MarkEffect& effect) {
  ReportObject out;
  out.put("at_origin", kTrialMass * effect.at_origin, kMillimetre);
  out.put("per_metre", kTrialMass * effect.per_metre, kMillimetre);
  return out;
}

/// Change of draft at each mark for 10 g at x: at_origin + per_metre x (x in metres), and as a table.
json::Value trialMassObject(const Model& model, const MarkEffect& bow, const MarkEffect& stern) {
  json::Value table = json::empty(json::Kind::List);
  for (int step = 0; step <= kTableSteps; ++step) {
    const double x = model.length * step / kTableSteps;
    ReportObject row;
    row.put("x", x, kMillimetre);
    row.put("draft_bow", kTrialMass * (bow.at_origin + bow.per_metre * x), kMillimetre);
    row.put("draft_stern", kTrialMass * (stern.at_origin + stern.per_metre * x), kMillimetre);
    table.items.push_back(row.take());
  }
  ReportObject out;
  out.put("draft_bow", effectObject(bow));
  out.put("draft_stern", effectObject(stern));
  out.put("table", std::move(table));
  return out.take();
}

ReportObject solverObject(const Equilibrium& rest) {
  ReportObject out;
  out.put("newton_steps", rest.iterations, kNumber);
  out.put("force_residual", rest.force_residual, kNumber);
  out.put("moment_residual", rest.moment_residual, kNumber);
  return out;
}

}  // namespace

const char* outcomeWord(Outcome outcome) {
  switch (outcome) {
    case Outcome::Floats:
      return "floats";
    case Outcome::FloatsAwash:
      return "floats awash";
    case Outcome::Sinks:
      return "sinks";
  }
  return "";
}

std::string reportJson(const Boat& boat, const Model& model, const Condition& condition,
                       const Report& report) {
  ReportObject out;
  out.put("boat", json::string(boat.name));
  out.put("condition", conditionObject(model, condition, report));
  out.put("outcome", json::string(outcomeWord(report.rest.outcome)));
  if (report.rest.outcome == Outcome::Sinks) out.put("missing_buoyancy", report.rest.missing_buoyancy, kGram);
  putMarks(out, report);
  putMasses(out, report);
  putCentres(out, report);
  putStability(out, report);
  if (report.bow_effect && report.stern_effect)
    out.put("effect_of_10_g", trialMassObject(model, *report.bow_effect, *report.stern_effect));
  out.put("solver", solverObject(report.rest));
  return json::print(out.take());
}

}  // namespace pondtrim::file
