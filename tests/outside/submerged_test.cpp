// Boats wholly under water. Theory: with no waterplane B is the metacentre, so GM = BG in every direction
// (Hoar 1916, The Submarine Torpedo Boat, pp. 40-42, says so for round hulls). Check values B1-B5.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>

#include "support/boats.hpp"
#include "support/compare.hpp"
#include "support/models.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

// A body with B at the origin that displaces exactly `mass` of fresh water.
CylinderSolid neutralBody(double mass) {
  const double r = 0.06, l = mass / (freshDensity() * kPi * r * r);
  return {Vec3{0.0}, {1, 0, 0}, r, l, 0, 0};
}

// "Under" for the core is mass above displacement; a billionth more changes no angle that we look at.
constexpr double kJustHeavier = 1.0 + 1e-9;

}  // namespace

TEST_SUITE("submerged statics") {
  TEST_CASE("a weight moved across heels a submerged boat by tan = w d / (m BG) (B3)") {
    // m 8 kg, BG 12 mm, 0.1 kg moved 40 mm to starboard: 2.3859 degrees.
    const Model model = ModelBuilder(1.0)
                            .body(neutralBody(8))
                            .weight(7.9 * kJustHeavier, {0, 0, -0.012})
                            .weight(0.1, {0, -0.040, -0.012})
                            .finish();
    const Equilibrium e = rest(model);
    CHECK(e.outcome == Outcome::Sinks);
    CHECK(e.missing_buoyancy == doctest::Approx(7.9e-9).epsilon(1e-3));
    CHECK(std::abs(degrees(e.attitude.heel) - 2.3859) < 1e-3);
    CHECK(std::abs(degrees(e.attitude.trim)) < 1e-6);
  }

  TEST_CASE("a battery moved aft stands a submerged boat 16.7 degrees bow up (B4)") {
    // m 5 kg, BG 10 mm, 50 g moved 0.30 m.
    const Model model = ModelBuilder(1.0)
                            .body(neutralBody(5))
                            .weight(4.95 * kJustHeavier, {0, 0, -0.010})
                            .weight(0.05, {-0.30, 0, -0.010})
                            .finish();
    const Equilibrium e = rest(model);
    CHECK(std::abs(degrees(e.attitude.trim) - 16.699) < 1e-2);
    CHECK(std::abs(degrees(e.attitude.heel)) < 1e-6);
  }

  TEST_CASE("a steady torque heels REMUS 5.3 degrees (B2)") {
    // Prestero 2001 (SM thesis, MIT/WHOI), Tables 2.3, 2.5, C.9, sec. 4.6.2: W 299 N, G 19.6 mm below B,
    // torque 0.543 N m: 5.316 degrees derived, 5.3 at sea. Taken neutral; the torque as a weight moved
    // across: W y cos = torque and W z sin = torque, so y = z tan.
    const double mass = 299 / kGravity, torque = 0.543, z = 0.0196;
    const double y = torque / (299 * std::cos(radians(5.316)));
    const Model model =
        ModelBuilder(1.33).body(neutralBody(mass)).weight(mass * kJustHeavier, {0, -y, -z}).finish();
    const double heel = degrees(rest(model).attitude.heel);
    CHECK(std::abs(heel - 5.316) < 0.01);
    CHECK(std::abs(heel - 5.3) < 0.1);
  }

  TEST_CASE("submerged, roll and pitch are equally stiff and no heading differs (B1)") {
    const double bg = 0.015, mass = 6;
    Random random(11);
    for (int k = 0; k < 20; ++k) {
      const double turn = random.between(0, 2 * kPi);
      CylinderSolid body = neutralBody(mass);
      body.axis = {std::cos(turn), std::sin(turn), 0};
      const Model model = ModelBuilder(1.0).body(body).weight(mass * kJustHeavier, {0, 0, -bg}).finish();
      const Report r = reportOf(model);
      CHECK(r.gm_transverse == doctest::Approx(bg).epsilon(1e-8));
      CHECK(r.gm_longitudinal == doctest::Approx(bg).epsilon(1e-8));
      CHECK(r.bg_submerged == doctest::Approx(bg).epsilon(1e-8));
      CHECK(r.rest.stiffness[1][1] == doctest::Approx(mass * bg).epsilon(1e-8));
      CHECK(r.rest.stiffness[2][2] == doctest::Approx(mass * bg).epsilon(1e-8));
      CHECK(std::abs(r.rest.stiffness[1][2]) < 1e-9 * mass);
    }
  }

  TEST_CASE("a slack tank takes rho i / m from BG, in pitch more than in roll (B5)") {
    // Tank 0.20 x 0.08 m of surface, 6 kg, fresh water at 20 degC: roll loss 1.4197 mm, pitch l^2/b^2 as
    // much; a bulkhead across halves the cells and leaves a quarter of the pitch loss.
    const Water fresh{293.15, 0};
    const double rho = waterDensity(fresh).value(), l = 0.20, r = 0.04, mass = 6;
    const double half = kPi * r * r * l / 2, water = rho * half;
    const auto model = [&](int cells) {
      ModelBuilder builder(1.0);
      const double radius = 0.06, length = mass / (rho * kPi * radius * radius);
      builder.body(CylinderSolid{Vec3{0.0}, {1, 0, 0}, radius, length, 0, 0});
      builder.weight((mass - water) * kJustHeavier, {0, 0, -0.03});
      for (int i = 0; i < cells; ++i) {
        builder.cell({{l * ((i + 0.5) / cells - 0.5), 0, 0}, {1, 0, 0}, r, l / cells, 0, 0});
      }
      return builder.finish();
    };
    const Report one = reportOf(model(1), {fresh, half}), two = reportOf(model(2), {fresh, half});
    CHECK(std::abs(1000 * one.free_surface_rise_transverse - 1.4197) < 1e-4);
    CHECK(std::abs(1000 * one.free_surface_rise_longitudinal - 1.4197 * 6.25) < 1e-3);
    CHECK(std::abs(1000 * two.free_surface_rise_longitudinal - 1.4197 * 6.25 / 4) < 1e-3);
    // With the free surface in: GM = BG - loss.
    CHECK(one.gm_transverse ==
          doctest::Approx(one.bg_submerged - one.free_surface_rise_transverse).epsilon(1e-9));
    CHECK(one.gm_longitudinal ==
          doctest::Approx(one.bg_submerged - one.free_surface_rise_longitudinal).epsilon(1e-9));
    // And that is how she answers: a small weight moved forward pitches her by w d / (m GM_L).
    Model moved = model(1);
    moved.weights.push_back({{}, 0.01, {0.02, 0, -0.03}});
    moved.weights[0].mass -= 0.01;
    sumUp(moved);
    const double pitch = rest(moved, {fresh, half}).attitude.trim;
    CHECK(pitch == doctest::Approx(-0.01 * 0.02 / (mass * one.gm_longitudinal)).epsilon(2e-3));
  }

  TEST_CASE("a boat with a little buoyancy left shows just that volume") {
    // REMUS has 7 N to spare (Prestero 2001, Table 2.3: W 299 N, B 306 N): she floats with that much out.
    const double mass = 299 / kGravity, volume = 306 / kGravity / freshDensity();
    const double r = 0.0955, l = volume / (kPi * r * r);
    const Model model = ModelBuilder(l)
                            .body(CylinderSolid{{l / 2, 0, 0}, {1, 0, 0}, r, l, 0, 0})
                            .weight(mass, {l / 2, 0, -0.0196})
                            .finish();
    const Report report = reportOf(model);
    CHECK(report.rest.outcome != Outcome::Sinks);
    CHECK(std::abs(report.reserve_buoyancy_volume - 7 / kGravity / freshDensity()) < 1e-9);
    CHECK(std::abs(report.net_buoyancy_submerged * kGravity - 7) < 1e-9);
  }

  TEST_CASE(
      "what a litre of foam lifts and a kilogram of lead outside pulls, and what 250 g of lead displace "
      "(M24, M25, M31)") {
    // Products of the densities (M1, M16, W4): 0.9682 kg, 0.91198 kg, 22.0459 mL. Water of 20 degrees.
    const Water warm{273.15 + 20, 0};
    const auto spare = [&](std::optional<Part> more) {
      Boat boat = plainBoat();
      if (more) boat.parts.push_back(*more);
      const auto model = buildModel(boat);
      REQUIRE(model);
      return reportOf(*model, {warm, 0}).net_buoyancy_submerged;
    };
    Part foam;
    foam.name = "litre of foam";
    foam.role = Role::Foam;
    foam.shape = BoxShape{{0.2, 0.1, 0.05}};
    foam.position = {0.4, 0, 0.12};
    foam.density = 30;
    CHECK(std::abs(spare(foam) - spare(std::nullopt) - 0.9682) < 1e-4);
    Part lead = foam;
    lead.name = "kilogram of lead";
    lead.role = Role::Lead;
    lead.position.z = 0.01;
    lead.mass = 1;
    lead.density = 11340;
    CHECK(std::abs(spare(lead) - spare(std::nullopt) + 0.91198) < 1e-5);
    lead.mass = 0.25;
    CHECK(std::abs(displacedVolume(lead).value() * 1e6 - 22.0459) < 1e-4);
  }
}
