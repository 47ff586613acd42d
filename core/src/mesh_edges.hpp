#pragma once
// Which triangles of a mesh share edges.
#include <algorithm>
#include <pondtrim/hydrostatics.hpp>
#include <span>
#include <vector>

namespace pondtrim {

/// 0 .. count-1 in the order of `key` (below `keys`), and of `then` where that is equal.
template <class Key, class Then>
std::vector<std::uint32_t> ordered(std::size_t count, std::size_t keys, const Key& key, const Then& then) {
  std::vector<std::uint32_t> ends(keys + 1, 0), out(count);
  for (std::uint32_t i = 0; i < count; ++i) ++ends[key(i) + 1];
  for (std::size_t k = 0; k < keys; ++k) ends[k + 1] += ends[k];
  for (std::uint32_t i = 0; i < count; ++i) out[ends[key(i)]++] = i;  // now each is where its run ends
  std::uint32_t from = 0;
  for (std::size_t k = 0; k < keys; from = ends[k++])
    std::sort(out.begin() + from, out.begin() + ends[k], [&](std::uint32_t a, std::uint32_t b) {
      const auto x = then(a), y = then(b);
      return x != y ? x < y : a < b;
    });
  return out;
}

/// A half-edge h runs from corner triangles[h] to the next corner of the same triangle, h / 3.
inline std::uint32_t endOf(const Mesh& mesh, std::uint32_t h) {
  return mesh.triangles[h % 3 == 2 ? h - 2 : h + 1];
}
inline bool sameWay(const Mesh& mesh, std::uint32_t h, std::uint32_t g) {
  return mesh.triangles[h] == mesh.triangles[g];
}

inline std::uint32_t lowEnd(const Mesh& mesh, std::uint32_t h) {
  return std::min(mesh.triangles[h], endOf(mesh, h));
}
inline std::uint32_t highEnd(const Mesh& mesh, std::uint32_t h) {
  return std::max(mesh.triangles[h], endOf(mesh, h));
}
/// All half-edges, those of one edge beside each other.
std::vector<std::uint32_t> halvesByEdge(const Mesh& mesh);

/// Calls visit(half-edges) once for each edge with all its half-edges.
template <class Visit>
void forEachEdge(const Mesh& mesh, const Visit& visit) {
  const std::vector<std::uint32_t> halves = halvesByEdge(mesh);
  for (std::size_t from = 0, to = 0; from < halves.size(); from = to) {
    while (to < halves.size() && lowEnd(mesh, halves[to]) == lowEnd(mesh, halves[from]) &&
           highEnd(mesh, halves[to]) == highEnd(mesh, halves[from]))
      ++to;
    visit(std::span(halves).subspan(from, to - from));
  }
}

}  // namespace pondtrim
