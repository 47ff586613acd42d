// The side view on the trim sheet. Millimetres, x forward to the right, z up (SVG's y is down).
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "session/edits.hpp"
#include "session/plot_scale.hpp"
#include "session/trim_sheet.hpp"

namespace pondtrim {
namespace {

std::string num(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", value);
  return text;
}

/// Lowest and highest point of a mesh at a station.
Extent cutAt(const Mesh& mesh, double x) {
  Extent z;
  for (std::size_t t = 0; t + 2 < mesh.triangles.size(); t += 3) {
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec3& a = mesh.vertices[mesh.triangles[t + k]];
      const Vec3& b = mesh.vertices[mesh.triangles[t + (k + 1) % 3]];
      if ((a.x - x) * (b.x - x) > 0 || a.x == b.x) continue;
      z.add(a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x));
    }
  }
  return z;
}

class Drawing {
 public:
  explicit Drawing(const Session& session) : session_(session) {
    for (const SkinBody& skin : session.model().skins) {
      for (const Vec3& v : skin.mesh->vertices) {
        x_.add(1000 * v.x);
        z_.add(1000 * v.z);
      }
    }
    for (const Displacer& d : session.model().displacers)
      spread(1000.0 * d.whole.moment / nonZero(d.whole.volume));
    spread(1000.0 * session.boat().marks.sail_top);
    unit_ = (x_.high - x_.low) / 100;
  }

  [[nodiscard]] std::string svg(const std::string& spoken) {
    const double width = x_.high - x_.low + 4 * unit_, height = z_.high - z_.low + 9 * unit_;
    std::string body = water(session_.empty(), "#d6e9f3", true);
    for (const SkinBody& skin : session_.model().skins) body += outline(*skin.mesh);
    body += cylinders() + parts() + paintedLine();
    body += water(session_.empty(), "#0b4a75", false);
    if (session_.model().tank_capacity > 0)
      body += water(session_.full(), "#0b4a75\" stroke-dasharray=\"" + num(unit_ * 1.2), false);
    body += marker(session_.empty().centre_of_gravity, "G", true);
    body += marker(session_.empty().centre_of_buoyancy, "B", false);
    return "<svg role=\"img\" aria-label=\"" + file::escapedHtml(spoken) + "\" viewBox=\"" +
           num(x_.low - 2 * unit_) + " " + num(-z_.high - 4 * unit_) + " " + num(width) + " " + num(height) +
           "\" font-size=\"" + num(1.9 * unit_) + "\">" + body + "</svg>";
  }

 private:
  static double nonZero(double v) { return v > 0 ? v : 1; }
  void spread(const Vec3& p) {
    x_.add(p.x);
    z_.add(p.z);
  }

  /// Where the water stands on the boat: a line, or all that is under it.
  [[nodiscard]] std::string water(const Report& report, const std::string& colour, bool body) const {
    const Plane& plane = report.rest.plane;
    if (std::abs(plane.up.z) < 0.2 || report.rest.outcome == Outcome::Sinks) return {};
    const double from = x_.low - 2 * unit_, to = x_.high + 2 * unit_;
    const auto z = [&](double x) { return (1000 * plane.level - plane.up.x * x) / plane.up.z; };
    if (!body)
      return "<path fill=\"none\" stroke-width=\"" + num(0.3 * unit_) + "\" stroke=\"" + colour + "\" d=\"M" +
             num(from) + " " + num(-z(from)) + "L" + num(to) + " " + num(-z(to)) + "\"/>";
    const double bottom = -z_.low + 5 * unit_;
    return "<path fill=\"" + colour + "\" d=\"M" + num(from) + " " + num(-z(from)) + "L" + num(to) + " " +
           num(-z(to)) + "L" + num(to) + " " + num(bottom) + "L" + num(from) + " " + num(bottom) + "Z\"/>";
  }

  [[nodiscard]] std::string outline(const Mesh& mesh) const {
    constexpr int kStations = 60;
    Extent x;
    for (const Vec3& v : mesh.vertices) x.add(v.x);
    std::string upper, lower;
    for (int i = 0; i <= kStations; ++i) {
      // Closer together at the ends, where the outline is round.
      const double at = x.low + (x.high - x.low) * (1 - std::cos(kPi * i / kStations)) / 2;
      const Extent z = cutAt(mesh, std::clamp(at, x.low + 1e-6, x.high - 1e-6));
      if (z.empty()) continue;
      upper += (upper.empty() ? "M" : "L") + num(1000 * at) + " " + num(-1000 * z.high);
      lower.insert(0, "L" + num(1000 * at) + " " + num(-1000 * z.low));
    }
    return "<path fill=\"#fff\" fill-opacity=\".6\" stroke=\"#10222e\" stroke-width=\"" + num(0.25 * unit_) +
           "\" d=\"" + upper + lower + "Z\"/>";
  }

