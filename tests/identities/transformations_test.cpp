// The same boat said differently floats the same: mirrored, moved, scaled, cut in pieces, listed in another
// order.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <sstream>
#include <variant>

#include "support/boats.hpp"
#include "support/law_cases.hpp"
#include "support/laws.hpp"
#include "support/models.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

const Water kFresh{288.15, 0.0}, kSea{288.15, 35.0};

void checkSame(Law& law, const Report& a, const Report& b) {
  CHECK(a.rest.outcome == b.rest.outcome);
  law.equal("mass", a.total_mass, b.total_mass);
  law.within("angle", a.rest.attitude.trim - b.rest.attitude.trim);
  law.within("angle", a.rest.attitude.heel - b.rest.attitude.heel);
  REQUIRE(a.bow.has_value() == b.bow.has_value());
  if (a.bow) law.within("draft", a.bow->draft - b.bow->draft);
  if (a.bow) law.within("draft", a.stern->draft - b.stern->draft);
  law.within("GM", a.gm_transverse - b.gm_transverse);
  law.within("waterplane", a.waterplane_area - b.waterplane_area);
}

double fillOf(const Boat& boat, double share) { return share * buildModel(boat).value().tank_capacity; }

Report solve(const Boat& boat, double fill, const Water& water = kFresh) {
  const Result<Model> model = buildModel(boat);
  if (!model) FAIL(model.error().message);
  return reportOf(*model, {water, fill});
}

Boat mirrored(Boat boat) {
  for (Skin& s : boat.skins) s.position.y = -s.position.y;
  for (SealedCylinder& c : boat.cylinders) c.position.y = -c.position.y;
  for (Part& p : boat.parts) p.position.y = -p.position.y;
  boat.marks.sail_top.y = -boat.marks.sail_top.y;
  return boat;
}

Boat shifted(Boat boat, const Vec3& d) {
  for (Skin& s : boat.skins) s.position += d;
  for (SealedCylinder& c : boat.cylinders) c.position += d;
  for (Part& p : boat.parts) p.position += d;
  if (boat.tank) {
    boat.tank->aft_end += d.x;
    boat.tank->fore_end += d.x;
    for (double& b : boat.tank->bulkheads) b += d.x;
  }
  boat.marks.bow_x += d.x;
  boat.marks.stern_x += d.x;
  boat.marks.line_height += d.z;
  boat.marks.deck_height += d.z;
  boat.marks.sail_top += d;
  return boat;
}

std::vector<double*> lengths(SpindleForm& f) {
  return {&f.length, &f.breadth, &f.height, &f.nose_length, &f.tail_length};
}
std::vector<double*> lengths(SailForm& f) { return {&f.length, &f.breadth, &f.height, &f.rake}; }
std::vector<double*> lengths(SuboffForm& f) {
  return {&f.length, &f.diameter, &f.nose_length, &f.tail_length};
}
std::vector<double*> lengths(MyringForm& f) {
  return {&f.diameter, &f.nose_length, &f.middle_length, &f.tail_length, &f.nose_offset, &f.tail_offset};
}
std::vector<double*> lengths(CasingForm& f) {
  return {&f.length, &f.breadth, &f.height, &f.nose_length, &f.tail_length};
}
std::vector<double*> lengths(PlateForm& f) { return {&f.length, &f.tip_length, &f.span, &f.rake}; }

std::vector<double*> lengths(OffsetsForm& f) {
  std::vector<double*> out;
  for (OffsetStation& s : f.stations) {
    out.push_back(&s.at_x);
    for (double& z : s.heights) out.push_back(&z);
    for (double& y : s.half_breadths) out.push_back(&y);
  }
  return out;
}

std::vector<double*> lengths(MeshForm& f) { return {&f.size.x, &f.size.y, &f.size.z}; }

void scaleForm(SkinForm& form, double k) {
  std::visit(
      [&](auto& f) {
        for (double* v : lengths(f)) *v *= k;
      },
      form);
}

void scaleShape(Shape& shape, double k) {
  if (auto* b = std::get_if<BoxShape>(&shape)) b->size *= k;
  if (auto* c = std::get_if<CylinderShape>(&shape)) {
    for (double* v : {&c->diameter, &c->length, &c->fore_dome, &c->aft_dome}) *v *= k;
  }
  if (auto* s = std::get_if<StripShape>(&shape)) {
    for (double* v : {&s->length, &s->aft_breadth, &s->aft_height, &s->fore_breadth, &s->fore_height})
      *v *= k;
  }
}

