// What buildModel makes of the numbers of a boat: measured mass wins, and the bore is what the walls leave.
#include <doctest/doctest.h>

#include <pondtrim/model.hpp>

#include "support/boats.hpp"

using namespace pondtrim;
using doctest::Approx;

namespace {

double massOf(const Boat& boat) {
  const auto model = buildModel(boat);
  if (!model) FAIL(model.error().message);
  return model->mass;
}

}  // namespace

TEST_CASE("a measured mass wins over density times volume, of a skin, a cylinder and a part") {
  Boat boat = test::fullBoat();
  const auto onlyDensity = [](auto& thing, double density) {
    thing.mass.reset();
    thing.density = density;
  };
  const auto both = [](auto& thing, double mass) { thing.mass = mass; };
  Skin& skin = boat.skins.front();
  SealedCylinder& cylinder = boat.cylinders.front();
  onlyDensity(skin, 1500);
  onlyDensity(cylinder, 1400);
  const double by_density = massOf(boat);
  both(skin, 0.321);
  const double skin_weighed = massOf(boat);
  both(cylinder, 0.654);
  const double both_weighed = massOf(boat);
  // Each answers to its scale, to the gram, and not to its density any more.
  skin.mass = 0.331;
  CHECK(massOf(boat) - both_weighed == Approx(0.010).epsilon(1e-9));
  skin.density = 3000;
  CHECK(massOf(boat) - both_weighed == Approx(0.010).epsilon(1e-9));
  cylinder.mass = 0.664;
  cylinder.density = 2800;
  CHECK(massOf(boat) - both_weighed == Approx(0.020).epsilon(1e-9));
  CHECK(by_density != Approx(skin_weighed).epsilon(1e-6));
  CHECK(skin_weighed != Approx(both_weighed).epsilon(1e-6));
}

TEST_CASE("the tank's capacity is the bore's section, walls off, times its length") {
  const Boat boat = test::plainBoat();
  const SealedCylinder& c = boat.cylinders.front();
  const double bore = c.diameter / 2 - c.wall_thickness;
  const auto model = buildModel(boat);
  REQUIRE(model);
  CHECK(c.wall_thickness > 0.0005);
  CHECK(model->tank_capacity ==
        Approx(kPi * bore * bore * (boat.tank->fore_end - boat.tank->aft_end)).epsilon(1e-12));
}

TEST_CASE("a cylinder without a measured mass weighs its walls and caps") {
  Boat boat = test::plainBoat();
  SealedCylinder& c = boat.cylinders.front();
  const double weighed = massOf(boat) - c.mass.value();
  c.mass.reset();
  c.density = 1400;
  const double out = c.diameter / 2, in = out - c.wall_thickness;
  const double shell = kPi * (out * out * c.length - in * in * (c.length - 2 * c.cap_thickness));
  REQUIRE(c.aft_dome == 0.0);
  CHECK(massOf(boat) - weighed == Approx(1400 * shell).epsilon(1e-9));
}

TEST_CASE(
    "a finer mesh in place of a skin's own: its volume and centroid are hers, and her mass if nobody weighed "
    "it") {
  Boat boat = test::fullBoat();
  Skin& skin = boat.skins.front();
  skin.density = 1500;
  for (const bool weighed : {false, true}) {
    CAPTURE(weighed);
    skin.mass.reset();
    if (weighed) skin.mass = 0.4;
    const auto before = buildModel(boat);
    REQUIRE(before);
    // The same surface, wall twice as thick and 10 mm further forward.
    Mesh moved = *before->skins.front().mesh;
    for (Vec3& v : moved.vertices) v.x += 0.010;
    const double volume = before->skins.front().cut.whole().volume;
    CutMeshMaker maker(moved, 2 * volume / before->skins.front().cut.area());
    while (maker.step()) CHECK(maker.share() <= 1);
    Model after = *before;
    refineSkin(after, 0, maker.take());
    const double old_mass = weighed ? 0.4 : 1500 * volume, new_mass = weighed ? 0.4 : 2 * old_mass;
    CHECK(after.whole_volume - before->whole_volume == Approx(volume));
    CHECK(after.mass - before->mass == Approx(new_mass - old_mass).epsilon(1e-9));
    const double at = before->skins.front().cut.whole().moment.x / volume;
    CHECK(after.mass * after.centre_of_gravity.x - before->mass * before->centre_of_gravity.x ==
          Approx(new_mass * (at + 0.010) - old_mass * at));
    CHECK(after.skins.front().cut.whole().volume == Approx(2 * volume));
  }
}
