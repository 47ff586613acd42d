#pragma once
// Plot: lines over an axis, read with a cursor that the finger drags. Lines are told apart by their stroke
// and their label, not by colour alone; ink on white is at least 7:1.
#include <optional>
#include <string>
#include <vector>

#include "session/plot_scale.hpp"
#include "session/quantities.hpp"
#include "widgets/ui.hpp"

namespace pondtrim {

enum class Stroke { Solid, Dashed, Dotted, DashDot };

struct PlotLine {
  std::string label;
  Stroke stroke = Stroke::Solid;
  std::vector<PlotPoint> points;  ///< x rising [SI]
  bool ghost = false;             ///< of the boat before: pale and thin, not read at the cursor
  bool dots = false;              ///< a dot at each point: what was measured, not computed between
};

/// Something that happens at one place of a line.
struct PlotSpot {
  enum class Kind { Rest, Tips, Cross };  ///< filled ring, open ring, small cross
  Kind kind = Kind::Rest;
  PlotPoint at;
};

/// A level to compare the lines with: the painted line, a limit.
struct PlotLevel {
  std::string label;
  double at = 0.0;  ///< [SI]
};

struct PlotAxis {
  std::string label;
  Quantity quantity = Quantity::Number;
  double low = 0.0, high = 0.0;  ///< always in sight [SI]; the lines' own range is added
};

struct PlotSpec {
  std::string name;   ///< of the control
  std::string title;  ///< of what y is
  PlotAxis x, y;
  std::vector<PlotLine> lines;
  std::vector<PlotLevel> levels;
  std::vector<PlotSpot> spots;
  double cursor = 0.0;  ///< x [SI]
  float height_css = 150;
};

/// Draws it over the width of the panel; the x [SI] that a finger on it asks for, while it does.
std::optional<double> plot(Ui& ui, const UnitSet& units, const PlotSpec& spec);

}  // namespace pondtrim
