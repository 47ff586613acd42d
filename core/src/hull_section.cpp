#include "hull_section.hpp"

#include <algorithm>
#include <cmath>
#include <pondtrim/hull_mesh.hpp>

namespace pondtrim {

namespace {

// Of SUBOFF at model scale [ft], Groves, Huang and Chang 1989, Table 1: where bow, middle body, afterbody and
// cap end, from the nose. The table rounds them to six decimals.
constexpr double kBow = 10.0 / 3, kMiddle = 511.0 / 48, kAfterbody = 671.0 / 48, kWhole = 343.0 / 24;

double root(double value, double exponent) { return value > 0 ? std::pow(value, exponent) : 0; }

/// Shares of the greatest radius at `x` from the nose.
double suboffBow(double x) {
  const double k = 0.3 * x - 1, k3 = k * k * k, k4 = k3 * k;
  return root(1.126395101 * x * k4 + 0.442874707 * x * x * k3 + 1 - k4 * (1.2 * x + 1), 1 / 2.1);
}

double suboffTail(double x) {
  constexpr double h = 0.1175, h2 = h * h, k0 = 10, k1 = 44.6244;
  if (x > kAfterbody) {
    const double c = 3.2 * (x - kAfterbody);
    return h * root(1 - c * c, 0.5);
  }
  const double t = (kAfterbody - x) / kBow;
  const double p = (-10 + 10 * h2 + h * k0 + k1 / 3) * t + (36 - 36 * h2 - 4 * h * k0 - k1);
  const double q = (p * t - 45 + 45 * h2 + 6 * h * k0 + k1) * t + (20 - 20 * h2 - 4 * h * k0 - k1 / 3);
  return root(h2 + (h * k0 + q * t) * t * t, 0.5);
}

/// A superellipse about z = `middle`.
struct Section {
  double half_breadth = 0, half_height = 0, middle = 0, power = 2;
};

Section sectionAt(const SpindleForm& f, double x) {
  if (x <= 0 || x >= f.length) return {};
  double scale = 1, lift = 0;
  if (x < f.tail_length) {
    scale = taper(1 - x / f.tail_length, f.tail_power, f.tail_root);
    lift = f.tail_lift;
  } else if (x > f.length - f.nose_length) {
    scale = taper(1 - (f.length - x) / f.nose_length, f.nose_power, f.nose_root);
    lift = f.nose_lift;
  }
  return {f.breadth / 2 * scale, f.height / 2 * scale, lift * (1 - scale) * f.height / 2, f.section_power};
}

template <class Form>
Section roundSection(const Form& f, double x) {
  const double r = radiusAt(f, x);
  return {r, r, 0, 2};
}

Section sectionAt(const SkinForm& form, double x) {
  if (const auto* f = std::get_if<SpindleForm>(&form)) return sectionAt(*f, x);
  if (const auto* f = std::get_if<SuboffForm>(&form)) return roundSection(*f, x);
  if (const auto* f = std::get_if<MyringForm>(&form)) return roundSection(*f, x);
  return {};
}

}  // namespace

double taper(double t, double power, double root) {
  return std::pow(std::max(0.0, 1 - std::pow(t, power)), 1 / root);
}

double radiusAt(const SuboffForm& f, double x) {
  if (x < 0 || x > f.length) return 0;
  const double from_nose = f.length - x;
  if (x < f.tail_length) return f.diameter / 2 * suboffTail(kWhole - (kWhole - kMiddle) * x / f.tail_length);
  if (from_nose < f.nose_length) return f.diameter / 2 * suboffBow(kBow * from_nose / f.nose_length);
  return f.diameter / 2;
}

double lengthOf(const MyringForm& f) {
  return f.nose_length - f.nose_offset + f.middle_length + f.tail_length - f.tail_offset;
}

double radiusAt(const MyringForm& f, double x) {
  const double length = lengthOf(f), radius = f.diameter / 2;
  if (x < 0 || x > length) return 0;
  const double beyond = f.tail_length - f.tail_offset - x;  // the tail's shoulder
  if (beyond > 0) {
    // Prestero 2001 (SM thesis, MIT/WHOI), eq. 2.2, has the distance from the tip in the square by mistake.
    const double t = beyond / f.tail_length, slope = f.tail_length * std::tan(f.tail_angle);
    return std::max(0.0, radius - (1.5 * f.diameter - slope) * t * t + (f.diameter - slope) * t * t * t);
  }
  const double t = 1 - (length - x + f.nose_offset) / f.nose_length;
  return t > 0 ? radius * taper(t, 2, f.nose_power) : radius;
}

HullSections::HullSections(const SkinForm& form) : form_(form) {
  if (const auto* f = std::get_if<OffsetsForm>(&form)) fair_.emplace(*f);
  if (const auto* f = std::get_if<MeshForm>(&form)) mesh_ = unpackMesh(*f);
}

std::vector<Vec3> HullSections::outline(double x) const {
  if (fair_) return fair_->section(x);
  if (mesh_) return meshOutline(x);
  constexpr int kPoints = 97;
  const Section s = sectionAt(form_, x);
  std::vector<Vec3> out;
  if (s.half_height <= 0) return out;
  for (int i = 0; i < kPoints; ++i) {
    const double a = kPi * i / (kPoints - 1);  // from the keel over port to the deck
    const double y = std::pow(std::max(0.0, std::sin(a)), 2 / s.power);
    const double z = std::pow(std::abs(std::cos(a)), 2 / s.power);
    out.emplace_back(x, s.half_breadth * y, s.middle + (2 * i < kPoints - 1 ? -z : z) * s.half_height);
  }
  return out;
}

std::vector<Vec3> HullSections::meshOutline(double x) const {
  if (x == last_x_) return last_;
  last_x_ = x;
  last_.clear();
  struct Chord {
    double y0, z0, y1, z1;
  };
  std::vector<Chord> chords;
  double low = 1e300, high = -1e300;
  for (std::size_t i = 0; i + 2 < mesh_->triangles.size(); i += 3) {
    double y[2], z[2];
    int found = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec3& a = mesh_->vertices[mesh_->triangles[i + k]];
      const Vec3& b = mesh_->vertices[mesh_->triangles[i + (k + 1) % 3]];
      if ((a.x < x) == (b.x < x) || found == 2) continue;
      const Vec3 p = a + (b - a) * ((x - a.x) / (b.x - a.x));
      y[found] = p.y;
      z[found++] = p.z;
      low = std::min(low, p.z);
      high = std::max(high, p.z);
    }
    if (found == 2) chords.push_back({y[0], z[0], y[1], z[1]});
  }
  if (high <= low) return last_;
  constexpr int kPoints = 97;
  const double step = (high - low) / (kPoints - 1);
  for (int k = 0; k < kPoints; ++k) last_.emplace_back(x, 0, low + step * k);
  for (const Chord& c : chords) {
    const double from = (std::min(c.z0, c.z1) - low) / step, to = (std::max(c.z0, c.z1) - low) / step;
    for (int k = std::max(0, int(std::ceil(from - 1e-9))); k < kPoints && k <= to + 1e-9; ++k) {
      const double share =
          c.z1 == c.z0 ? 0 : std::clamp((last_[std::size_t(k)].z - c.z0) / (c.z1 - c.z0), 0.0, 1.0);
      double& y = last_[std::size_t(k)].y;
      y = std::max(y, std::abs(c.y0 + share * (c.y1 - c.y0)));
      if (c.z1 == c.z0) y = std::max(y, std::abs(c.y1));  // a level one: bottom or deck
    }
  }
  return last_;
}

double HullSections::halfBreadth(double x, double z) const {
  if (fair_) return breadthAt(fair_->section(x), z);
  if (mesh_) return breadthAt(meshOutline(x), z);
  const Section s = sectionAt(form_, x);
  if (s.half_height <= 0) return 0;
  const double height = std::abs(z - s.middle) / s.half_height;
  return height >= 1 ? 0 : s.half_breadth * std::pow(1 - std::pow(height, s.power), 1 / s.power);
}

}  // namespace pondtrim
