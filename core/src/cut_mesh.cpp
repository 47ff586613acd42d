// Triangle meshes cut by a plane: closed solids, and skins of a given thickness.
#include <algorithm>
#include <array>
#include <cmath>

#include "plane_tree.hpp"

namespace pondtrim {

namespace {

/// Integrals over a branch of a solid's boundary from which its flux at any plane follows:
/// n dA, p_i n_k dA and p_i p_j n_k dA (k = 0, 1, 2).
struct SolidSums {
  Vec3 n{0.0};
  Vec3 pn[3]{Vec3(0.0), Vec3(0.0), Vec3(0.0)};  ///< pn[k] = integral of p n_k
  Sym3 ppn[3];

  void add(const SolidSums& o) {
    n += o.n;
    for (int k = 0; k < 3; ++k) {
      pn[k] += o.pn[k];
      addScaled(ppn[k], o.ppn[k], 1.0);
    }
  }
};

SolidSums sumsOf(const TreeTriangle& t) {
  SolidSums out;
  out.n = t.area;
  FlatMoments flat;
  flat.addTriangle(t.p0, t.p1, t.p2, 1.0);
  for (int k = 0; k < 3; ++k) {
    out.pn[k] = flat.first * t.area[k];
    addScaled(out.ppn[k], flat.second, t.area[k]);
  }
  return out;
}

/// Everything a wet branch adds: the sums contracted with the plane.
void addWet(SolidGatherer& gather, const SolidSums& sums, const Plane& plane) {
  const Vec3& u = plane.up;
  const double un = glm::dot(u, sums.n);
  const Vec3 pun = sums.pn[0] * u.x + sums.pn[1] * u.y + sums.pn[2] * u.z;
  Sym3 ppun;
  for (int k = 0; k < 3; ++k) addScaled(ppun, sums.ppn[k], u[k]);
  const Vec3 place = times(ppun, u);
  const double c = plane.level, upun = glm::dot(u, pun);
  gather.addWet(c * un - upun, c * c * un - 2 * c * upun + glm::dot(u, place), pun * c - place);
}

/// Integrals over a branch of a skin.
struct SkinSums {
  double area = 0;
  Vec3 first{0.0};
  void add(const SkinSums& o) {
    area += o.area;
    first += o.first;
  }
};

SkinSums skinSumsOf(const TreeTriangle& t) { return {t.size, (t.p0 + t.p1 + t.p2) * (t.size / 3)}; }

/// A corner of a clipped triangle and its depth.
struct Corner {
  Vec3 p;
  double s;
};

/// Nothing is set to 0 first: this runs for every triangle at the waterline.
template <unsigned kMost>
struct Polygon {
  Corner corners[kMost];
  unsigned count = 0;
  void add(const Corner& c) { corners[count++] = c; }
};

/// A triangle's part at least as deep as `half`, and the stretch between that depth and `half` above the
/// water.
struct Split {
  Polygon<4> deep;
  Polygon<5> band;
};

Split split(const Corner (&corners)[3], double half) {
  Split out;
  for (unsigned i = 0; i < 3; ++i) {
    const Corner &a = corners[i], &b = corners[i < 2 ? i + 1 : 0];
    const auto at = [&](double s) { return Corner{a.p + (b.p - a.p) * ((s - a.s) / (b.s - a.s)), s}; };
    const auto edgeOfDeep = [&] {
      const Corner edge = at(half);
      out.deep.add(edge);
      out.band.add(edge);
    };
    const bool a_deep = a.s >= half, b_deep = b.s >= half, a_dry = a.s <= -half, b_dry = b.s <= -half;
    if (a_deep) out.deep.add(a);
    if (!a_deep && !a_dry) out.band.add(a);
    if (a_deep && !b_deep) edgeOfDeep();
    if (a_dry != b_dry) out.band.add(at(-half));
    if (!a_deep && b_deep) edgeOfDeep();
  }
  return out;
}

/// A skin triangle is a prism of thickness t, half on either side. Its cut is exact, so that a level deck
/// goes under over its thickness and not in a jump. Notation: n unit normal, q = n.u, and at a point p of the
/// middle surface with depth s the wet part of the thickness is t/2 + s/|q| of t while |s| < t |q| / 2.
class SkinGatherer {
 public:
  SkinGatherer(const Plane& plane, double thickness) : plane_(plane), t_(thickness) {}

  void addWet(double area, const Vec3& first) {
    out_.volume += t_ * area;
    out_.moment += first * t_;
  }

