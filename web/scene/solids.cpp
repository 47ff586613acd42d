#include "scene/solids.hpp"

#include <array>
#include <cmath>
#include <glm/geometric.hpp>

namespace pondtrim {
namespace {

constexpr int kSides = 40;  // of a drawn circle
constexpr int kRings = 8;   // of a drawn dome

using Corners = std::array<Vec3, 8>;  // index bits: 1 fore, 2 port, 4 up

void addTriangle(std::vector<Vertex>& out, const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& na,
                 const Vec3& nb, const Vec3& nc, Colour colour) {
  out.push_back({glm::vec3(a), glm::vec3(na), colour});
  out.push_back({glm::vec3(b), glm::vec3(nb), colour});
  out.push_back({glm::vec3(c), glm::vec3(nc), colour});
}

void addFlatQuad(std::vector<Vertex>& out, const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d,
                 Colour colour) {
  const Vec3 cross = glm::cross(c - a, d - b);
  const double size = glm::length(cross);
  if (size <= 0) return;
  const Vec3 n = cross / size;
  addTriangle(out, a, b, c, n, n, n, colour);
  addTriangle(out, a, c, d, n, n, n, colour);
}

void addHexahedron(std::vector<Vertex>& out, const Corners& k, Colour colour) {
  addFlatQuad(out, k[0], k[4], k[6], k[2], colour);  // aft
  addFlatQuad(out, k[1], k[3], k[7], k[5], colour);  // fore
  addFlatQuad(out, k[0], k[1], k[5], k[4], colour);  // starboard
  addFlatQuad(out, k[2], k[6], k[7], k[3], colour);  // port
  addFlatQuad(out, k[0], k[2], k[3], k[1], colour);  // bottom
  addFlatQuad(out, k[4], k[5], k[7], k[6], colour);  // top
}

/// Two unit vectors that make a right-handed frame with `axis`.
std::pair<Vec3, Vec3> across(const Vec3& axis) {
  const Vec3 helper = std::abs(axis.z) < 0.9 ? Vec3(0, 0, 1) : Vec3(1, 0, 0);
  const Vec3 e1 = glm::normalize(glm::cross(helper, axis));
  return {e1, glm::cross(axis, e1)};
}

/// One profile point of a turned body: along its axis, off its axis, and the outward normal there.
struct Station {
  double along, radius, normal_along, normal_out;
};

std::vector<Station> cylinderProfile(const CylinderSolid& c) {
  std::vector<Station> profile;
  const double half = c.length / 2;
  const auto dome = [&](double height, double sign, bool towards_tip) {
    for (int i = 0; i <= kRings; ++i) {
      const double t = kPi / 2 * (towards_tip ? i : kRings - i) / kRings;
      const Vec3 n = glm::normalize(Vec3(std::sin(t) / height, std::cos(t) / c.radius, 0));
      profile.push_back({sign * (half + height * std::sin(t)), c.radius * std::cos(t), sign * n.x, n.y});
    }
  };
  const auto flat = [&](double sign, bool towards_axis) {
    const Station centre{sign * half, 0, sign, 0}, edge{sign * half, c.radius, sign, 0};
    profile.push_back(towards_axis ? edge : centre);
    profile.push_back(towards_axis ? centre : edge);
  };
  c.aft_dome > 0 ? dome(c.aft_dome, -1, false) : flat(-1, false);
  profile.push_back({-half, c.radius, 0, 1});
  profile.push_back({half, c.radius, 0, 1});
  c.fore_dome > 0 ? dome(c.fore_dome, 1, true) : flat(1, true);
  return profile;
}

struct Polygon {
  std::vector<Vec3> corners;
};

/// Keeps what lies under the plane; the crossing points go to `edge` (two for a polygon that is cut).
Polygon clipBelow(const Polygon& in, const Plane& plane, std::vector<Vec3>& edge) {
  Polygon kept;
  const std::size_t n = in.corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec3& a = in.corners[i];
    const Vec3& b = in.corners[(i + 1) % n];
    const double da = plane.level - glm::dot(plane.up, a), db = plane.level - glm::dot(plane.up, b);
    if (da >= 0) kept.corners.push_back(a);
    if ((da >= 0) != (db >= 0)) {
      const Vec3 crossing = a + (b - a) * (da / (da - db));
      kept.corners.push_back(crossing);
      edge.push_back(crossing);
    }
  }
  return kept;
}

void addPolygon(std::vector<Vertex>& out, const Polygon& polygon, const Vec3& normal, Colour colour) {
  for (std::size_t i = 2; i < polygon.corners.size(); ++i)
    addTriangle(out, polygon.corners[0], polygon.corners[i - 1], polygon.corners[i], normal, normal, normal,
                colour);
}

}  // namespace

void addBox(std::vector<Vertex>& out, const Vec3& centre, const Vec3& size, Colour colour) {
  Corners corners;
  for (unsigned i = 0; i < 8; ++i)
    corners[i] = centre + 0.5 * size * Vec3(i & 1 ? 1 : -1, i & 2 ? 1 : -1, i & 4 ? 1 : -1);
  addHexahedron(out, corners, colour);
}

void addStrip(std::vector<Vertex>& out, const StripSolid& s, Colour colour) {
  Corners corners;
  for (unsigned i = 0; i < 8; ++i) {
    const bool fore = i & 1;
    corners[i] = s.centre + Vec3(fore ? s.length / 2 : -s.length / 2,
                                 (i & 2 ? 1 : -1) * (fore ? s.fore_half_breadth : s.aft_half_breadth),
                                 (i & 4 ? 1 : -1) * (fore ? s.fore_half_height : s.aft_half_height));
  }
  addHexahedron(out, corners, colour);
}

