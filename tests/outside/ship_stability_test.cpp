// Worked examples of seamanship books and examinations, solved by floating the ship and not by the formula.
// N: Nicholls's Seamanship and Nautical Knowledge (C. H. Brown, late-1930s edition), page or exercise number.
// De: Derrett and Barrass, Ship Stability for Masters and Mates, 5th edition.
// Units are the books'; a foot or a metre is one length, and masses are scaled so that the ship floats.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <vector>

#include "support/compare.hpp"
#include "support/models.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

constexpr double kSolved = 1e-8;

double relative(double got, double want) { return std::abs(got - want) / std::abs(want); }

// A round hull: its metacentre is the axis at every draft and heel, so GZ = GM sin(heel) without any
// small-angle step. KM is the radius. Long, so that it lies on its side, and afloat at half depth: `unit` is
// what the book's unit of mass then weighs.
struct RoundShip {
  double km, mass, length, unit;

  RoundShip(double km_in, double mass_in)
      : km(km_in),
        mass(mass_in),
        length(40 * km_in),
        unit(freshDensity() * kPi * km_in * km_in * length / 2 / mass_in) {}

  // Heel with the weight `moved` shifted `across` to starboard (y is to port).
  double heel(double kg, double moved, double across) const {
    const Model model = ModelBuilder(length)
                            .body(CylinderSolid{{length / 2, 0, km}, {1, 0, 0}, km, length, 0, 0})
                            .weight((mass - moved) * unit, {length / 2, 0, kg})
                            .weight(moved * unit, {length / 2, -across, kg})
                            .finish();
    return rest(model).attitude.heel;
  }
};

}  // namespace

