// Random boats, sensible and absurd: the solver always answers, with a balance, a minimum and no NaN.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/geometric.hpp>
#include <string>
#include <vector>

#include "support/energy.hpp"
#include "support/laws.hpp"
#include "support/meshes.hpp"
#include "support/models.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

constexpr std::uint64_t kSeed = 20240711;
constexpr int kBoats = effort(100000);

Shape randomShape(Random& random, double length) {
  const auto size = [&] { return random.scale(0.004, 0.15); };
  switch (random.index(4)) {
    case 0:
      return BoxShape{{random.scale(0.01, 0.5 * length), size(), size()}};
    case 1: {
      const Axis axis = std::array{Axis::X, Axis::Y, Axis::Z}[static_cast<std::size_t>(random.index(3))];
      const auto dome = [&] { return random.chance(0.5) ? 0.0 : random.scale(0.002, 0.05); };
      return CylinderShape{axis, size(), random.scale(0.01, 0.3), dome(), dome()};
    }
    case 2:
      return StripShape{random.scale(0.02, 0.5 * length), size(), size(), size(), size()};
    default:
      return PointShape{};
  }
}

Part randomPart(Random& random, const Boat& boat, int i) {
  Part p;
  p.name = "part " + std::to_string(i);
  p.shape = randomShape(random, boat.length);
  const bool point = std::holds_alternative<PointShape>(p.shape);
  p.position = random.inBox({0, -0.1, -0.05}, {boat.length, 0.1, 0.15});
  if (random.chance(0.6)) p.position.y = 0.0;
  p.mirrored = random.chance(0.3);
  const Role wet[] = {Role::Solid, Role::Foam, Role::Foam, Role::Lead, Role::TrappedAir};
  p.role = point ? Role::Solid : wet[random.index(5)];
  if (p.role == Role::Foam) p.density = random.between(20, 200);
  if (p.role == Role::Lead) p.density = random.between(7000, 19000);
  if (p.role == Role::Solid && !point && random.chance(0.5)) p.density = random.scale(100, 3000);
  if (p.role == Role::Solid && (point || !p.density)) p.mass = random.scale(0.001, 1.0);
  return p;
}

SealedCylinder randomCylinder(Random& random, const Boat& boat) {
  SealedCylinder c;
  c.name = "cylinder";
  c.diameter = random.scale(0.03, 0.2);
  c.length = random.between(0.2, 0.9) * boat.length;
  c.position = {random.between(0, boat.length - c.length), 0, random.between(0.3, 1.2) * c.diameter};
  if (random.chance(0.2)) c.position.y = random.between(-0.05, 0.05);
  c.wall_thickness = 0.05 * c.diameter;
  c.cap_thickness = 0.004;
  if (random.chance(0.5)) c.fore_dome = random.between(0.005, 0.5 * c.diameter + 0.005);
  if (random.chance(0.3)) c.aft_dome = random.between(0.005, 0.5 * c.diameter + 0.005);
  c.mass = random.between(0.05, 0.5) * 1000 * kPi / 4 * c.diameter * c.diameter * c.length;
  return c;
}

void addTank(Random& random, Boat& boat) {
  const SealedCylinder& c = boat.cylinders[0];
  // Between the caps, whether they are flat or not.
  const double first = c.position.x + c.cap_thickness, clear = c.length - 2 * c.cap_thickness;
  BallastTank tank{c.name, first + random.between(0.0, 0.4) * clear, 0.0, std::nullopt, {}};
  tank.fore_end = tank.aft_end + random.between(0.1, 0.6) * clear;
  if (random.chance(0.3)) tank.bulkheads = {(tank.aft_end + tank.fore_end) / 2};
  boat.tank = tank;
}

// Mostly boats: a cylinder with things in it. Some without, so that logs, rafts and stones turn up too.
Boat randomBoat(Random& random) {
  Boat boat;
  boat.name = "random";
  boat.length = random.scale(0.3, 2.5);
  boat.marks = {0.9 * boat.length, 0.1 * boat.length, 0.05, 0.1, {0.5 * boat.length, 0, 0.2}};
  if (random.chance(0.85)) {
    boat.cylinders.push_back(randomCylinder(random, boat));
    if (random.chance(0.8)) addTank(random, boat);
  }
  const int parts = 1 + random.index(6);
  for (int i = 0; i < parts; ++i) boat.parts.push_back(randomPart(random, boat, i));
  if (!boat.cylinders.empty()) {
    // A dry load that brings her from light to too heavy.
    const SealedCylinder& c = boat.cylinders[0];
    Part load;
    load.name = "load";
    load.role = Role::Dry;
    load.inside = c.name;
    load.shape = PointShape{};
    load.position = c.position + Vec3{random.between(0.1, 0.9) * c.length, 0, 0};
    load.position.z += random.between(-0.4, 0.2) * c.diameter;
    load.mass = random.between(0.05, 0.8) * 1000 * kPi / 4 * c.diameter * c.diameter * c.length;
    boat.parts.push_back(load);
  }
  return boat;
}

