#include "fair_hull.hpp"

#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>

namespace pondtrim {

namespace {

/// Slope at a point from the chords on either side and their slopes, one coordinate.
double limitedSlope(double before, double after, double d_before, double d_after) {
  const double slope = (before * d_after + after * d_before) / (d_before + d_after);
  if (before * after < 0) return slope;  // a hump: free
  const double most = 3 * std::min(std::abs(before), std::abs(after));
  return std::clamp(slope, -most, most);
}

/// At an end: the parabola's, but not against its first chord nor steeper than three times that.
double endSlope(double first, double second, double d_first, double d_second) {
  const double slope = first + (first - second) * d_first / (d_first + d_second);
  return first >= 0 ? std::clamp(slope, 0.0, 3 * first) : std::clamp(slope, 3 * first, 0.0);
}

Vec3 eachCoordinate(double (*rule)(double, double, double, double), const Vec3& a, const Vec3& b, double da,
                    double db) {
  return {rule(a.x, b.x, da, db), rule(a.y, b.y, da, db), rule(a.z, b.z, da, db)};
}

/// A round end: along the axis the curve runs with the square of q, so that off it, it runs as a circle does.
struct RoundEnd {
  bool round = false;
  double along = 0;      ///< from the end to the first point, along the axis
  Vec3 off{0.0};         ///< off it
  double off_slope = 0;  ///< share of `off` gained per unit along there
};

/// Round when the distance off the axis grows about as the root of that along it, as an ellipse does (powers
/// 0.2 to 0.5 of the first two points), and not about in proportion (a parabola's end: 0.7 to 1).
/// The slope comes from the squares of the distance off it, which for an ellipse are a parabola.
RoundEnd roundEnd(const Vec3& end, const Vec3& first, const Vec3& second, const CurveEnd& how) {
  RoundEnd out;
  if (!how.on_axis) return out;
  const double a1 = glm::dot(first - end, how.axis), a2 = glm::dot(second - end, how.axis);
  out.along = a1;
  out.off = first - end - how.axis * a1;
  const double r1 = glm::length(out.off), r2 = glm::length(second - end - how.axis * a2);
  if (!(a1 > 1e-9 && a2 > a1 * (1 + 1e-9) && r1 > 1e-9 && r2 > 1e-9)) return out;
  out.round = std::log(r2 / r1) < 0.6 * std::log(a2 / a1);
  const double before = r1 * r1 / a1, after = (r2 * r2 - r1 * r1) / (a2 - a1);
  const double slope = (before * (a2 - a1) + after * a1) / a2;  // of r^2 at a1
  out.off_slope = std::clamp(slope / (2 * r1 * r1), 0.0, 0.75 / a1);
  return out;
}

}  // namespace

FairCurve::FairCurve(std::vector<Vec3> points, const CurveEnd& start, const CurveEnd& end)
    : points_(std::move(points)) {
  const std::size_t n = points_.size();
  std::vector<double> d;
  std::vector<Vec3> chord;
  along_.push_back(0);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    d.push_back(glm::length(points_[i + 1] - points_[i]));
    chord.push_back((points_[i + 1] - points_[i]) / d[i]);
    along_.push_back(along_[i] + d[i]);
  }
  std::vector<Vec3> tangent(n, chord[0]);  // per unit of chord
  for (std::size_t i = 1; i + 1 < n; ++i)
    tangent[i] = eachCoordinate(limitedSlope, chord[i - 1], chord[i], d[i - 1], d[i]);
  if (n > 2) {
    tangent[0] = eachCoordinate(endSlope, chord[0], chord[1], d[0], d[1]);
    tangent[n - 1] = eachCoordinate(endSlope, chord[n - 2], chord[n - 3], d[n - 2], d[n - 3]);
  }
  RoundEnd first, last;
  if (n > 2) {
    first = roundEnd(points_[0], points_[1], points_[2], start);
    last = roundEnd(points_[n - 1], points_[n - 2], points_[n - 3], end);
  }
  // The way in which a curve leaves a round end goes on at the next point.
  const auto direction = [](const RoundEnd& e, const Vec3& axis) {
    return glm::normalize(axis + e.off * e.off_slope);
  };
  if (first.round) tangent[1] = direction(first, start.axis);
  if (last.round) tangent[n - 2] = -direction(last, end.axis);
  for (std::size_t i = 0; i + 1 < n; ++i) pieces_.push_back({tangent[i] * d[i], tangent[i + 1] * d[i]});
  const auto roundOff = [](const RoundEnd& e, const Vec3& axis, Vec3& at_end, Vec3& at_point) {
    const Vec3 off = e.off * (e.off_slope * 2 * e.along);
    at_point = axis * (2 * e.along) + off;
    at_end = (3.0 * e.off - off) / 2.0;
  };
  if (first.round) roundOff(first, start.axis, pieces_.front().leaving, pieces_.front().arriving);
  if (last.round) {
    roundOff(last, end.axis, pieces_.back().arriving, pieces_.back().leaving);
    pieces_.back().arriving *= -1.0;
    pieces_.back().leaving *= -1.0;
  }
}

