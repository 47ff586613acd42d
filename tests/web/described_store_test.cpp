// The numbers typed for a boat that is only described so far come back with the next visit.
#include "session/described_store.hpp"

#include <doctest/doctest.h>

#include "browser/browser.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;

TEST_CASE("numbers of a described boat come back bit for bit, and those not given stay so") {
  Session session = test::firstSession();
  RoughBoat rough;
  rough.name = "Two\nlines and length 5";
  rough.length = 1.0 / 3;
  rough.skin_mass = 0.1234567890123456789;
  rough.water.salinity = 35;
  FullSize full;
  full.scale = 96;
  full.displacement = 1.7e6 / 7;
  session.setRough(rough);
  session.setFullSize(full);
  REQUIRE(keepDescribed(session));
  Session next = test::firstSession();
  REQUIRE(next.rough() != rough);
  resumeDescribed(next);
  CHECK(next.rough() == rough);
  CHECK(next.fullSize() == full);
  CHECK_FALSE(next.rough().tank_capacity);
}

TEST_CASE("what was kept of a described boat and cannot be read leaves the usual numbers") {
  Session session = test::firstSession();
  REQUIRE(browser::keep("described", "\nlength nan\nbreadth\nheight 0.2\nskin_mass much\nfull_scale 1e999"));
  resumeDescribed(session);
  RoughBoat expected;
  expected.height = 0.2;
  CHECK(session.rough() == expected);
  CHECK(session.fullSize() == FullSize{});
  browser::forget("described");
  resumeDescribed(session);
  CHECK(session.rough() == expected);
}
