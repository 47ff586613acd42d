#pragma once
// A full-size boat made smaller: lengths by the scale, weight by its cube, each in its own water.
#include <optional>
#include <pondtrim/condition.hpp>
#include <pondtrim/result.hpp>

namespace pondtrim {

/// As the books or the drawing say, surfaced. SI.
struct FullSize {
  double scale = 72;     ///< the model is 1 : scale
  double length = 67.0;  ///< [m]
  double breadth = 6.2;
  double height = 7.0;                 ///< keel to deck
  double draft = 4.8;                  ///< keel to water
  std::optional<double> displacement;  ///< surfaced [kg]; empty: from the dimensions and `fullness`
  double fullness = 0.6;    ///< volume under water over length x breadth x draft (block coefficient)
  Water sea{288.15, 35.0};  ///< that the full-size boat floats in
  bool operator==(const FullSize&) const = default;
};

/// The model. `mass` is what she pushes aside at her line: that is her weight together with the water that
/// stands inside a free-flooding hull.
struct ScaledModel {
  double length = 0, breadth = 0, height = 0, line_height = 0;
  double volume = 0;       ///< under water at the line, hull water included [m^3]
  double mass = 0;         ///< [kg]
  bool estimated = false;  ///< volume comes from `fullness`
};

/// Geometric similarity: lengths / scale, volume / scale^3 (any textbook on model testing).
/// Error: "scale.scale", "scale.length", "scale.breadth", "scale.height", "scale.draft", "scale.fullness",
/// "scale.displacement"; "water.temperature", "water.salinity".
[[nodiscard]] Result<ScaledModel> scaleDown(const FullSize& full, const Water& pond);

}  // namespace pondtrim
