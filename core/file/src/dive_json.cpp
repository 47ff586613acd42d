#include <pondtrim/file/dive_json.hpp>
#include <pondtrim/file/report_json.hpp>

#include "number_words.hpp"
#include "report_object.hpp"

namespace pondtrim::file {
namespace {

constexpr int kCurvePoints = 37;  // every 5 degrees
constexpr Unit kMillilitrePerMillimetre{Quantity::Area, "mL_per_mm", "mL/mm", 1, 1e3, 0, -3};

json::Value stepObject(const DiveStep& s) {
  ReportObject out;
  out.put("tank_fill", s.tank_fill, kMillilitre);
  out.put("outcome", json::string(outcomeWord(s.outcome)));
  out.put("draft_bow", s.draft_bow, kMillimetre);
  out.put("draft_stern", s.draft_stern, kMillimetre);
  out.put("sail_showing", s.sail_showing, kMillimetre);
  out.put("trim", s.trim, kDegree);
  out.put("heel", s.heel, kDegree);
  out.put("gm_transverse", s.gm_transverse, kMillimetre);
  out.put("gm_longitudinal", s.gm_longitudinal, kMillimetre);
  out.put("gm_longitudinal_level", s.gm_longitudinal_level, kMillimetre);
  out.put("free_surface_transverse", s.free_surface_transverse, kMillimetre);
  out.put("free_surface_longitudinal_level", s.free_surface_longitudinal_level, kMillimetre);
  out.put("net_buoyancy_submerged", s.net_buoyancy_submerged, kGram);
  return out.take();
}

const char* troubleKey(Trouble trouble) {
  switch (trouble) {
    case Trouble::RollsOver:
      return "rolls over";
    case Trouble::Heels:
      return "heels";
    case Trouble::Pitches:
      return "pitches";
    case Trouble::StandsOnEnd:
      return "stands on end";
    case Trouble::Sinks:
      break;
  }
  return "sinks";
}

Unit unitOf(Trouble trouble) {
  if (trouble == Trouble::RollsOver) return kMillimetre;
  return trouble == Trouble::Sinks ? kGram : kDegree;
}

json::Value troubleList(const std::vector<Trouble>& troubles) {
  return listOf(troubles, [](Trouble t) { return json::string(troubleKey(t)); });
}

json::Value findingObject(const Finding& f) {
  ReportObject out;
  out.put("trouble", json::string(troubleKey(f.trouble)));
  out.put("from_fill", f.from_fill, kMillilitre);
  out.put("to_fill", f.to_fill, kMillilitre);
  out.put("worst_fill", f.worst_fill, kMillilitre);
  out.put("worst", f.worst, unitOf(f.trouble));
  if (f.trouble != Trouble::Sinks) out.put("worst_frozen", f.worst_frozen, unitOf(f.trouble));
  out.put("water_runs", json::boolean(f.water_runs));
  out.put("going_down", json::boolean(f.going_down));
  out.put("coming_up", json::boolean(f.coming_up));
  return out.take();
}

json::Value helpObject(const HelpTried& h) {
  ReportObject out;
  if (h.help == Help::Bulkheads) out.put("bulkheads", h.amount, kNumber);
  if (h.help == Help::TankCentred) out.put("tank_moved_forward", h.amount, kMillimetre);
  if (h.help == Help::ShorterTank) out.put("tank_shortened", h.amount, kMillimetre);
  if (h.help == Help::Together) out.put("together", h.amount, kNumber);
  if (h.help == Help::LeadLower) out.put("lead_lowered", h.amount, kMillimetre);
  out.put("cured", troubleList(h.cured));
  out.put("remaining", troubleList(h.remaining));
  out.put("least_gm_transverse", h.least_gm_transverse, kMillimetre);
  out.put("greatest_trim", h.greatest_trim, kDegree);
  out.put("sail_showing", h.sail_showing, kMillimetre);
  return out.take();
}

json::Value gapObject(const DiveGap& g) {
  ReportObject out;
  out.put("from_fill", g.from_fill, kMillilitre);
  out.put("to_fill", g.to_fill, kMillilitre);
  out.put("trim", g.trim, kDegree);
  out.put("heel", g.heel, kDegree);
  return out.take();
}

ReportObject leastObject(const LeastGm& least) {
  ReportObject out;
  out.put("gm", least.gm, kMillimetre);
  out.put("tank_fill", least.fill, kMillilitre);
  return out;
}

const char* trimStateWord(TrimState state) {
  if (state == TrimState::Free) return "free";
  return state == TrimState::Balanced ? "balanced" : "held";
}

ReportObject sideObject(const RightingSide& side) {
  ReportObject out;
  out.put("rest_heel", side.rest_heel, kDegree);
  out.put("range", side.range, kDegree);
  out.put("greatest_lever", side.greatest_lever, kMillimetre);
  out.put("greatest_at", side.greatest_at, kDegree);
  out.put("points", listOf(side.points, [](const RightingPoint& p) {
            ReportObject o;
            o.put("heel", p.heel, kDegree);
            o.put("righting_lever", p.righting_lever, kMillimetre);
            o.put("trim", p.trim, kDegree);
            o.put("energy", p.energy, kJoule);
            o.put("trim_state", json::string(trimStateWord(p.trim_state)));
            return o.take();
          }));
  return out;
}

ReportObject curveObject(const RightingCurve& curve) {
  ReportObject out;
  out.put("gm_transverse", curve.gm_transverse, kMillimetre);
  out.put("angle_of_loll", curve.angle_of_loll, kDegree);
  out.put("lopsided", json::boolean(curve.lopsided));
  out.put("starboard", sideObject(curve.starboard));
  if (curve.lopsided) out.put("port", sideObject(curve.port));
  return out;
}

ReportObject hoverObject(const HoverAnswer& h) {
  ReportObject out;
  out.put("sail_showing", h.sail_showing, kMillimetre);
  out.put("tank_fill", h.tank_fill, kMillilitre);
  out.put("mass_per_length", h.mass_per_length, kGramPerMillimetre);
  out.put("volume_per_length", h.volume_per_length, kMillilitrePerMillimetre);
  out.put("band", h.band, kMillimetre);
  out.put("metering", h.metering, kMillilitre);
  return out;
}

ReportObject scopeObject(const DiveAnswer& a) {
  const double volume_per_length = a.scope_mass_per_length / a.density;
  ReportObject out;
  out.put("diameter", a.scope, kMillimetre);
  out.put("mass_per_length", a.scope_mass_per_length, kGramPerMillimetre);
  out.put("volume_per_length", volume_per_length, kMillilitrePerMillimetre);
  out.put("band", kHoverBand, kMillimetre);
  out.put("metering", volume_per_length * kHoverBand, kMillilitre);
  return out;
}

}  // namespace

Result<DiveAnswer> answerDive(const Boat& boat, const Model& model, const Water& water, int steps,
                              double scope) {
  DiveAnswer out;
  if (!(scope >= 0.0005 && scope <= 0.1))
    return fail(Error{"scope", fixedText(scope, 6), "0.0005 to 0.1", "", ""});
  auto sweep = sweepDive(model, water, steps);
  if (!sweep) return fail(sweep.error());
  out.sweep = std::move(*sweep);
  auto helps = tryHelps(boat, out.sweep, water);
  if (!helps) return fail(helps.error());
  out.helps = std::move(*helps);
  auto surfaced = rightingCurve(model, {water, 0.0}, kCurvePoints);
  if (!surfaced) return fail(surfaced.error());
  auto dived = rightingCurve(model, {water, model.tank_capacity}, kCurvePoints);
  if (!dived) return fail(dived.error());
  out.surfaced = std::move(*surfaced);
  out.dived = std::move(*dived);
  const auto hover = hoverAt(model, water, boat.aims.sail_showing);
  if (!hover) return fail(hover.error());
  out.hover = *hover;
  const auto density = waterDensity(water);
  if (!density) return fail(density.error());
  out.scope = scope;
  out.density = *density;
  out.scope_mass_per_length = massPerLengthOfScope(scope, *density);
  return out;
}

std::string diveJson(const Boat& boat, const DiveAnswer& answer) {
  const DiveSweep& sweep = answer.sweep;
  ReportObject out;
  out.put("boat", json::string(boat.name));
  out.put("sentences",
          listOf(diveSentences(sweep, answer.helps), [](const std::string& s) { return json::string(s); }));
  out.put("findings", listOf(sweep.findings, findingObject));
  out.put("helps", listOf(answer.helps, helpObject));
  out.put("least_gm_transverse", leastObject(sweep.least_gm_transverse));
  out.put("least_gm_longitudinal_level", leastObject(sweep.least_gm_longitudinal_level));
  out.put("gaps", listOf(sweep.gaps, gapObject));
  if (answer.hover) out.put("hover", hoverObject(*answer.hover));
  out.put("scope", scopeObject(answer));
  out.put("down", listOf(sweep.down, stepObject));
  out.put("up", listOf(sweep.up, stepObject));
  out.put("righting_surfaced", curveObject(answer.surfaced));
  out.put("righting_dived", curveObject(answer.dived));
  return json::print(out.take());
}

}  // namespace pondtrim::file