  void add(const TreeTriangle& tri) {
    const double s0 = depth(tri.p0), s1 = depth(tri.p1), s2 = depth(tri.p2);
    const double q = glm::dot(tri.area, plane_.up) / tri.size, half = 0.5 * t_ * std::abs(q);
    if (std::max({s0, s1, s2}) <= -half) return;
    if (std::min({s0, s1, s2}) >= half) {
      addWet(tri.size, (tri.p0 + tri.p1 + tri.p2) * (tri.size / 3));
      return;
    }
    const Vec3 n = tri.area / tri.size;
    const Corner corners[3] = {{tri.p0, s0}, {tri.p1, s1}, {tri.p2, s2}};
    if (std::abs(q) < kUpright) return addUpright(corners, n, q);
    const Split parts = split(corners, half);
    addDeep(parts.deep, n);
    addBand(parts.band, n, q);
  }

  [[nodiscard]] const Cut& cut() const { return out_; }

 private:
  /// Facets steeper than this are cut across their thickness, as if on end: the band is then narrower than a
  /// ten-thousandth of the thickness, and what is left out is 1e-10 of a typical skin's moments (measured in
  /// tests/core/oracle_test.cpp). Much less, and dividing by q would lose more than that to rounding.
  static constexpr double kUpright = 1e-4;

  [[nodiscard]] double depth(const Vec3& p) const { return plane_.level - glm::dot(plane_.up, p); }

  void addDeep(const Polygon<4>& polygon, const Vec3& n) {
    if (polygon.count < 3) return;
    const Vec3& p0 = polygon.corners[0].p;
    for (unsigned i = 2; i < polygon.count; ++i) {
      const Vec3 &p1 = polygon.corners[i - 1].p, &p2 = polygon.corners[i].p;
      const double area = 0.5 * glm::dot(n, glm::cross(p1 - p0, p2 - p0));
      addWet(area, (p0 + p1 + p2) * (area / 3));
    }
  }

  /// The stretch where water stands inside the thickness.
  void addBand(const Polygon<5>& polygon, const Vec3& n, double q) {
    if (polygon.count < 3) return;
    const double per = 1 / std::abs(q), way = q > 0 ? 1.0 : -1.0;
    const auto onPlane = [&](const Corner& c) { return c.p + n * (c.s / q); };
    const Corner& a = polygon.corners[0];
    const Vec3 plane_a = onPlane(a);
    Vec3 plane_b = onPlane(polygon.corners[1]);
    FlatMoments flat;
    for (unsigned i = 2; i < polygon.count; ++i) {
      const Corner &b = polygon.corners[i - 1], &c = polygon.corners[i];
      const double area = 0.5 * glm::dot(n, glm::cross(b.p - a.p, c.p - a.p));
      const Vec3 place = a.p + b.p + c.p;
      const double sum = a.s + b.s + c.s;
      const double ss = area / 12 * (a.s * a.s + b.s * b.s + c.s * c.s + sum * sum);
      const Vec3 sp = (a.p * a.s + b.p * b.s + c.p * c.s + place * sum) * (area / 12);
      const double across = 0.5 * (ss * per * per - 0.25 * t_ * t_ * area);  // integral of the offset along n
      out_.volume += area * (t_ / 2 + per * sum / 3);
      out_.moment += place * (t_ / 2 * area / 3) + sp * per + n * (way * across);
      const Vec3 plane_c = onPlane(c);
      flat.addTriangle(plane_a, plane_b, plane_c, area * per);
      plane_b = plane_c;
    }
    out_.plane_area += flat.area;
    out_.plane_moment += flat.first;
    addScaled(out_.plane_second, flat.second, 1.0);
  }

  /// A sheet on end: the waterplane is thickness times the waterline over the sine of its angle to the water.
  void addUpright(const Corner (&corners)[3], const Vec3& n, double q) {
    const Split parts = split(corners, 0.0);
    if (parts.deep.count < 3) return;
    addDeep(parts.deep, n);
    std::array<Vec3, 2> ends{};
    unsigned found = 0;
    for (unsigned i = 0; i < 3; ++i) {
      const Corner &a = corners[i], &b = corners[(i + 1) % 3];
      if ((a.s >= 0) != (b.s >= 0)) ends[found++] = a.p + (b.p - a.p) * (a.s / (a.s - b.s));
    }
    if (found < 2) return;
    const double sine = std::sqrt(1 - q * q);
    const double k = glm::length(ends[1] - ends[0]) * t_ / sine;
    out_.plane_area += k;
    out_.plane_moment += (ends[0] + ends[1]) * (k / 2);
    addOuter(out_.plane_second, ends[0], k / 6);
    addOuter(out_.plane_second, ends[1], k / 6);
    addOuter(out_.plane_second, ends[0] + ends[1], k / 6);
    const Vec3 across = (n - plane_.up * q) / sine;  // level
    addOuter(out_.plane_second, across, k * t_ * t_ / 12);
  }

