#include "support/compare.hpp"

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>
#include <sstream>

namespace pondtrim::test {
namespace {

double largest(const Vec3& v) { return std::max({std::abs(v.x), std::abs(v.y), std::abs(v.z)}); }

Mat3 full(const Sym3& s) {
  return Mat3{Vec3{s.xx, s.xy, s.xz}, Vec3{s.xy, s.yy, s.yz}, Vec3{s.xz, s.yz, s.zz}};
}
Sym3 packed(const Mat3& m) { return {m[0][0], m[1][1], m[2][2], m[0][1], m[0][2], m[1][2]}; }

double difference(const Sym3& a, const Sym3& b) {
  const Mat3 d = full(a) - full(b);
  return std::max({largest(d[0]), largest(d[1]), largest(d[2])});
}

// std::max drops a NaN when it stands second; a NaN must never pass for agreement.
double worst(std::initializer_list<double> values) {
  double result = 0.0;
  for (double v : values) {
    if (!(v <= result)) result = v;
    if (std::isnan(v)) return v;
  }
  return result;
}

}  // namespace

double volumeDifference(const Cut& cut, const Cut& reference, const CutScale& scale) {
  return worst({std::abs(cut.volume - reference.volume) / scale.volume,
                largest(cut.moment - reference.moment) / (scale.volume * scale.length)});
}

double cutDifference(const Cut& cut, const Cut& reference, const CutScale& scale) {
  const double area = std::max(std::abs(reference.plane_area), scale.volume / scale.length);
  return worst({volumeDifference(cut, reference, scale),
                std::abs(cut.plane_area - reference.plane_area) / area,
                largest(cut.plane_moment - reference.plane_moment) / (area * scale.length),
                difference(cut.plane_second, reference.plane_second) / (area * scale.length * scale.length)});
}

std::string describe(const Cut& c) {
  std::ostringstream out;
  out.precision(17);
  out << "volume " << c.volume << " moment (" << c.moment.x << ", " << c.moment.y << ", " << c.moment.z
      << ") area " << c.plane_area << " plane moment (" << c.plane_moment.x << ", " << c.plane_moment.y
      << ", " << c.plane_moment.z << ") second xx " << c.plane_second.xx << " yy " << c.plane_second.yy
      << " zz " << c.plane_second.zz << " xy " << c.plane_second.xy << " xz " << c.plane_second.xz << " yz "
      << c.plane_second.yz;
  return out.str();
}

std::string describe(const Plane& p) {
  std::ostringstream out;
  out.precision(17);
  out << "up (" << p.up.x << ", " << p.up.y << ", " << p.up.z << ") level " << p.level;
  return out.str();
}

bool isFinite(const Cut& c) {
  double sum = c.volume + c.plane_area;
  for (int i = 0; i < 3; ++i) sum += c.moment[i] + c.plane_moment[i];
  const Sym3& s = c.plane_second;
  return std::isfinite(sum + s.xx + s.yy + s.zz + s.xy + s.xz + s.yz);
}

Mat3 rotation(const Vec3& k, double angle) {
  // Rodrigues: R v = v cos + (k x v) sin + k (k.v)(1 - cos), column by column.
  const double c = std::cos(angle), s = std::sin(angle);
  Mat3 r;
  for (int i = 0; i < 3; ++i) {
    Vec3 e{0.0};
    e[i] = 1.0;
    r[i] = e * c + glm::cross(k, e) * s + k * (glm::dot(k, e) * (1.0 - c));
  }
  return r;
}

Mat3 rotationFromX(const Vec3& d) {
  const Vec3 helper = std::abs(d.z) < 0.9 ? Vec3{0.0, 0.0, 1.0} : Vec3{0.0, 1.0, 0.0};
  const Vec3 y = glm::normalize(glm::cross(helper, d));
  return Mat3{d, y, glm::cross(d, y)};
}

Plane moved(const Plane& p, const Mat3& r, const Vec3& shift) {
  const Vec3 up = r * p.up;
  return {up, p.level + glm::dot(up, shift)};
}

Cut moved(const Cut& c, const Mat3& r, const Vec3& t) {
  Cut m = c;
  m.moment = r * c.moment + c.volume * t;
  const Vec3 a = r * c.plane_moment;
  m.plane_moment = a + c.plane_area * t;
  const Mat3 second = r * full(c.plane_second) * glm::transpose(r) + glm::outerProduct(a, t) +
                      glm::outerProduct(t, a) + c.plane_area * glm::outerProduct(t, t);
  m.plane_second = packed(second);
  return m;
}

Vec3 centroid(const Cut& cut) { return cut.moment / cut.volume; }

Sym3 outer(const Vec3& a, double k) { return packed(k * glm::outerProduct(a, a)); }
Sym3 plus(const Sym3& a, const Sym3& b) { return packed(full(a) + full(b)); }
double product(const Sym3& s, const Vec3& a, const Vec3& b) { return glm::dot(a, full(s) * b); }

Sym3 centralSecond(const Cut& cut) {
  return plus(cut.plane_second, outer(cut.plane_moment, -1.0 / cut.plane_area));
}

}  // namespace pondtrim::test
