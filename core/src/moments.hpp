#pragma once
// Small algebra of areas and volumes shared by all cuts.
#include <glm/geometric.hpp>
#include <pondtrim/hydrostatics.hpp>

namespace pondtrim {

/// s += k a a^T
inline void addOuter(Sym3& s, const Vec3& a, double k) {
  s.xx += k * a.x * a.x;
  s.yy += k * a.y * a.y;
  s.zz += k * a.z * a.z;
  s.xy += k * a.x * a.y;
  s.xz += k * a.x * a.z;
  s.yz += k * a.y * a.z;
}

/// s += k (a b^T + b a^T)
inline void addSymmetric(Sym3& s, const Vec3& a, const Vec3& b, double k) {
  s.xx += 2 * k * a.x * b.x;
  s.yy += 2 * k * a.y * b.y;
  s.zz += 2 * k * a.z * b.z;
  s.xy += k * (a.x * b.y + a.y * b.x);
  s.xz += k * (a.x * b.z + a.z * b.x);
  s.yz += k * (a.y * b.z + a.z * b.y);
}

/// s += k o
inline void addScaled(Sym3& s, const Sym3& o, double k) {
  s.xx += k * o.xx;
  s.yy += k * o.yy;
  s.zz += k * o.zz;
  s.xy += k * o.xy;
  s.xz += k * o.xz;
  s.yz += k * o.yz;
}

inline Vec3 times(const Sym3& s, const Vec3& v) {
  return {s.xx * v.x + s.xy * v.y + s.xz * v.z, s.xy * v.x + s.yy * v.y + s.yz * v.z,
          s.xz * v.x + s.yz * v.y + s.zz * v.z};
}

/// The cut of the same body moved by `shift` (its plane moves with it).
Cut shifted(const Cut& cut, const Vec3& shift);

/// Flat polygons in space as fans of triangles: area, integrals of p and p p^T.
struct FlatMoments {
  double area = 0;
  Vec3 first{0.0};
  Sym3 second;

  /// Triangle with these corners and the (signed) area `a`.
  void addTriangle(const Vec3& p0, const Vec3& p1, const Vec3& p2, double a) {
    const Vec3 sum = p0 + p1 + p2;
    area += a;
    first += sum * (a / 3);
    addOuter(second, p0, a / 12);
    addOuter(second, p1, a / 12);
    addOuter(second, p2, a / 12);
    addOuter(second, sum, a / 12);
  }
};

/// Gathers a closed solid's cut from its boundary triangles, one by one, by the divergence theorem with the
/// field -s u, which vanishes on the waterplane, so that the cap needs no triangles:
///   V = -sum int s (u.n) dA,  int s dV = -1/2 sum int s^2 (u.n) dA,
///   int p dV = -sum int s p (u.n) dA + u int s dV.
/// Triangles turn counter-clockwise seen from outside. Positions are relative to any origin near the body.
class SolidGatherer {
 public:
  explicit SolidGatherer(const Plane& plane) : u_(plane.up), c_(plane.level), foot_(plane.up * plane.level) {}

  [[nodiscard]] double depth(const Vec3& p) const { return c_ - glm::dot(u_, p); }

  /// Triangle with its corners' depths; `lift` is (u.n) times its area.
  void add(const Vec3& p0, const Vec3& p1, const Vec3& p2, double s0, double s1, double s2, double lift) {
    const int wet = int(s0 > 0) + int(s1 > 0) + int(s2 > 0);
    if (wet == 0) return;
    if (wet >= 2) addWhole(p0, p1, p2, s0, s1, s2, lift);
    if (wet == 3) return;
    const bool wet_tip = wet == 1;  // one corner is on its own side of the water: wet, or else dry
    if ((s0 > 0) == wet_tip) {
      addTip(p0, p1, p2, s0, s1, s2, lift, wet_tip);
    } else if ((s1 > 0) == wet_tip) {
      addTip(p1, p2, p0, s1, s2, s0, lift, wet_tip);
    } else {
      addTip(p2, p0, p1, s2, s0, s1, lift, wet_tip);
    }
  }
  /// Stored integrals of a wholly wet patch: of s (u.n), s^2 (u.n) and s p (u.n).
  void addWet(double flux, double flux_depth, const Vec3& flux_place) {
    volume_ -= flux;
    depth_ -= 0.5 * flux_depth;
    moment_ -= flux_place;
  }

  [[nodiscard]] Cut cut() const;

 private:
  void addWhole(const Vec3& p0, const Vec3& p1, const Vec3& p2, double s0, double s1, double s2,
                double lift) {
    const double sum = s0 + s1 + s2;
    volume_ -= lift * sum / 3;
    depth_ -= lift * (s0 * s0 + s1 * s1 + s2 * s2 + sum * sum) / 24;
    moment_ -= (p0 * (s0 + sum) + p1 * (s1 + sum) + p2 * (s2 + sum)) * (lift / 12);
  }
  /// The corner p0 alone on its side. A wet tip is added; a dry one is taken off the whole triangle, by the
  /// same formula, since its s0 is negative.
  void addTip(const Vec3& p0, const Vec3& p1, const Vec3& p2, double s0, double s1, double s2, double lift,
              bool wet) {
    const double t1 = s0 / (s0 - s1), t2 = s0 / (s0 - s2);
    const Vec3 a = p0 + (p1 - p0) * t1, b = p0 + (p2 - p0) * t2;
    const double k = (wet ? lift : -lift) * t1 * t2 * s0;
    volume_ -= k / 3;
    depth_ -= k * s0 / 12;
    moment_ -= (p0 * 2.0 + a + b) * (k / 12);
    if (wet) {
      addEdge(b, a);
    } else {
      addEdge(a, b);
    }
  }
  /// A piece of the waterline, counter-clockwise seen from above.
  void addEdge(const Vec3& from, const Vec3& to) {
    const Vec3 a = from - foot_, b = to - foot_;
    plane_.addTriangle(Vec3(0.0), a, b, 0.5 * glm::dot(u_, glm::cross(a, b)));
  }

  Vec3 u_;
  double c_;
  Vec3 foot_;  // the origin's foot on the plane: waterplane moments are gathered about it
  double volume_ = 0, depth_ = 0;
  Vec3 moment_{0.0};
  FlatMoments plane_;
};

}  // namespace pondtrim
