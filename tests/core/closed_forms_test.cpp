// Bodies whose cut has an answer on paper, in one table, at many orientations.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <string>
#include <variant>
#include <vector>

#include "support/compare.hpp"
#include "support/meshes.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

// Closed forms in double precision: a few hundred roundings, far from the 1e-9 that the equilibrium needs.
constexpr double kClosedForm = 1e-12;

using Body = std::variant<CylinderSolid, StripSolid>;

struct Row {
  std::string name;
  Body body;
  Plane plane;
  Cut expected;
};

const Vec3 kUp{0, 0, 1};

CylinderSolid lying(double r, double l, double fore = 0.0, double aft = 0.0) {
  return {Vec3{0.0}, {1, 0, 0}, r, l, fore, aft};
}
CylinderSolid standing(double r, double l, double top = 0.0, double bottom = 0.0) {
  return {Vec3{0.0}, {0, 0, 1}, r, l, top, bottom};
}

// z = base + slope x as the water's surface.
Plane sloping(double base, double slope) {
  const double k = std::sqrt(1.0 + slope * slope);
  return {{-slope / k, 0.0, 1.0 / k}, base / k};
}

// A waterplane z = base + slope x whose shadow on the xy-plane has these area integrals.
void setPlane(Cut& cut, double base, double slope, double area, double x, double xx, double yy) {
  const double k = std::sqrt(1.0 + slope * slope);
  const double z = base * area + slope * x;
  const double xz = base * x + slope * xx;
  const double zz = base * base * area + 2 * base * slope * x + slope * slope * xx;
  cut.plane_area = k * area;
  cut.plane_moment = {k * x, 0.0, k * z};
  cut.plane_second = {k * xx, k * yy, k * zz, 0.0, k * xz, 0.0};
}

Row halfCylinder() {
  const double r = 0.05, l = 0.4;
  Row row{"lying cylinder to its axis", lying(r, l), {kUp, 0.0}, {}};
  row.expected.volume = kPi * r * r * l / 2;
  row.expected.moment = {0, 0, -2.0 / 3.0 * r * r * r * l};
  setPlane(row.expected, 0, 0, 2 * r * l, 0, 2 * r * l * l * l / 12, l * std::pow(2 * r, 3) / 12);
  return row;
}

Row standingCylinder() {
  const double r = 0.06, l = 0.3, t = 0.11, a = kPi * r * r;
  Row row{"standing cylinder", standing(r, l), {kUp, t - l / 2}, {}};
  row.expected.volume = a * t;
  row.expected.moment = {0, 0, a * t * (t / 2 - l / 2)};
  setPlane(row.expected, t - l / 2, 0, a, 0, a * r * r / 4, a * r * r / 4);
  return row;
}

Row sphereCap(double share) {
  const double r = 0.07, h = 2 * r * share, a = kPi * (2 * r * h - h * h);
  Row row{"sphere cap", lying(r, 0.0, r, r), {kUp, h - r}, {}};
  row.expected.volume = kPi * h * h * (3 * r - h) / 3;
  row.expected.moment = {0, 0, -kPi * h * h * (2 * r - h) * (2 * r - h) / 4};
  setPlane(row.expected, h - r, 0, a, 0, a * a / (4 * kPi), a * a / (4 * kPi));
  return row;
}

Row halfCapsule() {
  const double r = 0.05, l = 0.3;
  Row row{"lying capsule to its axis", lying(r, l, r, r), {kUp, 0.0}, {}};
  row.expected.volume = kPi * r * r * l / 2 + 2.0 / 3.0 * kPi * r * r * r;
  row.expected.moment = {0, 0, -(2.0 / 3.0 * r * r * r * l + kPi * std::pow(r, 4) / 4)};
  const double ends = l * l / 4 * kPi * r * r + 2 * l * 2.0 / 3.0 * r * r * r + kPi * std::pow(r, 4) / 4;
  setPlane(row.expected, 0, 0, 2 * r * l + kPi * r * r, 0, 2 * r * l * l * l / 12 + ends,
           l * std::pow(2 * r, 3) / 12 + kPi * std::pow(r, 4) / 4);
  return row;
}

