// Right circular cylinder with half-ellipsoid domes, cut at any attitude without facets.
//
// Notation. Local frame: x along the axis from the middle of the straight part, z the part of the vertical
// that is square to the axis, y level. The plane is lean x + rise z = level with lean^2 + rise^2 = 1 and, by
// turning the axis round, lean >= 0. At station x the section is a disc cut at z = r eta,
// eta = (level - lean x) / (rise r): full above 1, empty below -1.
//
// Straight part: mean values over the partly wet stretch of
//   a(eta) = pi/2 + asin eta + eta w   (area below eta of the unit disc)
//   w(eta) = sqrt(1 - eta^2)           (half chord),   w^3,
// and of their products with t = (eta - mid)/(hi - lo). Closed antiderivatives while hi - lo is not small;
// below that they cancel, and Gauss-Legendre in psi = acos eta (in which all integrands are entire) takes
// over.
//
// Domes: scaled to half a ball; the waterplane is a disc cut by the base line (closed form), and volume and
// moment are its integral over the level, Gauss-Legendre after a map that smooths its ends.
#include <algorithm>
#include <array>
#include <cmath>

#include "moments.hpp"

namespace pondtrim {

namespace {

/// Mean values over [lo, hi] of the functions above.
struct Means {
  double a = 0, at = 0, w = 0, wt = 0, wtt = 0, www = 0;
};

/// Antiderivatives of a, eta a, w, eta w, eta^2 w and w^3 at one eta.
struct Primitive {
  double a, ea, w, ew, eew, www;
};

Primitive primitive(double e) {
  const double w = std::sqrt(std::max(0.0, 1 - e * e));
  const double s = std::asin(e);
  const double eew = (s - e * w * (1 - 2 * e * e)) / 8;
  return {kPi / 2 * e + e * s + w - w * w * w / 3,
          kPi / 4 * e * e + (e * e / 2 - 0.25) * s + e * w / 4 + eew,
          (e * w + s) / 2,
          -w * w * w / 3,
          eew,
          (3 * s + e * w * (5 - 2 * e * e)) / 8};
}

Means meansClosed(double lo, double hi) {
  const Primitive p = primitive(lo), q = primitive(hi);
  const double d = hi - lo, m = (hi + lo) / 2;
  const double ia = q.a - p.a, iw = q.w - p.w, iew = q.ew - p.ew;
  Means out;
  out.a = ia / d;
  out.at = (q.ea - p.ea - m * ia) / (d * d);
  out.w = iw / d;
  out.wt = (iew - m * iw) / (d * d);
  out.wtt = (q.eew - p.eew - 2 * m * iew + m * m * iw) / (d * d * d);
  out.www = (q.www - p.www) / d;
  return out;
}

constexpr std::array<double, 3> kNode6{0.2386191860831969, 0.6612093864662645, 0.9324695142031521};
constexpr std::array<double, 3> kWeight6{0.4679139345726910, 0.3607615730481386, 0.1713244923791704};

Means meansGauss(double lo, double hi) {
  const double from = std::acos(hi), to = std::acos(lo);
  const double mid = (from + to) / 2, half = (to - from) / 2;
  const double sin_mid = std::sin(mid), cos_mid = std::cos(mid);
  Means out;
  if (sin_mid < 1e-12) {  // the plane touches the tube along a line
    out.a = mid < 1 ? kPi : 0.0;
    return out;
  }
  const bool spread = half > 1e-8;
  const double sin_half = std::sin(half);
  const double stretch = spread ? half / sin_half : 1.0;
  const double offset = cos_mid / sin_mid * 0.5 * std::tan(half / 2);
  for (unsigned i = 0; i < 6; ++i) {
    const double node = i < 3 ? kNode6[i] : -kNode6[i - 3];
    const double weight = i < 3 ? kWeight6[i] : kWeight6[i - 3];
    const double d = half * node;
    const double psi = mid + d, w = std::sin(psi), e = std::cos(psi);
    const double ratio = spread ? std::sin(d / 2) / sin_half : node / 2;
    const double t = offset - std::sin(mid + d / 2) * ratio / sin_mid;
    const double k = weight / 2 * stretch * w / sin_mid;
    const double a = kPi - psi + e * w;
    out.a += k * a;
    out.at += k * a * t;
    out.w += k * w;
    out.wt += k * w * t;
    out.wtt += k * w * t * t;
    out.www += k * w * w * w;
  }
  return out;
}

/// Below this spread of eta the closed form would lose more than ~1e-13 to cancellation (error ~ 1e-16 /
/// d^3).
constexpr double kCloseSpread = 0.1;

Means means(double lo, double hi) {
  return hi - lo < kCloseSpread ? meansGauss(lo, hi) : meansClosed(lo, hi);
}

struct LocalPlane {
  double lean, rise, level;
};

/// A cut in the local frame; everything odd in y vanishes.
struct LocalCut {
  double volume = 0, mx = 0, mz = 0;
  double area = 0, ax = 0, az = 0, axx = 0, ayy = 0, azz = 0, axz = 0;
};

/// Waterplane of the straight part: x = x0 + xt t, z = z0 + zt t, half chord r w, dA = k w dt.
void addTubePlane(LocalCut& cut, const Means& f, double r, double k, double x0, double xt, double z0,
                  double zt) {
  cut.area += k * f.w;
  cut.ax += k * (x0 * f.w + xt * f.wt);
  cut.az += k * (z0 * f.w + zt * f.wt);
  cut.axx += k * (x0 * x0 * f.w + 2 * x0 * xt * f.wt + xt * xt * f.wtt);
  cut.azz += k * (z0 * z0 * f.w + 2 * z0 * zt * f.wt + zt * zt * f.wtt);
  cut.axz += k * (x0 * z0 * f.w + (x0 * zt + z0 * xt) * f.wt + xt * zt * f.wtt);
  cut.ayy += k * r * r / 3 * f.www;
}

/// Straight part between x = -length/2 and +length/2.
void addTube(LocalCut& cut, double r, double length, const LocalPlane& plane) {
  const double rr = plane.rise * r, end = length / 2;
  const double eta_aft = (plane.level + plane.lean * end) / rr;
  const double eta_fore = (plane.level - plane.lean * end) / rr;
  if (eta_aft <= -1) return;
  double full_to = -end, wet_to = end;
  if (eta_fore >= 1) {
    full_to = end;
  } else if (eta_aft > 1) {
    full_to = std::clamp((plane.level - rr) / plane.lean, -end, end);
  }
  const double full = full_to + end;
  cut.volume += kPi * r * r * full;
  cut.mx += kPi * r * r * full * (full_to - end) / 2;
  if (eta_fore >= 1) return;
  if (eta_fore < -1) wet_to = std::clamp((plane.level + rr) / plane.lean, -end, end);

  const double hi = std::min(eta_aft, 1.0), lo = std::max(eta_fore, -1.0);
  const double spread = hi - lo, stretch = wet_to - full_to, middle = (wet_to + full_to) / 2;
  const Means f = means(lo, hi);
  const double v = r * r * stretch;
  cut.volume += v * f.a;
  cut.mx += v * (middle * f.a - stretch * f.at);
  cut.mz -= 2.0 / 3 * r * v * f.www;
  // dA = dx dy / rise; for a tube on end take dx / rise = r d(eta) / lean.
  const double per_rise = plane.rise > plane.lean ? stretch / plane.rise : r * spread / plane.lean;
  addTubePlane(cut, f, r, 2 * r * per_rise, middle, -stretch, r * (hi + lo) / 2, r * spread);
}

/// The part q >= q0 of a disc: area and moments in (q, y).
struct DiscPart {
  double area, q, qq, yy;
};
DiscPart discPart(double radius, double q0) {
  const double x = std::clamp(q0 / radius, -1.0, 1.0), r2 = radius * radius;
  const double w = std::sqrt(1 - x * x), angle = std::acos(x);
  return {r2 * (angle - x * w), 2.0 / 3 * r2 * radius * w * w * w,
          r2 * r2 / 4 * (angle + x * w * (1 - 2 * x * x)),
          r2 * r2 / 4 * (angle - x * w * (5 - 2 * x * x) / 3)};
}

constexpr std::array<double, 10> kNode20{
    0.0765265211334973, 0.2277858511416451, 0.3737060887154195, 0.5108670019508271, 0.6360536807265150,
    0.7463319064601508, 0.8391169718222188, 0.9122344282513259, 0.9639719272779138, 0.9931285991850949};
constexpr std::array<double, 10> kWeight20{
    0.1527533871307258, 0.1491729864726037, 0.1420961093183820, 0.1316886384491766, 0.1181945319615184,
    0.1019301198172404, 0.0832767415767048, 0.0626720483341091, 0.0406014298003869, 0.0176140071391521};

/// Half a ball of radius r, x >= 0, under the plane sin_b x + cos_b z = level with |level| < r.
struct BallPart {
  double volume = 0, mx = 0, mz = 0;
};

/// Whole discs between the levels r sin(from) and r sin(to).
void addDiscs(BallPart& part, double r, double from, double to, double sin_b, double cos_b) {
  const double c0 = r * std::sin(from), c1 = r * std::sin(to);
  const double m = kPi * (r * r * (c1 * c1 - c0 * c0) / 2 - (c1 * c1 * c1 * c1 - c0 * c0 * c0 * c0) / 4);
  part.volume += kPi * (r * r * (c1 - c0) - (c1 * c1 * c1 - c0 * c0 * c0) / 3);
  part.mx += m * sin_b;
  part.mz += m * cos_b;
}

BallPart halfBall(double r, double sin_b, double cos_b, double level) {
  const double top = std::asin(std::clamp(level / r, -1.0, 1.0));
  const double edge = std::atan2(cos_b, std::abs(sin_b));  // slices beyond +-edge miss the base
  BallPart out;
  if (sin_b > 0 && top > edge) addDiscs(out, r, edge, top, sin_b, cos_b);
  if (sin_b < 0) addDiscs(out, r, -kPi / 2, std::min(top, -edge), sin_b, cos_b);

  const double from = -edge, to = std::min(top, edge);
  if (to <= from) return out;
  const double mid = (from + to) / 2, half = (to - from) / 2;
  for (unsigned i = 0; i < 20; ++i) {
    const double node = i < 10 ? kNode20[i] : -kNode20[i - 10];
    const double angle = kPi / 2 * node;  // tau = mid + half sin(angle) smooths the 3/2 powers at the ends
    const double tau = mid + half * std::sin(angle);
    const double weight = (i < 10 ? kWeight20[i] : kWeight20[i - 10]) * kPi / 2 * half * std::cos(angle);
    const double c = r * std::sin(tau), radius = r * std::cos(tau);
    const DiscPart disc = discPart(radius, -c * sin_b / cos_b);
    const double dc = weight * radius;
    out.volume += dc * disc.area;
    out.mx += dc * (c * sin_b * disc.area + cos_b * disc.q);
    out.mz += dc * (c * cos_b * disc.area - sin_b * disc.q);
  }
  return out;
}

/// Waterplane of a dome: points level (sin_b, cos_b) + q (cos_b, -sin_b) of the ball with x >= 0.
void addDomePlane(LocalCut& cut, double k, double radius, double level, double sin_b, double cos_b,
                  double base, double squeeze) {
  const DiscPart disc = discPart(radius, -level * sin_b / cos_b);
  const double x0 = base + squeeze * level * sin_b, xq = squeeze * cos_b;
  const double z0 = level * cos_b, zq = -sin_b;
  cut.area += k * disc.area;
  cut.ax += k * (x0 * disc.area + xq * disc.q);
  cut.az += k * (z0 * disc.area + zq * disc.q);
  cut.axx += k * (x0 * x0 * disc.area + 2 * x0 * xq * disc.q + xq * xq * disc.qq);
  cut.azz += k * (z0 * z0 * disc.area + 2 * z0 * zq * disc.q + zq * zq * disc.qq);
  cut.axz += k * (x0 * z0 * disc.area + (x0 * zq + z0 * xq) * disc.q + xq * zq * disc.qq);
  cut.ayy += k * disc.yy;
}

/// Dome of height d on the end at x = base; `way` +1 when it points to +x.
void addDome(LocalCut& cut, double r, double d, double base, double way, const LocalPlane& plane) {
  if (d <= 0) return;
  const double squeeze = d / r;  // the ball is squeezed along the axis to make the dome
  const double lean = way * plane.lean * squeeze;
  const double norm = std::hypot(lean, plane.rise);
  const double level = (plane.level - plane.lean * base) / norm;
  const double sin_b = lean / norm, cos_b = plane.rise / norm;
  if (level >= (sin_b >= 0 ? r : r * cos_b)) {
    cut.volume += 2.0 / 3 * kPi * r * r * d;
    cut.mx += 2.0 / 3 * kPi * r * r * d * (base + way * 3.0 / 8 * d);
    return;
  }
  if (level <= (sin_b >= 0 ? -r * cos_b : -r)) return;
  const BallPart part = halfBall(r, sin_b, cos_b, level);
  cut.volume += squeeze * part.volume;
  cut.mx += squeeze * (base * part.volume + way * squeeze * part.mx);
  cut.mz += squeeze * part.mz;
  const double radius = std::sqrt((r - level) * (r + level));
  addDomePlane(cut, squeeze / norm, radius, level, sin_b, cos_b, base, way * squeeze);
}

/// From the local frame x (axis), y (level), z.
Cut toBoat(const LocalCut& l, const Vec3& x, const Vec3& y, const Vec3& z) {
  Cut out;
  out.volume = l.volume;
  out.moment = x * l.mx + z * l.mz;
  out.plane_area = l.area;
  out.plane_moment = x * l.ax + z * l.az;
  addOuter(out.plane_second, x, l.axx);
  addOuter(out.plane_second, y, l.ayy);
  addOuter(out.plane_second, z, l.azz);
  addSymmetric(out.plane_second, x, z, l.axz);
  return out;
}

}  // namespace

Cut cutCylinder(const CylinderSolid& solid, const Plane& plane) {
  double lean = glm::dot(plane.up, solid.axis);
  const double way = lean < 0 ? -1.0 : 1.0;
  const Vec3 x = solid.axis * way;
  lean *= way;
  Vec3 z = plane.up - x * lean;
  double rise = glm::length(z);
  if (rise > 1e-14) {
    z /= rise;
  } else {  // on end: any level direction will do; the tiny rise keeps the formulas finite
    z = glm::normalize(glm::cross(x, std::abs(x.x) < 0.9 ? Vec3(1, 0, 0) : Vec3(0, 1, 0)));
    rise = 1e-14;
  }
  const LocalPlane local{lean, rise, plane.level - glm::dot(plane.up, solid.centre)};
  const double end = solid.length / 2;
  LocalCut cut;
  if (solid.length > 0) addTube(cut, solid.radius, solid.length, local);
  addDome(cut, solid.radius, way > 0 ? solid.fore_dome : solid.aft_dome, end, 1.0, local);
  addDome(cut, solid.radius, way > 0 ? solid.aft_dome : solid.fore_dome, -end, -1.0, local);
  return shifted(toBoat(cut, x, glm::cross(z, x), z), solid.centre);
}

}  // namespace pondtrim
