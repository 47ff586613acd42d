// The pond log: dips read, what they say of her, the next change.
#include <algorithm>
#include <cmath>
#include <ctime>
#include <iterator>
#include <limits>

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

struct ChartKind {
  const char* title;
  Quantity quantity;
  double least;  ///< half of the height shown, at least [SI]
};
constexpr ChartKind kCharts[] = {{"Painted line above the water", Quantity::Length, 0.002},
                                 {"Sail out, more than wanted", Quantity::Length, 0.002},
                                 {"Bow up, tank full", Quantity::Angle, 0.01}};

/// What was read, dip by dip: only dips that read something of this chart; a gap where one mark was not read.
std::vector<PlotLine> chartLines(const std::vector<DipError>& errors, int chart) {
  using Member = std::optional<double> DipError::*;
  struct Curve {
    const char* label;
    Stroke stroke;
    Member member;
  };
  static const std::vector<Curve> kCurves[] = {
      {{"Bow", Stroke::Solid, &DipError::bow}, {"Stern", Stroke::Dashed, &DipError::stern}},
      {{"Sail", Stroke::Solid, &DipError::sail}},
      {{"Trim", Stroke::Solid, &DipError::trim}}};
  std::vector<PlotLine> lines;
  const std::vector<Curve>& curves = kCurves[chart];
  for (const Curve& c : curves) lines.push_back({c.label, c.stroke, {}, false, true});
  for (const DipError& e : errors) {
    const auto reads = [&](const Curve& c) { return (e.*c.member).has_value(); };
    if (!std::any_of(curves.begin(), curves.end(), reads)) continue;
    for (std::size_t k = 0; k < curves.size(); ++k)
      lines[k].points.push_back({static_cast<double>(e.reading + 1),
                                 (e.*curves[k].member).value_or(std::numeric_limits<double>::quiet_NaN())});
  }
  return lines;
}

/// The dip of the chart nearest to where the cursor was put; the last one if it was not.
double chartCursor(const std::vector<PlotPoint>& points, const std::optional<double>& asked) {
  double best = points.empty() ? asked.value_or(1.0) : points.back().x;
  if (!asked) return best;
  for (const PlotPoint& p : points)
    if (std::abs(p.x - *asked) < std::abs(best - *asked)) best = p.x;
  return best;
}

void drawChart(Session& session, Screen& screen) {
  const std::vector<DipError> errors = dipErrors(session.boat(), sailWanted(session));
  PondView& view = screen.pond;
  std::size_t most = 0;
  for (int k = 0; k < static_cast<int>(std::size(kCharts)); ++k)
    most = std::max(most, chartLines(errors, k).front().points.size());
  if (most < 2) return;
  heading(screen.ui, "Dip by dip");
  static const std::vector<Choice> kChoices = {{"marks", "Marks"}, {"sail", "Sail"}, {"trim", "Dived trim"}};
  view.chart = chooser(screen.ui, "pond.chart", kChoices, view.chart);
  const ChartKind& kind = kCharts[view.chart];
  PlotSpec spec;
  spec.name = "pond.curve";
  spec.title = kind.title;
  spec.x = {"Dip", Quantity::Number, 1,
            static_cast<double>(std::max<std::size_t>(session.boat().log.size(), 2))};
  spec.y = {"", kind.quantity, -kind.least, kind.least};
  spec.height_css = plotHeight(screen, 150);
  spec.lines = chartLines(errors, view.chart);
  spec.cursor = chartCursor(spec.lines.front().points, view.dip);
  spec.levels = {{"wanted", 0.0}};
  if (const auto asked = plot(screen.ui, session.units(), spec)) view.dip = *asked;
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
