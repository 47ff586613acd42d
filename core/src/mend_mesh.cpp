// Pieces, edges and directions of a mesh from outside.
#include <array>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <optional>
#include <pondtrim/hull_mesh.hpp>

#include "mesh_edges.hpp"
#include "weld_mesh.hpp"

namespace pondtrim {

namespace {

constexpr std::uint32_t kNone = ~std::uint32_t{0};

using Corners = std::array<std::uint32_t, 3>;

Corners cornersOf(const Mesh& mesh, std::size_t t) {
  return {mesh.triangles[3 * t], mesh.triangles[3 * t + 1], mesh.triangles[3 * t + 2]};
}

Corners sorted(Corners c) {
  std::sort(c.begin(), c.end());
  return c;
}

/// Turned alike: the order in which the corners rise is an even one of both, or an odd one of both.
bool risesEvenly(const Corners& c) { return (c[0] < c[1]) == ((c[1] < c[2]) == (c[0] < c[2])); }

/// Drops triangles that are there twice; counts those that lie on another one, turned the other way.
void dropDuplicates(MendedMesh& out) {
  Mesh& mesh = out.mesh;
  const std::size_t count = mesh.triangles.size() / 3;
  const auto order = ordered(
      count, mesh.vertices.size(), [&](std::uint32_t t) { return sorted(cornersOf(mesh, t))[0]; },
      [&](std::uint32_t t) { return sorted(cornersOf(mesh, t)); });
  std::vector<bool> drop(count);
  for (std::size_t from = 0, to = 0; from < count; from = to) {
    std::array<bool, 2> there{};
    const Corners same = sorted(cornersOf(mesh, order[from]));
    for (; to < count && sorted(cornersOf(mesh, order[to])) == same; ++to) {
      bool& known = there[risesEvenly(cornersOf(mesh, order[to])) ? 1 : 0];
      drop[order[to]] = known;
      out.done.duplicate += known ? 1 : 0;
      known = true;
    }
    if (there[0] && there[1]) ++out.found.back_to_back;
  }
  if (out.done.duplicate == 0) return;
  std::size_t kept = 0;
  for (std::size_t t = 0; t < count; ++t) {
    if (drop[t]) continue;
    for (std::size_t k = 0; k < 3; ++k) mesh.triangles[3 * kept + k] = mesh.triangles[3 * t + k];
    ++kept;
  }
  mesh.triangles.resize(3 * kept);
}

/// What hangs together.
struct Piece {
  std::size_t count = 0, turned = 0;
  bool open = false, one_sided = false;
  double volume = 0, area = 0;
  Vec3 area_vector{0.0};  ///< 0 when closed
  Vec3 rim{0.0};          ///< sum of the middles of its open and crowded edges
  std::size_t rim_count = 0;
  Vec3 low{1e300}, high{-1e300};
  bool turn = false, inner = false;

  [[nodiscard]] bool closed() const { return !open && !one_sided; }
};

/// Solid angle of a triangle seen from the origin (van Oosterom and Strackee 1983); empty when the origin
/// lies on it, where it is half of all or nothing by the sign of a zero.
std::optional<double> solidAngle(const Vec3& a, const Vec3& b, const Vec3& c) {
  const double la = glm::length(a), lb = glm::length(b), lc = glm::length(c);
  const double across = glm::dot(a, glm::cross(b, c));
  const double along = la * lb * lc + glm::dot(a, b) * lc + glm::dot(b, c) * la + glm::dot(c, a) * lb;
  const double nothing = 1e-9 * la * lb * lc;
  if (std::abs(across) <= nothing && along <= nothing) return {};
  return 2 * std::atan2(across, along);
}

struct OpenEdge {
  std::uint32_t half, from, to;
};

class Mender {
 public:
  explicit Mender(MendedMesh& out) : out_(out), mesh_(out.mesh), count_(out.mesh.triangles.size() / 3) {}

