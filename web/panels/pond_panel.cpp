// The pond log: dips read, what they say of her, the next change.
#include <algorithm>
#include <cmath>
#include <ctime>

#include "panels/screen.hpp"
#include "panels/work_card.hpp"
#include "session/dips.hpp"
#include "widgets/plot.hpp"

namespace pondtrim {
namespace {

std::string nowText() {
  const std::time_t now = std::time(nullptr);
  char text[32] = "";
  if (const std::tm* local = std::localtime(&now)) std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M", local);
  return text;
}

void openReading(Session& session, Screen& screen, std::size_t index) {
  screen.pond.open = index;
  screen.pond.more = false;
  session.setFillShare(fillOf(session.boat().log[index], session.model().tank_capacity));
}

void drawNewDips(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const float gap = 6, width = (ImGui::GetContentRegionAvail().x / ui.ratio - gap) / 2;
  const auto add = [&](const char* name, const char* label, TankState tank) {
    if (!button(ui, name, label, width, Look::Primary)) return;
    if (session.edit(withReading(session.boat(), tank, nowText())))
      openReading(session, screen, session.boat().log.size() - 1);
  };
  add("pond.new.empty", "+ Dip, tank empty", TankState::Empty);
  ImGui::SameLine(0, ui.px(gap));
  ImGui::BeginDisabled(session.model().tank_capacity <= 0);
  add("pond.new.full", "+ Dip, tank full", TankState::Full);
  ImGui::EndDisabled();
}

void say(Ui& ui, const std::string& name, const std::vector<std::string>& sentences,
         Colour ink = theme::kInk) {
  std::string all;
  for (const std::string& s : sentences) {
    paragraph(ui, s, ink);
    all += (all.empty() ? "" : " ") + s;
  }
  ui.record(name, "status", all);
}

void drawVerdict(Session& session, Screen& screen, const file::CorrectAnswer& answer) {
  Ui& ui = screen.ui;
  const auto doubts = file::doubtSentences(answer.estimate, session.units());
  if (!doubts.empty()) say(ui, "pond.doubt", doubts, theme::kWarning);
  ImGui::PushFont(answer.outlook.done ? ui.fonts.bold : ui.fonts.text);
  say(ui, "pond.verdict", file::verdictSentences(answer));
  ImGui::PopFont();
}

/// Cards to be ticked off, and what she should read then.
void drawNext(Session& session, Screen& screen, const file::CorrectAnswer& answer) {
  Ui& ui = screen.ui;
  PondView& view = screen.pond;
  const std::size_t count = answer.next.changes.size();
  if (view.of != session.revision() || view.not_done.size() != count) {
    view.not_done.assign(count, false);
    view.of = session.revision();
  }
  heading(ui, "Next change");
  const auto sentences = file::nextSentences(answer, session.units());
  std::size_t done = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const WorkCard card{"pond.card." + std::to_string(i + 1), std::to_string(i + 1), sentences[i], false,
                        !view.not_done[i]};
    if (workCard(ui, card)) view.not_done[i] = !view.not_done[i];
    if (!view.not_done[i]) ++done;
  }
  say(ui, "pond.after", {sentences.begin() + static_cast<std::ptrdiff_t>(count), sentences.end()});
  if (count == 0) return;
  paragraph(ui, "Tap a card that you leave undone.", theme::kQuietInk);
  const std::string label = done == count ? "Done it: put it in the boat"
                            : done == 0   ? "Only take over the correction"
                                          : "Done the ticked: put them in the boat";
  if (!button(ui, "pond.apply", label, ImGui::GetContentRegionAvail().x / ui.ratio, Look::Primary)) return;
  std::vector<bool> ticked(count);
  for (std::size_t i = 0; i < count; ++i) ticked[i] = !view.not_done[i];
  const Boat changed = withChangesDone(session.boat(), answer, ticked);
  if (session.edit(changed)) session.say("In the boat, with the correction. Dip her again, empty and full.");
}

void drawAdvice(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  if (screen.advisor.owes(session)) {
    screen.owed = Screen::Owed::Advice;
    paragraph(ui, "Working it out\u2026", theme::kQuietInk);
    ui.record("pond.working", "status", "Working it out");
    return;
  }
  if (!screen.advisor.answer()) {
    paragraph(ui, screen.advisor.fault(), theme::kWarning);
    ui.record("pond.fault", "status", screen.advisor.fault());
    return;
  }
  const file::CorrectAnswer answer = *screen.advisor.answer();  // an edit below begins it anew
  drawVerdict(session, screen, answer);
  const Outlook& o = answer.outlook;
  if (answer.estimate.values_used > 0 && !o.done) {
    const bool both = o.surfaced_read && o.dived_read;
    if (both || answer.step == PondStep::Change || screen.pond.anyway)
      drawNext(session, screen, answer);
    else if (button(ui, "pond.anyway", "Show a change all the same"))
      screen.pond.anyway = true;
  }
  bool& why = screen.pond.why;
  if (button(ui, "pond.why", why ? "Hide what the dips say of her" : "What do the dips say of her?"))
    why = !why;
  if (why) {
    say(ui, "pond.now", file::outlookSentences(o, session.units()));
    say(ui, "pond.correction", file::correctionSentences(session.boat(), answer, session.units()));
  }
}

void drawChart(Session& session, Screen& screen) {
  const std::vector<DipError> errors = dipErrors(session.boat());
  PlotLine bow{"Bow", Stroke::Solid, {}}, stern{"Stern", Stroke::Dashed, {}};
  PlotLine sail{"Sail", Stroke::Solid, {}}, trim{"Trim", Stroke::Solid, {}};
  for (const DipError& e : errors) {
    const double x = static_cast<double>(e.reading + 1);
    if (e.bow) bow.points.push_back({x, *e.bow});
    if (e.stern) stern.points.push_back({x, *e.stern});
    if (e.sail) sail.points.push_back({x, *e.sail});
    if (e.trim) trim.points.push_back({x, *e.trim});
  }
  if (std::max({bow.points.size(), stern.points.size(), sail.points.size(), trim.points.size()}) < 2) return;
  heading(screen.ui, "Dip by dip");
  static const std::vector<Choice> kCharts = {{"marks", "Marks"}, {"sail", "Sail"}, {"trim", "Dived trim"}};
  screen.pond.chart = chooser(screen.ui, "pond.chart", kCharts, screen.pond.chart);
  PlotSpec spec;
  spec.name = "pond.curve";
  const double last = static_cast<double>(std::max<std::size_t>(session.boat().log.size(), 2));
  spec.x = {"Dip", Quantity::Number, 1, last};
  spec.height_css = plotHeight(screen, 150);
  spec.cursor = std::clamp(screen.pond.dip, 1.0, last);
  if (screen.pond.chart == 0) {
    spec.title = "Painted line above the water";
    spec.y = {"", Quantity::Length, -0.002, 0.002};
    spec.lines = {bow, stern};
  } else if (screen.pond.chart == 1) {
    spec.title = "Sail out, more than wanted";
    spec.y = {"", Quantity::Length, -0.002, 0.002};
    spec.lines = {sail};
  } else {
    spec.title = "Bow up, tank full";
    spec.y = {"", Quantity::Angle, -0.01, 0.01};
    spec.lines = {trim};
  }
  spec.levels = {{"wanted", 0.0}};
  if (const auto asked = plot(screen.ui, session.units(), spec)) screen.pond.dip = std::round(*asked);
}

void drawList(Session& session, Screen& screen) {
  const Boat& boat = session.boat();
  if (boat.log.empty()) return;
  heading(screen.ui, "Dips so far");
  std::optional<std::size_t> tapped;
  for (std::size_t i = boat.log.size(); i-- > 0;) {  // the last one first
    const Reading& r = boat.log[i];
    std::string when = r.date;
    std::replace(when.begin(), when.end(), 'T', ' ');
    const std::string words = (r.used ? "" : "(left out) ") + readingLine(r, session.units()) + "." +
                              (when.empty() ? "" : " " + when) + (r.note.empty() ? "" : " " + r.note);
    if (workCard(screen.ui, {"pond.dip." + std::to_string(i + 1), std::to_string(i + 1), words})) tapped = i;
  }
  if (tapped) openReading(session, screen, *tapped);
}

}  // namespace

void drawPondPanel(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  auto& open = screen.pond.open;
  if (open && *open >= session.boat().log.size()) open.reset();
  if (open) return drawReading(session, screen, *open);
  drawNewDips(session, screen);
  if (session.boat().log.empty()) {
    paragraph(
        ui,
        "Dip her with the tank empty and read both marks; then with the tank full and read the sail and the "
        "trim. From that comes the next change. Read both before you cut anything.");
  } else {
    drawAdvice(session, screen);
    drawChart(session, screen);
    drawList(session, screen);
  }
  paragraph(
      ui,
      "Cold, deep or moving water is dangerous: stay on the bank, and not alone. Keep a line on her until "
      "she has shown that she comes up by herself.",
      theme::kQuietInk);
  cuttingCaution(ui);
}

}  // namespace pondtrim
