#pragma once
// How far two cuts are apart, as one number, and rotations to carry bodies and planes to any attitude.
#include <pondtrim/hydrostatics.hpp>
#include <string>

namespace pondtrim::test {

/// The size of a body: what a difference is measured against.
struct CutScale {
  double volume = 1.0;  ///< of the whole body [m^3]
  double length = 1.0;  ///< farthest point from the origin [m]
};

/// The greatest of the differences in volume, moment, area and area moments, each over what it is measured
/// against: volume, volume x length, the reference's area (at least volume / length), area x length...
double cutDifference(const Cut& cut, const Cut& reference, const CutScale& scale);
/// Volume and moment only: where the plane lies in a face, the waterplane is a matter of taste.
double volumeDifference(const Cut& cut, const Cut& reference, const CutScale& scale);

std::string describe(const Cut& cut);
std::string describe(const Plane& plane);
bool isFinite(const Cut& cut);

/// Turned about `axis` (unit) by `angle` [rad], right-handed.
Mat3 rotation(const Vec3& axis, double angle);
/// Some rotation that carries x to `direction` (unit).
Mat3 rotationFromX(const Vec3& direction);

/// The cut of the body after turning it by `r` and then moving it by `shift`.
Cut moved(const Cut& cut, const Mat3& r, const Vec3& shift);
/// The plane carried along with it.
Plane moved(const Plane& plane, const Mat3& r, const Vec3& shift);

Vec3 centroid(const Cut& cut);
Sym3 outer(const Vec3& a, double k);
Sym3 plus(const Sym3& a, const Sym3& b);
/// a^T S b.
double product(const Sym3& s, const Vec3& a, const Vec3& b);
/// Second moments of the waterplane about its own centroid.
Sym3 centralSecond(const Cut& cut);

}  // namespace pondtrim::test
