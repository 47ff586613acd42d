// GZ against published and closed forms, and its work against the energy.
#include <doctest/doctest.h>

#include <cmath>
#include <pondtrim/stability.hpp>

#include "support/dive_boat.hpp"
#include "support/models.hpp"

using namespace pondtrim;
using doctest::Approx;
using test::degrees;
using test::radians;

namespace {

RightingCurve curveOf(const Model& model, int points, const Condition& condition = {}) {
  auto curve = rightingCurve(model, condition, points);
  REQUIRE(curve);
  return std::move(*curve);
}

/// A box that floats at `draft`, with its centre of gravity at `kg`, sides twice the draft.
Model box(double length, double breadth, double draft, double kg) {
  const double mass = test::freshDensity() * length * breadth * draft;
  return test::barge(length, breadth, 2 * draft, mass, kg);
}

double wallSided(double gm, double bm, double heel) {
  return (gm + bm * std::pow(std::tan(heel), 2) / 2) * std::sin(heel);
}

}  // namespace

TEST_SUITE("righting curve") {
  TEST_CASE("a wall-sided box rights by (GM + BM tan^2/2) sin, until an edge dips (S15: De p. 130, ex. 1)") {
    // W 6000 t, KB 3, KM 6, KG 5.5 m: a box of draft 6 and breadth sqrt(12 x 6 x 3).
    const double breadth = std::sqrt(216.0);
    const double length = 6000.0 / (1.025 * 6 * breadth);
    const RightingCurve curve = curveOf(box(length, breadth, 6, 5.5), 37);
    CHECK(curve.gm_transverse == Approx(0.5).epsilon(1e-9));
    CHECK_FALSE(curve.lopsided);
    for (std::size_t i = 0; i <= 7; ++i) {  // 0 to 35 degrees
      const RightingPoint& p = curve.starboard.points[i];
      CHECK(p.righting_lever == Approx(wallSided(0.5, 3, p.heel)).epsilon(1e-8));
      CHECK(p.trim_state == TrimState::Free);
    }
    CHECK(curve.starboard.points[5].righting_lever == Approx(0.35).epsilon(0.005 / 0.35));
  }

  TEST_CASE("a box heeled 5 degrees rights with the book's moment (S16: De p. 130, ex. 2a)") {
    const RightingCurve curve = curveOf(box(65, 12, 4, 4), 37);
    const double tonnes = 65 * 12 * 4 * 1.025;
    // The book's moment is W GM sin; at 5 degrees the sides add 1.1 % to it.
    CHECK(tonnes * curve.gm_transverse * std::sin(radians(5)) == Approx(278.9).epsilon(0.3 / 278.9));
    for (const RightingSide* side : {&curve.starboard, &curve.port})
      CHECK(side->points[1].righting_lever == Approx(wallSided(1, 3, radians(5))).epsilon(1e-8));
  }

  TEST_CASE("an unstable box lolls to tan = sqrt(-2 GM / BM) on both sides (S20: De p. 229)") {
    const double draft = 0.3, breadth = std::sqrt(12 * draft * 0.3);
    const RightingCurve curve = curveOf(box(3, breadth, draft, draft / 2 + 0.3 + 0.03), 181);
    CHECK(curve.gm_transverse == Approx(-0.03).epsilon(1e-8));
    REQUIRE(curve.angle_of_loll);
    CHECK(degrees(*curve.angle_of_loll) == Approx(24.0948).epsilon(1e-5));
    REQUIRE(curve.port.rest_heel);
    CHECK(*curve.port.rest_heel == Approx(-*curve.angle_of_loll).epsilon(1e-7));
    CHECK(curve.starboard.points[10].righting_lever < 0);
    REQUIRE(curve.starboard.range);
    CHECK(*curve.starboard.range > *curve.angle_of_loll);
  }

  TEST_CASE("all under water GZ is BG sin heel, to bottom up") {
    Model model = test::barge(1, 0.2, 0.2, 45, 0.08);  // 40 L can carry 40 kg
    const RightingCurve curve = curveOf(model, 19);
    for (const RightingPoint& p : curve.starboard.points)
      CHECK(std::abs(p.righting_lever - 0.02 * std::sin(p.heel)) < 1e-10);
    REQUIRE(curve.starboard.range);
    CHECK(*curve.starboard.range == Approx(kPi));
    CHECK(degrees(curve.starboard.greatest_at) == Approx(90));
    CHECK(curve.starboard.points[3].trim_state == TrimState::Free);
    // Past 90 degrees she would rather go over her bow: the balance is told apart from rest.
    CHECK(curve.starboard.points[15].trim_state == TrimState::Balanced);
  }

  TEST_CASE("the integral of GZ is the work of heeling her") {
    const auto model = buildModel(withBulkheads(test::longTankBoat(), 3));
    REQUIRE(model);
    const Condition condition{Water{}, 0.4 * model->tank_capacity};
    constexpr std::size_t kPoints = 361;
    const RightingCurve curve = curveOf(*model, kPoints, condition);
    const double weight = (model->mass + test::freshDensity() * condition.tank_fill) * kGravity;
    const auto& points = curve.starboard.points;
    const double step = kPi / (kPoints - 1);
    double work = 0, most = 0;
    for (std::size_t i = 2; i < kPoints; i += 2) {
      work += weight * step / 3 *
              (points[i - 2].righting_lever + 4 * points[i - 1].righting_lever + points[i].righting_lever);
      most = std::max(most, std::abs(points[i].energy));
      CAPTURE(degrees(points[i].heel));
      // Half a degree of Simpson's rule over levers with corners (edges that dip) leaves some 1e-5.
      CHECK(std::abs(points[i].energy - work) < 2e-4 * most + 1e-12);
    }
    REQUIRE(most > 0.1);
  }

  TEST_CASE("a weight off the centreline makes the sides differ, and she rests where the levers meet") {
    Boat boat = withBulkheads(test::longTankBoat(), 3);
    boat.parts.back().position.y = -0.003;  // battery to starboard
    const auto model = buildModel(boat);
    REQUIRE(model);
    const RightingCurve curve = curveOf(*model, 91);
    CHECK(curve.lopsided);
    const Equilibrium rest = test::rest(*model);
    CHECK(rest.attitude.heel > 0.01);
    REQUIRE(curve.starboard.rest_heel);
    CHECK(*curve.starboard.rest_heel == Approx(rest.attitude.heel).epsilon(1e-6));
    REQUIRE(curve.port.rest_heel);
    CHECK(*curve.port.rest_heel == 0.0);
    CHECK(curve.starboard.points[0].righting_lever == Approx(-curve.port.points[0].righting_lever));
    Boat mirrored = boat;
    mirrored.parts.back().position.y *= -1;
    const auto other = buildModel(mirrored);
    REQUIRE(other);
    const RightingCurve opposite = curveOf(*other, 91);
    for (std::size_t i = 0; i < 91; ++i)
      CHECK(std::abs(curve.starboard.points[i].righting_lever - opposite.port.points[i].righting_lever) <
            1e-8);
  }
}