Row halfEgg() {
  // Only the lower dome under water, on end: half a spheroid.
  const double r = 0.04, h = 0.09, l = 0.2, a = kPi * r * r;
  Row row{"standing cylinder to its lower dome", standing(r, l, 0.02, h), {kUp, -l / 2}, {}};
  row.expected.volume = 2.0 / 3.0 * a * h;
  row.expected.moment = {0, 0, 2.0 / 3.0 * a * h * (-l / 2 - 3.0 / 8.0 * h)};
  setPlane(row.expected, -l / 2, 0, a, 0, a * r * r / 4, a * r * r / 4);
  return row;
}

Row slantCylinder() {
  const double r = 0.05, l = 0.4, s = 0.7, base = 0.03, a = kPi * r * r, i = a * r * r / 4;
  Row row{"standing cylinder, water on a slant", standing(r, l), sloping(base, s), {}};
  row.expected.volume = a * (base + l / 2);
  row.expected.moment = {s * i, 0, (a * (base * base - l * l / 4) + s * s * i) / 2};
  setPlane(row.expected, base, s, a, 0, i, i);
  return row;
}

Row hoof() {
  // The cylindrical hoof, Archimedes' Method, proposition 11: 2/3 R^2 h.
  const double r = 0.05, l = 0.4, s = 1.9, h = s * r;
  Row row{"cylindrical hoof", standing(r, l), sloping(-l / 2, s), {}};
  row.expected.volume = 2.0 / 3.0 * r * r * h;
  const double v = row.expected.volume;
  row.expected.moment = {v * 3 * kPi * r / 16, 0, v * (3 * kPi * h / 32 - l / 2)};
  const double i = kPi * std::pow(r, 4) / 8;
  setPlane(row.expected, -l / 2, s, kPi * r * r / 2, 2.0 / 3.0 * r * r * r, i, i);
  return row;
}

StripSolid block(double l, double b, double h) { return {Vec3{0.0}, l, b / 2, h / 2, b / 2, h / 2}; }

Row levelBox() {
  const double l = 1.2, b = 0.3, h = 0.24, t = 0.1;
  Row row{"box on an even keel", block(l, b, h), {kUp, t - h / 2}, {}};
  row.expected.volume = l * b * t;
  row.expected.moment = {0, 0, l * b * t * (t / 2 - h / 2)};
  setPlane(row.expected, t - h / 2, 0, l * b, 0, b * l * l * l / 12, l * b * b * b / 12);
  return row;
}

Row trimmedBox() {
  const double l = 1.0, b = 0.2, h = 0.3, s = 0.2, base = 0.02, i = b * l * l * l / 12;
  Row row{"box trimmed, deck dry and bottom wet", block(l, b, h), sloping(base, s), {}};
  row.expected.volume = l * b * (base + h / 2);
  row.expected.moment = {s * i, 0, (l * b * (base * base - h * h / 4) + s * s * i) / 2};
  setPlane(row.expected, base, s, l * b, 0, i, l * b * b * b / 12);
  return row;
}

Row cornerOfBox() {
  // The corner at (-l, -b, -h)/2 under water: the tetrahedron with edges p, q, r along the axes.
  const Vec3 size{0.5, 0.3, 0.4}, edge{0.2, 0.25, 0.1}, corner = -size / 2.0;
  const Vec3 n = glm::normalize(1.0 / edge);
  Row row{"corner of a box", block(size.x, size.y, size.z), {n, glm::dot(n, corner) + n.x * edge.x}, {}};
  row.expected.volume = edge.x * edge.y * edge.z / 6;
  row.expected.moment = row.expected.volume * (corner + edge / 4.0);
  const Vec3 a = corner + Vec3{edge.x, 0, 0}, b = corner + Vec3{0, edge.y, 0},
             c = corner + Vec3{0, 0, edge.z};
  const double area = glm::length(glm::cross(b - a, c - a)) / 2;
  row.expected.plane_area = area;
  row.expected.plane_moment = area * (a + b + c) / 3.0;
  row.expected.plane_second = plus(plus(outer(a, area / 12), outer(b, area / 12)),
                                   plus(outer(c, area / 12), outer(a + b + c, area / 12)));
  return row;
}

