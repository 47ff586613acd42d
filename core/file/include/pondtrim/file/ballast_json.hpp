#pragma once
// Ballast system, depth and cylinder strength in words and as JSON text.
#include <pondtrim/ballast.hpp>
#include <pondtrim/depth.hpp>
#include <pondtrim/file/units.hpp>
#include <pondtrim/strength.hpp>
#include <string>
#include <vector>

namespace pondtrim::file {

/// One for each cylinder.
using Strengths = std::vector<Result<StrengthEstimate>>;

/// What the terminal's "ballast" answers. The depth curve is with the tank full.
struct BallastAnswer {
  BallastReport report;
  DepthCurve depth;
  std::array<WaterAnswer, kNamedWaters> waters;
  Strengths strength;
};

/// Blowing and strength at `depth` [m]. Error: as evaluateBallast and depthCurve.
[[nodiscard]] Result<BallastAnswer> answerBallast(const Boat& boat, const Model& model, const Water& water,
                                                  double depth);

/// At `depth` [m]; the air that `report` says is squeezed presses from inside its cylinder.
[[nodiscard]] Strengths estimateStrengths(const Boat& boat, const Water& water, double depth,
                                          const BallastReport* report);

[[nodiscard]] const char* waterWords(NamedWater water);

/// Filling and emptying, one sentence each.
[[nodiscard]] std::vector<std::string> pumpSentences(const BallastReport& report,
                                                     const UnitSet& units = kMetricUnits);
[[nodiscard]] std::vector<std::string> depthSentences(const DepthCurve& curve,
                                                      const UnitSet& units = kMetricUnits);
/// The caution about pressure is the last.
[[nodiscard]] std::vector<std::string> strengthSentences(const Boat& boat, const Strengths& strengths,
                                                         double depth, const UnitSet& units = kMetricUnits);
/// All of the above; the caution about pressure is the last.
[[nodiscard]] std::vector<std::string> ballastSentences(const Boat& boat, const BallastAnswer& answer,
                                                        const UnitSet& units = kMetricUnits);

[[nodiscard]] std::string ballastJson(const Boat& boat, const BallastAnswer& answer);

}  // namespace pondtrim::file
