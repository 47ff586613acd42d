#pragma once
// Ballast system, depth and cylinder strength in words and as JSON text.
#include <pondtrim/ballast.hpp>
#include <pondtrim/depth.hpp>
#include <pondtrim/file/units.hpp>
#include <pondtrim/strength.hpp>
#include <string>
#include <vector>

namespace pondtrim::file {

/// What the terminal's "ballast" answers. The depth curve is with the tank full.
struct BallastAnswer {
  BallastReport report;
  DepthCurve depth;
  std::array<WaterAnswer, kNamedWaters> waters;
  std::vector<Result<StrengthEstimate>> strength;  ///< one for each cylinder
};

/// Blowing and strength at `depth` [m]. Error: as evaluateBallast and depthCurve.
[[nodiscard]] Result<BallastAnswer> answerBallast(const Boat& boat, const Model& model, const Water& water,
                                                  double depth);

[[nodiscard]] const char* waterWords(NamedWater water);

/// One sentence each; the caution about pressure is the last.
[[nodiscard]] std::vector<std::string> ballastSentences(const Boat& boat, const BallastAnswer& answer,
                                                        const UnitSet& units = kMetricUnits);

[[nodiscard]] std::string ballastJson(const Boat& boat, const BallastAnswer& answer);

}  // namespace pondtrim::file
