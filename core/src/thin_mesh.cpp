// Fewer triangles for the same surface: clustering of vertices.
#include <algorithm>
#include <array>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>
#include <numeric>
#include <pondtrim/thin_mesh.hpp>

#include "mesh_edges.hpp"

namespace pondtrim {

namespace {

using Index = std::uint32_t;
using Corners = std::array<Vec3, 3>;

Corners cornersOf(const Mesh& mesh, std::size_t t) {
  return {mesh.vertices[mesh.triangles[3 * t]], mesh.vertices[mesh.triangles[3 * t + 1]],
          mesh.vertices[mesh.triangles[3 * t + 2]]};
}

/// Normal of the surface about each vertex, not of unit length: of its triangles and, so that a rough surface
/// has no wild ones, of those around them.
std::vector<Vec3> normalsOf(const Mesh& mesh) {
  std::vector<Vec3> normals(mesh.vertices.size(), Vec3(0.0));
  const std::size_t count = mesh.triangles.size() / 3;
  const auto spread = [&](auto normal) {
    std::vector<Vec3> sum(mesh.vertices.size(), Vec3(0.0));
    for (std::size_t t = 0; t < count; ++t) {
      const Vec3 n = normal(t);
      for (std::size_t k = 0; k < 3; ++k) sum[mesh.triangles[3 * t + k]] += n;
    }
    normals = std::move(sum);
  };
  spread([&](std::size_t t) {
    const Corners p = cornersOf(mesh, t);
    return glm::cross(p[1] - p[0], p[2] - p[0]);
  });
  for (int i = 0; i < 2; ++i)
    spread([&](std::size_t t) {
      return normals[mesh.triangles[3 * t]] + normals[mesh.triangles[3 * t + 1]] +
             normals[mesh.triangles[3 * t + 2]];
    });
  return normals;
}

/// Which way the surface faces at each vertex, as one of six. The two sides of a thin wall are kept apart by
/// it, which cells alone would melt into nothing.
std::vector<std::uint8_t> facings(const Mesh& mesh) {
  const std::vector<Vec3> normals = normalsOf(mesh);
  std::vector<std::uint8_t> out;
  out.reserve(normals.size());
  for (const Vec3& n : normals) {
    const Vec3 a = glm::abs(n);
    const int axis = a.x >= a.y && a.x >= a.z ? 0 : a.y >= a.z ? 1 : 2;
    out.push_back(std::uint8_t(2 * axis + (n[axis] < 0 ? 1 : 0)));
  }
  return out;
}

/// The cluster of each vertex, for cells of one size.
struct Clusters {
  std::vector<Index> of;
  std::size_t count = 0;
};

Clusters cluster(const Mesh& mesh, const std::vector<std::uint8_t>& facing, const Vec3& low, double cell) {
  std::vector<std::uint64_t> keys(mesh.vertices.size());
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const Vec3 c = glm::floor((mesh.vertices[i] - low) / cell);
    keys[i] = (std::uint64_t(c.x) << 43) | (std::uint64_t(c.y) << 23) | (std::uint64_t(c.z) << 3) | facing[i];
  }
  std::vector<std::uint64_t> known = keys;
  std::sort(known.begin(), known.end());
  known.erase(std::unique(known.begin(), known.end()), known.end());
  Clusters out{std::vector<Index>(keys.size()), known.size()};
  for (std::size_t i = 0; i < keys.size(); ++i)
    out.of[i] = Index(std::lower_bound(known.begin(), known.end(), keys[i]) - known.begin());
  return out;
}

bool staysTriangle(const Mesh& mesh, const Clusters& c, std::size_t t) {
  const Index i = c.of[mesh.triangles[3 * t]], j = c.of[mesh.triangles[3 * t + 1]],
              k = c.of[mesh.triangles[3 * t + 2]];
  return i != j && j != k && k != i;
}

std::size_t trianglesLeft(const Mesh& mesh, const Clusters& c) {
  std::size_t left = 0;
  for (std::size_t t = 0; t < mesh.triangles.size() / 3; ++t) left += staysTriangle(mesh, c, t) ? 1 : 0;
  return left;
}

/// Sum of squared distances from planes, as a quadratic form about a cluster's middle.
struct Planes {
  Mat3 matrix{0.0};
  Vec3 vector{0.0};
  void add(const Vec3& normal, double weight, const Vec3& through) {
    const Mat3 outer = glm::outerProduct(normal, normal) * weight;
    matrix += outer;
    vector += outer * through;
  }
};

/// Where the planes of each cluster's triangles meet best; along a rim, a plane across it holds the rim.
std::vector<Vec3> representatives(const Mesh& mesh, const Clusters& c, double cell) {
  std::vector<Vec3> middle(c.count, Vec3(0.0));
  std::vector<double> members(c.count, 0);
  for (std::size_t i = 0; i < c.of.size(); ++i) {
    middle[c.of[i]] += mesh.vertices[i];
    members[c.of[i]] += 1;
  }
  for (std::size_t k = 0; k < c.count; ++k) middle[k] /= members[k];
  std::vector<Planes> planes(c.count);
  const auto add = [&](Index vertex, const Vec3& normal, double weight, const Vec3& through) {
    const Index k = c.of[vertex];
    planes[k].add(normal, weight, through - middle[k]);
  };
  for (std::size_t t = 0; t < mesh.triangles.size() / 3; ++t) {
    const Corners p = cornersOf(mesh, t);
    const Vec3 n = glm::cross(p[1] - p[0], p[2] - p[0]);
    const double length = glm::length(n);
    if (length <= 0) continue;
    for (std::size_t k = 0; k < 3; ++k) add(mesh.triangles[3 * t + k], n / length, length, p[0]);
  }
  forEachEdge(mesh, [&](std::span<const std::uint32_t> halves) {
    if (halves.size() != 1) return;
    const Index a = mesh.triangles[halves[0]], b = endOf(mesh, halves[0]);
    const Corners p = cornersOf(mesh, halves[0] / 3);
    const Vec3 along = mesh.vertices[b] - mesh.vertices[a];
    const Vec3 across = glm::cross(along, glm::cross(p[1] - p[0], p[2] - p[0]));
    const double length = glm::length(across);
    if (length <= 0) return;
    for (const Index v : {a, b}) add(v, across / length, 2 * glm::dot(along, along), mesh.vertices[a]);
  });
  constexpr double kPull = 0.005;  // towards the middle, where the planes leave a direction open
  for (std::size_t k = 0; k < c.count; ++k) {
    const double trace = planes[k].matrix[0][0] + planes[k].matrix[1][1] + planes[k].matrix[2][2];
    if (trace <= 0) continue;
    const Vec3 step = glm::inverse(planes[k].matrix + Mat3(kPull * trace)) * planes[k].vector;
    if (glm::length(step) < cell) middle[k] += step;
  }
  return middle;
}

/// Of triangles on the same corners those that face each other cancel: so what was closed stays closed.
void cancelPairs(Mesh& mesh) {
  const auto lowest = [&](std::size_t t) {
    return std::min({mesh.triangles[3 * t], mesh.triangles[3 * t + 1], mesh.triangles[3 * t + 2]});
  };
  const auto turned = [&](std::size_t t) {  // from the lowest corner on, as it turns
    const Index* i = &mesh.triangles[3 * t];
    const std::size_t k = i[0] < i[1] ? (i[0] < i[2] ? 0u : 2u) : (i[1] < i[2] ? 1u : 2u);
    return std::pair{i[(k + 1) % 3], i[(k + 2) % 3]};
  };
  const auto both = [&](std::size_t t) {
    const auto [a, b] = turned(t);
    return std::pair{std::min(a, b), std::max(a, b)};
  };
  const std::size_t count = mesh.triangles.size() / 3;
  const auto order = ordered(count, mesh.vertices.size(), lowest, both);
  std::vector<Index> kept;
  for (std::size_t from = 0, to = 0; from < count; from = to) {
    int sum = 0;
    for (; to < count && lowest(order[to]) == lowest(order[from]) && both(order[to]) == both(order[from]);
         ++to)
      sum += turned(order[to]).first < turned(order[to]).second ? 1 : -1;
    for (std::size_t i = from; i < to && sum != 0; ++i) {
      const bool forward = turned(order[i]).first < turned(order[i]).second;
      if (forward != (sum > 0)) continue;
      kept.push_back(order[i]);
      sum += forward ? -1 : 1;
    }
  }
  std::sort(kept.begin(), kept.end());
  std::vector<Index> triangles;
  for (const Index t : kept)
    triangles.insert(triangles.end(), mesh.triangles.begin() + std::ptrdiff_t(3 * std::size_t{t}),
                     mesh.triangles.begin() + std::ptrdiff_t(3 * std::size_t{t} + 3));
  mesh.triangles = std::move(triangles);
}

double distanceFromEdge(const Vec3& p, const Vec3& a, const Vec3& b) {
  const Vec3 along = b - a;
  const double square = glm::dot(along, along);
  const double share = square > 0 ? glm::clamp(glm::dot(p - a, along) / square, 0.0, 1.0) : 0.0;
  return glm::length(p - a - along * share);
}

double distanceFrom(const Vec3& p, const Corners& t) {
  const Vec3 n = glm::cross(t[1] - t[0], t[2] - t[0]);
  const double square = glm::dot(n, n);
  bool over = square > 0;
  for (std::size_t k = 0; k < 3 && over; ++k)
    over = glm::dot(glm::cross(t[(k + 1) % 3] - t[k], p - t[k]), n) >= 0;
  if (over) return std::abs(glm::dot(p - t[0], n)) / std::sqrt(square);
  return std::min(
      {distanceFromEdge(p, t[0], t[1]), distanceFromEdge(p, t[1], t[2]), distanceFromEdge(p, t[2], t[0])});
}

/// The triangles about each vertex.
struct Fans {
  std::vector<Index> first, halves;
  explicit Fans(const Mesh& mesh) : first(mesh.vertices.size() + 1, 0) {
    halves = ordered(
        mesh.triangles.size(), mesh.vertices.size(), [&](std::size_t h) { return mesh.triangles[h]; },
        [](std::size_t) { return 0; });
    for (const Index i : mesh.triangles) ++first[i + 1];
    std::partial_sum(first.begin(), first.end(), first.begin());
  }
};

/// Of the old vertices from the triangles about what they and, where those are far, their neighbours became:
/// never less than the distance from the surface.
double farthestFrom(const Mesh& drawn, const Clusters& c, const Mesh& thin, double cell) {
  const Fans fans(thin);
  std::vector<double> nearest(drawn.vertices.size(), 1e300);
  const auto look = [&](Index vertex, Index cluster) {
    for (Index h = fans.first[cluster]; h < fans.first[cluster + 1]; ++h)
      nearest[vertex] = std::min(nearest[vertex],
                                 distanceFrom(drawn.vertices[vertex], cornersOf(thin, fans.halves[h] / 3)));
  };
  for (Index i = 0; i < nearest.size(); ++i) look(i, c.of[i]);
  const double close = 0.02 * cell;
  for (std::size_t h = 0; h < drawn.triangles.size(); ++h) {
    const Index vertex = drawn.triangles[h];
    for (std::size_t k = h - h % 3; k < h - h % 3 + 3 && nearest[vertex] > close; ++k)
      if (c.of[drawn.triangles[k]] != c.of[vertex]) look(vertex, c.of[drawn.triangles[k]]);
  }
  double farthest = 0;
  for (const Index i : drawn.triangles)
    farthest =
        std::max(farthest, std::min(nearest[i], glm::length(drawn.vertices[i] - thin.vertices[c.of[i]])));
  return farthest;
}

void dropUnused(Mesh& mesh) {
  constexpr Index kNone = ~Index(0);
  std::vector<Index> now(mesh.vertices.size(), kNone);
  std::vector<Vec3> kept;
  for (Index& i : mesh.triangles) {
    if (now[i] == kNone) {
      now[i] = Index(kept.size());
      kept.push_back(mesh.vertices[i]);
    }
    i = now[i];
  }
  mesh.vertices = std::move(kept);
}

/// Area, and volume by tetrahedra from `middle`.
std::pair<double, double> measured(const Mesh& mesh, const Vec3& middle) {
  double area = 0, volume = 0;
  for (std::size_t t = 0; t < mesh.triangles.size() / 3; ++t) {
    const Corners p = cornersOf(mesh, t);
    const Vec3 n = glm::cross(p[1] - p[0], p[2] - p[0]);
    area += glm::length(n) / 2;
    volume += glm::dot(p[0] - middle, n) / 6;
  }
  return {area, volume};
}

Mesh thinBy(const Mesh& mesh, const Clusters& c, double cell) {
  Mesh out;
  out.vertices = representatives(mesh, c, cell);
  for (std::size_t t = 0; t < mesh.triangles.size() / 3; ++t)
    if (staysTriangle(mesh, c, t))
      for (std::size_t k = 0; k < 3; ++k) out.triangles.push_back(c.of[mesh.triangles[3 * t + k]]);
  cancelPairs(out);
  return out;
}

/// How far the thinned mesh is off, before corners without a triangle leave it.
void measure(ThinnedMesh& out, const Mesh& mesh, const Clusters& c, double cell) {
  out.farthest = farthestFrom(mesh, c, out.mesh, cell);
  dropUnused(out.mesh);
  const auto [area, volume] = measured(out.mesh, mesh.vertices[0]);
  const auto [drawn_area, drawn_volume] = measured(mesh, mesh.vertices[0]);
  if (drawn_area > 0) out.area_change = area / drawn_area - 1;
  if (drawn_volume != 0) out.volume_change = volume / drawn_volume - 1;
}

}  // namespace