TEST_SUITE("ship stability against worked examples") {
  TEST_CASE("inclining a round ship gives back its GM (S1, S29, S30)") {
    // S1, N p. 532 no. 18: 100 tons moved 30 ft heel 9000 tons by 8 degrees: GM 2.37 ft.
    CHECK(std::abs(degrees(RoundShip(30, 9000).heel(30 - 2.3718, 100, 30)) - 8.0) < 1e-3);
    // S29, Douglas, Solving Problems in Fluid Mechanics, ex. 1.6.1: 4 tonf x 30 ft, 2000 tonf, 0.03 rad: 2
    // ft.
    CHECK(std::abs(RoundShip(20, 2000).heel(18, 4, 30) - 0.03) < 1e-4);
    // S30, Greenhill, Hydrostatics, Encyclopaedia Britannica 11th ed. (from memory, so beside the others
    // only): 9000 tons, 20 tons x 42 ft, GM 2.24 ft, heel about 2 degrees 24 minutes.
    CHECK(std::abs(degrees(RoundShip(30, 9000).heel(30 - 2.24, 20, 42)) - 2.4) < 0.02);
  }

  TEST_CASE("a weight moved across lists the ship 3 degrees 49 minutes (S10)") {
    // N no. 42: 1600 tons, KG 10, KM 11.5 ft, 8 tons x 20 ft.
    const double heel = degrees(RoundShip(11.5, 1600).heel(10, 8, 20));
    CHECK(std::abs(heel - (3 + 49.0 / 60)) < 0.5 / 60);
    CHECK(heel > 0);  // to starboard, where the weight went
  }

  TEST_CASE("a weight moved aft trims the ship by the book's 3 inches (S8)") {
    // N no. 38: length 210 ft, 10 ft even keel, 25 tons moved 30 ft aft, moment to trim one inch 250: forward
    // 9 ft 10.5 in, aft 10 ft 1.5 in. A box with that moment: W GM_L = 250 x 12 x 210 with G at the height of
    // B.
    const double rho = freshDensity(), ton = 35 * rho;  // the book's 35 cubic feet to the ton
    const double breadth = 250.0 * 12 * 210 * 12 * 35 / std::pow(210.0, 3);
    const double mass = rho * 210 * breadth * 10;
    Model model = barge(210, breadth, 20, mass - 25 * ton, 5);
    model.weights.push_back({{}, 25 * ton, {105.0 - 30, 0, 5}});
    sumUp(model);
    const Report r = reportOf(model);
    CHECK(relative(r.moment_to_change_trim / kGravity / ton / (12 * 210), 250) < 1e-3);
    REQUIRE(r.bow.has_value());
    CHECK(std::abs(12 * r.bow->draft - (9 * 12 + 10.5)) < 0.05);
    CHECK(std::abs(12 * r.stern->draft - (10 * 12 + 1.5)) < 0.05);
    CHECK(r.rest.attitude.trim > 0.0);  // bow up
  }

  TEST_CASE("a box takes in 64 tons and its GM falls from 2.80 to 2.37 ft (S11, S12)") {
    // N p. 696: 210 x 32 ft, draft 8 ft, GM 2.80; 64 tons at 16 ft: draft 8.33, BM 10.24, KG 12.04, GM 2.37.
    const double rho = freshDensity(), ton = 35 * rho;
    const double mass = rho * 210 * 32 * 8, kg = 4 + 32.0 * 32 / (12 * 8) - 2.80;
    Model model = barge(210, 32, 20, mass, kg);
    const Report before = reportOf(model);
    CHECK(std::abs(before.bm_transverse.value() - 10.67) < 0.01);
    CHECK(std::abs(before.gm_transverse - 2.80) < 1e-6);
    CHECK(relative(before.bm_longitudinal.value(), 459.375) < kSolved);
    CHECK(relative(before.total_mass * before.bm_longitudinal.value() / ton / (12 * 210), 280) < 1e-3);
    model.weights.push_back({{}, 64 * ton, {105, 0, 16}});
    sumUp(model);
    const Report after = reportOf(model);
    REQUIRE(after.bow.has_value());
    CHECK(std::abs(after.bow->draft - 8.33) < 0.01);
    CHECK(std::abs(after.bm_transverse.value() - 10.24) < 0.01);
    CHECK(std::abs(after.centre_of_gravity.z - 12.04) < 0.01);
    CHECK(std::abs(after.gm_transverse - 2.37) < 0.01);
  }

  TEST_CASE("loading and discharging by moments leaves the book's GM (S2-S7, S21-S23)") {
    // Exercises of N: weights in tons at heights in feet, KM given; a round hull has KM wherever it floats.
    struct Load {
      double mass, height;
    };
    struct Exercise {
      const char* id;
      double km;
      std::vector<Load> loads;
      double gm, tolerance;
    };
    const std::vector<Exercise> exercises{
        {"S2",
         17,
         {{1600, 12}, {500, 12}, {750, 14}, {620, 16}, {550, 18}, {400, 20}, {300, 22}, {200, 23}},
         1.8,
         0.05},
        {"S3", 22, {{4500, 18}, {10000, 20}, {2000, 30}}, 1.3, 0.05},
        // GM was -3 in: G 0.25 ft over the metacentre.
        {"S4", 20, {{5000, 20.25}, {-200, 25}, {200, 5}}, 6.6 / 12, 0.01 / 12},
        // The book asks for KG, 16.1 ft; 1.4 ft under a metacentre at 17.5.
        {"S5", 17.5, {{2000, 17}, {5000, 16}, {300, 10}, {100, 20}}, 17.5 - 16.1, 0.05},
        {"S6", 15, {{4000, 13.8}, {-40, 25}, {40, 5}}, 1.4, 1e-9},
        {"S7", 12, {{1800, 10}, {3400, 9}, {400, 16}}, 2 + 2.2 / 12, 0.01},
        {"S21", 13.5, {{6000, 16}, {-1500, 21}, {-2000, 17}, {-1200, 12}}, 1.1, 0.05},
        {"S22",
         22,
         {{3250, 20}, {1000, 24}, {1500, 22}, {1250, 21}, {1100, 19}, {900, 23}, {600, 25}, {400, 18}},
         0.8,
         0.01},
        // S22's ship: 10000 tons, KG 21.205.
        {"S23", 22, {{10000, 21.205}, {-400, 20}, {-300, 22}, {-500, 23}, {-600, 24}}, 1.1, 0.05},
    };
    for (const Exercise& x : exercises) {
      CAPTURE(x.id);
      double mass = 0;
      for (const Load& l : x.loads) mass += l.mass;
      const RoundShip ship(x.km, mass);
      ModelBuilder builder(ship.length);
      builder.body(CylinderSolid{{ship.length / 2, 0, x.km}, {1, 0, 0}, x.km, ship.length, 0, 0});
      for (const Load& l : x.loads) builder.weight(l.mass * ship.unit, {ship.length / 2, 0, l.height});
      const Report r = reportOf(builder.finish());
      CHECK(std::abs(r.gm_transverse - x.gm) < x.tolerance);
      CHECK(relative(r.total_mass, mass * ship.unit) < 1e-12);
    }
  }

  TEST_CASE("a box of no GM stiffens as her deck cargo goes below (S24)") {
    // N no. 36: 180 x 20 ft, draft 7 ft, 10 ft deep, 40 tons from deck to bottom: GM 0.5556 ft.
    const double rho = freshDensity(), ton = 35 * rho, mass = rho * 180 * 20 * 7;
    const double kg = 3.5 + 20.0 * 20 / (12 * 7);
    Model model = barge(180, 20, 10, mass, kg);
    CHECK(std::abs(reportOf(model).gm_transverse) < 1e-9);
    model.weights.push_back({{}, -40 * ton, {90, 0, 10}});
    model.weights.push_back({{}, 40 * ton, {90, 0, 0}});
    sumUp(model);
    CHECK(std::abs(reportOf(model).gm_transverse - 0.5556) < 1e-4);
  }

  TEST_CASE("righting moments of two ships at 7 and 8 degrees (S25, S26)") {
    // N no. 44 and p. 527. The moment is that of a shifted weight, w d cos(heel), in foot-tons.
    const auto heelUnder = [](double mass, double km, double kg, double moment, double about) {
      return degrees(RoundShip(km, mass).heel(kg, 10, moment / std::cos(radians(about)) / 10));
    };
    CHECK(std::abs(heelUnder(5000, 18, 15.8, 1340.56, 7) - 7) < 1e-3);
    CHECK(std::abs(heelUnder(6000, 16, 13.8, 1837.1, 8) - 8) < 1e-3);
  }

  TEST_CASE("tons per inch of a box (S14)") {
    // N p. 527: 200 x 30 ft, L B / 420.
    const double ton = 35 * freshDensity();
    const Report r = reportOf(barge(200, 30, 20, freshDensity() * 200 * 30 * 8, 4));
    CHECK(std::abs(r.mass_per_immersion / 12 / ton - 14.286) < 1e-3);
  }

  TEST_CASE("discharging raises and trims the ship as tons per inch and moment per inch say (S9, S27)") {
    struct Load {
      double mass, ahead;  // tons; feet ahead of amidships, where a box tips
    };
    struct Exercise {
      const char* id;
      double tpi, mti, bow, stern;  // tons, foot-tons, inches
      std::vector<Load> out;
      double bow_after, stern_after, tolerance;
    };
    // S9: N no. 29. S27: N p. 524, which gives the sum of the moments only. Printed to an inch and a
    // fraction.
    const std::vector<Exercise> exercises{
        {"S9",
         45,
         1100,
         21 * 12,
         23 * 12,
         {{200, 30}, {450, 25}, {300, 50}, {500, -35}, {200, -40}},
         17 * 12 + 8.3,
         20 * 12 + 2.4,
         0.5},
        {"S27",
         53,
         1423,
         22 * 12 + 1,
         24 * 12 + 10,
         {{1212, 23971.0 / 1212}},
         19 * 12 + 5.7,
         23 * 12 + 7.5,
         0.5},
    };
    for (const Exercise& x : exercises) {
      CAPTURE(x.id);
      // The box with those figures: L B = 420 TPI, and for I/V the book's BM, B L^2 = 5040 MTI.
      const double rho = freshDensity(), ton = 35 * rho;
      const double length = 5040 * x.mti / (420 * x.tpi), breadth = 420 * x.tpi / length;
      const double draft = (x.bow + x.stern) / 24, whole = length * breadth * draft / 35;
      const double height = draft / 2;  // G as high as B, so that GM is BM
      double tons = whole, moment = x.mti * (x.bow - x.stern);
      ModelBuilder loaded(length), light(length);
      Marks marks;
      marks.bow_x = length;
      marks.deck_height = 3 * draft;
      marks.sail_top = {length / 2, 0, 3 * draft};
      for (ModelBuilder* b : {&loaded, &light}) b->body(bargeBody(length, breadth, 3 * draft)).marks(marks);
      for (const Load& l : x.out) {
        loaded.weight(l.mass * ton, {length / 2 + l.ahead, 0, height});
        tons -= l.mass;
        moment -= l.mass * l.ahead;
      }
      for (ModelBuilder* b : {&loaded, &light})
        b->weight(tons * ton, {length / 2 + moment / tons, 0, height});
      const Report before = reportOf(loaded.finish()), after = reportOf(light.finish());
      CHECK(std::abs(before.mass_per_immersion / 12 / ton - x.tpi) < 0.01);
      CHECK(std::abs(before.moment_to_change_trim / kGravity / ton / (12 * length) - x.mti) < 0.001 * x.mti);
      REQUIRE(before.bow.has_value());
      REQUIRE(after.bow.has_value());
      CHECK(std::abs(12 * before.bow->draft - x.bow) < 0.1);
      CHECK(std::abs(12 * before.stern->draft - x.stern) < 0.1);
      CHECK(std::abs(12 * after.bow->draft - x.bow_after) < x.tolerance);
      CHECK(std::abs(12 * after.stern->draft - x.stern_after) < x.tolerance);
    }
  }

  TEST_CASE("a wall-sided ship heels as De says at 25 degrees (S15)") {
    // De p. 130 ex. 1: 6000 t, KB 3, KM 6, KG 5.5: GZ = (GM + BM tan^2/2) sin = 0.35 m (0.34915 unrounded).
    const double rho = freshDensity(), breadth = std::sqrt(12 * 6 * 3.0),
                 length = 6000e3 / (rho * breadth * 6);
    const double gz = 0.34915, heel = radians(25);
    Model model = barge(length, breadth, 12, 6000e3, 5.5);
    CHECK(std::abs(reportOf(model).gm_transverse - 0.5) < 1e-6);
    // A weight shifted so that the lever at 25 degrees is the book's.
    model.weights.push_back({{}, 600e3, {length / 2, -gz / std::cos(heel) * 10, 5.5}});
    model.weights[0].mass = 5400e3;
    sumUp(model);
    const Equilibrium e = rest(model);
    CHECK(std::abs(degrees(e.attitude.heel) - 25) < 0.01);
  }

  TEST_CASE("a box heeled 5 degrees needs nearly the book's moment (S16)") {
    // De p. 130 ex. 2(a): 65 x 12 m, draft 4, KG 4 m, sea water 1.025: W 3198 t, BM 3, GM 1, moment 278.9 t
    // m, W GM sin(heel). The true lever has BM tan^2/2 more, 1.15 % here.
    const Water sea = waterOfDensity(1025);
    Model model = barge(65, 12, 8, 3198e3, 4);
    const Report r = reportOf(model, {sea, 0});
    CHECK(relative(r.displaced_mass, 3198e3) < kSolved);
    CHECK(std::abs(r.bm_transverse.value() - 3) < 1e-6);
    CHECK(std::abs(r.gm_transverse - 1) < 1e-6);
    CHECK(std::abs(r.displaced_mass * r.gm_transverse * std::sin(radians(5)) / 1000 - 278.9) < 0.3);
    const double wall = 1 + 3 * std::pow(std::tan(radians(5)), 2) / 2;
    model.weights.push_back({{}, 1e3, {32.5, -278.72 * wall / std::cos(radians(5)), 4}});
    model.weights[0].mass -= 1e3;
    sumUp(model);
    CHECK(std::abs(degrees(rest(model, {sea, 0}).attitude.heel) - 5) < 0.01);
  }

  TEST_CASE("an unstable wall-sided ship lolls to tan(heel) = sqrt(-2 GM / BM), never upright (S20)") {
    // De p. 229: GM -0.03, BM 0.30 m: 24.0948 degrees.
    const double draft = 0.4, breadth = std::sqrt(12 * draft * 0.30), kg = draft / 2 + 0.30 + 0.03;
    const Model model = barge(4, breadth, 1.0, freshDensity() * 4 * breadth * draft, kg);
    int starts = 0;
    for (double start : {-30.0, -24.0948, -1e-6, 0.0, 1e-3, 10.0, 24.0948, 40.0}) {
      CAPTURE(start);
      const Equilibrium e = rest(model, {}, {0.0, radians(start)});
      CHECK(std::abs(std::abs(degrees(e.attitude.heel)) - 24.0948) < 1e-3);
      ++starts;
    }
    CHECK(starts == 8);
  }

  TEST_CASE("pumping a tank to half leaves the ship with the free surface's GM (S17)") {
    // De p. 195 ex. 1: 8153.75 t, KM 8, KG 7.5 m; tank 15 x 10 m pumped to half: 8000 t, KG 7.61531, rise
    // 0.16016, GM 0.2245 m. The tank is a cylinder of 10 m, 15 m long, half full: the same surface, 15 x 10
    // m.
    const Water sea = waterOfDensity(1025);
    const CylinderSolid bore{{40, 0, 5}, {1, 0, 0}, 5, 15, 0, 0};
    const double water = kPi * 25 * 15 / 2, water_mass = 1025 * water;
    // The rest of the ship so that the whole weighs 8000 t with KG 7.61531; B at 4 m, BM 4 m.
    const double dry = 8000e3 - water_mass, water_kg = 5 - 4 * 5 / (3 * kPi);
    const double kg = (8000e3 * 7.61531 - water_mass * water_kg) / dry;
    const double draft = 8, breadth = std::sqrt(12 * draft * 4), length = 8000e3 / (1025 * draft * breadth);
    Model model = barge(length, breadth, 16, dry, kg);
    model.weights[0].position.x = (8000e3 * length / 2 - water_mass * 40) / dry;
    model.tank_cells.push_back({bore, 1.0, 2 * water});
    sumUp(model);
    const Report r = reportOf(model, {sea, water});
    CHECK(relative(r.total_mass, 8000e3) < 1e-9);
    CHECK(std::abs(r.centre_of_gravity.z - 7.61531) < 1e-5);
    CHECK(std::abs(r.free_surface_rise_transverse - 0.16016) < 5e-5);
    CHECK(std::abs(r.gm_transverse - 0.2245) < 5e-4);
  }

  TEST_CASE("two slack tanks of an examination raise G by 0.48 ft (S18)") {
    // US Coast Guard question 0449-SA-4 (solution sheet on lapware.org): 9000 tons, two tanks 40 x 30 ft,
    // liquid of specific gravity 0.86 in sea water 1.025, 35 cubic feet to the ton: 0.48 ft. Our tank holds
    // the water she floats in, so the liquid's share 0.86/1.025 is put on the result.
    Model model;
    model.length = 100;
    for (double x : {20.0, 60.0}) {
      const CylinderSolid bore{{x, 0, 15}, {1, 0, 0}, 15, 40, 0, 0};
      model.tank_cells.push_back({bore, 1.0, kPi * 225 * 40});
      model.tank_capacity += kPi * 225 * 40;
    }
    const TankWater tank = settleTank(model, model.tank_capacity / 2, {0, 0, 1}).value();
    CHECK(std::abs(tank.stiffness_loss.yy / (9000 * 35) * 0.86 / 1.025 - 0.4794) < 5e-4);
  }

  TEST_CASE("of two tanks the broader takes more stability (S28)") {
    // Indian GATE marine engineering question: A 16 m broad and 12 m long, B 12 m broad and 16 m long: 4096
    // and 2304 m4.
    const auto inertia = [](double breadth, double length) {
      const double radius = breadth / 2;
      Model model;
      model.tank_cells.push_back(
          {{{0, 0, 0}, {1, 0, 0}, radius, length, 0, 0}, 1.0, kPi * radius * radius * length});
      model.tank_capacity = model.tank_cells.back().capacity;
      return settleTank(model, model.tank_capacity / 2, {0, 0, 1}).value().stiffness_loss.yy;
    };
    CHECK(relative(inertia(16, 12), 4096) < 1e-10);
    CHECK(relative(inertia(12, 16), 2304) < 1e-10);
  }

  TEST_CASE("a tank cut into n cells end to end has 1/n^2 of the free surface along it (S19)") {
    // De pp. 193-195: n equal cells across a direction leave i/n^2 in that direction.
    const double length = 0.3, radius = 0.04;
    for (int n : {1, 2, 3, 5, 8}) {
      CAPTURE(n);
      Model model;
      for (int i = 0; i < n; ++i) {
        const CylinderSolid bore{{length / n * (i + 0.5), 0, 0}, {1, 0, 0}, radius, length / n, 0, 0};
        model.tank_cells.push_back({bore, 1.0, kPi * radius * radius * length / n});
        model.tank_capacity += model.tank_cells.back().capacity;
      }
      const TankWater tank = settleTank(model, model.tank_capacity / 2, {0, 0, 1}).value();
      const double whole_x = 2 * radius * std::pow(length, 3) / 12,
                   whole_y = length * std::pow(2 * radius, 3) / 12;
      CHECK(relative(tank.stiffness_loss.xx, whole_x / (n * n)) < 1e-10);
      CHECK(relative(tank.stiffness_loss.yy, whole_y) < 1e-10);
    }
  }
}
