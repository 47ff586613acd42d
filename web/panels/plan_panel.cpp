// The trim plan: what to take out, glue in and move, in working order, and what comes of it.
#include <algorithm>
#include <cmath>
#include <pondtrim/file/plan_json.hpp>

#include "panels/plan_pictures.hpp"
#include "panels/plan_plots.hpp"
#include "panels/screen.hpp"
#include "panels/work_card.hpp"
#include "session/plan_words.hpp"

namespace pondtrim {
namespace {

/// Of all places together [kg]: what a budget for them starts from.
double leadAndWeights(const Boat& boat) {
  double sum = 0;
  for (const Place& place : boat.places) {
    const auto i = partOf(boat, place);
    if (!i || boat.parts[*i].role == Role::Foam) continue;
    sum += boat.parts[*i].mass.value_or(0) * (boat.parts[*i].mirrored ? 2 : 1);
  }
  return sum;
}

/// One thing to do; tapping it shows the part in the picture.
void drawCard(Session& session, Screen& screen, const Change& change, int number) {
  const Boat& boat = screen.planner.boat();
  const auto part = partOf(session.boat(), boat.places[change.place]);
  const bool chosen = part && session.selection() == Selection{Owner::Part, *part};
  const WorkCard card{"plan.card." + std::to_string(number), std::to_string(number),
                      file::changeSentence(boat, change, session.units()), chosen};
  if (workCard(screen.ui, card) && part)
    session.select(chosen ? std::nullopt : std::optional(Selection{Owner::Part, *part}));
}

void drawBudget(Session& session, Screen& screen) {
  NumberField field{"lead_budget", "Lead and weights, at most", Quantity::Mass};
  field.read = [](const Session& s) { return *s.planWish().lead_budget; };
  field.write = [](Session& s, double value) -> Result<void> {
    PlanRequest wish = s.planWish();
    wish.lead_budget = value;
    s.setPlanWish(wish);
    return {};
  };
  fieldRow(session, screen, field);
}

void drawWishes(Session& session, Screen& screen) {
  static const std::vector<Choice> kGoals = {
      {"weight", "Lightest"}, {"changes", "Least work"}, {"stability", "Stiffest"}};
  Ui& ui = screen.ui;
  PlanRequest wish = session.planWish();
  wish.goal = static_cast<Goal>(chooser(ui, "plan.goal", kGoals, static_cast<int>(wish.goal)));
  static const std::vector<Choice> kPieces = {{"free", "Any amount"}, {"whole", "Whole pieces"}};
  wish.whole_pieces = chooser(ui, "plan.pieces", kPieces, wish.whole_pieces ? 1 : 0) == 1;
  if (wish.goal == Goal::MostStability) {
    static const std::vector<Choice> kLead = {{"free", "Any lead"}, {"limited", "Lead up to\u2026"}};
    const bool limited = chooser(ui, "plan.lead", kLead, wish.lead_budget ? 1 : 0) == 1;
    if (limited && !wish.lead_budget) wish.lead_budget = leadAndWeights(session.boat());
    if (!limited) wish.lead_budget.reset();
  } else {
    wish.lead_budget.reset();
  }
  session.setPlanWish(wish);
  if (wish.lead_budget) drawBudget(session, screen);
}

void drawGain(const Session& session, Screen& screen, const char* label, double before, double after,
              Quantity quantity, int decimals) {
  const std::string words = valueText(before, quantity, session.units(), decimals) + " \u2192 " +
                            valueText(after, quantity, session.units(), decimals);
  paragraph(screen.ui, std::string(label) + ": " + words);
  screen.ui.record(std::string("plan.gain.") + label, "status", label, words);
}

/// How she lies once it is done, against how she lies now.
void drawOutcome(const Session& session, Screen& screen, const Plan& plan) {
  Ui& ui = screen.ui;
  drawBeforeAfter(session, screen, plan);
  drawGain(session, screen, "To carry", plan.carry_mass_before, plan.carry_mass_after, Quantity::Mass, 0);
  drawGain(session, screen, "GM, tank empty", session.empty().gm_transverse, plan.gm, Quantity::Length, 1);
  drawGain(session, screen, "B over G, dived", session.full().bg_submerged, plan.bg, Quantity::Length, 1);
  int n = 0;
  for (const std::string& words : file::shortfallSentences(plan, session.units())) {
    paragraph(ui, words, theme::kWarning);
    ui.record("plan.short." + std::to_string(n++), "status", words);
  }
  if (!plan.best) paragraph(ui, "These pieces do; a slightly better set may exist.", theme::kQuietInk);
  if (screen.planner.request().whole_pieces && !plan.changes.empty())
    paragraph(ui, "What is off the line is what whole pieces leave.", theme::kQuietInk);
  if (plan.changes.empty()) return;
  const std::string off = sensitivityWords(session.boat(), plan, session.units());
  if (!off.empty()) paragraph(ui, off, theme::kQuietInk);
}

void drawFound(Session& session, Screen& screen, const Plan& plan) {
  Ui& ui = screen.ui;
  if (plan.changes.empty()) {
    paragraph(ui, "Nothing to change: she floats on her line and dives as wanted.");
    ui.record("plan.nothing", "status", "Nothing to change");
  }
  int number = 0;
  for (const Change& change : plan.changes) drawCard(session, screen, change, ++number);
  if (plan.changes.empty()) return;
  ImGui::BeginDisabled(!screen.planner.isFresh(session));
  if (button(ui, "plan.apply", "All this is done: put it in the boat",
             ImGui::GetContentRegionAvail().x / ui.ratio, Look::Primary)) {
    if (session.edit(installPlan(session.boat(), plan)))
      session.say("The plan is in the boat; the dashed line is how she lay. Undo takes it out.");
  }
  ImGui::EndDisabled();
}

/// Why nothing fits, and what would have to give.
void drawBlame(const Session& session, Screen& screen, const Plan& plan) {
  Ui& ui = screen.ui;
  const auto list = [&](const std::vector<Limit>& limits, const char* name) {
    int n = 0;
    for (const Limit& limit : limits) {
      const std::string words = file::limitSentence(screen.planner.boat(), limit, session.units());
      paragraph(ui, "\u2022 " + words);
      ui.record(name + std::to_string(n++), "status", words);
    }
  };
  paragraph(ui, "No plan fits. These stand in each other's way:", theme::kWarning);
  ui.record("plan.none", "status", "No plan fits");
  list(plan.blame.conflict, "plan.conflict.");
  if (plan.blame.remedy.empty()) return;
  const bool off_balance = std::any_of(
      plan.blame.remedy.begin(), plan.blame.remedy.end(),
      [](const Limit& l) { return l.kind >= LimitKind::WeightBalance && l.kind <= LimitKind::HeelBalance; });
  paragraph(ui, off_balance ? "Places are missing; with any limits at these she stays off by:"
                            : "The least that would have to give:");
  list(plan.blame.remedy, "plan.remedy.");
}

}  // namespace

void drawPlanPanel(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  Planner& planner = screen.planner;
  if (session.boat().places.empty()) {
    paragraph(
        ui,
        "A plan says how much foam and lead go where, so that she floats on her line with the tank empty "
        "and hangs level with the tank full. Tell it where foam or lead may go, or let it look for room:");
  } else {
    drawWishes(session, screen);
    if (planner.owes(session)) screen.owed = Screen::Owed::Plan;
    const bool fresh = planner.isFresh(session);
    if (!fresh) {
      paragraph(ui, "Working it out\u2026", theme::kQuietInk);
      ui.record("plan.working", "status", "Working it out");
    } else if (!planner.plan()) {
      paragraph(ui, planner.fault(), theme::kWarning);
      ui.record("plan.fault", "status", planner.fault());
    }
    if (const auto& plan = planner.plan(); plan && !planner.boat().places.empty()) {
      if (plan->found)
        drawFound(session, screen, *plan);
      else
        drawBlame(session, screen, *plan);
      if (plan->found) drawOutcome(session, screen, *plan);
      const std::string tank = tankWords(*plan, session.units());
      if (!tank.empty()) {
        paragraph(ui, tank);
        ui.record("plan.tank", "status", tank);
      }
    }
  }
  drawPlaces(session, screen);
  drawAims(session, screen);
  if (!session.boat().places.empty()) drawPlanPlots(session, screen);
  cuttingCaution(ui);
}

}  // namespace pondtrim