  static constexpr int kSteps = 4;
  /// The next of them, each about as long.
  void step(int number) {
    if (number == 0) findBox(), joinNeighbours();
    if (number == 1) flood();
    if (number == 2) measure(), chooseDirections();
    if (number == 3) turn(), sumUp();
  }

 private:
  void findBox() {
    Vec3 low(1e300), high(-1e300);
    for (const Vec3& v : mesh_.vertices) low = glm::min(low, v), high = glm::max(high, v);
    if (mesh_.vertices.empty()) return;
    out_.found.low = low;
    out_.found.high = high;
    middle_ = (low + high) / 2.0;
  }

  /// Directions are handed on over edges of two triangles only: of more, nobody knows which belong together.
  void joinNeighbours() {
    across_.assign(3 * count_, kNone);
    forEachEdge(mesh_, [&](std::span<const std::uint32_t> halves) {
      if (halves.size() == 1) {
        open_.push_back({halves[0], mesh_.triangles[halves[0]], endOf(mesh_, halves[0])});
      } else if (halves.size() == 2) {
        across_[halves[0]] = halves[1];
        across_[halves[1]] = halves[0];
      } else {
        ++out_.found.crowded_edges;
        crowded_.insert(crowded_.end(), halves.begin(), halves.end());
      }
    });
  }

  void flood() {
    piece_of_.assign(count_, kNone);
    against_.assign(count_, false);
    std::vector<std::uint32_t> waiting;
    for (std::uint32_t seed = 0; seed < count_; ++seed) {
      if (piece_of_[seed] != kNone) continue;
      const auto index = std::uint32_t(pieces_.size());
      pieces_.emplace_back();
      piece_of_[seed] = index;
      waiting.push_back(seed);
      while (!waiting.empty()) {
        const std::uint32_t t = waiting.back();
        waiting.pop_back();
        Piece& piece = pieces_[index];
        ++piece.count;
        piece.turned += against_[t] ? 1 : 0;
        for (std::uint32_t h = 3 * t; h < 3 * t + 3; ++h) {
          const std::uint32_t g = across_[h];
          if (g == kNone) continue;
          const bool against = against_[t] != sameWay(mesh_, h, g);
          if (piece_of_[g / 3] == kNone) {
            piece_of_[g / 3] = index;
            against_[g / 3] = against;
            waiting.push_back(g / 3);
          } else if (against_[g / 3] != against) {
            piece.one_sided = true;
          }
        }
      }
    }
    const auto addRim = [&](std::uint32_t h) {
      Piece& piece = pieces_[piece_of_[h / 3]];
      // Halfway along: the same whichever way the triangle turns.
      piece.rim += (mesh_.vertices[mesh_.triangles[h]] + mesh_.vertices[endOf(mesh_, h)]) / 2.0 - middle_;
      ++piece.rim_count;
    };
    for (const OpenEdge& e : open_) pieces_[piece_of_[e.half / 3]].open = true, addRim(e.half);
    for (const std::uint32_t h : crowded_) addRim(h);
    // What most of its triangles say is a piece's direction until more is known.
    for (std::uint32_t t = 0; t < count_; ++t) {
      const Piece& piece = pieces_[piece_of_[t]];
      if (2 * piece.turned > piece.count) against_[t] = !against_[t];
    }
  }

  /// Corners about the middle, turned as found so far.
  [[nodiscard]] std::array<Vec3, 3> placed(std::uint32_t t) const {
    const auto at = [&](std::uint32_t k) { return mesh_.vertices[mesh_.triangles[3 * t + k]] - middle_; };
    return against_[t] ? std::array{at(0), at(2), at(1)} : std::array{at(0), at(1), at(2)};
  }

