#pragma once
// What a dip would read, as a linear function of the unknowns near their mean.
#include "log_filter.hpp"

namespace pondtrim {

/// All are deviations from what is wanted: lines [m], angles [rad], net buoyancy on the wanted plane [kg].
enum OutputIndex : int { kBowLine, kSternLine, kHeel, kDivedNet, kDivedTrim, kDivedHeel, kOutputs };
using OutputVector = Eigen::Matrix<double, kOutputs, 1>;
using OutputMatrix = Eigen::Matrix<double, kOutputs, kOutputs>;

struct Outputs {
  OutputVector value = OutputVector::Zero();
  Eigen::Matrix<double, kOutputs, kUnknowns> rows = Eigen::Matrix<double, kOutputs, kUnknowns>::Zero();
  /// The same, but dived trim and heel as they would be with the net buoyancy put right, to first order: what
  /// a search for a change must go by. A boat far too light stands out of the water and holds her trim by her
  /// waterplane, which the right change takes away.
  OutputVector balanced = OutputVector::Zero();
  Eigen::Matrix<double, kOutputs, kUnknowns> balanced_rows =
      Eigen::Matrix<double, kOutputs, kUnknowns>::Zero();
  double sail_showing = 0.0;
  double mass_per_sail = 0.0;  ///< [kg/m] at the wanted plane
  double wanted_sail = 0.0;    ///< wantedSail of the boat as found
  /// GM with the tank empty, trim free, and what it owes to the unknowns [m].
  double gm = 0.0;
  Eigen::Matrix<double, 1, kUnknowns> gm_row = Eigen::Matrix<double, 1, kUnknowns>::Zero();
  /// The heel with a weight moved to one side: how that answers to the unknowns.
  Eigen::Matrix<double, 1, kUnknowns> inclined_row = Eigen::Matrix<double, 1, kUnknowns>::Zero();
  double reserve = 0.0;  ///< buoyancy left over with all under, were the net as wanted [kg]: less sinks
  bool sinks = false, dived_sinks = false;
};

/// `file`: the boat's model without correction. Error: as findEquilibrium.
[[nodiscard]] Result<Outputs> outputsOf(const Boat& boat, const Model& file, const Unknowns& mean);

/// What predict says, from outputs that are at hand.
[[nodiscard]] Outlook outlookFrom(const Outputs& outputs, const Boat& boat, const Estimate& estimate,
                                  const Tolerance& tolerance);

[[nodiscard]] OutputVector limitsOf(const Tolerance& tolerance);

/// The chances that all outputs lie within their limits, and those of one condition; dived she must float
/// too.
struct Chances {
  double both = 0.0, surfaced = 0.0, dived = 0.0;
};
[[nodiscard]] Chances chancesWithin(const Outputs& outputs, const OutputMatrix& covariance,
                                    const OutputVector& limits);

}  // namespace pondtrim