// Skins take long to mesh, so they come from a small pool and are put on the finished model.
struct SkinPool {
  std::vector<CutMesh> skins;

  SkinPool() {
    Random random(77);
    for (int i = 0; i < 24; ++i) {
      Mesh mesh = i % 3 == 0 ? boxMesh({0.3, 0, 0.05}, {0.6, random.between(0.05, 0.15), 0.1})
                             : lumpySphereMesh({0.3, 0, 0.05}, 0.1, 0.1, 8, static_cast<unsigned>(i));
      if (i % 3 == 2) {
        for (Vec3& v : mesh.vertices) v.x = 0.3 + 3 * (v.x - 0.3);
      }
      skins.push_back(CutMesh::skin(mesh, random.between(0.001, 0.003)));
    }
  }
};

void putOnSkin(Random& random, const SkinPool& pool, Model& model) {
  const CutMesh& skin =
      pool.skins[static_cast<std::size_t>(random.index(static_cast<int>(pool.skins.size())))];
  const Cut& whole = skin.whole();
  model.displacers.push_back({{Owner::Skin, 0, false}, skin, 1.0, whole});
  model.weights.push_back({{}, random.between(900, 2000) * whole.volume, whole.moment / whole.volume});
  sumUp(model);
}

// Loads her until next to nothing shows, or just too much: where waterplanes are smallest.
void loadToTheBrim(Random& random, Model& model, const Condition& condition) {
  const double density = waterDensity(condition.water).value();
  const double spare = density * (model.whole_volume - condition.tank_fill) - model.mass;
  if (spare <= 0.0) return;
  const double left = random.chance(0.8) ? random.scale(1e-9, 1e-2) : -random.scale(1e-9, 1e-2);
  const double mass = spare - left * density * model.whole_volume;
  if (mass <= 0.0) return;
  model.weights.push_back({{}, mass, model.whole_centroid - Vec3{0, 0, random.scale(0.001, 0.05)}});
  sumUp(model);
}

struct Counts {
  int floats = 0, awash = 0, sinks = 0, lopsided = 0, with_tank = 0, flat = 0;
  int most_iterations = 0;
};

bool finite(const Equilibrium& e) {
  double sum = e.plane.level + e.attitude.trim + e.attitude.heel + e.cut.volume + e.cut.plane_area + e.mass +
               e.missing_buoyancy + e.force_residual + e.moment_residual;
  for (int i = 0; i < 3; ++i) {
    sum += e.plane.up[i] + e.cut.moment[i] + e.cut.plane_moment[i] + e.centre_of_gravity[i];
    for (int j = 0; j < 3; ++j) sum += e.stiffness[i][j];
  }
  return std::isfinite(sum);
}

// Every move away costs energy.
void checkMinimum(Law& law, Random& random, const Model& model, const Condition& condition,
                  const Equilibrium& e) {
  const Energy energy(model, condition, e.outcome == Outcome::Sinks);
  const Turns t = turnsAt(e.attitude);
  const double depth = energy.depthOf(e.plane), least = energy.at(e.plane.up, depth);
  for (double size : {1e-4, 2e-3, 1e-2}) {
    const double a = random.between(0, 2 * kPi);
    const Vec3 up = turned(e.plane.up, t, size * std::cos(a), size * std::sin(a));
    const double there = energy.at(up, depth + size * 0.05 * random.between(-1, 1));
    CAPTURE(size);
    law.within("energy below that of rest", std::min(there - least, 0.0), e.mass * model.length);
  }
}