  void measure() {
    const double flat = 1e-14 * glm::dot(out_.found.high - out_.found.low, out_.found.high - out_.found.low);
    for (std::uint32_t t = 0; t < count_; ++t) {
      Piece& piece = pieces_[piece_of_[t]];
      const auto [a, b, c] = placed(t);
      const Vec3 area = 0.5 * glm::cross(b - a, c - a);
      piece.volume += glm::dot(a, area) / 3;
      piece.area_vector += area;
      piece.area += glm::length(area);
      if (glm::length(area) < flat) ++out_.found.needles;
      for (const Vec3& p : {a, b, c})
        piece.low = glm::min(piece.low, p), piece.high = glm::max(piece.high, p);
    }
    for (Piece& piece : pieces_) {
      if (piece.rim_count == 0) continue;
      piece.volume -= glm::dot(piece.rim / double(piece.rim_count), piece.area_vector) / 3;
      // Bodies that touch along an edge are closed for all that.
      piece.open = piece.open || glm::length(piece.area_vector) > 1e-9 * piece.area;
    }
  }

  /// Calls visit(triangle) for those of a piece.
  template <class Visit>
  void forEachOf(std::uint32_t piece, const Visit& visit) {
    if (in_pieces_.empty())
      in_pieces_ = ordered(
          count_, pieces_.size(), [&](std::uint32_t t) { return piece_of_[t]; },
          [](std::uint32_t t) { return t; });
    auto at = std::partition_point(in_pieces_.begin(), in_pieces_.end(),
                                   [&](std::uint32_t t) { return piece_of_[t] < piece; });
    for (; at != in_pieces_.end() && piece_of_[*at] == piece; ++at) visit(*at);
    patience_ -= double(pieces_[piece].count);
  }

  /// Of the piece's corners that the other does not share the first after `before`, the same however either
  /// turns; kNone: there is none.
  [[nodiscard]] std::uint32_t ownCorner(std::uint32_t piece, std::uint32_t other, std::uint32_t before) {
    const auto corner = [&](std::uint32_t t, std::uint32_t k) { return mesh_.triangles[3 * t + k]; };
    shared_with_.resize(mesh_.vertices.size(), kNone);
    forEachOf(other, [&](std::uint32_t t) {
      for (std::uint32_t k = 0; k < 3; ++k) shared_with_[corner(t, k)] = other;
    });
    std::uint32_t own = kNone;
    forEachOf(piece, [&](std::uint32_t t) {
      for (std::uint32_t k = 0; k < 3; ++k) {
        const std::uint32_t v = corner(t, k);
        if (shared_with_[v] != other && (before == kNone || v > before)) own = std::min(own, v);
      }
    });
    return own;
  }

  /// The solid angle of a piece seen from a point: 4 pi, to either side, from inside when it is closed. Empty
  /// when the point is on it.
  [[nodiscard]] std::optional<double> angleOf(std::uint32_t piece, const Vec3& from) {
    double angle = 0;
    bool on_it = false;
    forEachOf(piece, [&](std::uint32_t t) {
      const auto [a, b, c] = placed(t);
      const auto seen = solidAngle(a - from, b - from, c - from);
      on_it = on_it || !seen;
      angle += seen.value_or(0);
    });
    return on_it ? std::nullopt : std::optional(angle);
  }

  /// Whether the piece is inside the other, which has to be larger: by one of its corners that is not on it.
  [[nodiscard]] bool isInside(std::uint32_t index, std::uint32_t outer) {
    const Piece &piece = pieces_[index], &other = pieces_[outer];
    if (glm::any(glm::lessThan(piece.low, other.low)) || glm::any(glm::greaterThan(piece.high, other.high)))
      return false;
    constexpr double kSmaller = 1 - 1e-9;
    if (std::abs(piece.volume) >= kSmaller * std::abs(other.volume)) return false;
    constexpr int kCorners = 8;  // a piece that touches the other may have some of them on it
    std::uint32_t own = kNone;
    for (int tried = 0; tried < kCorners; ++tried) {
      own = ownCorner(index, outer, own);
      if (own == kNone) return false;
      if (const auto angle = angleOf(outer, mesh_.vertices[own] - middle_)) return std::abs(*angle) > 2 * kPi;
    }
    return false;
  }

