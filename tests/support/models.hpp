#pragma once
// Models put together by hand, for bodies of any size and shape (buildModel keeps to boats of up to 10 m),
// and boats of a single part for those checks that must run through buildModel.
#include <pondtrim/model.hpp>
#include <pondtrim/report.hpp>

namespace pondtrim::test {

using Geometry = std::variant<CylinderSolid, StripSolid, CutMesh>;

/// Adds bodies and weights; `finish` sums them.
class ModelBuilder {
 public:
  explicit ModelBuilder(double length);
  ModelBuilder& body(Geometry geometry, double fill = 1.0);
  ModelBuilder& weight(double mass, const Vec3& position);
  /// A tank cell with its capacity as its geometry gives it.
  ModelBuilder& cell(const CylinderSolid& bore);
  ModelBuilder& marks(const Marks& marks);
  [[nodiscard]] Model finish() const;

 private:
  Model model_;
};

/// The sums of a model anew from its displacers, weights and cells.
void sumUp(Model& model);

/// Box from x = 0 to length, keel at z = 0, middle at y = 0.
StripSolid bargeBody(double length, double breadth, double depth);
/// A barge of that mass with its centre of gravity on the centreline, amidships, at `kg`.
Model barge(double length, double breadth, double depth, double mass, double kg);

/// A boat of one homogeneous solid part.
Boat boatOf(const Shape& shape, double density, double length);

/// The rest position; fails the test when there is none.
Equilibrium rest(const Model& model, const Condition& condition = {}, const Attitude& start = {});
Report reportOf(const Model& model, const Condition& condition = {});

double freshDensity();  ///< of Condition{}'s water [kg/m^3]
/// Sea water of that density [kg/m^3] at 15 degC, found by bisection on the salinity.
Water waterOfDensity(double density);

double degrees(double radians);
double radians(double degrees);

}  // namespace pondtrim::test
