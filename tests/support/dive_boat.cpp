#include "support/dive_boat.hpp"

#include <doctest/doctest.h>

#include <pondtrim/model.hpp>

namespace pondtrim::test {
namespace {

Boat withoutBattery(double tube_length) {
  Boat boat;
  boat.name = "long tank";
  boat.length = 1.0;
  SealedCylinder main;
  main.name = "main";
  main.position = {0.1, 0, 0.05};
  main.length = 0.8;
  main.diameter = 0.1;
  main.mass = 0.8;
  SealedCylinder tube = main;
  tube.name = "ballast tube";
  tube.position = {0.5 - tube_length / 2, 0, 0.13};
  tube.length = tube_length;
  tube.diameter = 0.06;
  tube.mass = 0.3;
  boat.cylinders = {main, tube};
  boat.tank = BallastTank{"ballast tube", 0.27, 0.73, {}, {}};
  Part sail;
  sail.name = "sail";
  sail.shape = BoxShape{{0.15, 0.03, 0.08}};
  sail.position = {0.5, 0, 0.2};
  sail.mass = 0.05;
  Part lead;
  lead.name = "keel lead";
  lead.role = Role::Lead;
  lead.shape = BoxShape{{0.3, 0.03, 0.006}};
  lead.position = {0.5, 0, 0.003};
  lead.mass = 0.4;
  lead.density = 11340;
  boat.parts = {sail, lead};
  boat.marks.bow_x = 0.85;
  boat.marks.stern_x = 0.15;
  boat.marks.line_height = 0.12;
  boat.marks.deck_height = 0.16;
  boat.marks.sail_top = {0.5, 0, 0.24};
  boat.aims.sail_showing = 0.045;
  return boat;
}

}  // namespace

Boat longTankBoat(double bg, double tube_length) {
  Boat boat = withoutBattery(tube_length);
  const auto bare = buildModel(boat);
  REQUIRE(bare);
  const double density = waterDensity(boat.water).value();
  const double sail = 0.15 * 0.03 * 0.08;
  const double water = density * bare->tank_capacity;
  Part battery;
  battery.name = "battery";
  battery.shape = PointShape{};
  battery.mass = density * (bare->whole_volume - sail / 2) - water - bare->mass;
  const double total = bare->mass + *battery.mass + water;
  const double wanted = bare->whole_centroid.z - bg;
  battery.position = {0.5, 0, 0};
  battery.position.z =
      (total * wanted - bare->mass * bare->centre_of_gravity.z - water * 0.13) / *battery.mass;
  boat.parts.push_back(battery);
  return boat;
}

}  // namespace pondtrim::test
