// Meshes of the skin's forms.
#include "skin_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <pondtrim/hull_mesh.hpp>
#include <pondtrim/model.hpp>

#include "fair_hull.hpp"
#include "hull_section.hpp"
#include "mesh_edges.hpp"

namespace pondtrim {

namespace {

/// How many facets span the curves.
struct Fineness {
  int around, nose_rings, tail_rings, middle_rings, cap_rings;
  int sail_around, sail_rings;
};
// Fine enough for 0.1 % of area: an inscribed 64-gon loses 0.04 % of its girth, and the rings are closest
// where the form bends most.
constexpr Fineness kFine{64, 24, 24, 8, 8, 48, 4};
constexpr Fineness kHalfAsFine{32, 12, 12, 4, 4, 24, 2};

std::uint32_t index(std::size_t i) { return std::uint32_t(i); }

void addTriangle(Mesh& mesh, std::size_t a, std::size_t b, std::size_t c) {
  mesh.triangles.insert(mesh.triangles.end(), {index(a), index(b), index(c)});
}

/// Rings of `count` vertices each, closed or (an arc) open.
struct Rings {
  std::size_t count;
  bool closed = true;
  [[nodiscard]] std::size_t sides() const { return closed ? count : count - 1; }
};

/// Joins the rings that start at vertices `from` and `to`, outward when they turn counter-clockwise seen from
/// the far end.
void joinRings(Mesh& mesh, std::size_t from, std::size_t to, const Rings& rings) {
  for (std::size_t j = 0; j < rings.sides(); ++j) {
    const std::size_t next = (j + 1) % rings.count;
    addTriangle(mesh, from + j, from + next, to + next);
    addTriangle(mesh, from + j, to + next, to + j);
  }
}

void closeRing(Mesh& mesh, std::size_t ring, const Rings& rings, const Vec3& tip, bool forward) {
  const std::size_t at = mesh.vertices.size();
  mesh.vertices.push_back(tip);
  for (std::size_t j = 0; j < rings.sides(); ++j) {
    const std::size_t a = ring + j, b = ring + (j + 1) % rings.count;
    if (forward) {
      addTriangle(mesh, a, b, at);
    } else {
      addTriangle(mesh, b, a, at);
    }
  }
}

/// Joins all rings of the mesh, which has nothing else yet, and closes its ends.
void joinUp(Mesh& mesh, const Rings& rings, const Vec3& aft, const Vec3& fore) {
  const std::size_t last = mesh.vertices.size() - rings.count;
  for (std::size_t at = 0; at < last; at += rings.count) joinRings(mesh, at, at + rings.count, rings);
  closeRing(mesh, 0, rings, aft, false);
  closeRing(mesh, last, rings, fore, true);
}

/// t = sin(angle) crowds the rings towards the tip (t = 1), where a form is bluntest.
double crowded(int i, int count) { return std::sin(kPi / 2 * i / count); }

struct Ring {
  double x, scale, lift;
};
/// How nose or tail narrows, see SpindleForm.
struct Taper {
  double power, root, lift;
};

/// Of a form with tail, middle and nose: spindle or casing.
template <class Form>
std::vector<Ring> taperedRings(const Form& f, const Taper& tail, const Taper& nose, const Fineness& fine) {
  std::vector<Ring> rings;
  for (int i = fine.tail_rings - 1; i >= 0; --i) {
    const double t = crowded(i, fine.tail_rings);
    rings.push_back({f.tail_length * (1 - t), taper(t, tail.power, tail.root), tail.lift});
  }
  const double middle = f.length - f.tail_length - f.nose_length;
  if (middle > 0) {
    for (int i = 1; i <= fine.middle_rings; ++i)
      rings.push_back({f.tail_length + middle * i / fine.middle_rings, 1.0, 0.0});
  }
  for (int i = 1; i < fine.nose_rings; ++i) {
    const double t = crowded(i, fine.nose_rings);
    rings.push_back({f.length - f.nose_length * (1 - t), taper(t, nose.power, nose.root), nose.lift});
  }
  return rings;
}

double signedPower(double v, double p) { return v < 0 ? -std::pow(-v, p) : std::pow(v, p); }

/// Half breadth, half height and power of the full section.
struct Section {
  double b, h, power;
};

/// The whole section, or its upper half: from port over the top to starboard.
void addRings(Mesh& mesh, const std::vector<Ring>& all, const Section& s, const Rings& rings) {
  const double p = 2 / s.power, arc = rings.closed ? 2 * kPi : kPi;
  for (const Ring& r : all) {
    for (std::size_t j = 0; j < rings.count; ++j) {
      const double a = arc * double(j) / double(rings.sides());
      mesh.vertices.emplace_back(r.x, s.b * r.scale * signedPower(std::cos(a), p),
                                 s.h * (r.scale * signedPower(std::sin(a), p) + r.lift * (1 - r.scale)));
    }
  }
}

Mesh meshOf(const SpindleForm& f, const Fineness& fine) {
  Mesh mesh;
  const Rings rings{std::size_t(fine.around)};
  const Section section{f.breadth / 2, f.height / 2, f.section_power};
  addRings(mesh,
           taperedRings(f, {f.tail_power, f.tail_root, f.tail_lift}, {f.nose_power, f.nose_root, f.nose_lift},
                        fine),
           section, rings);
  joinUp(mesh, rings, {0, 0, section.h * f.tail_lift}, {f.length, 0, section.h * f.nose_lift});
  return mesh;
}

Mesh meshOf(const CasingForm& f, const Fineness& fine) {
  Mesh mesh;
  const Rings rings{std::size_t(fine.around) / 2 + 1, false};
  addRings(mesh, taperedRings(f, {2, f.tail_root, 0}, {2, f.nose_root, 0}, fine),
           {f.breadth / 2, f.height, f.section_power}, rings);
  joinUp(mesh, rings, {0, 0, 0}, {f.length, 0, 0});
  return mesh;
}

/// A body of revolution with rings at these stations.
template <class Form>
Mesh revolved(const Form& f, const std::vector<double>& stations, double length, const Fineness& fine) {
  Mesh mesh;
  const Rings rings{std::size_t(fine.around)};
  std::vector<Ring> all;
  all.reserve(stations.size());
  for (const double x : stations) all.push_back({x, radiusAt(f, x), 0});
  addRings(mesh, all, {1, 1, 2}, rings);
  joinUp(mesh, rings, {0, 0, 0}, {length, 0, 0});
  return mesh;
}

Mesh meshOf(const SuboffForm& f, const Fineness& fine) {
  std::vector<double> x;
  const double cap = f.tail_length * kSuboffCapShare, run = f.tail_length - cap;
  for (int i = fine.cap_rings - 1; i > 0; --i) x.push_back(cap * (1 - crowded(i, fine.cap_rings)));
  for (int i = 0; i <= fine.tail_rings; ++i) x.push_back(cap + run * i / fine.tail_rings);
  if (f.length > f.nose_length + f.tail_length) x.push_back(f.length - f.nose_length);
  for (int i = 1; i < fine.nose_rings; ++i)
    x.push_back(f.length - f.nose_length * (1 - crowded(i, fine.nose_rings)));
  return revolved(f, x, f.length, fine);
}

/// The first ring at an end: 1 when the form comes to a point there, which closes the mesh, 0 at a flat disc.
int tipRing(double offset) { return offset > 0 ? 0 : 1; }

Mesh meshOf(const MyringForm& f, const Fineness& fine) {
  std::vector<double> x;
  const double tail = f.tail_length - f.tail_offset, shoulder = tail + f.middle_length;
  const double nose = f.nose_length - f.nose_offset;
  for (int i = tipRing(f.tail_offset); i <= fine.tail_rings; ++i) x.push_back(tail * i / fine.tail_rings);
  x.push_back(shoulder);
  for (int i = 1; i <= fine.nose_rings - tipRing(f.nose_offset); ++i)
    x.push_back(shoulder + nose * crowded(i, fine.nose_rings));
  return revolved(f, x, lengthOf(f), fine);
}

Mesh meshOf(const SailForm& f, const Fineness& fine) {
  Mesh mesh;
  const Rings rings{std::size_t(fine.sail_around)};
  const double fore = f.shoulder * f.length, aft = f.length - fore;
  for (int i = 0; i <= fine.sail_rings; ++i) {
    const double s = double(i) / fine.sail_rings, scale = 1 + (f.top_scale - 1) * s;
    for (std::size_t j = 0; j < rings.count; ++j) {
      const double a = 2 * kPi * double(j) / double(rings.count);
      const double along = std::cos(a) > 0 ? fore * std::cos(a) : aft * std::cos(a);
      const double centre = f.length / 2 - fore;  // of the broadest station, from the middle of the length
      mesh.vertices.emplace_back(scale * (centre + along) - f.rake * s, scale * f.breadth / 2 * std::sin(a),
                                 f.height * s);
    }
  }
  const std::size_t top = mesh.vertices.size() - rings.count;
  for (std::size_t at = 0; at < top; at += rings.count) joinRings(mesh, at, at + rings.count, rings);
  closeRing(mesh, top, rings, {f.top_scale * (f.length / 2 - fore) - f.rake, 0, f.height}, true);
  return mesh;
}

/// Rings of both sides, closer where the hull ends in a point.
Mesh meshOf(const OffsetsForm& f, const Fineness& fine) {
  Mesh mesh;
  const FairHull hull(f);
  const std::size_t side = std::size_t(fine.around) / 2 + 1, pieces = f.stations.size() - 1;
  const Rings rings{2 * side};
  // Even for the fine mesh, so that the coarse one has half as many.
  const std::size_t steps = std::max<std::size_t>(1, 24 / pieces) * std::size_t(fine.cap_rings) / 4;
  const auto addRing = [&](std::size_t piece, double q) {
    const std::vector<Vec3> port = hull.ring(piece, q, side);
    mesh.vertices.insert(mesh.vertices.end(), port.begin(), port.end());
    for (std::size_t j = side; j-- > 0;) mesh.vertices.push_back(port[j] * Vec3(1, -1, 1));
  };
  for (std::size_t i = 0; i < pieces; ++i)
    for (std::size_t k = 0; k < steps; ++k) addRing(i, double(k) / double(steps));
  addRing(pieces - 1, 1);
  const auto middle = [&](std::size_t ring) {
    return (mesh.vertices[ring] + mesh.vertices[ring + side - 1]) * Vec3(0.5, 0, 0.5);
  };
  joinUp(mesh, rings, middle(0), middle(mesh.vertices.size() - rings.count));
  return weldMesh(mesh, 1e-9)
      .mesh;  // rings that meet the centreline or end in a point have many vertices there
}

Mesh meshOf(const PlateForm& f, const Fineness&) {
  Mesh mesh;
  const Vec3 tip(-f.rake, f.span * std::cos(f.slant), f.span * std::sin(f.slant));
  const Vec3 root_half(f.length / 2, 0, 0), tip_half(f.tip_length / 2, 0, 0);
  mesh.vertices = {-root_half, root_half, tip + tip_half, tip - tip_half};
  mesh.triangles = {0, 1, 2, 0, 2, 3};
  return mesh;
}

Mesh meshOf(const MeshForm& f, const Fineness&) { return unpackMesh(f); }

Mesh meshForm(const SkinForm& form, const Fineness& fine) {
  return std::visit([&](const auto& f) { return meshOf(f, fine); }, form);
}

void addMirrorImage(Mesh& mesh) {
  const std::size_t count = mesh.vertices.size(), corners = mesh.triangles.size();
  for (std::size_t i = 0; i < count; ++i) mesh.vertices.push_back(mesh.vertices[i] * Vec3(1, -1, 1));
  for (std::size_t i = 0; i < corners; i += 3)
    addTriangle(mesh, count + mesh.triangles[i], count + mesh.triangles[i + 2],
                count + mesh.triangles[i + 1]);
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

/// By tetrahedra from the origin.
double volumeOf(const Mesh& mesh) {
  double volume = 0;
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3)
    volume += glm::dot(mesh.vertices[mesh.triangles[i]], glm::cross(mesh.vertices[mesh.triangles[i + 1]],
                                                                    mesh.vertices[mesh.triangles[i + 2]])) /
              6;
  return volume;
}

/// Edges that one triangle alone has, as it turns.
std::vector<std::pair<std::uint32_t, std::uint32_t>> openEdges(const Mesh& mesh) {
  std::vector<std::pair<std::uint32_t, std::uint32_t>> out;
  forEachEdge(mesh, [&](std::span<const std::uint32_t> halves) {
    if (halves.size() == 1) out.emplace_back(mesh.triangles[halves[0]], endOf(mesh, halves[0]));
  });
  return out;
}

}  // namespace

Mesh meshSkin(const Skin& skin) {
  Mesh mesh = meshForm(skin.form, kFine);
  for (Vec3& v : mesh.vertices) v += skin.position;
  const auto* plate = std::get_if<PlateForm>(&skin.form);
  if (plate != nullptr && plate->mirrored) addMirrorImage(mesh);
  return mesh;
}

// What facets lack falls with the square of their size (Richardson's extrapolation): a third of what halving
// them brought is still missing.

double facetFactor(const Skin& skin) {
  const double fine = areaOf(meshForm(skin.form, kFine)), coarse = areaOf(meshForm(skin.form, kHalfAsFine));
  return 1 + (fine - coarse) / (3 * fine);
}

double enclosedVolume(const Skin& skin) {
  if (std::holds_alternative<PlateForm>(skin.form) || isSolid(skin.form)) return 0;
  const auto volume = [&](const Fineness& fineness) {
    Mesh mesh = meshForm(skin.form, fineness);
    return volumeOf(openBelow(skin.form) ? closedMesh(std::move(mesh)) : mesh);
  };
  const double fine = volume(kFine);
  return fine + (fine - volume(kHalfAsFine)) / 3;
}

bool openBelow(const SkinForm& form) {
  if (const auto* drawn = std::get_if<MeshForm>(&form)) return drawn->mesh && !drawn->mesh->closed();
  return std::holds_alternative<SailForm>(form) || std::holds_alternative<CasingForm>(form);
}

std::vector<Vec3> openEdge(const Mesh& mesh) {
  std::vector<Vec3> out;
  for (const auto& [a, b] : openEdges(mesh)) out.insert(out.end(), {mesh.vertices[a], mesh.vertices[b]});
  return out;
}

Mesh closedMesh(Mesh mesh) {
  const auto edges = openEdges(mesh);
  if (edges.empty()) return mesh;
  Vec3 middle(0.0);
  for (const auto& [a, b] : edges) middle += mesh.vertices[a] / double(edges.size());
  const std::size_t at = mesh.vertices.size();
  mesh.vertices.push_back(middle);
  for (const auto& [a, b] : edges) addTriangle(mesh, b, a, at);
  return mesh;
}

}  // namespace pondtrim
