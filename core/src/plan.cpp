// Trim plan: the front door. The mathematics is in plan_terms.hpp (linear sums), plan_programme.hpp (the
// programme) and plan_blame.cpp (no plan).
#include <algorithm>
#include <cmath>
#include <pondtrim/plan.hpp>

#include "faults.hpp"
#include "plan_search.hpp"

namespace pondtrim {

namespace {

/// Whole pieces: what still counts as right.
constexpr double kWholeMark = 0.003, kWholeAngle = 0.0175, kWholeMass = 0.015;

std::optional<Error> checkRequest(const Boat& boat, const PlanRequest& request) {
  if (boat.places.empty())
    return Error{"places", "none", "at least one place", "",
                 "the boat has no places where foam or lead may change"};
  if (!boat.tank)
    return Error{"tank", "none", "a ballast tank", "", "a plan for tank empty and full needs a tank"};
  if (request.lead_budget) {
    if (auto e = outside("lead_budget", *request.lead_budget, 0, 2000)) return e;
  }
  const Marks& m = boat.marks;
  const double dived = m.sail_top.z - boat.aims.sail_showing;
  if (!boat.aims.net_buoyancy && dived <= m.line_height)
    return Error{"aims.sail_showing", numberText(boat.aims.sail_showing),
                 "less than " + numberText(m.sail_top.z - m.line_height), "marks.line_height",
                 "with the tank full the water would not stand above the painted line"};
  if (!boat.aims.net_buoyancy && dived > m.sail_top.z)
    return Error{"aims.sail_showing", numberText(boat.aims.sail_showing), "0 or more", "marks.sail_top.z",
                 "with the sail under water nothing fixes the depth: give aims.net_buoyancy instead"};
  return std::nullopt;
}

/// No plan can leave more lift under water than all that could ever lie above the painted line.
std::optional<Error> checkNet(const PlanBasis& basis) {
  const Boat& boat = *basis.boat;
  if (!boat.aims.net_buoyancy) return std::nullopt;
  std::vector<double> most;
  for (const PlaceTerms& p : basis.places) most.push_back(p.most);
  const auto density = waterDensity(boat.water);
  if (!density) return density.error();
  const double above = *density * volumeAbove(basis, most, boat.marks.line_height);
  if (*boat.aims.net_buoyancy < above) return std::nullopt;
  return Error{"aims.net_buoyancy", numberText(*boat.aims.net_buoyancy), "less than " + numberText(above),
               "marks.line_height", "with the tank full the water would not stand above the painted line"};
}

/// Taking out comes first, then weights, then foam: lead is set by weight, foam is cut last to fit.
int workOrder(const PlanBasis& basis, const Change& c) {
  if (c.work == Work::TakeOut) return 0;
  return basis.places[c.place].kind == PlaceKind::Foam ? 2 : 1;
}

bool offStep(const PlaceTerms& p, double by) {
  const double steps = by / p.step;
  return p.step > 0 && std::abs(steps - std::round(steps)) > 1e-6;
}

/// What is installed is what is listed: less than a milligram, or its like along a rail, is neither.
void listChanges(Plan& plan, const PlanBasis& basis, bool whole) {
  for (PlaceAmount& a : plan.amounts) {
    const PlaceTerms& p = basis.places[a.place];
    const double by = a.after - a.before;
    if (std::abs(by) < 1e-6 * p.size) {
      a.after = a.before;
      continue;
    }
    const Work work = p.kind == PlaceKind::Slide ? Work::Move : by > 0 ? Work::PutIn : Work::TakeOut;
    plan.changes.push_back({a.place, work, work == Work::Move ? by : std::abs(by), whole && offStep(p, by)});
  }
  std::stable_sort(plan.changes.begin(), plan.changes.end(), [&](const Change& a, const Change& b) {
    return workOrder(basis, a) < workOrder(basis, b);
  });
}

Proof proofOf(const Boat& boat, const WantedCondition& wanted, Report report) {
  Proof p;
  p.wanted = wanted;
  const Marks& m = boat.marks;
  p.trim_off = report.rest.attitude.trim;
  p.heel_off = report.rest.attitude.heel;
  const auto small = [](double v, double limit) { return std::abs(v) <= limit; };
  bool holds = small(p.trim_off, wanted.angle_tolerance) && small(p.heel_off, wanted.angle_tolerance) &&
               report.rest.outcome != Outcome::Sinks;
  if (!wanted.dived) {
    if (report.bow) p.bow_off = report.bow->draft - m.line_height;
    if (report.stern) p.stern_off = report.stern->draft - m.line_height;
    holds = holds && p.bow_off && p.stern_off && small(*p.bow_off, wanted.mark_tolerance) &&
            small(*p.stern_off, wanted.mark_tolerance);
  } else if (!wanted.sail_showing) {
    p.net_off = report.net_buoyancy_submerged - *boat.aims.net_buoyancy;
    holds = holds && small(*p.net_off, wanted.mass_tolerance);
  } else {
    p.sail_off = report.sail_showing - *wanted.sail_showing;
    // Grams, not millimetres, are what pieces set: the thin sail turns a gram into millimetres.
    const double grams = *p.sail_off * report.mass_per_immersion;
    holds = holds && (small(*p.sail_off, wanted.mark_tolerance) || small(grams, wanted.mass_tolerance));
  }
  p.holds = holds;
  p.report = std::move(report);
  return p;
}

/// Each condition of the state, with this boat.
Result<std::vector<Proof>> proofsOf(const Boat& fitted, const PlanBasis& basis, const PlanState& state,
                                    bool whole) {
  std::vector<Proof> proofs;
  for (std::size_t k = 0; k < state.conditions.size(); ++k) {
    Boat boat = fitted;
    if (k >= 2 && !boat.aims.further[k - 2].part.empty()) {
      const FurtherAim& aim = boat.aims.further[k - 2];
      boat.parts[partNamed(boat, aim.part)].mass = aim.mass;
    }
    auto model = buildModel(boat, &basis.model);
    if (!model) return fail(model.error());
    WantedCondition wanted = state.conditions[k].wanted;
    if (whole && k < 2) {  // a further condition is a limit: its tolerances stay as they are
      wanted.mark_tolerance = std::max(wanted.mark_tolerance, kWholeMark);
      wanted.angle_tolerance = std::max(wanted.angle_tolerance, kWholeAngle);
      wanted.mass_tolerance = kWholeMass;
    }
    auto report = evaluate(*model, wanted.condition);
    if (!report) return fail(report.error());
    proofs.push_back(proofOf(boat, wanted, std::move(*report)));
  }
  return proofs;
}

Result<void> prove(Plan& plan, const PlanBasis& basis, const PlanState& state, bool whole) {
  auto proofs = proofsOf(installPlan(*basis.boat, plan), basis, state, whole);
  if (!proofs) return fail(proofs.error());
  plan.carry_mass_after = proofs->at(0).report.carry_mass;
  plan.gm = proofs->at(0).report.gm_transverse;
  plan.bg = proofs->at(1).report.bg_submerged;
  plan.proofs = std::move(*proofs);
  return {};
}

void noteEffects(Plan& plan, const PlanBasis& basis, const PlanState& state) {
  constexpr double kOff = 0.1;
  Response response[2];
  for (std::size_t k = 0; k < 2; ++k) {
    const ConditionTerms& c = state.conditions[k];
    std::vector<double> after;
    for (const PlaceAmount& a : plan.amounts) after.push_back(a.after);
    response[k] = responseAt(c, c.at(basis, after), basis.boat->marks);
  }
  const auto note = [](Effect& e, double size, std::size_t place) {
    if (std::abs(size) > e.size) e = {std::abs(size), place};
  };
  for (const Change& change : plan.changes) {
    const auto residual = [&](std::size_t k) {
      const ConditionTerms& c = state.conditions[k];
      Sums off;
      addScaled(off, c.per[change.place], kOff * change.amount);
      return residualsOf(c, off);
    };
    const auto move = [&](std::size_t k, const Residuals& r, int output) {
      double sum = 0;
      for (int j = 0; j < 3; ++j) sum += response[k].rate[output][j] * r.value[j];
      return sum;
    };
    const Residuals empty = residual(0), full = residual(1);
    note(plan.sensitivity.bow, move(0, empty, 0), change.place);
    note(plan.sensitivity.stern, move(0, empty, 1), change.place);
    note(plan.sensitivity.surfaced_heel, move(0, empty, 3), change.place);
    note(plan.sensitivity.dived_trim, response[1].rate[2][1] * full.value[1], change.place);
    note(plan.sensitivity.dived_heel, response[1].rate[3][2] * full.value[2], change.place);
    note(plan.sensitivity.dived_net, full.value[0], change.place);
  }
}

Result<void> fillPlan(Plan& plan, const PlanBasis& basis, const Search& search, bool whole) {
  plan.found = true;
  plan.best = search.best;
  plan.amounts.clear();
  for (std::size_t i = 0; i < search.amounts.size(); ++i)
    plan.amounts.push_back({i, basis.before[i], search.amounts[i]});
  listChanges(plan, basis, whole);
  noteEffects(plan, basis, search.state);
  return prove(plan, basis, search.state, whole);
}

}  // namespace

Result<Plan> makePlan(const Boat& boat, const PlanRequest& request) {
  auto basis = makeBasis(boat);
  if (!basis) return fail(basis.error());
  if (auto e = checkRequest(boat, request)) return fail(*e);
  if (auto e = checkNet(*basis)) return fail(*e);
  auto search = searchPlan(*basis, request);
  if (!search) return fail(search.error());
  Plan plan;
  plan.carry_mass_before = plan.carry_mass_after = basis->model.mass;
  // The goal has no say in what can be; its columns would stand in the way of the limits' stretching.
  PlanRequest plain = request;
  plain.goal = Goal::LeastWeight;
  const Programme limits = makeProgramme(*basis, search->state, plain);
  plan.tank = tankRange(limits);
  for (std::size_t i = 0; i < boat.places.size(); ++i)
    plan.amounts.push_back({i, basis->before[i], basis->before[i]});
  if (search->amounts.empty()) {
    plan.blame = blameLimits(limits);
    return plan;
  }
  const bool whole = request.whole_pieces;
  if (whole) {
    auto stepped = searchWhole(*basis, request, *search);
    if (!stepped) return fail(stepped.error());
    if (!stepped->amounts.empty()) *search = std::move(*stepped);
  }
  if (auto ok = fillPlan(plan, *basis, *search, whole); !ok) return fail(ok.error());
  auto present = proofsOf(boat, *basis, search->state, whole);
  if (!present) return fail(present.error());
  plan.present = std::move(*present);
  return plan;
}

Boat installPlan(const Boat& boat, const Plan& plan) {
  Boat out = boat;
  for (const PlaceAmount& a : plan.amounts) {
    Part& part = out.parts[partNamed(out, out.places[a.place].part)];
    if (a.after != a.before) setAmount(kindOf(out.places[a.place], part), part, a.after);
  }
  return out;
}

Result<std::vector<StabilityPoint>> stabilityCurve(const Boat& boat, const PlanRequest& request, int points) {
  PlanRequest stiffest = request;
  stiffest.goal = Goal::MostStability;
  stiffest.whole_pieces = false;
  const auto most = makePlan(boat, stiffest);
  if (!most) return fail(most.error());
  std::vector<StabilityPoint> curve;
  if (!most->found) return curve;
  const double from = std::min(boat.aims.least_gm, boat.aims.least_bg), to = std::min(most->gm, most->bg);
  PlanRequest lightest = stiffest;
  lightest.goal = Goal::LeastWeight;
  for (int i = 0; i < points; ++i) {
    Boat wanted = boat;
    // A hair below the most, where only one answer is left, so that rounding does not lose it.
    const double stability = from + (to - from) * (points > 1 ? double(i) / (points - 1) : 0.0) * (1 - 1e-6);
    wanted.aims.least_gm = std::max(boat.aims.least_gm, stability);
    wanted.aims.least_bg = std::max(boat.aims.least_bg, stability);
    auto basis = makeBasis(wanted);
    if (!basis) return fail(basis.error());
    auto search = searchPlan(*basis, lightest);
    if (!search) return fail(search.error());
    if (search->amounts.empty()) continue;
    Plan plan;
    if (auto ok = fillPlan(plan, *basis, *search, false); !ok) return fail(ok.error());
    curve.push_back({stability, plan.gm, plan.bg, plan.carry_mass_after});
  }
  return curve;
}

}  // namespace pondtrim