Row wedge() {
  // Sharp fore edge (height 0), upper half above water: half of a triangular prism.
  const double l = 0.6, b = 0.1, h = 0.2;
  Row row{"wedge to its middle", StripSolid{Vec3{0.0}, l, b / 2, h / 2, b / 2, 0.0}, {kUp, 0.0}, {}};
  row.expected.volume = l * b * h / 4;
  row.expected.moment = {row.expected.volume * (-l / 6), 0, -row.expected.volume * h / 6};
  setPlane(row.expected, 0, 0, l * b, 0, b * l * l * l / 12, l * b * b * b / 12);
  return row;
}

Row pyramid() {
  const double l = 0.6, b = 0.1, h = 0.2;
  Row row{"pyramid wholly under water", StripSolid{Vec3{0.0}, l, b / 2, h / 2, 0.0, 0.0}, {kUp, h}, {}};
  row.expected.volume = l * b * h / 3;
  row.expected.moment = {row.expected.volume * (-l / 2 + l / 4), 0, 0};
  return row;
}

Row taperedOnEnd() {
  // Tapered strip, aft end down, cut across at the share t of its length: a prismatoid (Simpson is exact).
  const double l = 0.5, t = 0.4, cut = l * t;
  const auto breadth = [](double x) { return 0.10 + (0.04 - 0.10) * x; };
  const auto height = [](double x) { return 0.06 + (0.09 - 0.06) * x; };
  const auto area = [&](double x) { return breadth(x) * height(x); };
  Row row{"tapered strip on end",
          StripSolid{Vec3{0.0}, l, 0.05, 0.03, 0.02, 0.045},
          {{1, 0, 0}, cut - l / 2},
          {}};
  row.expected.volume = cut / 6 * (area(0) + 4 * area(t / 2) + area(t));
  // x area(x) is a cubic: Simpson's rule is exact for it too.
  row.expected.moment.x = cut / 6 * (4 * area(t / 2) * cut / 2 + area(t) * cut) - row.expected.volume * l / 2;
  const double b = breadth(t), h = height(t), x = cut - l / 2;
  row.expected.plane_area = b * h;
  row.expected.plane_moment = {x * b * h, 0, 0};
  row.expected.plane_second = {x * x * b * h, h * b * b * b / 12, b * h * h * h / 12, 0, 0, 0};
  return row;
}

std::vector<Row> table() {
  return {halfCylinder(), standingCylinder(), sphereCap(0.1),  sphereCap(0.5), sphereCap(0.83),
          halfCapsule(),  halfEgg(),          slantCylinder(), hoof(),         levelBox(),
          trimmedBox(),   cornerOfBox(),      wedge(),         pyramid(),      taperedOnEnd()};
}

CutScale scaleOf(const Body& body) {
  if (const auto* c = std::get_if<CylinderSolid>(&body)) {
    const double v = kPi * c->radius * c->radius * (c->length + 2.0 / 3.0 * (c->fore_dome + c->aft_dome));
    return {v, c->length / 2 + std::max(c->fore_dome, c->aft_dome) + c->radius + glm::length(c->centre)};
  }
  const StripSolid& s = std::get<StripSolid>(body);
  const auto area = [&](double t) {
    return 4 * (s.aft_half_breadth + t * (s.fore_half_breadth - s.aft_half_breadth)) *
           (s.aft_half_height + t * (s.fore_half_height - s.aft_half_height));
  };
  return {s.length / 6 * (area(0) + 4 * area(0.5) + area(1)), reach(stripMesh(s))};
}

}  // namespace

