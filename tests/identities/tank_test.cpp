// Laws of the water in the ballast tank, at every attitude.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <vector>

#include "support/boats.hpp"
#include "support/compare.hpp"
#include "support/laws.hpp"
#include "support/models.hpp"
#include "support/random.hpp"
#include "support/slow_cylinder.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

struct Tank {
  std::string name;
  Model model;
};

std::vector<Tank> tanks() {
  std::vector<Tank> out;
  for (const NamedBoat& named : allBoats()) out.push_back({named.name, buildModel(named.boat).value()});
  return out;
}

Vec3 anyUp(Random& random, int k) {
  const Vec3 axes[] = {{0, 0, 1}, {0, 0, -1}, {1, 0, 0}, {-1, 0, 0}, {0, 1, 0}};
  if (k < 5) return axes[k];
  if (k < 15) return glm::normalize(Vec3{0, 0, 1} + 1e-4 * random.direction());
  return random.direction();
}

// Runs check(law, tank, fill, up, random) over every tank, some fills and attitudes.
template <class Check>
void overAll(Check check) {
  Law law;
  int count = 0;
  Random random(9201);
  for (const Tank& tank : tanks()) {
    CAPTURE(tank.name);
    law.at(tank.name);
    for (double share : {0.01, 0.2, 0.5, 0.77, 0.99}) {
      CAPTURE(share);
      for (int k = 0; k < 40; ++k) {
        const Vec3 up = anyUp(random, k);
        INFO("up " << up.x << ' ' << up.y << ' ' << up.z);
        check(law, tank.model, share * tank.model.tank_capacity, up, random);
        ++count;
      }
    }
  }
  CHECK(count >= 8 * 200);
}

}  // namespace