// Of all directions of turning, the depth free to follow [m].
double leastGm(const Equilibrium& e) {
  const auto& k = e.stiffness;
  const double heave = k[0][0];
  const auto free = [&](int i, int j) { return k[i][j] - (heave > 0 ? k[i][0] * k[0][j] / heave : 0.0); };
  const double mean = (free(1, 1) + free(2, 2)) / 2,
               off = std::hypot((free(1, 1) - free(2, 2)) / 2, free(1, 2));
  return (mean - off) / e.mass;
}

// Pushed a little and let go, she comes back. Not asked of a boat next to indifferent, which has nowhere to
// come back to.
void checkReturn(Law& law, Random& random, const Model& model, const Condition& condition,
                 const Equilibrium& e, Counts& counts) {
  const double gm = leastGm(e);
  if (gm < 1e-4 * model.length) {
    ++counts.flat;
    return;
  }
  const Turns t = turnsAt(e.attitude);
  const double a = random.between(0, 2 * kPi), push = 0.01 * gm / model.length;
  const Plane start{turned(e.plane.up, t, push * std::cos(a), push * std::sin(a)),
                    e.plane.level + 0.1 * push * model.length * random.between(-1, 1)};
  const Result<Equilibrium> again = findEquilibriumNear(model, condition, start);
  REQUIRE(again.has_value());
  law.within("angle solved again", glm::length(again->plane.up - e.plane.up), model.length / gm);
}

void checkRest(Law& law, Random& random, const Model& model, const Condition& condition, Counts& counts) {
  const Attitude start =
      random.chance(0.7) ? Attitude{} : Attitude{random.between(-1.5, 1.5), random.between(-3.1, 3.1)};
  const Result<Equilibrium> found = findEquilibrium(model, condition, start);
  REQUIRE(found.has_value());
  const Equilibrium& e = *found;
  REQUIRE(finite(e));
  law.within("residual", e.force_residual);
  law.within("residual", e.moment_residual);
  CHECK((e.outcome == Outcome::Sinks) == (e.mass >= e.density * model.whole_volume));
  if (e.outcome != Outcome::Sinks) {
    law.within("buoyancy", e.density * cutModel(model, e.plane).volume - e.mass, e.mass);
  }
  checkMinimum(law, random, model, condition, e);
  checkReturn(law, random, model, condition, e, counts);
  ++(e.outcome == Outcome::Sinks    ? counts.sinks
     : e.outcome == Outcome::Floats ? counts.floats
                                    : counts.awash);
  if (std::abs(e.attitude.heel) > 0.05) ++counts.lopsided;
  if (condition.tank_fill > 0) ++counts.with_tank;
  counts.most_iterations = std::max(counts.most_iterations, e.iterations);
}

}  // namespace

TEST_SUITE("random boats") {
  TEST_CASE("every random boat comes to rest at a minimum, or sinks by its own weight") {
    MESSAGE("seed " << kSeed << ", boats " << kBoats);
    Law law(LawBoats::Own);
    Random random(kSeed);
    const SkinPool pool;
    Counts counts;
    int solved = 0, empty = 0;
    for (int k = 0; solved < kBoats && k < 2 * kBoats; ++k) {
      CAPTURE(k);
      const Boat boat = randomBoat(random);
      Result<Model> built = buildModel(boat);
      if (!built) {
        // Only a boat that is all points or all air is none; every number is within its range.
        REQUIRE_MESSAGE(checkBoat(boat).has_value(), checkBoat(boat).error().message);
        ++empty;
        continue;
      }
      if (random.chance(0.1)) putOnSkin(random, pool, *built);
      Condition condition;
      condition.tank_fill = random.chance(0.2) ? 0.0 : random.between(0, 1) * built->tank_capacity;
      if (random.chance(0.3)) condition.water = {293.15, 35.0};
      if (random.chance(0.15)) loadToTheBrim(random, *built, condition);
      checkRest(law, random, *built, condition, counts);
      ++solved;
    }
    MESSAGE("floats " << counts.floats << ", awash " << counts.awash << ", sinks " << counts.sinks
                      << ", heeled " << counts.lopsided << ", with water in the tank " << counts.with_tank
                      << ", next to indifferent " << counts.flat << ", no boat " << empty << ", most steps "
                      << counts.most_iterations);
    CHECK(solved == kBoats);
    for (int count : {counts.floats, counts.awash, counts.sinks, counts.lopsided})
      CHECK(count > 0.02 * kBoats);
    CHECK(counts.with_tank > 0.3 * kBoats);
    CHECK(counts.flat < 0.1 * kBoats);
  }
}
