#include <algorithm>
#include <pondtrim/file/plan_json.hpp>
#include <pondtrim/file/report_json.hpp>

#include "report_object.hpp"

namespace pondtrim::file {
namespace {

/// kg.m, for balances of moment.
constexpr Unit kGramMetre{Quantity::Number, "g_m", "g·m", 1, 1e3, 0, -3};

bool isFoam(const Boat& boat, std::size_t place) {
  return std::any_of(boat.parts.begin(), boat.parts.end(), [&](const Part& p) {
    return p.name == boat.places[place].part && p.role == Role::Foam;
  });
}

Unit placeUnit(const Boat& boat, std::size_t place) {
  return boat.places[place].rail ? kMillimetre : isFoam(boat, place) ? kMillilitre : kGram;
}

ReportObject amountObject(const Boat& boat, const PlaceAmount& a) {
  ReportObject out;
  const Unit unit = placeUnit(boat, a.place);
  out.put("part", json::string(boat.places[a.place].part));
  out.put("before", a.before, unit);
  out.put("after", a.after, unit);
  return out;
}

ReportObject changeObject(const Boat& boat, const Change& c) {
  constexpr const char* kWords[] = {"take out", "put in", "move"};
  ReportObject out;
  out.put("part", json::string(boat.places[c.place].part));
  out.put("work", json::string(kWords[static_cast<std::size_t>(c.work)]));
  out.put("amount", c.amount, placeUnit(boat, c.place));
  if (c.work == Work::Move) out.put("to_x", destinationOf(boat, c), kMillimetre);
  if (c.off_step) out.put("off_step", json::boolean(true));
  out.put("say", json::string(changeSentence(boat, c)));
  return out;
}

ReportObject proofObject(const Proof& p) {
  ReportObject out;
  out.put("condition", json::string(p.wanted.name));
  out.put("holds", json::boolean(p.holds));
  out.put("outcome", json::string(outcomeWord(p.report.rest.outcome)));
  out.put("tank_fill", p.wanted.condition.tank_fill, kMillilitre);
  out.put("water_density", p.report.rest.density, kKilogramPerCubicMetre);
  out.put("bow_off", p.bow_off, kMillimetre);
  out.put("stern_off", p.stern_off, kMillimetre);
  out.put("sail_off", p.sail_off, kMillimetre);
  out.put("net_off", p.net_off, kGram);
  out.put("trim_off", p.trim_off, kDegree);
  out.put("heel_off", p.heel_off, kDegree);
  out.put("sail_showing", p.report.sail_showing, kMillimetre);
  out.put("net_buoyancy_submerged", p.report.net_buoyancy_submerged, kGram);
  out.put("gm_transverse", p.report.gm_transverse, kMillimetre);
  out.put("bg_submerged", p.report.bg_submerged, kMillimetre);
  return out;
}

ReportObject sensitivityObject(const Boat& boat, const Sensitivity& s) {
  ReportObject out;
  const auto put = [&](const char* name, const Effect& e, const Unit& unit) {
    ReportObject effect;
    effect.put("size", e.size, unit);
    if (e.size > 0) effect.put("part", json::string(boat.places[e.place].part));
    out.put(name, std::move(effect));
  };
  put("bow", s.bow, kMillimetre);
  put("stern", s.stern, kMillimetre);
  put("surfaced_heel", s.surfaced_heel, kDegree);
  put("dived_trim", s.dived_trim, kDegree);
  put("dived_heel", s.dived_heel, kDegree);
  put("dived_net", s.dived_net, kGram);
  return out;
}

Unit limitUnit(const Boat& boat, const Limit& l) {
  switch (l.kind) {
    case LimitKind::PlaceMost:
    case LimitKind::PlaceLeast:
      return placeUnit(boat, l.index);
    case LimitKind::TankCapacity:
      return kMillilitre;
    case LimitKind::LeastGm:
    case LimitKind::LeastBg:
      return kMillimetre;
    case LimitKind::LeadBudget:
    case LimitKind::WeightBalance:
      return kGram;
    case LimitKind::TrimBalance:
    case LimitKind::HeelBalance:
      return kGramMetre;
    case LimitKind::FurtherAim:
      return kNumber;
  }
  return kNumber;
}

ReportObject limitObject(const Boat& boat, const Limit& l) {
  ReportObject out;
  const Unit unit = limitUnit(boat, l);
  out.put("limit", json::string(limitWord(l.kind)));
  if (l.kind == LimitKind::PlaceMost || l.kind == LimitKind::PlaceLeast)
    out.put("part", json::string(boat.places[l.index].part));
  if (l.kind == LimitKind::FurtherAim) out.put("aim", json::string(boat.aims.further[l.index].name));
  if (l.kind >= LimitKind::WeightBalance && l.kind <= LimitKind::HeelBalance)
    out.put("condition", json::string(l.index == 0 ? "tank empty" : "tank full"));
  out.put("is", l.limit, unit);
  out.put("would_do", l.would_do, unit);
  out.put("say", json::string(limitSentence(boat, l)));
  return out;
}

void putFound(ReportObject& out, const Boat& boat, const Plan& plan) {
  out.put("best", json::boolean(plan.best));
  out.put("changes", listOf(plan.changes, [&](const Change& c) { return changeObject(boat, c); }));
  out.put("amounts", listOf(plan.amounts, [&](const PlaceAmount& a) { return amountObject(boat, a); }));
  out.put("carry_mass_before", plan.carry_mass_before, kGram);
  out.put("carry_mass_after", plan.carry_mass_after, kGram);
  out.put("gm", plan.gm, kMillimetre);
  out.put("bg", plan.bg, kMillimetre);
  out.put("present", listOf(plan.present, proofObject));
  out.put("proof", listOf(plan.proofs, proofObject));
  out.put("not_right",
          listOf(shortfallSentences(plan), [](const std::string& s) { return json::string(s); }));
  out.put("if_a_piece_is_10_percent_off", sensitivityObject(boat, plan.sensitivity));
}

ReportObject stabilityObject(const StabilityPoint& p) {
  ReportObject out;
  out.put("stability", p.stability, kMillimetre);
  out.put("gm", p.gm, kMillimetre);
  out.put("bg", p.bg, kMillimetre);
  out.put("carry_mass", p.carry_mass, kGram);
  return out;
}

ReportObject pointObject(const BalancePoint& p) {
  ReportObject out;
  out.put("weight", p.weight, kGram);
  out.put("moment", p.moment, kGramMetre);
  return out;
}

ReportObject balanceObject(const BalanceDiagram& d) {
  ReportObject out;
  out.put("condition", json::string(d.condition));
  out.put("inside", json::boolean(d.inside));
  out.put("needed", pointObject(d.needed));
  out.put("present", pointObject(d.present));
  out.put("bow_first", listOf(d.polygon.bow_first, pointObject));
  out.put("stern_first", listOf(d.polygon.stern_first, pointObject));
  return out;
}

}  // namespace

std::string planJson(const Boat& boat, const Plan& plan, const PlanDiagrams* diagrams) {
  ReportObject out;
  out.put("boat", json::string(boat.name));
  out.put("found", json::boolean(plan.found));
  if (plan.found) {
    putFound(out, boat, plan);
  } else {
    const auto object = [&](const Limit& l) { return limitObject(boat, l); };
    out.put("conflict", listOf(plan.blame.conflict, object));
    out.put("remedy", listOf(plan.blame.remedy, object));
  }
  if (plan.tank) {
    ReportObject tank;
    tank.put("smallest", plan.tank->smallest, kMillilitre);
    tank.put("largest", plan.tank->largest, kMillilitre);
    out.put("tank_that_would_do", std::move(tank));
  }
  if (diagrams != nullptr) {
    out.put("weight_against_stability", listOf(diagrams->curve, stabilityObject));
    out.put("equilibrium_polygons", listOf(diagrams->balance, balanceObject));
  }
  return json::print(out.take());
}

}  // namespace pondtrim::file
