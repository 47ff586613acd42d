// How much of a part there is, and what becomes of it when that changes.
#include <doctest/doctest.h>

#include <amounts.hpp>
#include <log_filter.hpp>

using namespace pondtrim;

namespace {

Part lead() {
  Part p;
  p.name = "lead";
  p.role = Role::Lead;
  p.shape = BoxShape{Vec3(0.1, 0.02, 0.01)};  // 20 mL
  p.mass = 0.11;
  p.volume = 10e-6;  // measured: an alloy, lighter than the 11340 in the file
  p.density = 11340;
  return p;
}

Part foam() {
  Part p;
  p.name = "foam";
  p.role = Role::Foam;
  p.shape = BoxShape{Vec3(0.1, 0.05, 0.04)};  // 200 mL
  p.mass = 0.006;
  p.volume = 120e-6;
  return p;
}

}  // namespace

TEST_SUITE("amounts") {
  TEST_CASE("the same amount again changes nothing, whatever was measured") {
    for (const Part& part : {lead(), foam()}) {
      Part same = part;
      setAmount(same, amountOf(part));
      CHECK(same == part);
    }
    Boat boat;
    boat.parts = {lead(), foam()};
    CHECK(withInstalled(boat, {}).parts == boat.parts);
    const Boat less = withInstalled(boat, {{"foam", 100e-6}});
    CHECK(less.parts[0] == boat.parts[0]);
    CHECK(amountOf(less.parts[1]) == 100e-6);
  }

  TEST_CASE("more or less of it is of the material that was measured") {
    Part half = lead();
    setAmount(half, 0.055);
    CHECK(*half.mass == 0.055);
    CHECK(*displacedVolume(half) == doctest::Approx(5e-6).epsilon(1e-12));
    Part cut = foam();
    setAmount(cut, 60e-6);
    CHECK(*displacedVolume(cut) == 60e-6);
    CHECK(*cut.density * *displacedVolume(cut) == doctest::Approx(0.003).epsilon(1e-12));
  }

  TEST_CASE("taken out and put back it weighs and displaces what it did") {
    for (const Part& part : {lead(), foam()}) {
      Part back = part;
      setAmount(back, 0.0);
      CHECK(amountOf(back) == 0.0);
      setAmount(back, amountOf(part));
      CHECK(*displacedVolume(back) == doctest::Approx(*displacedVolume(part)).epsilon(1e-12));
      const double mass = back.mass ? *back.mass : *back.density * *displacedVolume(back);
      CHECK(mass == doctest::Approx(*part.mass).epsilon(1e-12));
    }
  }

  TEST_CASE("a dry weight has mass only") {
    Part p;
    p.role = Role::Dry;
    p.shape = PointShape{};
    p.mass = 0.2;
    setAmount(p, 0.25);
    CHECK(*p.mass == 0.25);
    CHECK(!p.density);
  }
}
