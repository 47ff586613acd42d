#include <pondtrim/file/ballast_json.hpp>

#include "boat_fields.hpp"
#include "report_object.hpp"

namespace pondtrim::file {
namespace {

constexpr double kDeepest = 10.0;  ///< of the depth curve, or twice the depth asked for [m]
constexpr int kDepthPoints = 41;

ReportObject runObject(const BallastRun& run) {
  ReportObject out;
  if (run.voltage > 0) out.put("voltage", run.voltage, kVolt);
  out.put("completes", json::boolean(run.completes));
  out.put("time", run.time, kSecond);
  out.put("stall_fill", run.stall_fill, kMillilitre);
  out.put("greatest_pressure", run.greatest_pressure, kBar);
  out.put("margin", run.margin, kNumber);
  out.put("greatest_current", run.greatest_current, kAmpere);
  out.put("charge", run.charge, kMilliampereHour);
  out.put("curve", listOf(run.curve, [](const BallastPoint& p) {
            ReportObject o;
            o.put("time", p.time, kSecond);
            o.put("fill", p.fill, kMillilitre);
            o.put("pressure", p.pressure, kBar);
            return o.take();
          }));
  return out;
}

ReportObject gasObject(const GasAnswer& g) {
  ReportObject out;
  out.put("can_pressure", g.can_pressure, kBar);
  out.put("mass_per_blow", g.mass_per_blow, kGram);
  out.put("blows", g.blows, kNumber);
  out.put("deepest_blow", g.deepest_blow, kMetre);
  out.put("can_blow", json::boolean(g.can_blow));
  return out;
}

ReportObject depthObject(const DepthCurve& curve) {
  ReportObject out;
  out.put("point_of_no_return", curve.point_of_no_return, kMetre);
  out.put("soaked_loss", curve.soaked_loss, kGram);
  out.put("foam_assumed_soft", json::boolean(curve.foam_assumed));
  out.put("hull_from_data_sheet", json::boolean(curve.hull_from_sheet));
  out.put("hull_assumed_rigid", json::boolean(curve.hull_assumed_rigid));
  out.put("points", listOf(curve.points, [](const DepthPoint& p) {
            ReportObject o;
            o.put("depth", p.depth, kMetre);
            o.put("pressure", p.pressure, kBar);
            o.put("net_buoyancy", p.net_buoyancy, kGram);
            o.put("foam_loss", p.foam_loss, kGram);
            o.put("air_loss", p.air_loss, kGram);
            o.put("gas_loss", p.gas_loss, kGram);
            o.put("hull_loss", p.hull_loss, kGram);
            return o.take();
          }));
  return out;
}

json::Value waterObject(const WaterAnswer& w) {
  ReportObject out;
  out.put("water", json::string(waterWords(w.water)));
  out.put("net_buoyancy", w.net_buoyancy, kGram);
  out.put("ballast_change", w.ballast_change, kGram);
  out.put("point_of_no_return", w.point_of_no_return, kMetre);
  return out.take();
}

void putStress(ReportObject& out, const std::string& name, const TubeStress& s) {
  out.put(name + "_hoop", s.hoop, kMegapascal);
  out.put(name + "_axial", s.axial, kMegapascal);
  out.put(name + "_von_mises", s.von_mises, kMegapascal);
}

void putCap(ReportObject& out, const std::string& name, const std::optional<PlateStress>& cap) {
  if (!cap) return;
  out.put(name + "_stress", cap->stress, kMegapascal);
  out.put(name + "_deflection", cap->deflection, kMillimetre);
}

json::Value strengthObject(const std::string& name, const Result<StrengthEstimate>& estimate) {
  ReportObject out;
  out.put("cylinder", json::string(name));
  out.put("caution", json::string(kPressureCaution));
  if (!estimate) {
    out.put("no_estimate", json::string(estimate.error().message));
    return out.take();
  }
  const StrengthEstimate& s = *estimate;
  out.put("material", json::string(s.material));
  out.put("factor", s.factor, kNumber);
  out.put("outside_pressure", s.outside_pressure, kBar);
  out.put("inside_pressure", s.inside_pressure, kBar);
  putStress(out, "outside", s.outside_stress);
  putStress(out, "inside", s.inside_stress);
  out.put("tube_length", s.tube_length, kMillimetre);
  out.put("unsupported_length", s.unsupported_length, kMillimetre);
  out.put("collapse_pressure_low", s.collapse_pressure.low, kBar);
  out.put("collapse_pressure_high", s.collapse_pressure.high, kBar);
  out.put("collapse_depth_low", s.collapse_depth.low, kMetre);
  out.put("collapse_depth_high", s.collapse_depth.high, kMetre);
  out.put("collapse_depth_over_factor", s.collapse_depth_over_factor, kMetre);
  putCap(out, "supported_cap", s.supported_cap);
  putCap(out, "clamped_cap", s.clamped_cap);
  out.put("cap_bends_beyond_formula", json::boolean(s.flexes));
  out.put("strength_low", s.strength.low, kMegapascal);
  out.put("strength_high", s.strength.high, kMegapascal);
  out.put("share_of_strength", s.share_of_strength, kPercent);
  out.put("keeps_factor", json::boolean(s.within_factor));
  return out.take();
}

/// What presses on the tube from inside, at the worst: the air of the cylinder (vented pump, piston) or of
/// the tank in its bore, squeezed as far as the pump can, or suddenly if it can fill the tank. A tank blown
/// by gas is open to the water.
double airInCylinder(const Boat& boat, const BallastReport& report, const SealedCylinder& cylinder) {
  if (std::holds_alternative<GasBlow>(boat.ballast->kind) || boat.tank->cylinder != cylinder.name) return 0.0;
  double worst = report.fill_full.greatest_pressure;
  if (report.fill_tired) worst = std::max(worst, report.fill_tired->greatest_pressure);
  return report.fill_full.completes ? std::max(worst, report.air_pressure_sudden.value_or(0.0)) : worst;
}

}  // namespace

Strengths estimateStrengths(const Boat& boat, const Water& water, double depth, const BallastReport* report) {
  Strengths out;
  for (std::size_t i = 0; i < boat.cylinders.size(); ++i) {
    const double inside = report != nullptr ? airInCylinder(boat, *report, boat.cylinders[i]) : 0.0;
    out.push_back(estimateStrength(boat, i, water, depth, inside));
  }
  return out;
}

Result<BallastAnswer> answerBallast(const Boat& boat, const Model& model, const Water& water, double depth) {
  BallastAnswer out;
  auto report = evaluateBallast(boat, model, water, depth);
  if (!report) return fail(report.error());
  out.report = std::move(*report);
  const Condition dived{water, model.tank_capacity};
  const double deepest = std::max(kDeepest, 2 * depth);
  auto curve = depthCurve(boat, model, dived, deepest, kDepthPoints);
  if (!curve) return fail(curve.error());
  out.depth = std::move(*curve);
  const auto waters = depthInWaters(boat, model, dived, deepest);
  if (!waters) return fail(waters.error());
  out.waters = *waters;
  out.strength = estimateStrengths(boat, water, depth, &out.report);
  return out;
}

std::string ballastJson(const Boat& boat, const BallastAnswer& answer) {
  const BallastReport& r = answer.report;
  ReportObject out;
  out.put("boat", json::string(boat.name));
  out.put("kind", json::string(kBallastWords[boat.ballast->kind.index()]));
  out.put("sentences",
          listOf(ballastSentences(boat, answer), [](const std::string& s) { return json::string(s); }));
  out.put("tank_capacity", r.tank_capacity, kMillilitre);
  out.put("depth", r.depth, kMetre);
  out.put("fill_full", runObject(r.fill_full));
  out.put("blow_full", runObject(r.blow_full));
  if (r.fill_tired) out.put("fill_tired", runObject(*r.fill_tired));
  if (r.blow_tired) out.put("blow_tired", runObject(*r.blow_tired));
  out.put("air_pressure", r.air_pressure, kBar);
  out.put("air_pressure_sudden", r.air_pressure_sudden, kBar);
  out.put("deepest_blow_full", r.deepest_blow_full, kMetre);
  out.put("deepest_blow_tired", r.deepest_blow_tired, kMetre);
  out.put("dives_per_charge", r.dives_per_charge, kNumber);
  if (r.gas) out.put("gas", gasObject(*r.gas));
  out.put("depth_curve", depthObject(answer.depth));
  out.put("waters", listOf(answer.waters, waterObject));
  json::Value strength = json::empty(json::Kind::List);
  for (std::size_t i = 0; i < answer.strength.size(); ++i)
    strength.items.push_back(strengthObject(boat.cylinders[i].name, answer.strength[i]));
  out.put("strength", std::move(strength));
  return json::print(out.take());
}

}  // namespace pondtrim::file
