// Volume and first moment under a plane, ours against the general-purpose geometry library CGAL (Debian),
// which clips the body with exact predicates and measures what is left. usage: print_bodies BOAT-FILE... |
// compare_cgal
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/clip.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/orient_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/repair_polygon_soup.h>
#include <CGAL/Surface_mesh.h>
#include <rapidjson/document.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <iostream>
#include <string>
#include <vector>

namespace {

namespace processing = CGAL::Polygon_mesh_processing;
using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Point = Kernel::Point_3;
using Body = CGAL::Surface_mesh<Point>;
using Triangles = std::vector<std::array<std::size_t, 3>>;
using Json = rapidjson::Value;

// Coordinates of the cut are rounded to doubles. A cylinder of 1024 sides lacks 6e-6 of its area.
constexpr double kTolerance = 1e-9, kRoundTolerance = 1e-5;
constexpr std::size_t kSides = 1024;

Body bodyFrom(std::vector<Point> points, Triangles triangles) {
  processing::repair_polygon_soup(points, triangles);
  processing::orient_polygon_soup(points, triangles);
  Body body;
  processing::polygon_soup_to_polygon_mesh(points, triangles, body);
  if (!processing::is_outward_oriented(body)) processing::reverse_face_orientations(body);
  return body;
}

Body cylinder(const Json& given) {
  const double r = given["radius"].GetDouble(), half = given["length"].GetDouble() / 2;
  const auto at = [&](rapidjson::SizeType i) { return given["centre"][i].GetDouble(); };
  std::vector<Point> points;
  Triangles triangles;
  for (std::size_t i = 0; i < kSides; ++i) {
    const double a = 2 * CGAL_PI * static_cast<double>(i) / kSides;
    for (const double x : {-half, half})
      points.emplace_back(at(0) + x, at(1) + r * std::cos(a), at(2) + r * std::sin(a));
  }
  for (std::size_t i = 0; i < kSides; ++i) {
    const std::size_t a = 2 * i, b = 2 * ((i + 1) % kSides);
    triangles.push_back({a, b, b + 1});
    triangles.push_back({a, b + 1, a + 1});
    if (i == 0 || i + 1 == kSides) continue;
    triangles.push_back({0, b, a});
    triangles.push_back({1, a + 1, b + 1});
  }
  return bodyFrom(points, triangles);
}

Body bodyOf(const Json& given) {
  if (given.HasMember("radius")) return cylinder(given);
  std::vector<Point> points;
  const Json &v = given["vertices"], &t = given["triangles"];
  for (rapidjson::SizeType i = 0; i + 2 < v.Size(); i += 3)
    points.emplace_back(v[i].GetDouble(), v[i + 1].GetDouble(), v[i + 2].GetDouble());
  Triangles triangles;
  for (rapidjson::SizeType i = 0; i + 2 < t.Size(); i += 3)
    triangles.push_back({t[i].GetUint(), t[i + 1].GetUint(), t[i + 2].GetUint()});
  return bodyFrom(points, triangles);
}

/// Integral of p dV over the library's own faces, by tetrahedra to the origin.
Kernel::Vector_3 momentOf(const Body& body) {
  Kernel::Vector_3 sum(0, 0, 0);
  for (const auto face : body.faces()) {
    const auto edge = body.halfedge(face);
    const Kernel::Vector_3 a = body.point(body.source(edge)) - CGAL::ORIGIN,
                           b = body.point(body.target(edge)) - CGAL::ORIGIN,
                           c = body.point(body.target(body.next(edge))) - CGAL::ORIGIN;
    sum = sum + CGAL::determinant(a, b, c) / 24 * (a + b + c);
  }
  return sum;
}

struct Tally {
  int bodies = 0, cuts = 0, failed = 0;
  double worst_volume = 0, worst_moment = 0;
};

void compareCuts(const Json& given, Tally& tally) {
  const Body body = bodyOf(given);
  const double whole = processing::volume(body);
  double reach = std::cbrt(whole);
  for (const auto vertex : body.vertices())
    for (int i = 0; i < 3; ++i) reach = std::max(reach, std::abs(body.point(vertex)[i]));
  for (const Json& cut : given["cuts"].GetArray()) {
    Body below = body;
    const Json& up = cut["up"];
    const Kernel::Plane_3 water(up[0].GetDouble(), up[1].GetDouble(), up[2].GetDouble(),
                                -cut["level"].GetDouble());
    processing::clip(below, water, CGAL::parameters::clip_volume(true));
    const double off_volume = std::abs(processing::volume(below) - cut["volume"].GetDouble()) / whole;
    const Kernel::Vector_3 moment = momentOf(below);
    double off_moment = 0;
    for (int i = 0; i < 3; ++i)
      off_moment = std::max(
          off_moment, std::abs(moment[i] - cut["moment"][static_cast<rapidjson::SizeType>(i)].GetDouble()));
    off_moment /= whole * reach;
    ++tally.cuts;
    const bool round = given.HasMember("radius");
    const double tolerance = round ? kRoundTolerance : kTolerance;
    if (!round) tally.worst_volume = std::max(tally.worst_volume, off_volume);
    if (!round) tally.worst_moment = std::max(tally.worst_moment, off_moment);
    if (off_volume <= tolerance && off_moment <= tolerance) continue;
    if (++tally.failed <= 10)
      std::printf("FAIL %s: volume off by %g, moment by %g at (%g %g %g) %g\n", given["name"].GetString(),
                  off_volume, off_moment, up[0].GetDouble(), up[1].GetDouble(), up[2].GetDouble(),
                  cut["level"].GetDouble());
  }
  ++tally.bodies;
}

}  // namespace

int main() {
  Tally tally;
  for (std::string line; std::getline(std::cin, line);) {
    rapidjson::Document given;
    if (given.Parse(line.c_str()).HasParseError()) return 2;
    compareCuts(given, tally);
  }
  if (tally.bodies < 50) {
    ++tally.failed;
    std::puts("too few bodies");
  }
  std::printf(
      "%d bodies, %d cuts: flat-sided ones' volume within %.1e of the whole, first moment within %.1e; %d "
      "failed\n",
      tally.bodies, tally.cuts, tally.worst_volume, tally.worst_moment, tally.failed);
  return tally.failed ? 1 : 0;
}
