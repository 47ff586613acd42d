// The righting lever: held at a heel, how she turns back, surfaced, as the slider stands, and dived.
#include <cmath>

#include "panels/screen.hpp"
#include "session/study_words.hpp"
#include "widgets/plot.hpp"

namespace pondtrim {
namespace {

constexpr double kSeen = 0.2 * kPi / 180;  // heel that the plot can tell from upright

struct Held {
  std::string label, words;
  const RightingCurve* curve;
  Stroke stroke;
};

/// Whatever side, the heel counts from upright; + turns her back.
std::vector<PlotPoint> pointsOf(const RightingSide& side) {
  std::vector<PlotPoint> points;
  points.reserve(side.points.size());
  for (const RightingPoint& p : side.points) points.push_back({std::abs(p.heel), p.righting_lever});
  return points;
}

/// Curves to show; those of the slider's fill only while no finger holds it.
std::vector<Held> curvesOf(Session& session, std::string& fault) {
  std::vector<Held> out;
  const auto add = [&](const char* label, const std::string& words, double share, Stroke stroke) {
    const auto& curve = session.studies().righting(share);
    if (curve)
      out.push_back({label, words, &*curve, stroke});
    else
      fault = curve.error().message;
  };
  add("Surfaced", "Surfaced", 0, Stroke::Solid);
  const double capacity = session.model().tank_capacity, share = session.fillShare();
  if (capacity <= 0) return out;
  const bool between = share > 0 && share < 1;
  if (between && (session.studies().hasRighting(share) || !ImGui::GetIO().MouseDown[0]))
    add("Now", "With " + valueText(share * capacity, Quantity::Volume, session.units(), 0), share,
        Stroke::Dashed);
  add("Dived", "Dived", 1, Stroke::Dotted);
  return out;
}

/// Where the lever is nothing, and where trim was held or would run away.
void addSpots(PlotSpec& spec, const RightingSide& side, const RightingCurve& curve, bool& crosses) {
  const auto spot = [&](double heel, PlotSpot::Kind kind) {
    spec.spots.push_back({kind, {std::abs(heel), 0.0}});
  };
  // A boat with something off the centreline has no balance upright, nor bottom up.
  if (!curve.lopsided) spot(0, curve.gm_transverse > 0 ? PlotSpot::Kind::Rest : PlotSpot::Kind::Tips);
  if (side.rest_heel && std::abs(*side.rest_heel) > kSeen) spot(*side.rest_heel, PlotSpot::Kind::Rest);
  if (side.range && !(curve.lopsided && std::abs(*side.range) > kPi - kSeen))
    spot(*side.range, PlotSpot::Kind::Tips);
  int apart = 0;  // every third: a chain of crosses would hide the line
  for (const RightingPoint& p : side.points) {
    if (p.trim_state == TrimState::Free) {
      apart = 0;
      continue;
    }
    crosses = true;
    if (apart++ % 3 == 0) spec.spots.push_back({PlotSpot::Kind::Cross, {std::abs(p.heel), p.righting_lever}});
  }
}

std::string spotWords(bool crosses) {
  std::string text = "A full dot: there she comes to rest. A ring: a balance that she does not keep.";
  if (crosses) text += " Crosses: left alone she would go over bow or stern there first.";
  return text;
}

void drawPlot(Session& session, Screen& screen, const std::vector<Held>& curves) {
  StudyView& view = screen.study;
  bool lopsided = false;
  for (const Held& c : curves) lopsided = lopsided || c.curve->lopsided;
  if (lopsided)
    view.to_port = chooser(screen.ui, "heel.side", {{"starboard", "To starboard"}, {"port", "To port"}},
                           view.to_port ? 1 : 0) == 1;
  PlotSpec spec;
  spec.name = "heel.curve";
  spec.title = "Righting lever GZ";
  spec.x = {"heel; 90 is flat on her side", Quantity::Angle, 0, kPi};
  spec.y = {"", Quantity::Length, 0, 0.002};
  bool crosses = false;
  for (const Held& c : curves) {
    const RightingSide& side = lopsided && view.to_port ? c.curve->port : c.curve->starboard;
    spec.lines.push_back({c.label, c.stroke, pointsOf(side)});
    addSpots(spec, side, *c.curve, crosses);
  }
  spec.cursor = view.heel;
  spec.height_css = plotHeight(screen, lopsided ? 210.0f : 150.0f);
  if (const auto heel = plot(screen.ui, session.units(), spec)) view.heel = *heel;
  paragraph(screen.ui, spotWords(crosses), theme::kQuietInk);
  screen.ui.record("heel.spots", "status", "What the marks say", spotWords(crosses));
}

}  // namespace

void drawHeelPanel(Session& session, Screen& screen) {
  std::string fault;
  const std::vector<Held> curves = curvesOf(session, fault);
  if (!fault.empty()) paragraph(screen.ui, fault, theme::kWarning);
  if (curves.empty()) return;
  drawPlot(session, screen, curves);
  std::string spoken;
  for (const Held& c : curves) {
    const std::string text = rightingSentence(c.words, *c.curve, session.units());
    const bool rolls = c.curve->gm_transverse <= 0;
    paragraph(screen.ui, text, rolls ? theme::kWarning : theme::kInk);
    spoken += text + " ";
  }
  screen.ui.record("heel.words", "status", "Stability", spoken);
  paragraph(
      screen.ui,
      "Above zero she turns back upright, below zero she goes on over. Draft and trim are free, tank water "
      "runs; waves, wind and openings are not counted.",
      theme::kQuietInk);
}

}  // namespace pondtrim