  /// Closed pieces outward, inner ones as the file has them beside the piece they are in. With very many
  /// pieces only the largest are tried as outer ones, and as many as patience lasts for.
  void chooseDirections() {
    std::vector<std::uint32_t> outer;
    for (std::uint32_t i = 0; i < pieces_.size(); ++i) {
      Piece& piece = pieces_[i];
      // Less than rounding can make of a flat piece tells no direction, nor does a little of an open one.
      const double reach = glm::length(glm::max(glm::abs(piece.low), glm::abs(piece.high)));
      const double least =
          1e-13 * piece.area * reach + (piece.closed() ? 0 : 1e-6 * std::pow(piece.area, 1.5));
      piece.turn = !piece.one_sided && piece.volume < -least;
      if (piece.closed()) outer.push_back(i);
    }
    if (outer.size() < 2) return;
    constexpr std::size_t kMostOuter = 64;
    std::sort(outer.begin(), outer.end(), [&](std::uint32_t a, std::uint32_t b) {
      return std::abs(pieces_[a].volume) > std::abs(pieces_[b].volume);
    });
    const std::vector<std::uint32_t> all = outer;
    outer.resize(std::min(outer.size(), kMostOuter));
    for (const std::uint32_t i : all) {  // larger ones first: their own direction is settled
      for (const std::uint32_t o : outer) {
        if (o == i || patience_ < 0) break;
        if (pieces_[o].inner || !isInside(i, o)) continue;
        pieces_[i].inner = true;
        pieces_[i].turn = pieces_[o].turn;
        break;
      }
    }
  }

  void turn() {
    std::vector<std::size_t> turned(pieces_.size());
    for (std::uint32_t t = 0; t < count_; ++t) {
      const Piece& piece = pieces_[piece_of_[t]];
      if (piece.one_sided || against_[t] == piece.turn) continue;
      std::swap(mesh_.triangles[3 * t + 1], mesh_.triangles[3 * t + 2]);
      ++turned[piece_of_[t]];
    }
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (turned[i] == pieces_[i].count)
        ++out_.done.inside_out;
      else
        out_.done.turned += turned[i];
    }
  }

  void sumUp() {
    MeshFindings& f = out_.found;
    f.triangles = count_;
    f.vertices = mesh_.vertices.size();
    f.pieces = pieces_.size();
    f.open_edges = open_.size();
    for (const Piece& piece : pieces_) {
      f.area += piece.area;
      f.volume += piece.turn ? -piece.volume : piece.volume;
      f.open_pieces += piece.open ? 1 : 0;
      f.inner_pieces += piece.inner ? 1 : 0;
      f.one_sided += piece.one_sided ? 1 : 0;
    }
    f.closed = count_ > 0 && open_.empty() && f.one_sided == 0 && crowdedEdgesBalance();
    if (!open_.empty()) followRims();
  }

  [[nodiscard]] bool crowdedEdgesBalance() const {
    if (crowded_.empty()) return true;
    bool all = true;
    forEachEdge(mesh_, [&](std::span<const std::uint32_t> halves) {
      long balance = 0;
      for (const std::uint32_t h : halves) balance += sameWay(mesh_, h, halves[0]) ? 1 : -1;
      all = all && balance == 0;
    });
    return all;
  }

