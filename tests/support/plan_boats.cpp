#include "plan_boats.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <place_amount.hpp>

namespace pondtrim::test {

namespace {

Part& partOf(Boat& boat, const Place& place) { return boat.parts[partNamed(boat, place.part)]; }

/// The same piece on the other side, if it is an earlier place.
const Part* twinOf(const Boat& boat, std::size_t place, const Part& part) {
  for (std::size_t i = 0; i < place; ++i) {
    const Part& other = boat.parts[partNamed(boat, boat.places[i].part)];
    if (other.role == part.role && other.position * Vec3(1, -1, 1) == part.position) return &other;
  }
  return nullptr;
}

/// Foam in like amounts to either side: what is above the line heels her only when dived, and the tank,
/// which puts that condition right, lies on the centreline.
void fillAtRandom(Boat& boat, Random& random) {
  for (std::size_t i = 0; i < boat.places.size(); ++i) {
    const Place& place = boat.places[i];
    Part& part = partOf(boat, place);
    const PlaceKind kind = kindOf(place, part);
    if (kind == PlaceKind::Slide) {
      part.position.x = random.between(place.rail->from_x, place.rail->to_x);
      continue;
    }
    const double share = random.chance(0.3) ? 0.0 : random.between(0.05, 0.6);
    const Part* twin = kind == PlaceKind::Foam ? twinOf(boat, i, part) : nullptr;
    setAmount(kind, part, twin ? amountIn(kind, *twin) : share * place.most.value_or(roomIn(kind, part)));
  }
}

/// What is missing for rest at the plane: mass, and its moment along x and y.
struct Missing {
  double mass = 0, x = 0, y = 0;
};
Missing missingAt(const Model& model, const Water& water, double fill, double level) {
  const double density = *waterDensity(water);
  const Cut cut = cutModel(model, {Vec3(0, 0, 1), level});
  const TankWater tank = *settleTank(model, fill, Vec3(0, 0, 1));
  const Vec3 moment = cut.moment * density - model.centre_of_gravity * model.mass - tank.moment * density;
  return {density * (cut.volume - tank.volume) - model.mass, moment.x, moment.y};
}

}  // namespace

std::optional<Boat> solvableBoat(const Boat& start, Random& random) {
  Boat boat = proposePlaces(start);
  fillAtRandom(boat, random);
  const auto model = buildModel(boat);
  if (!model || !boat.tank) return std::nullopt;
  // Keel ballast that no place may change puts the surfaced condition right...
  const Missing up = missingAt(*model, boat.water, 0, boat.marks.line_height);
  if (up.mass < 0.05) return std::nullopt;
  Part ballast;
  ballast.name = "fixed ballast";
  ballast.role = Role::Lead;
  ballast.shape = PointShape{};
  ballast.mass = up.mass;
  ballast.position = {up.x / up.mass, up.y / up.mass, 0.01};
  boat.parts.push_back(ballast);
  // ... and the tank's place and size the dived one.
  const auto ready = buildModel(boat);
  if (!ready) return std::nullopt;
  const Missing down = missingAt(*ready, boat.water, 0, boat.marks.sail_top.z - boat.aims.sail_showing);
  const double capacity = down.mass / *waterDensity(boat.water), middle = down.x / down.mass;
  BallastTank& tank = *boat.tank;
  const auto hull = std::find_if(boat.cylinders.begin(), boat.cylinders.end(),
                                 [&](const SealedCylinder& c) { return c.name == tank.cylinder; });
  const double radius = hull->diameter / 2 - hull->wall_thickness;
  const double length = capacity / (kPi * radius * radius);
  // The tank's centre must come where it is needed; across it lies on the cylinder's axis.
  tank.bulkheads.clear();
  tank.capacity = capacity;
  tank.aft_end = middle - length / 2;
  tank.fore_end = middle + length / 2;
  if (std::abs(down.y) > 1e-9 * down.mass && std::abs(down.y / down.mass - hull->position.y) > 1e-6)
    return std::nullopt;
  boat.aims.least_gm = 0.001;
  boat.aims.least_bg = 0.001;
  const auto fitted = buildModel(boat);
  if (!fitted) return std::nullopt;
  const auto empty = evaluate(*fitted, {boat.water, 0}),
             full = evaluate(*fitted, {boat.water, fitted->tank_capacity});
  if (!empty || !full || empty->gm_transverse < 0.0011 || full->bg_submerged < 0.0011) return std::nullopt;
  fillAtRandom(boat, random);
  return boat;
}

Report solve(const Boat& boat, bool full) {
  const auto model = buildModel(boat);
  REQUIRE(model);
  const auto report = evaluate(*model, {boat.water, full ? model->tank_capacity : 0.0});
  REQUIRE(report);
  return *report;
}

void checkFitted(const Boat& boat, const Plan& plan, const Allowed& allowed) {
  const Boat fitted = installPlan(boat, plan);
  REQUIRE(checkBoat(fitted));
  const Report empty = solve(fitted, false), full = solve(fitted, true);
  REQUIRE(empty.bow);
  REQUIRE(empty.stern);
  CHECK(std::abs(empty.bow->line_above_water) < allowed.mark);
  CHECK(std::abs(empty.stern->line_above_water) < allowed.mark);
  CHECK(std::abs(empty.rest.attitude.trim) < allowed.angle);
  CHECK(std::abs(empty.rest.attitude.heel) < allowed.angle);
  CHECK(std::abs(full.rest.attitude.trim) < allowed.dived_angle);
  CHECK(std::abs(full.rest.attitude.heel) < allowed.dived_angle);
  if (boat.aims.net_buoyancy) {
    CHECK(std::abs(full.net_buoyancy_submerged - *boat.aims.net_buoyancy) < allowed.sail_mass);
  } else {
    const double off = std::abs(full.sail_showing - boat.aims.sail_showing);
    CHECK(off < allowed.sail);
    CHECK(off * full.mass_per_immersion < allowed.sail_mass);
  }
  CHECK(empty.gm_transverse >= boat.aims.least_gm - allowed.floor);
  CHECK(full.bg_submerged >= boat.aims.least_bg - allowed.floor);
  CHECK(empty.carry_mass == doctest::Approx(plan.carry_mass_after).epsilon(1e-12));
  for (const PlaceAmount& a : plan.amounts) {
    const Place& place = boat.places[a.place];
    if (place.least) CHECK(a.after >= *place.least - 1e-12);
    if (place.most) CHECK(a.after <= *place.most + 1e-12);
    const bool told = std::any_of(plan.changes.begin(), plan.changes.end(),
                                  [&](const Change& c) { return c.place == a.place; });
    CHECK(told == (a.after != a.before));
  }
}

void checkWhole(const Boat& boat, const Plan& plan) {
  for (const Change& c : plan.changes) {
    const double step = boat.places[c.place].step;
    if (step == 0) continue;
    CHECK(std::abs(c.amount / step - std::round(c.amount / step)) < 1e-6);
  }
}

}  // namespace pondtrim::test