void addCylinder(std::vector<Vertex>& out, const CylinderSolid& c, Colour colour) {
  const auto [e1, e2] = across(c.axis);
  const std::vector<Station> profile = cylinderProfile(c);
  for (std::size_t i = 0; i + 1 < profile.size(); ++i) {
    const Station &a = profile[i], &b = profile[i + 1];
    for (int k = 0; k < kSides; ++k) {
      const double t0 = 2 * kPi * k / kSides, t1 = 2 * kPi * (k + 1) / kSides;
      const Vec3 r0 = std::cos(t0) * e1 + std::sin(t0) * e2, r1 = std::cos(t1) * e1 + std::sin(t1) * e2;
      const auto point = [&](const Station& s, const Vec3& r) {
        return c.centre + s.along * c.axis + s.radius * r;
      };
      const auto normal = [&](const Station& s, const Vec3& r) {
        return s.normal_along * c.axis + s.normal_out * r;
      };
      addTriangle(out, point(a, r0), point(b, r1), point(b, r0), normal(a, r0), normal(b, r1), normal(b, r0),
                  colour);
      addTriangle(out, point(a, r0), point(a, r1), point(b, r1), normal(a, r0), normal(a, r1), normal(b, r1),
                  colour);
    }
  }
}

void addPlates(std::vector<Vertex>& out, const Mesh& mesh, double thickness, Colour colour) {
  for (std::size_t i = 0; i + 3 < mesh.vertices.size(); i += 4) {
    const Vec3* k = &mesh.vertices[i];
    const Vec3 up = glm::normalize(glm::cross(k[2] - k[0], k[3] - k[1])) * (thickness / 2);
    addFlatQuad(out, k[0] + up, k[1] + up, k[2] + up, k[3] + up, colour);
    addFlatQuad(out, k[3] - up, k[2] - up, k[1] - up, k[0] - up, colour);
    for (int j = 0; j < 4; ++j) {
      const Vec3 &a = k[j], &b = k[(j + 1) % 4];
      addFlatQuad(out, a - up, b - up, b + up, a + up, colour);
    }
  }
}

void addMesh(std::vector<Vertex>& out, const Mesh& mesh, Colour colour) {
  const std::size_t count = mesh.triangles.size() / 3;
  std::vector<Vec3> face(count), smooth(mesh.vertices.size(), Vec3(0.0));
  const auto corner = [&](std::size_t triangle, int k) {
    return mesh.triangles[3 * triangle + std::size_t(k)];
  };
  for (std::size_t i = 0; i < count; ++i) {
    const Vec3 &a = mesh.vertices[corner(i, 0)], &b = mesh.vertices[corner(i, 1)],
               &c = mesh.vertices[corner(i, 2)];
    face[i] = glm::cross(b - a, c - a);  // length: twice the area, so large faces count more
    for (int k = 0; k < 3; ++k) smooth[corner(i, k)] += face[i];
  }
  constexpr double kSharp = 0.766;  // cosine of 40 degrees
  for (std::size_t i = 0; i < count; ++i) {
    const double size = glm::length(face[i]);
    if (size <= 0) continue;
    const Vec3 flat = face[i] / size;
    for (int k = 0; k < 3; ++k) {
      const Vec3 sum = smooth[corner(i, k)];
      const Vec3 n = glm::length(sum) > 0 ? glm::normalize(sum) : flat;
      out.push_back(
          {glm::vec3(mesh.vertices[corner(i, k)]), glm::vec3(glm::dot(n, flat) > kSharp ? n : flat), colour});
    }
  }
}

void addWaterInCylinder(std::vector<Vertex>& out, const CylinderSolid& bore, const Plane& plane,
                        Colour colour, Colour surface_colour) {
  const auto [e1, e2] = across(bore.axis);
  const Vec3 aft = bore.centre - bore.length / 2 * bore.axis,
             fore = bore.centre + bore.length / 2 * bore.axis;
  std::vector<Vec3> edge;
  Polygon aft_cap, fore_cap;
  for (int k = 0; k < kSides; ++k) {
    const double t0 = 2 * kPi * k / kSides, t1 = 2 * kPi * (k + 1) / kSides;
    const Vec3 r0 = bore.radius * (std::cos(t0) * e1 + std::sin(t0) * e2);
    const Vec3 r1 = bore.radius * (std::cos(t1) * e1 + std::sin(t1) * e2);
    addPolygon(out, clipBelow({{aft + r0, aft + r1, fore + r1, fore + r0}}, plane, edge),
               glm::normalize(r0 + r1), colour);
    aft_cap.corners.push_back(aft + r0);
    fore_cap.corners.push_back(fore + r0);
  }
  addPolygon(out, clipBelow(aft_cap, plane, edge), -bore.axis, colour);
  addPolygon(out, clipBelow(fore_cap, plane, edge), bore.axis, colour);
  if (edge.size() < 3) return;
  // The surface is convex: a fan of all crossing points around their middle closes it.
  Vec3 middle(0.0);
  for (const Vec3& p : edge) middle += p / double(edge.size());
  for (std::size_t i = 0; i + 1 < edge.size(); i += 2)
    addTriangle(out, middle, edge[i], edge[i + 1], plane.up, plane.up, plane.up, surface_colour);
}

}  // namespace pondtrim