  /// Open edges that hang together are one loop.
  void followRims() {
    std::vector<std::uint32_t> root(mesh_.vertices.size());
    for (std::uint32_t v = 0; v < root.size(); ++v) root[v] = v;
    const auto rootOf = [&](std::uint32_t v) {
      while (root[v] != v) v = root[v] = root[root[v]];
      return v;
    };
    for (const OpenEdge& e : open_) root[rootOf(e.from)] = rootOf(e.to);
    struct Loop {
      double length = 0;
      Vec3 sum{0.0};
      std::size_t count = 0;
    };
    std::vector<Loop> loops(mesh_.vertices.size());
    MeshFindings& f = out_.found;
    for (const OpenEdge& e : open_) {
      const Vec3 &a = mesh_.vertices[e.from], &b = mesh_.vertices[e.to];
      Loop& loop = loops[rootOf(e.from)];
      if (loop.count++ == 0) ++f.open_loops;
      loop.length += glm::length(b - a);
      loop.sum += (a + b) / 2.0;
      if (loop.length < f.longest_loop) continue;
      f.longest_loop = loop.length;
      f.longest_loop_middle = loop.sum / double(loop.count);
    }
  }

  MendedMesh& out_;
  Mesh& mesh_;
  std::size_t count_;
  Vec3 middle_{0.0};
  std::vector<std::uint32_t> across_;  ///< of each half-edge the one of the neighbour
  std::vector<OpenEdge> open_;
  std::vector<std::uint32_t> crowded_;  ///< half-edges
  std::vector<std::uint32_t> piece_of_;
  std::vector<bool> against_;  ///< to be turned to agree with its piece
  std::vector<Piece> pieces_;
  std::vector<std::uint32_t> in_pieces_;    ///< triangles by piece
  std::vector<std::uint32_t> shared_with_;  ///< of each vertex the piece last asked about, if it has it
  double patience_ = 1e8;                   ///< triangles looked at to see what is inside what
};

/// A millionth of the extent, or what single precision leaves of coordinates far from the origin.
double weldReach(const Mesh& mesh) {
  Vec3 low(1e300), high(-1e300);
  for (const Vec3& v : mesh.vertices) low = glm::min(low, v), high = glm::max(high, v);
  const Vec3 size = high - low, far = glm::max(glm::abs(low), glm::abs(high));
  return std::max(
      {1e-6 * std::max({size.x, size.y, size.z}), 2.4e-7 * std::max({far.x, far.y, far.z}), 1e-300});
}

}  // namespace

struct MeshMender::Work {
  Mesh drawn;
  MendedMesh out;
  std::optional<MeshWelder> welder;
  std::optional<Mender> mender;
  bool empty = false;
  int done = 0;  ///< steps of the mender
};

MeshMender::MeshMender(Mesh mesh) : work_(std::make_unique<Work>()) {
  work_->drawn = std::move(mesh);
  work_->empty = work_->drawn.triangles.empty();
  if (!work_->empty) work_->welder.emplace(work_->drawn, weldReach(work_->drawn));
}
MeshMender::MeshMender(MeshMender&&) noexcept = default;
MeshMender& MeshMender::operator=(MeshMender&&) noexcept = default;
MeshMender::~MeshMender() = default;

bool MeshMender::step() {
  constexpr std::size_t kTriangles = 250'000;
  Work& w = *work_;
  if (w.empty) return false;
  if (w.welder) {
    if (w.welder->step(kTriangles)) return true;
    WeldedMesh welded = w.welder->take();
    w.welder.reset();
    w.drawn = {};
    w.out.mesh = std::move(welded.mesh);
    w.out.done.joined = welded.joined;
    w.out.done.degenerate = welded.degenerate;
    return true;
  }
  if (!w.mender) {
    dropDuplicates(w.out);
    w.mender.emplace(w.out);
    return true;
  }
  if (w.done < Mender::kSteps) w.mender->step(w.done++);
  return w.done < Mender::kSteps;
}

double MeshMender::share() const {
  const double welded = work_->welder ? work_->welder->share() : 1;
  return (welded + double(work_->done) / Mender::kSteps) / 2;
}

MendedMesh MeshMender::take() { return std::move(work_->out); }

MendedMesh mendMesh(const Mesh& mesh) {
  MeshMender mender(mesh);
  while (mender.step()) {
  }
  return mender.take();
}

}  // namespace pondtrim