struct MeshThinner::Work {
  const Mesh& mesh;
  std::size_t most;
  ThinnedMesh out;
  std::vector<std::uint8_t> facing;
  Clusters best;
  Vec3 low{1e300};
  double small = 0, large = 0, cell = 0;  ///< cells: too small, large enough, of `best`
  int done = 0;

  Work(const Mesh& m, std::size_t n) : mesh(m), most(n) {}

  void begin() {
    Vec3 high(-1e300);
    for (const Vec3& v : mesh.vertices) {
      low = glm::min(low, v);
      high = glm::max(high, v);
    }
    facing = facings(mesh);
    // The smallest cells that leave few enough. 20 bits count the cells along a side.
    cell = large = glm::length(high - low);
    small = large * 1e-6;
    best = cluster(mesh, facing, low, large);
  }

  void tryCells() {
    const double middle = std::sqrt(small * large);
    Clusters tried = cluster(mesh, facing, low, middle);
    if (trianglesLeft(mesh, tried) <= most) {
      best = std::move(tried);
      cell = large = middle;
    } else {
      small = middle;
    }
  }
};

namespace {
constexpr int kTries = 14, kThinSteps = kTries + 3;
}

MeshThinner::MeshThinner(const Mesh& mesh, std::size_t most) : work_(std::make_unique<Work>(mesh, most)) {}
MeshThinner::MeshThinner(MeshThinner&&) noexcept = default;
MeshThinner& MeshThinner::operator=(MeshThinner&&) noexcept = default;
MeshThinner::~MeshThinner() = default;

bool MeshThinner::step() {
  Work& w = *work_;
  if (w.done == 0 && w.mesh.triangles.size() / 3 <= w.most) {
    w.out.mesh = w.mesh;
    w.done = kThinSteps;
  }
  if (w.done >= kThinSteps) return false;
  if (w.done == 0)
    w.begin();
  else if (w.done <= kTries)
    w.tryCells();
  else if (w.done == kTries + 1)
    w.out.mesh = thinBy(w.mesh, w.best, w.cell);
  else
    measure(w.out, w.mesh, w.best, w.cell);
  return ++w.done < kThinSteps;
}

double MeshThinner::share() const { return double(work_->done) / kThinSteps; }

ThinnedMesh MeshThinner::take() { return std::move(work_->out); }

ThinnedMesh thinMesh(const Mesh& mesh, std::size_t most) {
  MeshThinner thinner(mesh, most);
  while (thinner.step()) {
  }
  return thinner.take();
}

}  // namespace pondtrim
