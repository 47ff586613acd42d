#include "support/meshes.hpp"

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>

#include "support/random.hpp"

namespace pondtrim::test {
namespace {

using Index = std::uint32_t;

void addTriangle(Mesh& m, Index a, Index b, Index c) { m.triangles.insert(m.triangles.end(), {a, b, c}); }

// a b c d counter-clockwise from outside.
void addQuad(Mesh& m, Index a, Index b, Index c, Index d) {
  addTriangle(m, a, b, c);
  addTriangle(m, a, c, d);
}

}  // namespace

Mesh stripMesh(const StripSolid& s) {
  Mesh m;
  for (int end = 0; end < 2; ++end) {
    const double x = (end == 0 ? -0.5 : 0.5) * s.length;
    const double b = end == 0 ? s.aft_half_breadth : s.fore_half_breadth;
    const double h = end == 0 ? s.aft_half_height : s.fore_half_height;
    for (int k = 0; k < 4; ++k) {  // from (-,-) counter-clockwise seen from +x
      const double y = (k == 1 || k == 2) ? b : -b, z = k >= 2 ? h : -h;
      m.vertices.push_back(s.centre + Vec3{x, y, z});
    }
  }
  addQuad(m, 4, 5, 6, 7);
  addQuad(m, 3, 2, 1, 0);
  for (Index k = 0; k < 4; ++k) {
    const Index n = (k + 1) % 4;
    addQuad(m, k, n, 4 + n, 4 + k);
  }
  return m;
}

Mesh boxMesh(const Vec3& centre, const Vec3& size) {
  return stripMesh({centre, size.x, size.y / 2, size.z / 2, size.y / 2, size.z / 2});
}

Mesh revolutionMesh(const std::vector<std::pair<double, double>>& stations, int sides, bool closed) {
  Mesh m;
  std::vector<std::vector<Index>> rings;
  for (const auto& [x, r] : stations) {
    std::vector<Index> ring;
    for (int k = 0; k < (r > 0.0 ? sides : 1); ++k) {
      const double a = 2.0 * kPi * k / sides;
      ring.push_back(static_cast<Index>(m.vertices.size()));
      m.vertices.push_back({x, r * std::cos(a), r * std::sin(a)});
    }
    rings.push_back(ring);
  }
  const auto at = [&](std::size_t ring, int k) {
    return rings[ring][static_cast<std::size_t>(k % sides) % rings[ring].size()];
  };
  for (std::size_t i = 0; i + 1 < rings.size(); ++i) {
    for (int k = 0; k < sides; ++k) {
      const Index a = at(i, k), b = at(i, k + 1), c = at(i + 1, k + 1), d = at(i + 1, k);
      if (a != b) addTriangle(m, a, b, c);
      if (c != d) addTriangle(m, a, c, d);
    }
  }
  if (!closed) return m;
  for (std::size_t i : {std::size_t{0}, rings.size() - 1}) {
    if (rings[i].size() == 1) continue;
    const Index hub = static_cast<Index>(m.vertices.size());
    m.vertices.push_back({stations[i].first, 0.0, 0.0});
    for (int k = 0; k < sides; ++k) {
      i == 0 ? addTriangle(m, hub, at(i, k + 1), at(i, k)) : addTriangle(m, hub, at(i, k), at(i, k + 1));
    }
  }
  return m;
}

Mesh torusMesh(double ring_radius, double tube_radius, int around_ring, int around_tube) {
  Mesh m;
  for (int i = 0; i < around_ring; ++i) {
    const double a = 2.0 * kPi * i / around_ring;
    for (int k = 0; k < around_tube; ++k) {
      const double b = 2.0 * kPi * k / around_tube, r = ring_radius + tube_radius * std::cos(b);
      m.vertices.push_back({r * std::cos(a), r * std::sin(a), tube_radius * std::sin(b)});
    }
  }
  const auto at = [&](int i, int k) {
    return static_cast<Index>((i % around_ring) * around_tube + k % around_tube);
  };
  for (int i = 0; i < around_ring; ++i) {
    for (int k = 0; k < around_tube; ++k) addQuad(m, at(i, k), at(i + 1, k), at(i + 1, k + 1), at(i, k + 1));
  }
  return m;
}

Mesh lumpySphereMesh(const Vec3& centre, double radius, double lumpiness, int bands,
                     unsigned long long seed) {
  std::vector<std::pair<double, double>> stations;
  for (int i = 0; i <= bands; ++i) {
    const double a = kPi * i / bands;
    stations.emplace_back(-std::cos(a), i == 0 || i == bands ? 0.0 : std::sin(a));
  }
  Mesh m = revolutionMesh(stations, 2 * bands);
  Random random(seed);
  for (Vec3& v : m.vertices) v = centre + v * radius * (1.0 + lumpiness * random.between(-1.0, 1.0));
  return m;
}

Mesh moved(Mesh mesh, const Mat3& r, const Vec3& shift) {
  for (Vec3& v : mesh.vertices) v = r * v + shift;
  return mesh;
}

Mesh joined(const Mesh& a, const Mesh& b) {
  Mesh m = a;
  m.vertices.insert(m.vertices.end(), b.vertices.begin(), b.vertices.end());
  for (Index i : b.triangles) m.triangles.push_back(i + static_cast<Index>(a.vertices.size()));
  return m;
}

Mesh piece(const Mesh& mesh, std::size_t first, std::size_t last) {
  Mesh m;
  for (std::size_t t = 3 * first; t < 3 * last; ++t) {
    m.triangles.push_back(static_cast<Index>(m.vertices.size()));
    m.vertices.push_back(mesh.vertices[mesh.triangles[t]]);
  }
  return m;
}

double surfaceArea(const Mesh& m) {
  double sum = 0.0;
  for (std::size_t t = 0; t < m.triangles.size(); t += 3) {
    const Vec3& a = m.vertices[m.triangles[t]];
    sum +=
        glm::length(glm::cross(m.vertices[m.triangles[t + 1]] - a, m.vertices[m.triangles[t + 2]] - a)) / 2;
  }
  return sum;
}

double reach(const Mesh& mesh) {
  double far = 0.0;
  for (const Vec3& v : mesh.vertices) far = std::max(far, glm::length(v));
  return far;
}

double polygonShare(int sides) {
  const double a = 2.0 * kPi / sides;
  return std::sin(a) / a;
}

}  // namespace pondtrim::test
