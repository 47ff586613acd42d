// Box or tapered strip: a convex solid with six flat faces, cut exactly, face by face.
#include <array>

#include "moments.hpp"

namespace pondtrim {

namespace {

constexpr unsigned kFaces[6][4] = {
    {0, 1, 3, 2},  // aft
    {4, 6, 7, 5},  // fore
    {0, 4, 5, 1},  // starboard
    {2, 3, 7, 6},  // port
    {0, 2, 6, 4},  // bottom
    {1, 5, 7, 3},  // top
};

/// Corners relative to the centre: bit 2 fore, bit 1 port, bit 0 top.
std::array<Vec3, 8> corners(const StripSolid& s) {
  std::array<Vec3, 8> out;
  for (unsigned i = 0; i < 8; ++i) {
    const bool fore = (i & 4u) != 0;
    const double b = fore ? s.fore_half_breadth : s.aft_half_breadth;
    const double h = fore ? s.fore_half_height : s.aft_half_height;
    out[i] = {fore ? s.length / 2 : -s.length / 2, (i & 2u) != 0 ? b : -b, (i & 1u) != 0 ? h : -h};
  }
  return out;
}

/// Volume and first moment: breadth and height are linear in x.
Cut wholeStrip(const StripSolid& s) {
  const double b0 = 2 * s.aft_half_breadth, b1 = 2 * s.fore_half_breadth;
  const double h0 = 2 * s.aft_half_height, h1 = 2 * s.fore_half_height;
  Cut out;
  out.volume = s.length * (2 * (b0 * h0 + b1 * h1) + b0 * h1 + b1 * h0) / 6;
  out.moment.x = s.length * s.length * (b1 * h1 - b0 * h0) / 12;
  return shifted(out, s.centre);
}

}  // namespace

Cut cutStrip(const StripSolid& solid, const Plane& plane) {
  const Plane local{plane.up, plane.level - glm::dot(plane.up, solid.centre)};
  SolidGatherer gather(local);
  const std::array<Vec3, 8> p = corners(solid);
  std::array<double, 8> s{};
  unsigned wet = 0;
  for (unsigned i = 0; i < 8; ++i) {
    s[i] = gather.depth(p[i]);
    wet += s[i] > 0 ? 1u : 0u;
  }
  if (wet == 0) return {};
  if (wet == 8) return wholeStrip(solid);

  const auto add = [&](unsigned i, unsigned j, unsigned k) {
    const double lift = 0.5 * glm::dot(local.up, glm::cross(p[j] - p[i], p[k] - p[i]));
    gather.add(p[i], p[j], p[k], s[i], s[j], s[k], lift);
  };
  for (const auto& f : kFaces) {
    add(f[0], f[1], f[2]);
    add(f[0], f[2], f[3]);
  }
  return shifted(gather.cut(), solid.centre);
}

}  // namespace pondtrim