  [[nodiscard]] std::string box(const Vec3& low, const Vec3& high, const std::string& style) const {
    return "<rect x=\"" + num(1000 * low.x) + "\" y=\"" + num(-1000 * high.z) + "\" width=\"" +
           num(1000 * (high.x - low.x)) + "\" height=\"" + num(1000 * (high.z - low.z)) +
           "\" stroke-width=\"" + num(0.15 * unit_) + "\" " + style + "/>";
  }

  [[nodiscard]] std::string cylinders() const {
    std::string svg;
    const auto& tank = session_.boat().tank;
    for (const SealedCylinder& c : session_.boat().cylinders) {
      const double r = c.diameter / 2;
      svg += box(c.position - Vec3(c.aft_dome, 0, r), c.position + Vec3(c.length + c.fore_dome, 0, r),
                 "fill=\"#eef3f6\" stroke=\"#33454f\"");
      if (tank && tank->cylinder == c.name)
        svg += box({tank->aft_end, 0, c.position.z - r}, {tank->fore_end, 0, c.position.z + r},
                   "fill=\"#8fc3dd\" stroke=\"#33454f\"");
    }
    return svg;
  }

  [[nodiscard]] std::string parts() const {
    std::string svg;
    for (const Part& part : session_.boat().parts) {
      const double amount = part.role == Role::Foam ? part.volume.value_or(1) : part.mass.value_or(1);
      const Vec3 half = shapeSize(part.shape) / 2.0;
      if (amount <= 0 || half.x <= 0) continue;  // a place with nothing in it
      const char* style = "fill=\"none\" stroke=\"#33454f\"";
      if (part.role == Role::Foam) style = "fill=\"#f2b632\" stroke=\"#10222e\"";
      if (part.role == Role::Lead) style = "fill=\"#10222e\" stroke=\"#10222e\"";
      svg += box(part.position - half, part.position + half, style);
    }
    return svg;
  }

  [[nodiscard]] std::string paintedLine() const {
    const Marks& marks = session_.boat().marks;
    const double y = -1000 * marks.line_height;
    std::string svg = "<path stroke=\"#c1121f\" stroke-width=\"" + num(0.35 * unit_) + "\" d=\"M" +
                      num(1000 * marks.stern_x - 4 * unit_) + " " + num(y) + "H" +
                      num(1000 * marks.bow_x + 4 * unit_) + "\"/>";
    for (const double x : {marks.stern_x, marks.bow_x})
      svg += "<path stroke=\"#c1121f\" stroke-width=\"" + num(0.35 * unit_) + "\" d=\"M" + num(1000 * x) +
             " " + num(y - 1.5 * unit_) + "v" + num(3 * unit_) + "\"/>";
    return svg;
  }

  [[nodiscard]] std::string marker(const Vec3& at, const char* letter, bool dark) const {
    // G is named below its point, B above: they often stand close together.
    const double x = 1000 * at.x, y = -1000 * at.z, r = 1.3 * unit_;
    const double disc = y + (dark ? 1 : -1) * 3.2 * unit_;
    const std::string ink = dark ? "#10222e" : "#fff";
    return "<path stroke=\"#10222e\" stroke-width=\"" + num(0.2 * unit_) + "\" d=\"M" + num(x) + " " +
           num(y) + "L" + num(x) + " " + num(disc) + "\"/><circle cx=\"" + num(x) + "\" cy=\"" + num(y) +
           "\" r=\"" + num(0.45 * unit_) + "\" fill=\"" + ink + "\" stroke=\"#10222e\" stroke-width=\"" +
           num(0.15 * unit_) + "\"/><circle cx=\"" + num(x) + "\" cy=\"" + num(disc) + "\" r=\"" + num(r) +
           "\" fill=\"" + ink + "\" stroke=\"#10222e\" stroke-width=\"" + num(0.2 * unit_) +
           "\"/><text text-anchor=\"middle\" x=\"" + num(x) + "\" y=\"" + num(disc + 0.65 * unit_) +
           "\" fill=\"" + (dark ? "#fff" : "#10222e") + "\">" + letter + "</text>";
  }

  const Session& session_;
  Extent x_, z_;
  double unit_ = 1;  // a hundredth of the length [mm]
};

}  // namespace

std::string sideDrawing(const Session& session) {
  std::string html =
      "<figure>" + Drawing(session).svg(
                       "Side view, bow to the right: hull, cylinder and tank, foam, lead, painted line, "
                       "water with the tank empty and full, G and B.");
  html += "<figcaption>Bow to the right. Red: painted line. Blue: water, tank empty";
  if (session.model().tank_capacity > 0) html += "; dashed: tank full";
  return html + ". Yellow: foam. Black: lead. G and B with the tank empty.</figcaption></figure>";
}

}  // namespace pondtrim
