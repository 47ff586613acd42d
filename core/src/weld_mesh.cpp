#include "weld_mesh.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <pondtrim/hull_mesh.hpp>

namespace pondtrim {

namespace {

constexpr std::uint32_t kNone = ~std::uint32_t{0};

/// Vertices by the cell of a grid they lie in. Cells are a few reaches wide, so that even a mesh of one tiny
/// and one huge part has few vertices in each.
class VertexGrid {
 public:
  VertexGrid(const Mesh& mesh, double reach) : reach_(reach), cell_(4 * reach) {
    if (!mesh.vertices.empty()) low_ = mesh.vertices[0];
    for (const Vec3& v : mesh.vertices) low_ = glm::min(low_, v);
    std::size_t size = 64;
    while (size < mesh.triangles.size() / 3) size *= 2;
    first_.assign(size, kNone);
  }

  /// The vertex of `known` within reach of p, or a new one.
  std::uint32_t at(const Vec3& p, std::vector<Vec3>& known) {
    const Cell own = cellOf(p);
    if (const auto i = nearIn(own, p, known); i != kNone) return i;
    const Cell from = cellOf(p - reach_), to = cellOf(p + reach_);
    for (auto x = from[0]; x <= to[0]; ++x)
      for (auto y = from[1]; y <= to[1]; ++y)
        for (auto z = from[2]; z <= to[2]; ++z)
          if (Cell{x, y, z} != own)
            if (const auto i = nearIn({x, y, z}, p, known); i != kNone) return i;
    known.push_back(p);
    std::uint32_t& first = first_[slot(own)];
    next_.push_back(first);
    return first = std::uint32_t(known.size() - 1);
  }

 private:
  using Cell = std::array<std::int64_t, 3>;

  [[nodiscard]] Cell cellOf(const Vec3& p) const {
    const Vec3 c = glm::floor((p - low_) / cell_);
    return {std::int64_t(c.x), std::int64_t(c.y), std::int64_t(c.z)};
  }
  [[nodiscard]] std::size_t slot(const Cell& c) const {
    std::uint64_t h = 0;
    for (const std::int64_t i : c) h = (h ^ std::uint64_t(i)) * 0x9e3779b97f4a7c15U, h ^= h >> 29;
    return h & (first_.size() - 1);
  }
  [[nodiscard]] std::uint32_t nearIn(const Cell& c, const Vec3& p, const std::vector<Vec3>& known) const {
    std::uint32_t i = first_[slot(c)];
    while (i != kNone && glm::dot(known[i] - p, known[i] - p) > reach_ * reach_) i = next_[i];
    return i;
  }

  double reach_, cell_;
  Vec3 low_{0.0};
  std::vector<std::uint32_t> first_, next_;
};

}  // namespace

struct MeshWelder::Work {
  const Mesh& mesh;
  VertexGrid grid;
  std::vector<std::uint32_t> now;  ///< of each vertex the one that it became
  WeldedMesh out;
  std::size_t next = 0;

  Work(const Mesh& m, double reach) : mesh(m), grid(m, reach), now(m.vertices.size(), kNone) {
    out.mesh.triangles.reserve(m.triangles.size());
  }

  void weld(std::size_t i) {
    std::array<std::uint32_t, 3> t{};
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t v = mesh.triangles[i + k];
      if (now[v] == kNone) {
        now[v] = grid.at(mesh.vertices[v], out.mesh.vertices);
        if (out.mesh.vertices[now[v]] != mesh.vertices[v]) ++out.joined;
      }
      t[k] = now[v];
    }
    if (t[0] == t[1] || t[1] == t[2] || t[2] == t[0])
      ++out.degenerate;
    else
      out.mesh.triangles.insert(out.mesh.triangles.end(), t.begin(), t.end());
  }
};

MeshWelder::MeshWelder(const Mesh& mesh, double reach) : work_(std::make_unique<Work>(mesh, reach)) {}
MeshWelder::~MeshWelder() = default;

bool MeshWelder::step(std::size_t triangles) {
  const std::size_t end = work_->mesh.triangles.size() / 3 * 3;
  const std::size_t to = std::min(end, work_->next + 3 * triangles);
  for (; work_->next < to; work_->next += 3) work_->weld(work_->next);
  return to < end;
}

double MeshWelder::share() const {
  return double(work_->next) / double(std::max<std::size_t>(1, work_->mesh.triangles.size()));
}

WeldedMesh MeshWelder::take() { return std::move(work_->out); }

WeldedMesh weldMesh(const Mesh& mesh, double reach) {
  MeshWelder welder(mesh, reach);
  welder.step(mesh.triangles.size());
  return welder.take();
}

}  // namespace pondtrim
