#include "support/models.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

namespace pondtrim::test {
namespace {

// All under water, however large: well above the body, and not so far that a subtraction loses its digits.
Cut wholeOf(const Geometry& geometry) {
  if (const auto* mesh = std::get_if<CutMesh>(&geometry)) return mesh->whole();
  if (const auto* c = std::get_if<CylinderSolid>(&geometry)) {
    const double far = 10 * (c->length + c->radius + c->fore_dome + c->aft_dome) + std::abs(c->centre.z);
    return cutCylinder(*c, {{0, 0, 1}, far});
  }
  const StripSolid& s = std::get<StripSolid>(geometry);
  const double far = 10 * (s.aft_half_height + s.fore_half_height) + std::abs(s.centre.z);
  return cutStrip(s, {{0, 0, 1}, far});
}

}  // namespace

ModelBuilder::ModelBuilder(double length) { model_.length = length; }

ModelBuilder& ModelBuilder::body(Geometry geometry, double fill) {
  Cut whole = wholeOf(geometry);
  whole *= fill;
  model_.displacers.push_back({{}, std::move(geometry), fill, whole});
  return *this;
}
ModelBuilder& ModelBuilder::weight(double mass, const Vec3& position) {
  model_.weights.push_back({{}, mass, position});
  return *this;
}
ModelBuilder& ModelBuilder::cell(const CylinderSolid& bore) {
  model_.tank_cells.push_back({bore, 1.0, kPi * bore.radius * bore.radius * bore.length});
  return *this;
}
ModelBuilder& ModelBuilder::marks(const Marks& marks) {
  model_.marks = marks;
  return *this;
}
Model ModelBuilder::finish() const {
  Model m = model_;
  sumUp(m);
  return m;
}

void sumUp(Model& m) {
  Vec3 moment{0.0};
  m.mass = 0.0;
  for (const Weight& w : m.weights) {
    m.mass += w.mass;
    moment += w.mass * w.position;
  }
  m.centre_of_gravity = moment / m.mass;
  Cut whole;
  for (const Displacer& d : m.displacers) whole += d.whole;
  m.whole_volume = whole.volume;
  m.whole_centroid = whole.moment / whole.volume;
  m.tank_capacity = 0.0;
  for (const TankCell& c : m.tank_cells) m.tank_capacity += c.capacity;
}

StripSolid bargeBody(double length, double breadth, double depth) {
  return {{length / 2, 0, depth / 2}, length, breadth / 2, depth / 2, breadth / 2, depth / 2};
}

Model barge(double length, double breadth, double depth, double mass, double kg) {
  Marks marks;
  marks.bow_x = length;
  marks.stern_x = 0.0;
  marks.deck_height = depth;
  marks.line_height = depth / 2;
  marks.sail_top = {length / 2, 0, depth};
  return ModelBuilder(length)
      .body(bargeBody(length, breadth, depth))
      .weight(mass, {length / 2, 0, kg})
      .marks(marks)
      .finish();
}

Boat boatOf(const Shape& shape, double density, double length) {
  Boat boat;
  boat.name = "one part";
  boat.length = length;
  Part part;
  part.name = "body";
  part.shape = shape;
  part.position = {length / 2, 0, 0.05};
  part.density = density;
  boat.parts.push_back(part);
  return boat;
}

Equilibrium rest(const Model& model, const Condition& condition, const Attitude& start) {
  const Result<Equilibrium> found = findEquilibrium(model, condition, start);
  if (!found) FAIL("no equilibrium: " << found.error().message);
  return *found;
}

Report reportOf(const Model& model, const Condition& condition) {
  const Result<Report> report = evaluate(model, condition);
  if (!report) FAIL("no report: " << report.error().message);
  return *report;
}

double freshDensity() { return waterDensity(Condition{}.water).value(); }

Water waterOfDensity(double density) {
  Water water;
  double low = 1e-9, high = 42.0;
  for (int k = 0; k < 200; ++k) {
    water.salinity = (low + high) / 2;
    (waterDensity(water).value() < density ? low : high) = water.salinity;
  }
  REQUIRE(waterDensity(water).value() == doctest::Approx(density).epsilon(1e-12));
  return water;
}

double degrees(double radians) { return radians * 180.0 / kPi; }
double radians(double degrees) { return degrees * kPi / 180.0; }

}  // namespace pondtrim::test
