// The same boat said differently floats the same: mirrored, moved, scaled, cut in pieces, listed in another
// order.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <variant>

#include "support/boats.hpp"
#include "support/laws.hpp"
#include "support/models.hpp"

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

// Runs check(law, boat, fill) over all boats.
template <class Check>
void forBoatsAndFills(Check check) {
  Law law;
  int count = 0;
  for (const NamedBoat& named : allBoats()) {
    CAPTURE(named.name);
    law.at(named.name);
    for (double share : {0.0, 0.5, 0.8}) {
      CAPTURE(share);
      check(law, named.boat, fillOf(named.boat, share));
      ++count;
    }
  }
  CHECK(count >= 8 * 3);
}

// Everything that has no twin on the other side put onto the centreline.
Boat broughtToTheMiddle(Boat boat) {
  for (Skin& s : boat.skins) s.position.y = 0.0;
  for (SealedCylinder& c : boat.cylinders) c.position.y = 0.0;
  for (Part& p : boat.parts) {
    if (!p.mirrored) p.position.y = 0.0;
  }
  return boat;
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
    forBoatsAndFills([](Law& law, const Boat& boat, double fill) {
      const Boat one = lopsided(boat);
      const Report a = solve(one, fill), b = solve(mirrored(one), fill);
      CHECK(std::abs(a.rest.attitude.heel) > 1e-4);
      law.within("angle", a.rest.attitude.heel + b.rest.attitude.heel);
      law.within("angle", a.rest.attitude.trim - b.rest.attitude.trim);
      law.within("centre", a.centre_of_buoyancy.y + b.centre_of_buoyancy.y);
      law.within("centre", a.centre_of_gravity.y + b.centre_of_gravity.y);
      law.within("GM", a.gm_transverse - b.gm_transverse);
      // The stone lies to port and heels her to port, which is negative, from wherever she hung without it.
      CHECK(a.rest.attitude.heel < solve(boat, fill).rest.attitude.heel);
    });
  }

  TEST_CASE("a symmetric boat floats upright") {
    Law law;
    for (const NamedBoat& named : allBoats()) {
      CAPTURE(named.name);
      law.at(named.name);
      law.within("heel", solve(broughtToTheMiddle(named.boat), 0.0).rest.attitude.heel);
    }
    CHECK(law.checks() >= 8);
  }

  TEST_CASE("a shifted frame shifts the centres and nothing else") {
    forBoatsAndFills([](Law& law, const Boat& boat, double fill) {
      for (const Vec3& d : {Vec3{0.35, 0, 0}, Vec3{-0.2, 0, 0}, Vec3{0, 0, 0.04}}) {
        const Boat one = lopsided(boat);
        const Report a = solve(one, fill), b = solve(shifted(one, d), fill);
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
    forBoatsAndFills([](Law& law, const Boat& boat, double fill) {
      for (double k : {0.5, 2.0}) {
        const Boat one = lopsided(boat);
        const Report a = solve(one, fill), b = solve(scaled(one, k, k * k * k), fill * k * k * k);
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
    const double ratio = waterDensity(kSea).value() / waterDensity(kFresh).value();
    forBoatsAndFills([&](Law& law, const Boat& boat, double fill) {
      // Lead whose volume follows from its mass keeps it: density goes with mass.
      const Report a = solve(boat, fill, kFresh), b = solve(scaled(boat, 1.0, ratio), fill, kSea);
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
    forBoatsAndFills([](Law& law, const Boat& boat, double fill) {
      Boat back = boat;
      std::reverse(back.parts.begin(), back.parts.end());
      std::reverse(back.skins.begin(), back.skins.end());
      checkSame(law, solve(boat, fill), solve(back, fill));
    });
  }

  TEST_CASE("two halves of a part are the part") {
    Law law;
    Boat whole = fullBoat();
    const auto foam = std::find_if(whole.parts.begin(), whole.parts.end(),
                                   [](const Part& p) { return p.name == "stern foam"; });
    REQUIRE(foam != whole.parts.end());
    Boat halves = whole;
    Part& fore = halves.parts[static_cast<std::size_t>(foam - whole.parts.begin())];
    Part aft = fore;
    aft.name = "stern foam, aft half";
    std::get<BoxShape>(fore.shape).size.x /= 2;
    std::get<BoxShape>(aft.shape).size.x /= 2;
    fore.position.x += 0.02;
    aft.position.x -= 0.02;
    halves.parts.push_back(aft);
    for (double share : {0.0, 0.5, 1.0})
      checkSame(law, solve(whole, fillOf(whole, share)), solve(halves, fillOf(whole, share)));
  }

  TEST_CASE("a mirrored pair is two parts") {
    Law law;
    Boat pair = fullBoat(), two = pair;
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
    CHECK(split == 2);
    for (double share : {0.0, 0.5, 1.0})
      checkSame(law, solve(pair, fillOf(pair, share)), solve(two, fillOf(pair, share)));
  }

  TEST_CASE("what lies inside the cylinder weighs and displaces nothing") {
    Law law;
    Boat boat = fullBoat();
    const Model before = buildModel(boat).value();
    boat.parts[0].mass = *boat.parts[0].mass + 0.1;
    std::get<BoxShape>(boat.parts[0].shape).size *= 1.5;
    const Model after = buildModel(boat).value();
    CHECK(after.whole_volume == before.whole_volume);
    law.equal("mass", after.mass, before.mass + 0.1);
  }

  TEST_CASE("a part that fills its shape in part has the shape's centre and its own volume") {
    Law law;
    Boat boat = fullBoat();
    const auto foam =
        std::find_if(boat.parts.begin(), boat.parts.end(), [](const Part& p) { return p.name == "foam"; });
    REQUIRE(foam != boat.parts.end());
    const auto piece = [](const Boat& b, std::size_t index) {
      const Model model = buildModel(b).value();
      for (const Displacer& d : model.displacers) {
        if (d.source.owner == Owner::Part && d.source.index == index && !d.source.mirror) return d.whole;
      }
      return Cut{};
    };
    const std::size_t index = static_cast<std::size_t>(foam - boat.parts.begin());
    const Cut partly = piece(boat, index);
    law.equal("volume", partly.volume, 4e-5);
    foam->volume.reset();
    const Cut full = piece(boat, index);
    // Prismatoid: 90 mm long, 30 x 30 tapering to 20 x 20 mm.
    law.equal("volume", full.volume, 0.09 / 6 * (9e-4 + 4 * 6.25e-4 + 4e-4));
    law.within("centre", glm::length(partly.moment / partly.volume - full.moment / full.volume));
  }
}
