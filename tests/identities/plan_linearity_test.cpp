// What a trim plan rests on: under a given plane, weight and buoyancy are linear in the amounts at the
// places.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <place_amount.hpp>
#include <plan_terms.hpp>
#include <sstream>

#include "support/boats.hpp"
#include "support/laws.hpp"
#include "support/models.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

// The boat with its own places or proposed ones; one without a hull to put them in: whatever lead it has.
Boat withPlaces(const Boat& boat) {
  Boat out = boat.places.empty() ? proposePlaces(boat) : boat;
  if (!out.places.empty()) return out;
  for (const Part& p : out.parts) {
    if (p.role == Role::Lead && p.density) out.places.push_back({p.name, {}, {}, 0.0, {}});
  }
  return out;
}

std::vector<double> anyAmounts(const Boat& boat, Random& random) {
  std::vector<double> out;
  for (const Place& place : boat.places) {
    const Part& part = boat.parts[partNamed(boat, place.part)];
    const PlaceKind kind = kindOf(place, part);
    const double least = place.rail ? place.rail->from_x : place.least.value_or(0.0);
    const double most = place.rail ? place.rail->to_x : place.most.value_or(roomIn(kind, part));
    out.push_back(random.between(least, most));
  }
  return out;
}

// Built from the boat file's side, by the door that a plan goes through.
Model installed(const Boat& boat, const std::vector<double>& amounts) {
  Plan plan;
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    const Part& part = boat.parts[partNamed(boat, boat.places[i].part)];
    plan.amounts.push_back({i, amountIn(kindOf(boat.places[i], part), part), amounts[i]});
  }
  return buildModel(installPlan(boat, plan)).value();
}

struct Loads {
  double mass, volume, area;
  Vec3 mass_moment, moment, plane_moment;
};

Loads loadsOf(const Model& m, const Plane& plane) {
  const Cut cut = cutModel(m, plane);
  return {m.mass, cut.volume, cut.plane_area, m.centre_of_gravity * m.mass, cut.moment, cut.plane_moment};
}

void compare(Law& law, const Loads& got, const Loads& wanted, const Model& model) {
  const double volume = model.whole_volume, length = model.length;
  law.within("mass", got.mass - wanted.mass, model.mass);
  law.within("mass's moment", glm::length(got.mass_moment - wanted.mass_moment), model.mass * length);
  law.within("volume", got.volume - wanted.volume, volume);
  law.within("volume's moment", glm::length(got.moment - wanted.moment), volume * length);
  law.within("waterplane", got.area - wanted.area, volume / length);
  law.within("waterplane's moment", glm::length(got.plane_moment - wanted.plane_moment), volume);
}

// Runs check(law, random, boat, level): every boat, about the painted line, between it and the sail's top,
// and with all under water.
template <class Check>
void overBoatsAndLevels(Check check) {
  Law law;
  Random random(9301);
  for (const NamedBoat& named : allBoats()) {
    const Boat boat = withPlaces(named.boat);
    CAPTURE(named.name);
    REQUIRE(!boat.places.empty());
    for (double share : {-0.3, 0.0, 0.5, 0.9, 2.0}) {
      const double line = boat.marks.line_height;
      const double level = line + share * (boat.marks.sail_top.z - line);
      std::ostringstream name;
      name << named.name << ", water at " << level << " m";
      CAPTURE(name.str());
      law.at(name.str());
      for (int k = 0; k < 3; ++k) check(law, random, boat, level);
    }
  }
}

}  // namespace

TEST_SUITE("laws of the trim plan") {
  TEST_CASE("under any plane, weight and buoyancy are linear in what is at the places") {
    overBoatsAndLevels([](Law& law, Random& random, const Boat& boat, double level) {
      std::vector<double> a = anyAmounts(boat, random), b = anyAmounts(boat, random);
      for (std::size_t i = 0; i < a.size(); ++i) {
        if (boat.places[i].rail) b[i] = a[i];  // across a sloping plane what moves along is cut differently
      }
      const double t = random.between(0.0, 1.0);
      std::vector<double> between;
      for (std::size_t i = 0; i < a.size(); ++i) between.push_back((1 - t) * a[i] + t * b[i]);
      const Vec3 up = glm::normalize(Vec3{0, 0, 1} + 0.3 * random.direction());
      const Plane plane{up, level * up.z + boat.length / 2 * up.x};
      const Model middle = installed(boat, between);
      const Loads one = loadsOf(installed(boat, a), plane), other = loadsOf(installed(boat, b), plane);
      const auto mix = [t](const auto& x, const auto& y) { return x * (1 - t) + y * t; };
      compare(law, loadsOf(middle, plane),
              {mix(one.mass, other.mass), mix(one.volume, other.volume), mix(one.area, other.area),
               mix(one.mass_moment, other.mass_moment), mix(one.moment, other.moment),
               mix(one.plane_moment, other.plane_moment)},
              middle);
    });
  }

  TEST_CASE("what a plan adds up is what the boat with these amounts weighs and displaces") {
    overBoatsAndLevels([](Law& law, Random& random, const Boat& boat, double level) {
      const PlanBasis basis = makeBasis(boat).value();
      const Plane plane{Vec3{0, 0, 1}, level};
      WantedCondition empty;
      empty.condition = {boat.water, 0.0};
      const std::vector<double> amounts = anyAmounts(boat, random);
      const Sums s = makeTerms(basis, empty, plane).value().at(basis, amounts);
      const Model built = installed(boat, amounts);
      compare(law, {s.mass, s.cut.volume, s.cut.plane_area, s.mass_moment, s.cut.moment, s.cut.plane_moment},
              loadsOf(built, plane), built);
      law.within("volume", s.whole.volume - built.whole_volume, built.whole_volume);
      law.within("volume's moment", glm::length(s.whole.moment - built.whole_centroid * built.whole_volume),
                 built.whole_volume * built.length);
    });
  }
}
