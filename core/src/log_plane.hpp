#pragma once
// What a reading says of the plane on which the boat lay.
#include <vector>

#include "log_filter.hpp"

namespace pondtrim {

/// One measured number as a function of the plane.
struct Fact {
  const char* field;
  Measured read;
  enum Kind { MarkLine, SailTop, Trim, Heel } kind;
  double x = 0;
};
[[nodiscard]] double factOn(const Fact& f, const Plane& plane, const Marks& marks);

[[nodiscard]] bool hung(const Reading& r);
/// Of a boat that hung there are no marks to read, and from two hooks no angles.
[[nodiscard]] std::vector<Fact> factsOf(const Reading& r, const Marks& marks);

/// How a fact answers to the plane's (depth at o, trim, heel).
[[nodiscard]] Eigen::Vector3d slopeOf(const Fact& f, const Plane& plane, const Vec3& o, const Marks& marks);

struct PlaneFit {
  Plane plane;
  Eigen::Matrix3d covariance;
};
/// Least squares for the plane from the facts, the prediction standing in for what was not read.
[[nodiscard]] PlaneFit fitPlane(const std::vector<Fact>& facts, const Plane& predicted, const Model& model);

/// Depth and both angles were read: then the prediction had no say, and need not be improved.
[[nodiscard]] bool readInFull(const PlaneFit& fit);

// What is not read is as good as unknown: half the boat's length in depth, half a radian in trim and heel.
constexpr double kUnreadAngle = 0.5;

}  // namespace pondtrim
