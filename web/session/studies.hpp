#pragma once
// Studies: what the core answers only when a panel asks for it (dive, righting lever, ballast system, depth,
// strength), worked out once for each boat.
#include <map>
#include <memory>
#include <optional>
#include <pondtrim/file/ballast_json.hpp>
#include <pondtrim/stability.hpp>
#include <vector>

namespace pondtrim {

struct SolvedBoat;

class Studies {
 public:
  Studies() = default;
  explicit Studies(std::shared_ptr<const SolvedBoat> about) : about_(std::move(about)) {}

  /// Error of each: as the core's function of that work.
  [[nodiscard]] const Result<DiveSweep>& sweep();
  /// The dive if it was asked for already, and could be answered.
  [[nodiscard]] std::optional<DiveSweep> knownSweep() const;
  /// What helps a dive that goes wrong somewhere: empty until `tryOneHelp` has tried all there is to try.
  [[nodiscard]] std::optional<std::vector<HelpTried>> knownHelps();
  /// Tries one change more, which takes one sweep.
  void tryOneHelp();
  /// Around the boat's aim for the sail.
  [[nodiscard]] const Result<std::optional<HoverAnswer>>& hover();

  /// At a share of the tank's capacity. The last few shares asked for are kept.
  [[nodiscard]] const Result<RightingCurve>& righting(double share);
  [[nodiscard]] bool hasRighting(double share) const { return righting_.count(share) > 0; }

  /// Emptying at `depth` [m]. The boat must have a ballast system.
  [[nodiscard]] const Result<BallastReport>& ballast(double depth);
  /// With the tank full, to `deepestFor(depth)`.
  [[nodiscard]] const Result<DepthCurve>& depthCurve(double depth);
  [[nodiscard]] const Result<std::array<WaterAnswer, kNamedWaters>>& waters(double depth);
  [[nodiscard]] const file::Strengths& strengths(double depth);
  /// Where the depth curve for a boat used at `depth` ends [m].
  [[nodiscard]] static double deepestFor(double depth);

 private:
  void forDepth(double depth);

  std::shared_ptr<const SolvedBoat> about_;
  std::optional<Result<DiveSweep>> sweep_;
  std::optional<HelpSearch> helps_;
  std::optional<Result<std::optional<HoverAnswer>>> hover_;
  std::map<double, Result<RightingCurve>> righting_;
  // These four for one depth.
  double depth_ = -1.0;
  std::optional<Result<BallastReport>> ballast_;
  std::optional<Result<DepthCurve>> depth_curve_;
  std::optional<Result<std::array<WaterAnswer, kNamedWaters>>> waters_;
  std::optional<file::Strengths> strengths_;
};

}  // namespace pondtrim