  Plane plane_;
  double t_;
  Cut out_;
};

/// Sums of every branch, leaves first (a node's children come after it).
template <class Sums, class SumsOf>
std::vector<Sums> sumBranches(const PlaneTree& tree, SumsOf sums_of) {
  std::vector<Sums> out(tree.nodes.size());
  for (std::size_t i = tree.nodes.size(); i-- > 0;) {
    const TreeNode& node = tree.nodes[i];
    if (node.leaf) {
      for (std::uint32_t t = node.first; t < node.first + node.count; ++t)
        out[i].add(sums_of(tree.triangles[t]));
    } else {
      const std::size_t left = i + 1;
      out[i].add(out[left]);
      out[i].add(out[tree.nodes[left].skip]);
    }
  }
  return out;
}

bool whollyUnder(const TreeNode& node, const Plane& plane) {
  return plane.level - glm::dot(plane.up, node.centre) > glm::dot(glm::abs(plane.up), node.half);
}

}  // namespace

struct CutMesh::Tree {
  PlaneTree tree;
  double thickness = 0;  ///< 0: a solid
  std::vector<SolidSums> solid;
  std::vector<SkinSums> skin;
  Cut whole;
  double area = 0;
};

CutMesh::CutMesh(std::shared_ptr<const Tree> tree) : tree_(std::move(tree)) {}

struct CutMesh::Work {
  explicit Work(double thickness) { made.thickness = thickness; }
  bool step(const Mesh& mesh) {
    if (grower.step(mesh)) return true;
    made.tree = grower.take();
    if (made.thickness > 0)
      sumSkin();
    else
      sumSolid();
    return false;
  }
  CutMesh take() { return CutMesh(std::make_shared<const Tree>(std::move(made))); }

  TreeGrower grower;
  Tree made;

 private:
  void sumSolid() {
    made.solid = sumBranches<SolidSums>(made.tree, sumsOf);
    if (!made.solid.empty()) {
      const SolidSums& all = made.solid[0];
      Cut whole;
      whole.volume = (all.pn[0].x + all.pn[1].y + all.pn[2].z) / 3;
      whole.moment = Vec3(all.ppn[0].xx, all.ppn[1].yy, all.ppn[2].zz) / 2.0;
      made.whole = shifted(whole, made.tree.origin);
    }
    for (const TreeTriangle& t : made.tree.triangles) made.area += t.size;
  }
  void sumSkin() {
    made.skin = sumBranches<SkinSums>(made.tree, skinSumsOf);
    if (made.skin.empty()) return;
    Cut whole;
    whole.volume = made.thickness * made.skin[0].area;
    whole.moment = made.skin[0].first * made.thickness;
    made.whole = shifted(whole, made.tree.origin);
    made.area = made.skin[0].area;
  }
};

CutMesh CutMesh::make(const Mesh& mesh, double thickness) {
  Work work(thickness);
  while (work.step(mesh)) {
  }
  return work.take();
}

CutMesh CutMesh::solid(const Mesh& mesh) { return make(mesh, 0); }
CutMesh CutMesh::skin(const Mesh& mesh, double thickness) { return make(mesh, thickness); }

CutMeshMaker::CutMeshMaker(Mesh mesh, double thickness)
    : mesh_(std::move(mesh)), work_(std::make_unique<CutMesh::Work>(thickness)) {}
CutMeshMaker::CutMeshMaker(CutMeshMaker&&) noexcept = default;
CutMeshMaker& CutMeshMaker::operator=(CutMeshMaker&&) noexcept = default;
CutMeshMaker::~CutMeshMaker() = default;
bool CutMeshMaker::step() { return work_->step(mesh_); }
double CutMeshMaker::share() const { return work_->grower.share(); }
CutMesh CutMeshMaker::take() { return work_->take(); }

const Cut& CutMesh::whole() const { return tree_->whole; }
double CutMesh::area() const { return tree_->area; }

Cut CutMesh::cut(const Plane& plane) const {
  const PlaneTree& tree = tree_->tree;
  const Plane local{plane.up, plane.level - glm::dot(plane.up, tree.origin)};
  if (tree_->thickness > 0) {
    SkinGatherer gather(local, tree_->thickness);
    walkTree(
        tree, local, tree_->thickness / 2,
        [&](std::uint32_t i) { gather.addWet(tree_->skin[i].area, tree_->skin[i].first); },
        [&](const TreeTriangle& t) { gather.add(t); });
    return shifted(gather.cut(), tree.origin);
  }
  // Far above, the sums' powers of the level would drown what they should cancel to.
  if (tree.nodes.empty() || whollyUnder(tree.nodes[0], local)) return tree_->whole;
  SolidGatherer gather(local);
  SolidSums wet;
  walkTree(
      tree, local, 0.0, [&](std::uint32_t i) { wet.add(tree_->solid[i]); },
      [&](const TreeTriangle& t) {
        gather.add(t.p0, t.p1, t.p2, gather.depth(t.p0), gather.depth(t.p1), gather.depth(t.p2),
                   glm::dot(local.up, t.area));
      });
  addWet(gather, wet, local);
  return shifted(gather.cut(), tree.origin);
}

}  // namespace pondtrim