void scaleOptional(std::optional<double>& v, double k) {
  if (v) *v *= k;
}

// Lengths by k, masses by `mass`, densities by mass / k^3.
Boat scaled(Boat b, double k, double mass) {
  b.ballast.reset();  // pumps and cans do not scale, and rest positions do not ask for them
  const double k3 = k * k * k;
  b.length *= k;
  for (Skin& s : b.skins) {
    scaleForm(s.form, k);
    s.position *= k;
    s.thickness *= k;
    scaleOptional(s.mass, mass);
    scaleOptional(s.density, mass / k3);
  }
  for (SealedCylinder& c : b.cylinders) {
    c.position *= k;
    for (double* v : {&c.length, &c.diameter, &c.wall_thickness, &c.cap_thickness, &c.fore_dome, &c.aft_dome})
      *v *= k;
    scaleOptional(c.mass, mass);
    scaleOptional(c.density, mass / k3);
  }
  if (b.tank) {
    b.tank->aft_end *= k;
    b.tank->fore_end *= k;
    scaleOptional(b.tank->capacity, k3);
    for (double& x : b.tank->bulkheads) x *= k;
  }
  for (Part& p : b.parts) {
    scaleShape(p.shape, k);
    p.position *= k;
    scaleOptional(p.mass, mass);
    scaleOptional(p.volume, k3);
    scaleOptional(p.density, mass / k3);
  }
  Marks& m = b.marks;
  for (double* v : {&m.bow_x, &m.stern_x, &m.line_height, &m.deck_height}) *v *= k;
  m.sail_top *= k;
  return b;
}

// Runs check(law, boat, fill, water) over all boats, from empty to nearly full, in the pond and in the sea; a
// build that cannot afford both (random.hpp) takes them in turn.
template <class Check>
void forBoatsFillsAndWaters(Check check) {
  Law law;
  int count = 0, turn = 0;
  for (const NamedBoat& named : allBoats()) {
    CAPTURE(named.name);
    for (double share : {0.0, 0.5, 0.8}) {
      for (const Water& water : {kFresh, kSea}) {
        if (kEffortDivisor > 1 && ++turn % 4 > 1) continue;  // 0, 1, 4, 5...: each fill, each water
        std::ostringstream name;
        name << named.name << ", fill " << share << ", salinity " << water.salinity;
        CAPTURE(name.str());
        law.at(name.str());
        check(law, named.boat, fillOf(named.boat, share), water);
        ++count;
      }
    }
  }
  CHECK(count >= 8 * (kEffortDivisor > 1 ? 3 : 6));
}

// A pair of foam blocks amidships, high in the boat, half filled.
Part extraFoam(const Boat& boat) {
  Part foam;
  foam.name = "more foam";
  foam.role = Role::Foam;
  foam.shape = BoxShape{{0.05, 0.02, 0.012}};
  foam.position = {0.5 * boat.length, 0.02, boat.marks.line_height};
  foam.density = 33;
  foam.volume = 6e-6;
  foam.mirrored = true;
  return foam;
}

// Every box cut in two across its length.
Boat halvesOf(const Boat& whole, int& halved) {
  Boat out = whole;
  out.places.clear();  // they name the parts
  out.aims.further.clear();
  for (std::size_t i = 0; i < whole.parts.size(); ++i) {
    if (!std::holds_alternative<BoxShape>(whole.parts[i].shape)) continue;
    Part fore = whole.parts[i];
    double& length = std::get<BoxShape>(fore.shape).size.x;
    const double quarter = length / 4;
    length /= 2;
    if (fore.mass) *fore.mass /= 2;
    if (fore.volume) *fore.volume /= 2;
    Part aft = fore;
    aft.name += ", aft half";
    fore.position.x += quarter;
    aft.position.x -= quarter;
    out.parts[i] = fore;
    out.parts.push_back(aft);
    ++halved;
  }
  return out;
}

// The boat with a weight put to one side, so that heel is not zero.
Boat lopsided(Boat boat) {
  Part weight;
  weight.name = "a stone";
  weight.shape = PointShape{};
  weight.position = {0.5 * boat.length, 0.02, 0.03};
  weight.mass = 0.03;
  boat.parts.push_back(weight);
  return boat;
}

}  // namespace

