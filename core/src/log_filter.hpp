#pragma once
// Linear algebra of the pond log: causes, balances and outputs as functions of the unknowns.
#include <Eigen/Dense>
#include <pondtrim/pond_log.hpp>

#include "energy.hpp"

namespace pondtrim {

using Unknowns = Eigen::Matrix<double, kUnknowns, 1>;
using UnknownCovariance = Eigen::Matrix<double, kUnknowns, kUnknowns>;
using BalanceRows = Eigen::Matrix<double, 3, kUnknowns>;

/// One independent cause, one standard deviation of it as a change of the unknowns.
struct Cause {
  CauseGuess::Kind kind;
  Unknowns effect = Unknowns::Zero();
  double spread = 0.0;  ///< the same standard deviation in the guess's own unit
};

/// Everything that may differ from the file, before the first dip.
[[nodiscard]] std::vector<Cause> priorCauses(const Boat& boat, const Model& model, double density,
                                             const Priors& priors);

/// What cutting, weighing and placing may have got wrong when the amounts of `from` became those of `to`.
[[nodiscard]] UnknownCovariance changeSpread(const Boat& boat, const std::vector<Installed>& from,
                                             const std::vector<Installed>& to, double density);

/// What an amount more of a part, or its slide along x, is felt as.
[[nodiscard]] Unknowns amountEffect(const Boat& boat, const Part& part, double amount, double density);
[[nodiscard]] Unknowns slideEffect(const Boat& boat, const Part& part, double along, double density);

[[nodiscard]] Unknowns meanOf(const Estimate& estimate);
[[nodiscard]] Correction asCorrection(const Unknowns& b);

/// The balance (gradient of the energy in depth [m], trim, heel about correctionPoint) on a given plane. It
/// is linear in the unknowns: value(b) = value + rows (b - b0) with b0 the unknowns installed in the model.
struct Balance {
  Eigen::Vector3d value;
  BalanceRows rows;
  Eigen::Matrix3d stiffness;
};
[[nodiscard]] Balance balanceOn(const Model& model, double density, double fill, bool full,
                                const Plane& plane);
/// Its rows alone, for which the boat need not be cut.
[[nodiscard]] BalanceRows balanceRows(const Model& model, double density, double fill, bool full,
                                      const Plane& plane);

/// What the unknowns cannot carry. They place more volume of a body either below the painted line or evenly
/// between line and deck; on a plane that cuts it elsewhere the balance is another. One standard deviation of
/// each cause gives the covariance of that difference; on the planes that are wanted it is next to nothing.
class Discrepancy {
 public:
  /// `model` must outlive it.
  Discrepancy(const Boat& boat, const Model& model, double density, const Priors& priors);
  [[nodiscard]] Eigen::Matrix3d on(const Plane& plane, const BalanceRows& rows) const;

 private:
  struct Body {
    const Displacer* displacer;
    CauseGuess::Kind kind;
    double fraction;
    Unknowns effect;
  };
  const Model& model_;
  double density_, air_ = 0;
  std::vector<Body> bodies_;
};

/// The boat with these amounts.
[[nodiscard]] Boat withInstalled(Boat boat, const std::vector<Installed>& installed);

}  // namespace pondtrim
