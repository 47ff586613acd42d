#include "log_plane.hpp"

#include <cmath>
#include <glm/geometric.hpp>

#include "energy.hpp"

namespace pondtrim {

using Eigen::Matrix3d;
using Eigen::Vector3d;

double factOn(const Fact& f, const Plane& plane, const Marks& marks) {
  switch (f.kind) {
    case Fact::MarkLine:
      return marks.line_height - (plane.level - plane.up.x * f.x) / plane.up.z;
    case Fact::SailTop:
      return glm::dot(plane.up, marks.sail_top) - plane.level;
    case Fact::Trim:
      return Attitude::of(plane.up).trim;
    case Fact::Heel:
      return Attitude::of(plane.up).heel;
  }
  return 0;
}

bool hung(const Reading& r) { return r.pull || r.bow_pull; }

std::vector<Fact> factsOf(const Reading& r, const Marks& marks) {
  std::vector<Fact> out;
  if (r.bow_pull) return out;
  if (r.pull) {
    if (r.trim) out.push_back({"trim", *r.trim, Fact::Trim});
    if (r.heel) out.push_back({"heel", *r.heel, Fact::Heel});
    return out;
  }
  if (r.bow) out.push_back({"bow", *r.bow, Fact::MarkLine, marks.bow_x});
  if (r.stern) out.push_back({"stern", *r.stern, Fact::MarkLine, marks.stern_x});
  if (r.sail_showing) out.push_back({"sail_showing", *r.sail_showing, Fact::SailTop});
  if (r.trim) out.push_back({"trim", *r.trim, Fact::Trim});
  if (r.heel) out.push_back({"heel", *r.heel, Fact::Heel});
  return out;
}

namespace {

/// A plane near `from`, moved by (depth at o, trim, heel).
Plane moved(const Plane& from, const Vec3& o, const Vector3d& step) {
  const Tangent t = tangentAt(from.up);
  const Vec3 up = glm::normalize(from.up + t.trim * step(1) + t.heel * step(2));
  return {up, from.level - glm::dot(from.up, o) + step(0) + glm::dot(up, o)};
}

}  // namespace

Vector3d slopeOf(const Fact& f, const Plane& plane, const Vec3& o, const Marks& marks) {
  Vector3d slope;
  for (int k = 0; k < 3; ++k) {
    Vector3d h = Vector3d::Zero();
    h(k) = 1e-5;
    slope(k) = (factOn(f, moved(plane, o, h), marks) - factOn(f, moved(plane, o, -h), marks)) / 2e-5;
  }
  return slope;
}

PlaneFit fitPlane(const std::vector<Fact>& facts, const Plane& predicted, const Model& model) {
  const Vec3 o = correctionPoint(model.marks);
  const Vector3d wide(0.5 * model.length, kUnreadAngle, kUnreadAngle);
  const Matrix3d weak = wide.cwiseProduct(wide).cwiseInverse().asDiagonal();
  Plane plane = predicted;
  Vector3d away = Vector3d::Zero();
  Matrix3d normal = weak;
  for (int round = 0; round < 6; ++round) {
    normal = weak;
    Vector3d right = -weak * away;
    for (const Fact& f : facts) {
      const double now = factOn(f, plane, model.marks);
      const Vector3d slope = slopeOf(f, plane, o, model.marks);
      const double w = 1 / (f.read.spread * f.read.spread);
      normal += slope * slope.transpose() * w;
      right += slope * (w * (f.read.value - now));
    }
    const Vector3d step = normal.ldlt().solve(right);
    away += step;
    plane = moved(plane, o, step);
    if (step.cwiseAbs().maxCoeff() < 1e-10) break;
  }
  return {plane, normal.inverse()};
}

bool readInFull(const PlaneFit& fit) {
  return fit.covariance(0, 0) < 0.02 * 0.02 && fit.covariance(1, 1) < 0.1 * 0.1 &&
         fit.covariance(2, 2) < 0.1 * 0.1;
}

}  // namespace pondtrim
