// What depth does: net buoyancy on the way down, other waters, and what the cylinder takes.
#include <cmath>

#include "panels/screen.hpp"
#include "session/ballast_edits.hpp"
#include "widgets/plot.hpp"

namespace pondtrim {
namespace {

void say(Ui& ui, const std::string& name, const char* label, const std::vector<std::string>& sentences) {
  std::string spoken;
  for (const std::string& s : sentences) {
    paragraph(ui, s);
    spoken += (spoken.empty() ? "" : " ") + s;
  }
  ui.record(name, "status", label, spoken);
}

std::vector<PlotPoint> pointsOf(const DepthCurve& curve, double DepthPoint::*value) {
  std::vector<PlotPoint> points;
  points.reserve(curve.points.size());
  for (const DepthPoint& p : curve.points) points.push_back({p.depth, p.*value});
  return points;
}

bool loses(const DepthCurve& curve, double DepthPoint::*loss) {
  constexpr double kWorthALine = 1e-4;  // kg
  return std::abs(curve.points.back().*loss) > kWorthALine;
}

void drawCurve(Session& session, Screen& screen, const DepthCurve& curve) {
  PlotSpec spec;
  spec.name = "depth.curve";
  spec.title = "Net lift, tank full";
  spec.x = {std::string("depth, ") + file::unitFor(Quantity::Depth, session.units()).symbol, Quantity::Depth,
            0, 1};
  spec.y = {"", Quantity::Mass, 0, 0.005};
  spec.lines.push_back({"Lift", Stroke::Solid, pointsOf(curve, &DepthPoint::net_buoyancy)});
  const auto lost = [&](const char* label, Stroke stroke, double DepthPoint::*loss) {
    if (loses(curve, loss)) spec.lines.push_back({label, stroke, pointsOf(curve, loss)});
  };
  lost("lost by foam", Stroke::Dashed, &DepthPoint::foam_loss);
  lost("by trapped air", Stroke::Dotted, &DepthPoint::air_loss);
  lost("by the cylinder", Stroke::DashDot, &DepthPoint::hull_loss);
  if (spec.lines.size() < 4) lost("by gas", Stroke::DashDot, &DepthPoint::gas_loss);
  if (curve.points.back().net_buoyancy < 0) spec.levels.push_back({"nothing to spare", 0});
  spec.height_css = plotHeight(screen, 230);
  spec.cursor = std::clamp(screen.study.depth, 0.0, curve.points.back().depth);
  if (const auto depth = plot(screen.ui, session.units(), spec)) screen.study.depth = *depth;
}

void drawWaters(Session& session, Screen& screen) {
  const auto& waters = session.studies().waters(session.depth());
  Ui& ui = screen.ui;
  if (!waters) return paragraph(ui, waters.error().message, theme::kWarning);
  heading(ui, "In other waters, weights unchanged");
  for (const WaterAnswer& w : *waters) {
    const std::string change = valueText(std::abs(w.ballast_change), Quantity::Mass, session.units(), 0);
    const std::string lift = valueText(w.net_buoyancy, Quantity::Mass, session.units(), 0);
    std::string text = std::string(file::waterWords(w.water)) + ": net lift " + lift + "; ";
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
    text += (w.ballast_change < 0 ? "take out " : "add ") + change + " to dive as here";
    if (w.net_buoyancy <= 0)
      text += "; she does not come up by herself";
    else if (w.point_of_no_return)
      text += "; no way up alone below " + valueText(*w.point_of_no_return, Quantity::Depth, session.units());
    paragraph(ui, text + ".", w.net_buoyancy <= 0 ? theme::kWarning : theme::kInk);
    ui.record(std::string("depth.water.") + file::waterWords(w.water), "status", file::waterWords(w.water),
              text);
  }
}

/// A cylinder whose material is not known: choose one.
void drawMaterials(Session& session, Screen& screen, std::size_t i) {
  paragraph(screen.ui, "What is \"" + session.boat().cylinders[i].name + "\" made of?");
  const float width = (ImGui::GetContentRegionAvail().x / screen.ui.ratio - 6) / 2;
  int n = 0;
  for (const TubeMaterial& m : tubeMaterials()) {
    if (n++ % 2 == 1) ImGui::SameLine(0, screen.ui.px(6));
    const std::string name(m.name), id = "depth.material." + std::to_string(i) + "." + name;
    if (button(screen.ui, id, name, width, Look::Quiet))
      (void)session.edit(withCylinderMaterial(session.boat(), i, name));
  }
}

void drawEstimate(Session& session, Ui& ui, const std::string& cylinder, const StrengthEstimate& s) {
  const UnitSet& units = session.units();
  const auto value = [&](double si, Quantity q, int decimals) { return valueText(si, q, units, decimals); };
  const auto line = [&](const std::string& label, const std::string& text) {
    paragraph(ui, label + ": " + text, theme::kQuietInk);
    ui.record("depth.strength." + cylinder + "." + label, "status", label, text);
  };
  line("Material", std::string(s.material));
  line("Water outside", value(s.outside_pressure, Quantity::Pressure, 2) + ", air inside " +
                            value(s.inside_pressure, Quantity::Pressure, 2));
  const TubeStress& worse = s.inside_stress.hoop > s.outside_stress.hoop ? s.inside_stress : s.outside_stress;
  line("Stress in the wall", "round " + value(worse.hoop, Quantity::Stress, 2) + ", along " +
                                 value(worse.axial, Quantity::Stress, 2));
  if (s.supported_cap && s.clamped_cap)
    line("Stress in a flat cap", "held loosely " + value(s.supported_cap->stress, Quantity::Stress, 2) +
                                     ", held fast " + value(s.clamped_cap->stress, Quantity::Stress, 2));
  line("Strength of the material",
       value(s.strength.low, Quantity::Stress, 0) + " to " + value(s.strength.high, Quantity::Stress, 0));
  line("Tube between its caps", value(s.tube_length, Quantity::Length, 0));
  line("Longest part between discs", value(s.unsupported_length, Quantity::Length, 0));
}

SealedCylinder& tube(Boat& b, std::size_t i) { return b.cylinders[i]; }

/// Data sheet's numbers, or those measured, instead of the usual range of the material.
void drawMaterialNumbers(Session& session, Screen& screen, std::size_t i) {
  const SealedCylinder& c = session.boat().cylinders[i];
  const TubeMaterial* known = findTubeMaterial(c.material);
  using Find = NumberField::FindOptional;
  const auto row = [&](const char* name, const char* label, Quantity quantity, double stand_in, Find find) {
    NumberField field{"cylinders[" + std::to_string(i) + "]." + name, label, quantity, i};
    field.find_optional = find;
    field.stand_in = stand_in;
    field.step = quantity == Quantity::Number ? 0.01 : 0.0;
    fieldRow(session, screen, field);
  };
  row("elastic_modulus", "Elastic modulus", Quantity::Stress, known != nullptr ? known->modulus_low : 0,
      [](Boat& b, std::size_t n) -> std::optional<double>& { return tube(b, n).elastic_modulus; });
  row("strength", "Strength, the lower", Quantity::Stress, known != nullptr ? known->strength_low : 0,
      [](Boat& b, std::size_t n) -> std::optional<double>& { return tube(b, n).strength; });
  row("poisson_ratio", "Poisson's ratio", Quantity::Number, known != nullptr ? known->poisson : 0.35,
      [](Boat& b, std::size_t n) -> std::optional<double>& { return tube(b, n).poisson_ratio; });
  row("flexibility", "Volume lost, measured", Quantity::Compliance, flexibilityOf(c).value_or(0),
      [](Boat& b, std::size_t n) -> std::optional<double>& { return tube(b, n).flexibility; });
  if (known == nullptr) return;
  if (button(screen.ui, "depth.material." + std::to_string(i) + ".other", "Another material"))
    (void)session.edit(withCylinderMaterial(session.boat(), i, ""));
}

void drawStrength(Session& session, Screen& screen) {
  const file::Strengths strengths = session.studies().strengths(session.depth());  // a copy, as edits follow
  if (strengths.empty()) return;
  Ui& ui = screen.ui;
  heading(ui, "The cylinder under pressure (estimate)");
  paragraph(ui, std::string(kPressureCaution), theme::kWarning);
  std::vector<std::string> sentences =
      file::strengthSentences(session.boat(), strengths, session.depth(), session.units());
  if (!sentences.empty() && sentences.back() == kPressureCaution) sentences.pop_back();  // said above
  say(ui, "depth.strength", "The cylinder under pressure", sentences);
  const bool several = session.boat().cylinders.size() > 1;
  for (std::size_t i = 0; i < strengths.size() && i < session.boat().cylinders.size(); ++i) {
    if (several) heading(ui, session.boat().cylinders[i].name.c_str());
    if (strengths[i])
      drawEstimate(session, ui, session.boat().cylinders[i].name, *strengths[i]);
    else
      drawMaterials(session, screen, i);
    drawMaterialNumbers(session, screen, i);
  }
}

}  // namespace

void drawDepthPanel(Session& session, Screen& screen) {
  drawDepthRow(session, screen);
  const auto curve = session.studies().depthCurve(session.depth());
  if (!curve) return paragraph(screen.ui, curve.error().message, theme::kWarning);
  std::vector<std::string> sentences = file::depthSentences(*curve, session.units());
  const std::string lift = sentences.front();  // what matters most, above the plot
  sentences.erase(sentences.begin());
  paragraph(screen.ui, lift, curve->points.front().net_buoyancy <= 0 ? theme::kWarning : theme::kInk);
  screen.ui.record("depth.words", "status", "Depth", lift);
  drawCurve(session, screen, *curve);
  say(screen.ui, "depth.counted", "What is counted", sentences);
  drawWaters(session, screen);
  drawStrength(session, screen);
  paragraph(screen.ui,
            "A boat that has no lift left is lost: keep some positive buoyancy, and a line on her in unknown "
            "water. Do not go into cold or deep water after a boat.",
            theme::kQuietInk);
}

}  // namespace pondtrim
