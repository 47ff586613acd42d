#include "panels/plan_plots.hpp"

#include <algorithm>

#include "panels/screen.hpp"
#include "session/plan_words.hpp"
#include "widgets/plot.hpp"

namespace pondtrim {
namespace {

/// A plot's plate, and where its values lie on it.
struct Plot {
  ImVec2 low, high;  ///< of the plate's inside
  Extent across, up;
  [[nodiscard]] ImVec2 at(double x, double y) const {
    return {low.x + across.share(x) * (high.x - low.x), high.y - up.share(y) * (high.y - low.y)};
  }
};

/// Answers where the finger is, in `touch`, while it is on the plot.
Plot beginPlot(const Ui& ui, const std::string& name, float height_css, PolygonTouch& touch) {
  const ImVec2 corner = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x, pad = ui.px(14);
  ImGui::InvisibleButton(name.c_str(), {width, ui.px(height_css)});
  if (ImGui::IsItemActive()) {
    const ImVec2 at = ImGui::GetIO().MousePos;
    const auto share = [](float v) { return std::clamp(v, 0.0f, 1.0f); };
    touch = {name, share((at.x - corner.x - pad) / (width - 2 * pad)),
             1 - share((at.y - corner.y - pad) / (ui.px(height_css) - 2 * pad))};
  }
  const ImVec2 end(corner.x + width, corner.y + ui.px(height_css));
  ImGui::GetWindowDrawList()->AddRectFilled(corner, end, theme::kPlate, ui.px(10));
  Plot plot;
  plot.low = {corner.x + pad, corner.y + pad};
  plot.high = {end.x - pad, end.y - pad};
  return plot;
}

void drawEdge(const Ui& ui, const Plot& plot, const std::vector<BalancePoint>& points) {
  std::vector<ImVec2> line;
  for (const BalancePoint& p : points) line.push_back(plot.at(p.moment, p.weight));
  ImGui::GetWindowDrawList()->AddPolyline(line.data(), static_cast<int>(line.size()), theme::kAccent, 0,
                                          ui.px(2));
}

/// A ring for where she is, a cross or a full disc for where she must come to.
void drawPoints(const Ui& ui, const Plot& plot, const BalanceDiagram& diagram) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImVec2 now = plot.at(diagram.present.moment, diagram.present.weight);
  const ImVec2 needed = plot.at(diagram.needed.moment, diagram.needed.weight);
  draw->AddLine(now, needed, theme::kQuietInk, ui.px(1));
  draw->AddCircleFilled(now, ui.px(5), theme::kPlate);
  draw->AddCircle(now, ui.px(5), theme::kInk, 0, ui.px(2));
  if (diagram.inside) return draw->AddCircleFilled(needed, ui.px(6), theme::kInk);
  const float r = ui.px(6);
  draw->AddLine({needed.x - r, needed.y - r}, {needed.x + r, needed.y + r}, theme::kWarning, ui.px(3));
  draw->AddLine({needed.x - r, needed.y + r}, {needed.x + r, needed.y - r}, theme::kWarning, ui.px(3));
}

/// What the finger asks of the diagram: how much weight, how far forward, more than the boat has now.
void drawTouch(const Session& session, Screen& screen, const BalanceDiagram& diagram, const Plot& plot) {
  Ui& ui = screen.ui;
  const std::string name = "plan.polygon." + diagram.condition;
  if (screen.polygon_touch.name != name) return;
  const BalancePoint at = {plot.up.at(screen.polygon_touch.up), plot.across.at(screen.polygon_touch.across)};
  const ImVec2 p = plot.at(at.moment, at.weight);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddLine({plot.low.x, p.y}, {plot.high.x, p.y}, theme::kQuietInk, ui.px(1));
  draw->AddLine({p.x, plot.low.y}, {p.x, plot.high.y}, theme::kQuietInk, ui.px(1));
  const std::string words = balanceWords(diagram, at, session.units());
  paragraph(ui, words);
  ui.record(name + ".words", "status", words);
}

void drawBalance(const Session& session, Screen& screen, const BalanceDiagram& diagram) {
  Ui& ui = screen.ui;
  const std::string verdict = diagram.inside ? "within reach" : "out of reach";
  paragraph(ui, sentenceCase(diagram.condition) + ": " + verdict,
            diagram.inside ? theme::kInk : theme::kWarning);
  const std::string name = "plan.polygon." + diagram.condition;
  Plot plot = beginPlot(ui, name, plotHeight(screen, 200), screen.polygon_touch);
  ui.record(name, "plot", diagram.condition, verdict);
  for (const auto* line : {&diagram.polygon.bow_first, &diagram.polygon.stern_first}) {
    for (const BalancePoint& p : *line) {
      plot.across.add(p.moment);
      plot.up.add(p.weight);
    }
  }
  for (const BalancePoint& p : {diagram.needed, diagram.present}) {
    plot.across.add(p.moment);
    plot.up.add(p.weight);
  }
  drawEdge(ui, plot, diagram.polygon.bow_first);
  drawEdge(ui, plot, diagram.polygon.stern_first);
  drawPoints(ui, plot, diagram);
  drawTouch(session, screen, diagram, plot);
}

void drawCurve(const Session& session, Screen& screen) {
  const std::vector<StabilityPoint>& curve = screen.planner.curve();
  if (curve.size() < 2) return;
  Ui& ui = screen.ui;
  heading(ui, "What stability costs");
  PlotSpec spec;
  spec.name = "plan.curve";
  spec.title = "Out of the water she weighs";
  spec.x = {"The smaller of GM and B over G", Quantity::Length, curve.front().stability,
            curve.back().stability};
  spec.y = {"", Quantity::Mass, curve.front().carry_mass, curve.front().carry_mass};
  spec.height_css = plotHeight(screen, 150);
  PlotLine line{"To carry", Stroke::Solid, {}};
  for (const StabilityPoint& p : curve) line.points.push_back({p.stability, p.carry_mass});
  spec.lines.push_back(std::move(line));
  spec.cursor = std::clamp(screen.study.stability > 0 ? screen.study.stability : curve.front().stability,
                           curve.front().stability, curve.back().stability);
  if (const auto asked = plot(ui, session.units(), spec)) screen.study.stability = *asked;
}

}  // namespace

void drawPlanPlots(const Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  if (screen.planner.diagrams().empty()) return;
  heading(ui, "What these places can balance");
  for (const BalanceDiagram& diagram : screen.planner.diagrams()) drawBalance(session, screen, diagram);
  paragraph(
      ui,
      "Up: weight. To the right: weight forward. Inside the outline lies all that the places can do; the "
      "ring is the boat as it is, the dot (or cross) what balances it.",
      theme::kQuietInk);
  drawCurve(session, screen);
}

}  // namespace pondtrim