TEST_SUITE("laws of the same boat said differently") {
  TEST_CASE("a mirrored boat gives a mirrored report") {
    forBoatsFillsAndWaters([](Law& law, const Boat& boat, double fill, const Water& water) {
      const Boat one = lopsided(boat);
      const Report a = solve(one, fill, water), b = solve(mirrored(one), fill, water);
      CHECK(std::abs(a.rest.attitude.heel) > 1e-4);
      law.within("angle", a.rest.attitude.heel + b.rest.attitude.heel);
      law.within("angle", a.rest.attitude.trim - b.rest.attitude.trim);
      law.within("centre", a.centre_of_buoyancy.y + b.centre_of_buoyancy.y);
      law.within("centre", a.centre_of_gravity.y + b.centre_of_gravity.y);
      law.within("GM", a.gm_transverse - b.gm_transverse);
      // The stone lies to port and heels her to port, which is negative, from wherever she hung without it.
      CHECK(a.rest.attitude.heel < solve(boat, fill, water).rest.attitude.heel);
    });
  }

  TEST_CASE("a symmetric boat floats upright") {
    forBoatsFillsAndWaters([](Law& law, const Boat& boat, double, const Water& water) {
      law.within("heel", solve(broughtToTheMiddle(boat), 0.0, water).rest.attitude.heel);
    });
  }

  TEST_CASE("a shifted frame shifts the centres and nothing else") {
    forBoatsFillsAndWaters([](Law& law, const Boat& boat, double fill, const Water& water) {
      for (const Vec3& d : {Vec3{0.35, 0, 0}, Vec3{-0.2, 0, 0}, Vec3{0, 0, 0.04}}) {
        const Boat one = lopsided(boat);
        const Report a = solve(one, fill, water), b = solve(shifted(one, d), fill, water);
        law.within("centre", glm::length(b.centre_of_gravity - a.centre_of_gravity - d));
        law.within("centre", glm::length(b.centre_of_buoyancy - a.centre_of_buoyancy - d));
        law.within("angle", a.rest.attitude.trim - b.rest.attitude.trim);
        law.within("angle", a.rest.attitude.heel - b.rest.attitude.heel);
        if (a.lcf) law.within("centre of flotation", b.lcf.value() - a.lcf.value() - d.x);
        law.within("draft", a.sail_showing - b.sail_showing);
        if (a.bow) {
          law.within("draft", b.bow->draft - a.bow->draft - d.z);
          law.within("draft", b.bow->line_above_water - a.bow->line_above_water);
        }
      }
    });
  }

  TEST_CASE("a boat twice as large and eight times as heavy floats alike") {
    forBoatsFillsAndWaters([](Law& law, const Boat& boat, double fill, const Water& water) {
      for (double k : {0.5, 2.0}) {
        const Boat one = lopsided(boat);
        const Report a = solve(one, fill, water),
                     b = solve(scaled(one, k, k * k * k), fill * k * k * k, water);
        law.within("angle", a.rest.attitude.trim - b.rest.attitude.trim);
        law.within("angle", a.rest.attitude.heel - b.rest.attitude.heel);
        law.equal("mass", b.total_mass, k * k * k * a.total_mass);
        law.within("GM", b.gm_transverse - k * a.gm_transverse);
        law.within("draft", b.sail_showing - k * a.sail_showing);
        if (a.bow) law.within("draft", b.bow->draft - k * a.bow->draft);
        if (a.bow_effect) law.equal("effect", b.bow_effect->at_origin, a.bow_effect->at_origin / (k * k));
      }
    });
  }

  TEST_CASE("a boat heavier by the sea's density floats in the sea as before in the pond") {
    forBoatsFillsAndWaters([](Law& law, const Boat& boat, double fill, const Water& water) {
      const Water& other = water.salinity > 0 ? kFresh : kSea;
      const double ratio = waterDensity(other).value() / waterDensity(water).value();
      // Lead whose volume follows from its mass keeps it: density goes with mass.
      const Report a = solve(boat, fill, water), b = solve(scaled(boat, 1.0, ratio), fill, other);
      law.equal("mass", b.total_mass, ratio * a.total_mass);
      law.within("angle", a.rest.attitude.trim - b.rest.attitude.trim);
      law.within("draft", a.sail_showing - b.sail_showing);
      if (a.bow) law.within("draft", a.bow->draft - b.bow->draft);
    });
  }

  TEST_CASE("salt water lifts every boat that floats") {
    int lifted = 0;
    for (const NamedBoat& named : allBoats()) {
      CAPTURE(named.name);
      const Report pond = solve(named.boat, 0.0, kFresh), sea = solve(named.boat, 0.0, kSea);
      if (pond.rest.outcome == Outcome::Sinks) continue;
      CHECK(sea.displaced_volume < pond.displaced_volume);
      CHECK(sea.sail_showing > pond.sail_showing);
      ++lifted;
    }
    CHECK(lifted >= 2);
  }

  TEST_CASE("the order of skins and parts does not matter") {
    forBoatsFillsAndWaters([](Law& law, const Boat& boat, double fill, const Water& water) {
      Boat back = boat;
      std::reverse(back.parts.begin(), back.parts.end());
      std::reverse(back.skins.begin(), back.skins.end());
      checkSame(law, solve(boat, fill, water), solve(back, fill, water));
    });
  }

  TEST_CASE("two halves of a part are the part") {
    forBoatsFillsAndWaters([](Law& law, const Boat& boat, double fill, const Water& water) {
      Boat whole = boat;
      whole.parts.push_back(extraFoam(boat));
      int halved = 0;
      const Boat halves = halvesOf(whole, halved);
      CHECK(halved >= 1);
      checkSame(law, solve(whole, fill, water), solve(halves, fill, water));
    });
  }

  TEST_CASE("a mirrored pair is two parts") {
    forBoatsFillsAndWaters([](Law& law, const Boat& boat, double fill, const Water& water) {
      Boat pair = boat;
      pair.parts.push_back(extraFoam(boat));
      Boat two = pair;
      two.places.clear();
      const std::size_t count = two.parts.size();
      int split = 0;
      for (std::size_t i = 0; i < count; ++i) {
        if (!two.parts[i].mirrored) continue;
        two.parts[i].mirrored = false;
        Part other = two.parts[i];
        other.name += ", starboard";
        other.position.y = -other.position.y;
        two.parts.push_back(other);
        ++split;
      }
      CHECK(split >= 1);
      checkSame(law, solve(pair, fill, water), solve(two, fill, water));
    });
  }

  TEST_CASE("what lies inside the cylinder weighs and displaces nothing") {
    Law law;
    for (const NamedBoat& named : allBoats()) {
      CAPTURE(named.name);
      law.at(named.name);
      Boat boat = named.boat;
      const Model before = buildModel(boat).value();
      Part box;
      box.name = "a box";
      box.role = Role::Dry;
      box.shape = BoxShape{{0.02, 0.015, 0.01}};
      box.inside = boat.cylinders.at(0).name;
      box.position = boat.cylinders.at(0).position + Vec3{boat.cylinders.at(0).length / 2, 0, 0};
      box.mass = 0.1;
      boat.parts.push_back(box);
      const Model after = buildModel(boat).value();
      CHECK(after.whole_volume == before.whole_volume);
      law.equal("mass", after.mass, before.mass + 0.1);
    }
  }

  TEST_CASE("a part that fills its shape in part has the shape's centre and its own volume") {
    Law law;
    for (const NamedBoat& named : allBoats()) {
      CAPTURE(named.name);
      law.at(named.name);
      Boat boat = named.boat;
      boat.parts.push_back(extraFoam(boat));
      boat.parts.back().shape = StripShape{0.09, 0.03, 0.03, 0.02, 0.02};
      const auto piece = [&] {
        const Model model = buildModel(boat).value();
        for (const Displacer& d : model.displacers) {
          if (d.source.owner == Owner::Part && d.source.index + 1 == boat.parts.size() && !d.source.mirror)
            return d.whole;
        }
        return Cut{};
      };
      const Cut partly = piece();
      law.equal("volume", partly.volume, *boat.parts.back().volume);
      boat.parts.back().volume.reset();
      const Cut full = piece();
      // Prismatoid: 90 mm long, 30 x 30 tapering to 20 x 20 mm.
      law.equal("volume", full.volume, 0.09 / 6 * (9e-4 + 4 * 6.25e-4 + 4e-4));
      law.within("centre", glm::length(partly.moment / partly.volume - full.moment / full.volume));
    }
  }
}
