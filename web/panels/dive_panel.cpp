// The way down and up: what goes wrong and what helps, plots against the water in the tank, hover.
#include <algorithm>
#include <cmath>
#include <pondtrim/file/dive_json.hpp>

#include "panels/screen.hpp"
#include "session/study_words.hpp"
#include "widgets/plot.hpp"

namespace pondtrim {
namespace {

using Read = std::optional<double> (*)(const DiveStep&);

struct Curve {
  const char* label;
  Read read;
};

/// One plot of the dive: its lines going down, and how it looks.
struct DivePlot {
  const char* id;
  const char* label;  ///< of the button
  const char* title;
  Quantity quantity;
  double low, high;  ///< always in sight [SI], so that a hair's breadth does not fill the paper
  std::vector<Curve> curves;
};

const std::vector<DivePlot>& divePlots() {
  static const std::vector<DivePlot> kPlots = {
      {"draft",
       "Draft",
       "Draft at the marks",
       Quantity::Length,
       0,
       0,
       {{"Bow", [](const DiveStep& s) { return s.draft_bow; }},
        {"Stern", [](const DiveStep& s) { return s.draft_stern; }}}},
      {"sail",
       "Sail",
       "Sail out of the water",
       Quantity::Length,
       0,
       0.01,
       {{"Sail", [](const DiveStep& s) { return s.sail_showing; }}}},
      {"trim",
       "Trim",
       "Trim, bow up +",
       Quantity::Angle,
       -1 * kPi / 180,
       1 * kPi / 180,
       {{"Trim", [](const DiveStep& s) { return std::optional<double>(s.trim); }}}},
      {"gm-across",
       "GM across",
       "GM across, against rolling",
       Quantity::Length,
       0,
       0.005,
       {{"GM", [](const DiveStep& s) { return std::optional<double>(s.gm_transverse); }}}},
      {"gm-along",
       "GM along",
       "GM along, held level",
       Quantity::Length,
       0,
       0.02,
       {{"GM", [](const DiveStep& s) { return std::optional<double>(s.gm_longitudinal_level); }}}},
  };
  return kPlots;
}

std::vector<PlotPoint> pointsOf(const std::vector<DiveStep>& steps, Read read) {
  std::vector<PlotPoint> points;
  points.reserve(steps.size());
  for (const DiveStep& s : steps) points.push_back({s.tank_fill, read(s).value_or(std::nan(""))});
  if (points.size() > 1 && points.front().x > points.back().x) std::reverse(points.begin(), points.end());
  return points;
}

void addLevels(PlotSpec& spec, const DivePlot& plot, const Boat& boat, const DiveSweep& sweep) {
  const std::string id = plot.id;
  if (id == "draft") spec.levels.push_back({"painted line", boat.marks.line_height});
  if (id == "sail") spec.levels.push_back({"wanted", boat.aims.sail_showing});
  double steepest = 0;
  for (const DiveStep& s : sweep.down) steepest = std::max(steepest, std::abs(s.trim));
  if (id == "trim" && steepest > 0.7 * sweep.limits.trim) {
    spec.levels.push_back({"limit", sweep.limits.trim});
    spec.levels.push_back({"limit", -sweep.limits.trim});
  }
}

void drawDivePlot(Session& session, Screen& screen, const DiveSweep& sweep) {
  std::vector<Choice> choices;
  for (const DivePlot& p : divePlots()) choices.push_back({p.id, p.label});
  int& chosen = screen.study.dive_plot;
  chosen = chooser(screen.ui, "dive.plot", choices, chosen);
  const DivePlot& plot_of = divePlots()[static_cast<std::size_t>(chosen)];

  const double capacity = session.model().tank_capacity;
  PlotSpec spec;
  spec.name = "dive.curve";
  spec.title = plot_of.title;
  spec.x = {"water in the tank, " + std::string(session.units().volume.symbol), Quantity::Volume, 0,
            capacity};
  spec.y = {"", plot_of.quantity, plot_of.low, plot_of.high};
  spec.cursor = session.fillShare() * capacity;
  spec.height_css = plotHeight(screen, 190);
  constexpr Stroke kDown[] = {Stroke::Solid, Stroke::Dashed}, kUp[] = {Stroke::Dotted, Stroke::DashDot};
  const bool apart = !sweep.gaps.empty();
  if (apart) spec.x.label += " (\u2193 going down, \u2191 coming up)";
  const auto add = [&](const std::vector<DiveStep>& steps, const Stroke* strokes, const char* way) {
    for (std::size_t i = 0; i < plot_of.curves.size(); ++i)
      spec.lines.push_back({plot_of.curves[i].label + std::string(apart ? way : ""), strokes[i],
                            pointsOf(steps, plot_of.curves[i].read)});
  };
  add(sweep.down, kDown, " \u2193");
  if (apart) add(sweep.up, kUp, " \u2191");
  if (const auto& before = session.diveBefore()) {
    for (std::size_t i = 0; i < plot_of.curves.size(); ++i)
      spec.lines.push_back({screen.trial.stands(session) ? "before the trial" : "before the last change",
                            kDown[i], pointsOf(before->down, plot_of.curves[i].read), true});
  }
  addLevels(spec, plot_of, session.boat(), sweep);
  if (const auto fill = plot(screen.ui, session.units(), spec)) session.setFillShare(*fill / capacity);
}

/// What comes of it stands at the top.
void tryOn(Session& session, Screen& screen, const Boat& boat) {
  screen.trial.tryOn(session, boat);
  ImGui::SetScrollY(0);
}

/// Other numbers of bulkheads are tried; the tap on what is there already changes nothing.
void drawBulkheads(Session& session, Screen& screen) {
  heading(screen.ui, "Try bulkheads in the tank");
  const std::size_t now = session.boat().tank->bulkheads.size();
  const int chosen = now <= 3 ? static_cast<int>(now) : -1;
  const int wanted =
      chooser(screen.ui, "dive.bulkheads", {{"0", "None"}, {"1", "1"}, {"2", "2"}, {"3", "3"}}, chosen);
  if (wanted != chosen) tryOn(session, screen, withBulkheads(session.boat(), wanted));
  paragraph(screen.ui, "Evenly spaced, each cell with its own share of the water.", theme::kQuietInk);
}

/// While something is tried: what it does, and keep or drop it.
void drawTrial(Session& session, Screen& screen, const DiveSweep& sweep) {
  if (!screen.trial.stands(session)) return;
  Ui& ui = screen.ui;
  std::string text = "Only tried so far.";
  if (const auto& before = session.diveBefore()) text += " " + trialSentence(*before, sweep, session.units());
  paragraph(ui, text);
  ui.record("dive.trial", "status", "What is tried", text);
  const float width = (ImGui::GetContentRegionAvail().x / ui.ratio - 6) / 2;
  if (button(ui, "dive.keep", "Keep it", width, Look::Primary)) screen.trial.keep();
  ImGui::SameLine(0, ui.px(6));
  if (button(ui, "dive.drop", "Drop it", width)) screen.trial.drop(session);
}

std::string helpLabel(const HelpTried& help, const UnitSet& units) {
  const std::string by = valueText(std::abs(help.amount), Quantity::Length, units);
  if (help.help == Help::Bulkheads) {
    const int n = static_cast<int>(help.amount);
    return n == 1 ? "Try 1 bulkhead" : "Try " + std::to_string(n) + " bulkheads";
  }
  if (help.help == Help::Together) return "Try all of these together";
  if (help.help == Help::ShorterTank) return "Try the tank " + by + " shorter";
  if (help.help == Help::TankCentred)
    return "Try the tank " + by + (help.amount < 0 ? " further aft" : " further forward");
  return "Try all lead " + by + " lower";
}

/// A copy: what is put in the boat makes the studies anew.
void drawHelps(Session& session, Screen& screen, const std::vector<HelpTried>& helps) {
  const float width = ImGui::GetContentRegionAvail().x / screen.ui.ratio;
  std::optional<Boat> wanted;
  for (std::size_t i = 0; i < helps.size(); ++i)
    if (button(screen.ui, "dive.try." + std::to_string(i), helpLabel(helps[i], session.units()), width))
      wanted = helps[i].boat;
  if (wanted) tryOn(session, screen, *wanted);
}

const char* troubleWord(Trouble trouble) {
  switch (trouble) {
    case Trouble::RollsOver:
      return "rolls over";
    case Trouble::Heels:
      return "hangs to one side";
    case Trouble::Pitches:
      return "trims too much";
    case Trouble::StandsOnEnd:
      return "stands on end";
    case Trouble::Sinks:
      break;
  }
  return "sinks";
}

/// One line over the plot; the sentences under it say why.
void drawHeadline(Ui& ui, const DiveSweep& sweep) {
  std::string text = "Steady all the way down and up.";
  if (!sweep.findings.empty()) text = "On the way she ";
  for (std::size_t i = 0; i < sweep.findings.size(); ++i)
    text += (i > 0 ? ", " : "") + std::string(troubleWord(sweep.findings[i].trouble));
  if (!sweep.findings.empty()) text += ": see below the plot.";
  paragraph(ui, text, sweep.findings.empty() ? theme::kInk : theme::kWarning);
  ui.record("dive.headline", "status", "The way down and up", text);
}

void drawVerdict(Ui& ui, const DiveSweep& sweep, const std::vector<std::string>& sentences) {
  std::string spoken;
  for (std::size_t i = 0; i < sentences.size(); ++i) {
    paragraph(ui, sentences[i], i < sweep.findings.size() ? theme::kWarning : theme::kInk);
    spoken += (i > 0 ? " " : "") + sentences[i];
  }
  ui.record("dive.verdict", "status", "What goes wrong, why and what helps", spoken);
}

void drawHover(Session& session, Screen& screen) {
  const auto& hover = session.studies().hover();
  heading(screen.ui, "Holding her at the wanted sail");
  const std::string text = hover ? hoverSentence(*hover, session.boat().aims.sail_showing, session.units())
                                 : hover.error().message;
  paragraph(screen.ui, text);
  screen.ui.record("dive.hover", "status", "Hover", text);
  NumberField scope{"scope", "Scope, thickness", Quantity::Length, 0};
  scope.read = [](const Session& s) { return s.scope(); };
  scope.write = [](Session& s, double value) { return s.setScope(value); };
  fieldRow(session, screen, scope);
  const std::string thin = scopeSentence(session.scope(), session.empty().rest.density, session.units());
  paragraph(screen.ui, thin);
  screen.ui.record("dive.scope", "status", "Scope", thin);
}

}  // namespace

void drawDivePanel(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  if (session.model().tank_capacity <= 0)
    return paragraph(ui, "This boat has no ballast tank: there is no dive to look at.");
  const auto sweep = session.studies().sweep();  // a copy: an edit below begins the studies anew
  if (!sweep) return paragraph(ui, sweep.error().message, theme::kWarning);
  const auto helps = session.studies().knownHelps();
  if (!helps) screen.owed = Screen::Owed::Helps;
  if (!sweep->findings.empty() || !screen.trial.stands(session)) drawHeadline(ui, *sweep);
  drawTrial(session, screen, *sweep);
  drawDivePlot(session, screen, *sweep);
  drawVerdict(ui, *sweep, file::diveSentences(*sweep, helps, session.units()));
  if (!helps) paragraph(ui, "Trying what would help\u2026", theme::kQuietInk);
  if (helps) drawHelps(session, screen, *helps);
  drawHover(session, screen);
  drawBulkheads(session, screen);
  paragraph(ui,
            "Estimates for still water and a boat at rest. Try her in shallow water, on a line; a little "
            "positive buoyancy is the safety margin.",
            theme::kQuietInk);
}

}  // namespace pondtrim