TEST_SUITE("laws of the tank's water") {
  TEST_CASE("the fill is kept at every attitude") {
    overAll([](Law& law, const Model& model, double fill, const Vec3& up, Random&) {
      const TankWater w = settleTank(model, fill, up).value();
      law.within("volume", w.volume - fill, model.tank_capacity);
      CHECK(w.levels.size() == model.tank_cells.size());
    });
  }

  TEST_CASE("each cell holds its share below a level surface, says the slow oracle") {
    overAll([](Law& law, const Model& model, double fill, const Vec3& up, Random&) {
      const TankWater w = settleTank(model, fill, up).value();
      Vec3 moment{0.0};
      for (std::size_t i = 0; i < model.tank_cells.size(); ++i) {
        const TankCell& cell = model.tank_cells[i];
        const Cut slow = slowCylinderCut(cell.bore, {up, w.levels[i]});
        law.within("volume", cell.scale * slow.volume - fill * cell.capacity / model.tank_capacity,
                   cell.capacity);
        moment += cell.scale * slow.moment;
      }
      law.within("moment", glm::length(w.moment - moment), model.tank_capacity);
    });
  }

  TEST_CASE("the water lies as low as it can: settled for another attitude it would lie higher") {
    overAll([](Law& law, const Model& model, double fill, const Vec3& up, Random& random) {
      const TankWater here = settleTank(model, fill, up).value();
      for (int k = 0; k < 5; ++k) {
        const Vec3 other = k < 3 ? glm::normalize(up + 0.05 * random.direction()) : random.direction();
        const TankWater there = settleTank(model, fill, other).value();
        law.within("height above the least", std::max(glm::dot(up, here.moment - there.moment), 0.0), fill);
      }
    });
  }

  TEST_CASE("the stiffness that the free surface takes is how the water runs when the boat turns") {
    overAll([](Law& law, const Model& model, double fill, const Vec3& up, Random& random) {
      const TankWater w = settleTank(model, fill, up).value();
      const Vec3 across = glm::normalize(glm::cross(up, random.direction()));
      const double h = 1e-5;
      const Vec3 hi = settleTank(model, fill, glm::normalize(up + h * across)).value().moment;
      const Vec3 lo = settleTank(model, fill, glm::normalize(up - h * across)).value().moment;
      // dM/du = -(P - a a^T / A): water runs to the low side.
      const double fd = -glm::dot(hi - lo, across) / (2 * h), got = product(w.stiffness_loss, across, across);
      const double r = model.tank_cells[0].bore.radius, l = model.tank_cells[0].bore.length;
      const double size = r * l * (r * r + l * l) / 12 * static_cast<double>(model.tank_cells.size());
      law.within("below 0", std::min(got, 0.0), size);
      law.within("difference", fd - got, size + 5 * std::abs(got));
    });
  }

  TEST_CASE("an empty tank and a full one have no free surface") {
    Law law;
    for (const Tank& tank : tanks()) {
      CAPTURE(tank.name);
      law.at(tank.name);
      for (double fill : {0.0, tank.model.tank_capacity}) {
        const TankWater w = settleTank(tank.model, fill, glm::normalize(Vec3{0.2, 0.1, 1})).value();
        const Sym3& s = w.stiffness_loss;
        CHECK(s.xx == 0.0);
        CHECK(s.yy == 0.0);
        CHECK(s.zz == 0.0);
        law.within("volume", w.volume - fill, tank.model.tank_capacity);
        Vec3 moment{0.0};
        for (const TankCell& c : tank.model.tank_cells) moment += c.bore.centre * c.capacity;
        if (fill > 0) law.within("moment", glm::length(w.moment - moment), tank.model.tank_capacity);
      }
    }
    CHECK(law.checks() >= 8 * 3);
  }

  TEST_CASE("level, the free surface is the handbook's, and goes to nothing towards empty and towards full") {
    Law law;
    for (const Tank& tank : tanks()) {
      CAPTURE(tank.name);
      law.at(tank.name);
      for (bool towards_full : {false, true}) {
        double before_across = 1e9, before_along = 1e9;
        for (double share : {0.5, 0.2, 0.05, 1e-2, 1e-3, 1e-4, 1e-6}) {
          CAPTURE(share);
          const double fill = (towards_full ? 1 - share : share) * tank.model.tank_capacity;
          const TankWater w = settleTank(tank.model, fill, {0, 0, 1}).value();
          double across = 0.0, along = 0.0;
          for (std::size_t i = 0; i < w.levels.size(); ++i) {
            const TankCell& cell = tank.model.tank_cells[i];
            const double r = cell.bore.radius, h = w.levels[i] - cell.bore.centre.z, l = cell.bore.length;
            const double breadth = 2 * std::sqrt((r - h) * (r + h));
            across += cell.scale * l * breadth * breadth * breadth / 12;
            along += cell.scale * breadth * l * l * l / 12;
          }
          law.equal("across", w.stiffness_loss.yy, across);
          law.equal("along", w.stiffness_loss.xx, along);
          CHECK(w.stiffness_loss.yy < before_across);
          CHECK(w.stiffness_loss.xx < before_along);
          before_across = w.stiffness_loss.yy;
          before_along = w.stiffness_loss.xx;
        }
      }
    }
  }

  TEST_CASE("a bulkhead takes free surface away and never adds any") {
    Law law;
    Random random(9202);
    for (const NamedBoat& named : allBoats()) {
      CAPTURE(named.name);
      law.at(named.name);
      Boat boat = named.boat;
      REQUIRE(boat.tank);
      const Model open = buildModel(boat).value();
      // One more, in the middle of the aftmost cell.
      std::vector<double>& bulkheads = boat.tank->bulkheads;
      const double next = bulkheads.empty() ? boat.tank->fore_end : bulkheads.front();
      bulkheads.insert(bulkheads.begin(), (boat.tank->aft_end + next) / 2);
      const Model split = buildModel(boat).value();
      law.equal("capacity", split.tank_capacity, open.tank_capacity);
      for (int k = 0; k < 50; ++k) {
        const double fill = random.between(0.1, 0.9) * open.tank_capacity;
        // So little off level that the water covers the bottom of every cell.
        const Vec3 up = glm::normalize(Vec3{0, 0, 1} + 0.02 * random.direction());
        const Vec3 pitch = glm::normalize(Vec3{1, 0, 0} - up * up.x);
        const auto along = [&](const Model& m) {
          return product(settleTank(m, fill, up).value().stiffness_loss, pitch, pitch);
        };
        CHECK(along(split) < along(open));
      }
      // Level and half full, a single cell cut in two: a quarter.
      if (open.tank_cells.size() > 1) continue;
      const double half = open.tank_capacity / 2;
      law.equal("a quarter", settleTank(split, half, {0, 0, 1}).value().stiffness_loss.xx,
                settleTank(open, half, {0, 0, 1}).value().stiffness_loss.xx / 4);
    }
  }

  TEST_CASE("a measured capacity scales the water and not its place") {
    Law law;
    const Vec3 up = glm::normalize(Vec3{0.1, 0.2, 1});
    for (const NamedBoat& named : allBoats()) {
      CAPTURE(named.name);
      law.at(named.name);
      Boat boat = named.boat;
      boat.tank->capacity.reset();
      const Model geometric = buildModel(boat).value();
      boat.tank->capacity = 0.9 * geometric.tank_capacity;
      const Model measured = buildModel(boat).value();
      law.equal("capacity", measured.tank_capacity, 0.9 * geometric.tank_capacity);
      for (double share : {0.1, 0.5, 0.9}) {
        const TankWater a = settleTank(geometric, share * geometric.tank_capacity, up).value();
        const TankWater b = settleTank(measured, share * measured.tank_capacity, up).value();
        law.equal("volume", b.volume, 0.9 * a.volume);
        law.within("place", glm::length(b.moment / b.volume - a.moment / a.volume));
      }
    }
  }
}
