// The ballast system: what moves the water, its numbers, how long a dive and a blow take, where it gives up.
#include <cmath>

#include "panels/screen.hpp"
#include "session/ballast_edits.hpp"
#include "widgets/plot.hpp"

namespace pondtrim {
namespace {

// ---- Its numbers ------------------------------------------------------------------------------------------

Pump& pumpIn(Boat& b) {
  if (auto* sealed = std::get_if<SealedTankPump>(&b.ballast->kind)) return sealed->pump;
  return std::get<VentedTankPump>(b.ballast->kind).pump;
}
PistonTank& pistonIn(Boat& b) { return std::get<PistonTank>(b.ballast->kind); }
GasBlow& gasIn(Boat& b) { return std::get<GasBlow>(b.ballast->kind); }
Battery& batteryIn(Boat& b) { return *b.ballast->battery; }

struct Row {
  const char* path;
  const char* label;
  Quantity quantity;
  NumberField::Find find;
};

constexpr Row kPumpRows[] = {
    {"ballast.pump.free_flow", "Flow, running free", Quantity::Flow,
     [](Boat& b, std::size_t) -> double& { return pumpIn(b).free_flow; }},
    {"ballast.pump.stall_pressure", "Pressure at stall", Quantity::Pressure,
     [](Boat& b, std::size_t) -> double& { return pumpIn(b).stall_pressure; }},
    {"ballast.pump.rated_voltage", "At a voltage of", Quantity::Voltage,
     [](Boat& b, std::size_t) -> double& { return pumpIn(b).rated_voltage; }},
};
constexpr Row kPumpCurrents[] = {
    {"ballast.pump.free_current", "Current, running free", Quantity::Current,
     [](Boat& b, std::size_t) -> double& { return *pumpIn(b).free_current; }},
    {"ballast.pump.stall_current", "Current, stalled", Quantity::Current,
     [](Boat& b, std::size_t) -> double& { return *pumpIn(b).stall_current; }},
};
constexpr Row kVentedRows[] = {
    {"ballast.cylinder_air", "Free air in the cylinder", Quantity::Volume,
     [](Boat& b, std::size_t) -> double& { return std::get<VentedTankPump>(b.ballast->kind).cylinder_air; }},
};
constexpr Row kPistonRows[] = {
    {"ballast.diameter", "Piston diameter", Quantity::Length,
     [](Boat& b, std::size_t) -> double& { return pistonIn(b).diameter; }},
    {"ballast.free_speed", "Speed, without load", Quantity::Speed,
     [](Boat& b, std::size_t) -> double& { return pistonIn(b).free_speed; }},
    {"ballast.stall_force", "Force at stall", Quantity::Force,
     [](Boat& b, std::size_t) -> double& { return pistonIn(b).stall_force; }},
    {"ballast.rated_voltage", "At a voltage of", Quantity::Voltage,
     [](Boat& b, std::size_t) -> double& { return pistonIn(b).rated_voltage; }},
    {"ballast.cylinder_air", "Air behind the piston", Quantity::Volume,
     [](Boat& b, std::size_t) -> double& { return pistonIn(b).cylinder_air; }},
};
constexpr Row kPistonCurrents[] = {
    {"ballast.free_current", "Current, running free", Quantity::Current,
     [](Boat& b, std::size_t) -> double& { return *pistonIn(b).free_current; }},
    {"ballast.stall_current", "Current, stalled", Quantity::Current,
     [](Boat& b, std::size_t) -> double& { return *pistonIn(b).stall_current; }},
};
constexpr Row kGasRows[] = {
    {"ballast.can_mass", "Gas in a full can", Quantity::Mass,
     [](Boat& b, std::size_t) -> double& { return gasIn(b).can_mass; }},
    {"ballast.vent_diameter", "Vent, open", Quantity::Length,
     [](Boat& b, std::size_t) -> double& { return gasIn(b).vent_diameter; }},
    {"ballast.hole_diameter", "Flood holes, as one", Quantity::Length,
     [](Boat& b, std::size_t) -> double& { return gasIn(b).hole_diameter; }},
    {"ballast.blow_flow", "Gas flow into the tank", Quantity::Flow,
     [](Boat& b, std::size_t) -> double& { return gasIn(b).blow_flow; }},
};
constexpr Row kBatteryRows[] = {
    {"ballast.battery.full_voltage", "Full, under load", Quantity::Voltage,
     [](Boat& b, std::size_t) -> double& { return batteryIn(b).full_voltage; }},
    {"ballast.battery.tired_voltage", "Tired, under load", Quantity::Voltage,
     [](Boat& b, std::size_t) -> double& { return batteryIn(b).tired_voltage; }},
    {"ballast.battery.charge", "Charge", Quantity::Charge,
     [](Boat& b, std::size_t) -> double& { return batteryIn(b).charge; }},
};

template <std::size_t N>
void drawRows(Session& session, Screen& screen, const Row (&rows)[N]) {
  for (const Row& r : rows) {
    NumberField field{r.path, r.label, r.quantity, 0};
    field.find = r.find;
    fieldRow(session, screen, field);
  }
}

void drawHoseRow(Session& session, Screen& screen) {
  NumberField hose{"ballast.pump.hose_loss", "Lost in hose and valves", Quantity::Pressure, 0};
  hose.find_optional = [](Boat& b, std::size_t) -> std::optional<double>& { return pumpIn(b).hose_loss; };
  fieldRow(session, screen, hose);
}

void drawAirRow(Session& session, Screen& screen) {
  NumberField air{"ballast.air", "Air in the empty tank", Quantity::Volume, 0};
  air.find_optional = [](Boat& b, std::size_t) -> std::optional<double>& {
    return std::get<SealedTankPump>(b.ballast->kind).air;
  };
  air.stand_in = session.model().tank_capacity;
  fieldRow(session, screen, air);
}

/// Both currents or none: one alone says nothing.
template <class Owner, std::size_t N>
void drawCurrents(Session& session, Screen& screen, Owner& (*owner)(Boat&), const Row (&rows)[N]) {
  Boat changed = session.boat();
  Owner& motor = owner(changed);
  const bool there = motor.free_current.has_value();
  if (there) drawRows(session, screen, rows);
  if (!button(screen.ui, "pump.currents", there ? "Forget the motor's currents" : "Add the motor's currents"))
    return;
  motor.free_current = there ? std::nullopt : std::optional<double>(0.5);
  motor.stall_current = there ? std::nullopt : std::optional<double>(3.0);
  (void)session.edit(changed);
}

void drawGasChoice(Session& session, Screen& screen) {
  std::vector<Choice> choices;
  int chosen = -1;
  Boat changed = session.boat();
  for (const Gas& gas : knownGases()) {
    if (gas.name == gasIn(changed).gas) chosen = static_cast<int>(choices.size());
    choices.push_back({gas.name.c_str(), gas.name.c_str()});
  }
  const int wanted = chooser(screen.ui, "ballast.gas", choices, chosen);
  if (wanted == chosen) return;
  gasIn(changed).gas = knownGases()[static_cast<std::size_t>(wanted)].name;
  (void)session.edit(changed);
}

void drawBattery(Session& session, Screen& screen) {
  heading(screen.ui, "Battery that drives it");
  const bool there = session.boat().ballast->battery.has_value();
  if (there) drawRows(session, screen, kBatteryRows);
  if (button(screen.ui, "pump.battery", there ? "Leave the battery out" : "Add a battery"))
    (void)session.edit(there ? withoutBattery(session.boat()) : withBattery(session.boat()));
}

void drawNumbers(Session& session, Screen& screen) {
  const BallastChoice kind = *ballastChoice(session.boat());
  if (kind == BallastChoice::Gas) {
    drawGasChoice(session, screen);
    return drawRows(session, screen, kGasRows);
  }
  if (kind == BallastChoice::Piston) {
    drawRows(session, screen, kPistonRows);
    drawCurrents(session, screen, pistonIn, kPistonCurrents);
  } else {
    drawRows(session, screen, kPumpRows);
    drawHoseRow(session, screen);
    if (kind == BallastChoice::SealedTankPump)
      drawAirRow(session, screen);
    else
      drawRows(session, screen, kVentedRows);
    drawCurrents(session, screen, pumpIn, kPumpCurrents);
  }
  drawBattery(session, screen);
}

// ---- What it can do ---------------------------------------------------------------------------------------

using Value = double BallastPoint::*;

std::vector<PlotPoint> pointsOf(const BallastRun& run, Value value) {
  std::vector<PlotPoint> points;
  points.reserve(run.curve.size());
  for (const BallastPoint& p : run.curve) points.push_back({p.time, p.*value});
  return points;
}

void drawRunPlot(Session& session, Screen& screen, const BallastReport& report) {
  int& chosen = screen.study.pump_plot;
  if (report.gas) chosen = std::min(chosen, 1);
  std::vector<Choice> choices = {{"fill", "Filling"}, {"blow", "Emptying"}};
  if (!report.gas) choices.push_back({"pressure", "Pressure"});
  chosen = chooser(screen.ui, "pump.plot", choices, chosen);
  const bool emptying = chosen == 1, pressure = chosen == 2;
  const BallastRun& full = emptying ? report.blow_full : report.fill_full;
  const auto& tired = emptying ? report.blow_tired : report.fill_tired;
  const Value value = pressure ? &BallastPoint::pressure : &BallastPoint::fill;

  PlotSpec spec;
  spec.name = "pump.curve";
  spec.title = pressure ? "Pressure on the pump, filling" : "Water in the tank";
  spec.x = {"time, s", Quantity::Time, 0, 1};
  spec.y = pressure ? PlotAxis{"", Quantity::Pressure, 0, 1e4}
                    : PlotAxis{"", Quantity::Volume, 0, report.tank_capacity};
  spec.lines.push_back({tired      ? "Full battery"
                        : emptying ? "Emptying"
                                   : "Filling",
                        Stroke::Solid, pointsOf(full, value)});
  if (tired) spec.lines.push_back({"Tired", Stroke::Dashed, pointsOf(*tired, value)});
  if (!pressure && !full.completes && full.stall_fill)
    spec.levels.push_back({"stops here", *full.stall_fill});
  if (!pressure && tired && !tired->completes && tired->stall_fill)
    spec.levels.push_back({"tired: stops here", *tired->stall_fill});
  double longest = full.time;
  if (tired) longest = std::max(longest, tired->time);
  screen.study.time = std::clamp(screen.study.time, 0.0, longest);
  spec.cursor = screen.study.time;
  spec.height_css = plotHeight(screen, 270);
  const auto time = plot(screen.ui, session.units(), spec);
  if (!time) return;
  screen.study.time = std::clamp(*time, 0.0, longest);
  const auto fill = valueAt(pointsOf(full, &BallastPoint::fill), std::min(screen.study.time, full.time));
  if (fill) session.setFillShare(*fill / report.tank_capacity);  // the picture shows her at that moment
}

struct Line {
  const char* label;
  Quantity quantity;
  int decimals;
  std::optional<double> full, tired;
};

/// Of a run that does not come to its end there is none.
std::optional<double> wholeTime(const std::optional<BallastRun>& run) {
  return run && run->completes ? std::optional(run->time) : std::nullopt;
}

void drawTable(Session& session, Ui& ui, const BallastReport& r) {
  const auto ofTired = [](const std::optional<BallastRun>& run, auto member) -> std::optional<double> {
    if (!run) return std::nullopt;
    return (*run).*member;
  };
  const Line lines[] = {
      {"Filling takes", Quantity::Time, 0, wholeTime(r.fill_full), wholeTime(r.fill_tired)},
      {"Emptying takes", Quantity::Time, 0, wholeTime(r.blow_full), wholeTime(r.blow_tired)},
      {"Stops filling at", Quantity::Volume, 0, r.fill_full.stall_fill,
       ofTired(r.fill_tired, &BallastRun::stall_fill)},
      {"Stops emptying at", Quantity::Volume, 0, r.blow_full.stall_fill,
       ofTired(r.blow_tired, &BallastRun::stall_fill)},
      {"Most pressure, filling", Quantity::Pressure, 2,
       r.gas ? std::nullopt : std::optional<double>(r.fill_full.greatest_pressure),
       ofTired(r.fill_tired, &BallastRun::greatest_pressure)},
      {"Stall over need", Quantity::Number, 2, r.fill_full.margin,
       ofTired(r.fill_tired, &BallastRun::margin)},
      {"Most current", Quantity::Current, 1, r.fill_full.greatest_current,
       ofTired(r.fill_tired, &BallastRun::greatest_current)},
      {"Deepest emptying", Quantity::Depth, 1, r.deepest_blow_full, r.deepest_blow_tired},
  };
  const float width = ImGui::GetContentRegionAvail().x, column = ui.letters(88), line = ImGui::GetFontSize();
  const auto row = [&](const char* label, const std::string& full, const std::string& tired) {
    if (ui.large()) paragraph(ui, label);  // its numbers have a line of their own
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImDrawList* draw = ImGui::GetWindowDrawList();
    if (!ui.large()) draw->AddText(at, theme::kInk, label);
    const auto right = [&](const std::string& text, float edge) {
      draw->AddText({edge - ImGui::CalcTextSize(text.c_str()).x, at.y}, theme::kInk, text.c_str());
    };
    right(full, at.x + width - (r.fill_tired ? column : 0));
    if (r.fill_tired) right(tired, at.x + width);
    ImGui::Dummy({width, line});
    ui.record(std::string("pump.number.") + label, "status", label, full + " | " + tired);
  };
  const auto text = [&](const Line& l, const std::optional<double>& value) {
    return value ? valueText(*value, l.quantity, session.units(), l.decimals) : std::string("\u2013");
  };
  if (r.fill_tired) row("Battery", "full", "tired");
  for (const Line& l : lines) {
    if (!l.full && !l.tired) continue;
    ImGui::Separator();
    row(l.label, text(l, l.full), text(l, l.tired));
  }
}

void drawAnswers(Session& session, Screen& screen) {
  const auto report = session.studies().ballast(session.depth());  // a copy: an edit may begin them anew
  if (!report) return paragraph(screen.ui, report.error().message, theme::kWarning);
  const std::vector<std::string> sentences = file::pumpSentences(*report, session.units());
  const auto isStop = [](const std::string& s) { return s.find(" stops with ") != std::string::npos; };
  const auto inTable = [&](const std::string& s) {
    return !report->gas && s.find(" takes ") != std::string::npos;
  };
  for (const std::string& s : sentences)  // what cannot work comes first
    if (isStop(s)) paragraph(screen.ui, s, theme::kWarning);
  drawRunPlot(session, screen, *report);
  drawTable(session, screen.ui, *report);
  ImGui::Dummy({0, screen.ui.px(6)});
  std::string spoken;
  for (const std::string& s : sentences) {
    if (!isStop(s) && !inTable(s)) paragraph(screen.ui, s);
    spoken += s + " ";
  }
  screen.ui.record("pump.words", "status", "Ballast system", spoken);
}

void drawKinds(Session& session, Screen& screen) {
  const auto kind = ballastChoice(session.boat());
  const int chosen = kind ? static_cast<int>(*kind) : -1;
  int wanted = chooser(screen.ui, "pump.kind",
                       {{"sealed", "Pump, sealed tank"}, {"vented", "Pump, vented tank"}}, chosen);
  const int lower =
      chooser(screen.ui, "pump.kind", {{"piston", "Piston"}, {"gas", "Gas, open tank"}}, chosen - 2);
  if (lower != chosen - 2) wanted = lower + 2;
  if (wanted == chosen) return;
  (void)session.edit(withBallastKind(session.boat(), session.model(), static_cast<BallastChoice>(wanted)));
}

}  // namespace

void drawDepthRow(Session& session, Screen& screen) {
  NumberField depth{"depth", "She goes down to", Quantity::Depth, 0};
  depth.read = [](const Session& s) { return s.depth(); };
  depth.write = [](Session& s, double value) { return s.setDepth(value); };
  fieldRow(session, screen, depth);
}

void drawPumpPanel(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  if (session.model().tank_capacity <= 0)
    return paragraph(ui, "This boat has no ballast tank: there is nothing to pump.");
  drawKinds(session, screen);
  if (!session.boat().ballast) {
    return paragraph(
        ui,
        "How does the water get in and out? Choose one: its numbers start at a usual size for this "
        "tank, to be replaced by those of yours.");
  }
  drawAnswers(session, screen);
  heading(ui, "Its numbers");
  drawDepthRow(session, screen);
  drawNumbers(session, screen);
  if (button(ui, "pump.remove", "Take the ballast system out"))
    (void)session.edit(withoutBallast(session.boat()));
  paragraph(
      ui,
      "Batteries, gas and pressure can hurt: fuse the battery, keep gas away from flames and out of closed "
      "rooms, never raise a pressure on the strength of a calculator, test under water, behind cover. "
      "Makers' limits, local rules and qualified people come first.",
      theme::kQuietInk);
}

}  // namespace pondtrim