Vec3 FairCurve::inPiece(std::size_t i, double q) const {
  const Vec3 &a = points_[i], &b = points_[i + 1], step = b - a;
  const Piece& p = pieces_[i];
  // Hermite's cubic.
  return a + q * (p.leaving + q * (3.0 * step - 2.0 * p.leaving - p.arriving +
                                   q * (p.leaving + p.arriving - 2.0 * step)));
}

Vec3 FairCurve::at(double share) const {
  const double s = share * along_.back();
  std::size_t i = 0;
  while (i + 2 < along_.size() && s > along_[i + 1]) ++i;
  return inPiece(i, std::clamp((s - along_[i]) / (along_[i + 1] - along_[i]), 0.0, 1.0));
}

FairHull::FairHull(const OffsetsForm& form) {
  for (const OffsetStation& s : form.stations) {
    x_.push_back(s.at_x);
    std::vector<Vec3> points;
    for (std::size_t i = 0; i < s.heights.size(); ++i)
      points.emplace_back(s.at_x, s.half_breadths[i], s.heights[i]);
    tips_.push_back(points.front());
    if (points.size() == 1) {
      across_.emplace_back();
    } else {
      const CurveEnd keel{points.front().y == 0, {0, 0, 1}}, deck{points.back().y == 0, {0, 0, -1}};
      across_.emplace_back(FairCurve(std::move(points), keel, deck));
    }
  }
  for (std::size_t j = 0; j < kLines; ++j) lines_.push_back(lengthways(double(j) / (kLines - 1)));
}

FairCurve FairHull::lengthways(double share) const {
  std::vector<Vec3> points;
  for (std::size_t i = 0; i < x_.size(); ++i) points.push_back(across_[i] ? across_[i]->at(share) : tips_[i]);
  return {std::move(points), {!across_.front(), {1, 0, 0}}, {!across_.back(), {-1, 0, 0}}};
}

std::vector<Vec3> FairHull::ring(std::size_t i, double q, std::size_t count) const {
  std::vector<Vec3> out;
  for (std::size_t j = 0; j < count; ++j) {
    const double share = double(j) / double(count - 1);
    const bool kept = (kLines - 1) % (count - 1) == 0;
    Vec3 p = kept ? lines_[j * (kLines - 1) / (count - 1)].inPiece(i, q) : lengthways(share).inPiece(i, q);
    p.y = std::max(p.y, 0.0);
    out.push_back(p);
  }
  return out;
}

std::vector<Vec3> FairHull::section(double x) const {
  std::vector<Vec3> out;
  if (x < x_.front() || x > x_.back()) return out;
  std::size_t i = 0;
  while (i + 2 < x_.size() && x > x_[i + 1]) ++i;
  for (const FairCurve& line : lines_) {
    double low = 0, high = 1;  // x rises along a line
    for (int k = 0; k < 26; ++k) {
      const double middle = (low + high) / 2;
      (line.inPiece(i, middle).x < x ? low : high) = middle;
    }
    out.push_back(line.inPiece(i, (low + high) / 2));
  }
  return out;
}

double breadthAt(const std::vector<Vec3>& section, double z) {
  double breadth = 0;
  for (std::size_t j = 0; j + 1 < section.size(); ++j) {
    const Vec3 &a = section[j], &b = section[j + 1];
    if (z < std::min(a.z, b.z) || z > std::max(a.z, b.z)) continue;
    const double share = b.z != a.z ? (z - a.z) / (b.z - a.z) : 1.0;
    breadth = std::max({breadth, a.y + share * (b.y - a.y), b.z == a.z ? a.y : 0.0});
  }
  return breadth;
}

}  // namespace pondtrim
