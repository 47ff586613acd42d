// Meshes of the skin's forms.
#include "skin_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <pondtrim/model.hpp>

#include "spindle_section.hpp"

namespace pondtrim {

namespace {

/// How many facets span the curves.
struct Fineness {
  int around, nose_rings, tail_rings, middle_rings;
  int sail_around, sail_rings;
};
// Fine enough for 0.1 % of area: an inscribed 64-gon loses 0.04 % of its girth, and the rings are closest
// where the form bends most.
constexpr Fineness kFine{64, 24, 24, 8, 48, 4};
constexpr Fineness kHalfAsFine{32, 12, 12, 4, 24, 2};

std::uint32_t index(std::size_t i) { return std::uint32_t(i); }

void addTriangle(Mesh& mesh, std::size_t a, std::size_t b, std::size_t c) {
  mesh.triangles.insert(mesh.triangles.end(), {index(a), index(b), index(c)});
}

/// Joins two closed rings of `n` vertices that start at `from` and `to`, outward when the rings turn
/// counter-clockwise seen from the far end.
void joinRings(Mesh& mesh, std::size_t from, std::size_t to, int n) {
  for (int j = 0; j < n; ++j) {
    const auto a = from + std::size_t(j), b = from + std::size_t((j + 1) % n);
    const auto c = to + std::size_t(j), d = to + std::size_t((j + 1) % n);
    addTriangle(mesh, a, b, d);
    addTriangle(mesh, a, d, c);
  }
}

void closeRing(Mesh& mesh, std::size_t ring, int n, std::size_t tip, bool forward) {
  for (int j = 0; j < n; ++j) {
    const auto a = ring + std::size_t(j), b = ring + std::size_t((j + 1) % n);
    if (forward) {
      addTriangle(mesh, a, b, tip);
    } else {
      addTriangle(mesh, b, a, tip);
    }
  }
}

struct Ring {
  double x, scale, lift;
};

std::vector<Ring> spindleRings(const SpindleForm& f, const Fineness& fine) {
  std::vector<Ring> rings;
  // t = sin(angle) crowds the rings towards the tip, where the form is bluntest.
  for (int i = fine.tail_rings - 1; i >= 0; --i) {
    const double t = std::sin(kPi / 2 * i / fine.tail_rings);
    rings.push_back({f.tail_length * (1 - t), taper(t, f.tail_power, f.tail_root), f.tail_lift});
  }
  const double middle = f.length - f.tail_length - f.nose_length;
  if (middle > 0) {
    for (int i = 1; i <= fine.middle_rings; ++i)
      rings.push_back({f.tail_length + middle * i / fine.middle_rings, 1.0, 0.0});
  }
  for (int i = 1; i < fine.nose_rings; ++i) {
    const double t = std::sin(kPi / 2 * i / fine.nose_rings);
    rings.push_back({f.length - f.nose_length * (1 - t), taper(t, f.nose_power, f.nose_root), f.nose_lift});
  }
  return rings;
}

double signedPower(double v, double p) { return v < 0 ? -std::pow(-v, p) : std::pow(v, p); }

Mesh meshSpindle(const SpindleForm& f, const Fineness& fine) {
  Mesh mesh;
  const int around = fine.around;
  const double b = f.breadth / 2, h = f.height / 2, p = 2 / f.section_power;
  const std::vector<Ring> rings = spindleRings(f, fine);
  for (const Ring& r : rings) {
    for (int j = 0; j < around; ++j) {
      const double a = 2 * kPi * j / around;  // from port over the top to starboard
      mesh.vertices.emplace_back(r.x, b * r.scale * signedPower(std::cos(a), p),
                                 h * (r.scale * signedPower(std::sin(a), p) + r.lift * (1 - r.scale)));
    }
  }
  for (std::size_t i = 0; i + 1 < rings.size(); ++i)
    joinRings(mesh, i * std::size_t(around), (i + 1) * std::size_t(around), around);
  const std::size_t aft = mesh.vertices.size(), fore = aft + 1;
  mesh.vertices.emplace_back(0.0, 0.0, h * f.tail_lift);
  mesh.vertices.emplace_back(f.length, 0.0, h * f.nose_lift);
  closeRing(mesh, 0, around, aft, false);
  closeRing(mesh, (rings.size() - 1) * std::size_t(around), around, fore, true);
  return mesh;
}

Mesh meshSail(const SailForm& f, const Fineness& fine) {
  Mesh mesh;
  const int around = fine.sail_around;
  const auto count = std::size_t(fine.sail_rings), n = std::size_t(around);
  const double fore = f.shoulder * f.length, aft = f.length - fore;
  for (std::size_t i = 0; i <= count; ++i) {
    const double s = double(i) / double(count), scale = 1 + (f.top_scale - 1) * s;
    for (int j = 0; j < around; ++j) {
      const double a = 2 * kPi * j / around;
      const double along = std::cos(a) > 0 ? fore * std::cos(a) : aft * std::cos(a);
      const double centre = f.length / 2 - fore;  // of the broadest station, from the middle of the length
      mesh.vertices.emplace_back(scale * (centre + along) - f.rake * s, scale * f.breadth / 2 * std::sin(a),
                                 f.height * s);
    }
  }
  for (std::size_t i = 0; i < count; ++i) joinRings(mesh, i * n, (i + 1) * n, around);
  const std::size_t top = mesh.vertices.size();
  mesh.vertices.emplace_back(f.top_scale * (f.length / 2 - fore) - f.rake, 0.0, f.height);
  closeRing(mesh, count * n, around, top, true);
  return mesh;
}

Mesh meshForm(const SkinForm& form, const Fineness& fine) {
  struct Mesher {
    const Fineness& fine;
    Mesh operator()(const SpindleForm& f) const { return meshSpindle(f, fine); }
    Mesh operator()(const SailForm& f) const { return meshSail(f, fine); }
  };
  return std::visit(Mesher{fine}, form);
}

double areaOf(const Mesh& mesh) {
  double area = 0;
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
    const Vec3& a = mesh.vertices[mesh.triangles[i]];
    const Vec3& b = mesh.vertices[mesh.triangles[i + 1]];
    const Vec3& c = mesh.vertices[mesh.triangles[i + 2]];
    area += glm::length(glm::cross(b - a, c - a)) / 2;
  }
  return area;
}

}  // namespace

Mesh meshSkin(const Skin& skin) {
  Mesh mesh = meshForm(skin.form, kFine);
  for (Vec3& v : mesh.vertices) v += skin.position;
  return mesh;
}

double facetFactor(const Skin& skin) {
  // What facets lack falls with the square of their size (Richardson's extrapolation): a third of what
  // halving them brought is still missing.
  const double fine = areaOf(meshForm(skin.form, kFine)), coarse = areaOf(meshForm(skin.form, kHalfAsFine));
  return 1 + (fine - coarse) / (3 * fine);
}

}  // namespace pondtrim
