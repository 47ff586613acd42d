// Laws of the water in the ballast tank, at every attitude.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <vector>

#include "support/boats.hpp"
#include "support/compare.hpp"
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

// Runs body(tank, fill, up) over every tank, some fills and attitudes; returns how often.
template <class Body>
int overAll(Body body) {
  int count = 0;
  Random random(9201);
  for (const Tank& tank : tanks()) {
    CAPTURE(tank.name);
    for (double share : {0.01, 0.2, 0.5, 0.77, 0.99}) {
      CAPTURE(share);
      for (int k = 0; k < 40; ++k) {
        const Vec3 up = anyUp(random, k);
        INFO("up " << up.x << ' ' << up.y << ' ' << up.z);
        body(tank.model, share * tank.model.tank_capacity, up, random);
        ++count;
      }
    }
  }
  return count;
}

}  // namespace

TEST_SUITE("laws of the tank's water") {
  TEST_CASE("the fill is kept at every attitude") {
    const int n = overAll([](const Model& model, double fill, const Vec3& up, Random&) {
      const TankWater w = settleTank(model, fill, up).value();
      CHECK(std::abs(w.volume - fill) < 1e-12 * model.tank_capacity);
      CHECK(w.levels.size() == model.tank_cells.size());
    });
    CHECK(n >= 3 * 200);
  }

  TEST_CASE("each cell holds its share below a level surface, says the slow oracle") {
    const int n = overAll([](const Model& model, double fill, const Vec3& up, Random&) {
      const TankWater w = settleTank(model, fill, up).value();
      Vec3 moment{0.0};
      for (std::size_t i = 0; i < model.tank_cells.size(); ++i) {
        const TankCell& cell = model.tank_cells[i];
        const Cut slow = slowCylinderCut(cell.bore, {up, w.levels[i]});
        CHECK(std::abs(cell.scale * slow.volume - fill * cell.capacity / model.tank_capacity) <
              1e-10 * cell.capacity);
        moment += cell.scale * slow.moment;
      }
      CHECK(glm::length(w.moment - moment) < 1e-10 * model.tank_capacity);
    });
    CHECK(n > 0);
  }

  TEST_CASE("the water lies as low as it can: settled for another attitude it would lie higher") {
    const int n = overAll([](const Model& model, double fill, const Vec3& up, Random& random) {
      const TankWater here = settleTank(model, fill, up).value();
      for (int k = 0; k < 5; ++k) {
        const Vec3 other = k < 3 ? glm::normalize(up + 0.05 * random.direction()) : random.direction();
        const TankWater there = settleTank(model, fill, other).value();
        CHECK(glm::dot(up, here.moment) <= glm::dot(up, there.moment) + 1e-14 * fill);
      }
    });
    CHECK(n > 0);
  }

  TEST_CASE("the stiffness that the free surface takes is how the water runs when the boat turns") {
    int checked = 0;
    overAll([&](const Model& model, double fill, const Vec3& up, Random& random) {
      const TankWater w = settleTank(model, fill, up).value();
      const Vec3 across = glm::normalize(glm::cross(up, random.direction()));
      const double h = 1e-5;
      const Vec3 hi = settleTank(model, fill, glm::normalize(up + h * across)).value().moment;
      const Vec3 lo = settleTank(model, fill, glm::normalize(up - h * across)).value().moment;
      // dM/du = -(P - a a^T / A): water runs to the low side.
      const double fd = -glm::dot(hi - lo, across) / (2 * h), got = product(w.stiffness_loss, across, across);
      const double r = model.tank_cells[0].bore.radius, l = model.tank_cells[0].bore.length;
      const double size = r * l * (r * r + l * l) / 12 * static_cast<double>(model.tank_cells.size());
      CHECK(got >= -1e-15 * size);
      // On end or near an edge the surface changes its outline within h; elsewhere h^2 is all.
      CHECK(std::abs(fd - got) < 2e-4 * size + 1e-3 * std::abs(got));
      ++checked;
    });
    CHECK(checked >= 600);
  }

  TEST_CASE("an empty tank and a full one have no free surface") {
    int checked = 0;
    for (const Tank& tank : tanks()) {
      CAPTURE(tank.name);
      for (double fill : {0.0, tank.model.tank_capacity}) {
        const TankWater w = settleTank(tank.model, fill, glm::normalize(Vec3{0.2, 0.1, 1})).value();
        const Sym3& s = w.stiffness_loss;
        CHECK(s.xx == 0.0);
        CHECK(s.yy == 0.0);
        CHECK(s.zz == 0.0);
        CHECK(std::abs(w.volume - fill) < 1e-12 * tank.model.tank_capacity);
        Vec3 moment{0.0};
        for (const TankCell& c : tank.model.tank_cells) moment += c.bore.centre * c.capacity;
        if (fill > 0) CHECK(glm::length(w.moment - moment) < 1e-12 * tank.model.tank_capacity);
        ++checked;
      }
    }
    CHECK(checked >= 6);
  }

  TEST_CASE("a bulkhead takes free surface away and never adds any") {
    Random random(9202);
    Boat boat = plainBoat();
    const Model open = buildModel(boat).value();
    boat.tank->bulkheads = {0.40};
    const Model split = buildModel(boat).value();
    CHECK(split.tank_capacity == doctest::Approx(open.tank_capacity).epsilon(1e-12));
    for (int k = 0; k < 200; ++k) {
      const double fill = random.between(0.1, 0.9) * open.tank_capacity;
      const Vec3 up = glm::normalize(Vec3{0, 0, 1} + 0.3 * random.direction());
      const auto along = [&](const Model& m, const Vec3& t) {
        return product(settleTank(m, fill, up).value().stiffness_loss, t, t);
      };
      const Vec3 pitch = glm::normalize(Vec3{1, 0, 0} - up * up.x);
      CHECK(along(split, pitch) < along(open, pitch));
    }
    // Level and half full: a quarter.
    const double half = open.tank_capacity / 2;
    CHECK(settleTank(split, half, {0, 0, 1}).value().stiffness_loss.xx ==
          doctest::Approx(settleTank(open, half, {0, 0, 1}).value().stiffness_loss.xx / 4).epsilon(1e-9));
  }

  TEST_CASE("a measured capacity scales the water and not its place") {
    Boat boat = plainBoat();
    const Model geometric = buildModel(boat).value();
    boat.tank->capacity = 0.9 * geometric.tank_capacity;
    const Model measured = buildModel(boat).value();
    CHECK(measured.tank_capacity == doctest::Approx(0.9 * geometric.tank_capacity).epsilon(1e-12));
    const Vec3 up = glm::normalize(Vec3{0.1, 0.2, 1});
    const TankWater a = settleTank(geometric, 0.5 * geometric.tank_capacity, up).value();
    const TankWater b = settleTank(measured, 0.5 * measured.tank_capacity, up).value();
    CHECK(b.volume == doctest::Approx(0.9 * a.volume).epsilon(1e-12));
    CHECK(glm::length(b.moment / b.volume - a.moment / a.volume) < 1e-12);
  }
}