TEST_SUITE("closed forms") {
  TEST_CASE("every body of the table is cut as its formula says") {
    int rows = 0;
    for (const Row& row : table()) {
      CAPTURE(row.name);
      const Cut cut = std::holds_alternative<CylinderSolid>(row.body)
                          ? cutCylinder(std::get<CylinderSolid>(row.body), row.plane)
                          : cutStrip(std::get<StripSolid>(row.body), row.plane);
      INFO("got  " << describe(cut));
      INFO("want " << describe(row.expected));
      CHECK(cutDifference(cut, row.expected, scaleOf(row.body)) < kClosedForm);
      ++rows;
    }
    CHECK(rows == 15);
  }

  TEST_CASE("a round body turned and moved with the water is cut the same") {
    Random random(20240611);
    int cuts = 0;
    for (const Row& row : table()) {
      const auto* body = std::get_if<CylinderSolid>(&row.body);
      if (!body) continue;
      CAPTURE(row.name);
      for (int k = 0; k < 60; ++k) {
        const Mat3 r = rotation(random.direction(), random.between(0, 2 * kPi));
        const Vec3 shift = random.inBox(Vec3{-0.5}, Vec3{0.5});
        CylinderSolid turned = *body;
        turned.centre = r * body->centre + shift;
        turned.axis = r * body->axis;
        const Plane plane = moved(row.plane, r, shift);
        const Cut expected = moved(row.expected, r, shift);
        const Cut cut = cutCylinder(turned, plane);
        CAPTURE(k);
        INFO("got  " << describe(cut));
        INFO("want " << describe(expected));
        // The hoof and the half egg have the water exactly at an edge: turning rounds the level by 1e-16 m,
        // which moves the waterplane's edge by its root, 1e-8 of the area at worst; volume is not touched.
        const CutScale scale{scaleOf(row.body).volume, scaleOf(row.body).length + 1.0};
        CHECK(volumeDifference(cut, expected, scale) < kClosedForm);
        CHECK(cutDifference(cut, expected, scale) < 1e-7);
        ++cuts;
      }
    }
    CHECK(cuts == 9 * 60);
  }

  TEST_CASE("the flat-faced bodies as meshes are cut the same, however turned") {
    Random random(20240612);
    int cuts = 0;
    for (const Row& row : table()) {
      const auto* body = std::get_if<StripSolid>(&row.body);
      if (!body) continue;
      CAPTURE(row.name);
      const Mesh mesh = stripMesh(*body);
      for (int k = 0; k < 60; ++k) {
        const Mat3 r = k == 0 ? Mat3{1.0} : rotation(random.direction(), random.between(0, 2 * kPi));
        const Vec3 shift = k == 0 ? Vec3{0.0} : random.inBox(Vec3{-0.5}, Vec3{0.5});
        const Cut cut = CutMesh::solid(moved(mesh, r, shift)).cut(moved(row.plane, r, shift));
        const Cut expected = moved(row.expected, r, shift);
        CAPTURE(k);
        INFO("got  " << describe(cut));
        INFO("want " << describe(expected));
        const CutScale scale{scaleOf(row.body).volume, reach(mesh) + 1.0};
        CHECK(cutDifference(cut, expected, scale) < kClosedForm);
        ++cuts;
      }
    }
    CHECK(cuts == 6 * 60);
  }

  TEST_CASE("a box named along any axis, or turned end for end, is the same box") {
    Random random(7);
    const Vec3 size{0.4, 0.1, 0.25};
    const CutScale scale{size.x * size.y * size.z, 0.5};
    for (int k = 0; k < 200; ++k) {
      CAPTURE(k);
      const Plane plane{random.direction(), random.between(-0.2, 0.2)};
      const Cut cut = cutStrip(block(size.x, size.y, size.z), plane);
      // Cyclic exchange of the axes is a rotation: x -> y -> z -> x.
      const Mat3 cycle{Vec3{0, 1, 0}, Vec3{0, 0, 1}, Vec3{1, 0, 0}};
      const Cut turned = cutStrip(block(size.z, size.x, size.y), moved(plane, cycle, Vec3{0.0}));
      CHECK(cutDifference(turned, moved(cut, cycle, Vec3{0.0}), scale) < kClosedForm);
      const Mat3 about = rotation({0, 0, 1}, kPi);
      const Cut back = cutStrip(block(size.x, size.y, size.z), moved(plane, about, Vec3{0.0}));
      CHECK(cutDifference(back, moved(cut, about, Vec3{0.0}), scale) < kClosedForm);
    }
  }

  TEST_CASE("water above everything shows the whole body, water below it nothing") {
    int bodies = 0;
    for (const Row& row : table()) {
      CAPTURE(row.name);
      const auto* c = std::get_if<CylinderSolid>(&row.body);
      const auto at = [&](double level) {
        return c ? cutCylinder(*c, {kUp, level}) : cutStrip(std::get<StripSolid>(row.body), {kUp, level});
      };
      const CutScale scale = scaleOf(row.body);
      const Cut nothing = at(-2.0), all = at(2.0);
      CHECK(nothing.volume == 0.0);
      CHECK(nothing.plane_area == 0.0);
      CHECK(all.volume == doctest::Approx(scale.volume).epsilon(1e-12));
      CHECK(all.plane_area == 0.0);
      ++bodies;
    }
    CHECK(bodies == 15);
  }
}
