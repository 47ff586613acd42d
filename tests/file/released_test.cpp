// Everything that was ever released stays readable. tests/file/released holds one file and one link of each
// version; they are never changed, a new version adds its own. The link was packed by another program than
// ours (Python's zlib).
#include <doctest/doctest.h>

#include <pondtrim/file/link.hpp>

#include "support/presets.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

BoatDocument released() {
  auto read = readBoatFile(test::textOf("tests/file/released/boat-1.boat.json"));
  if (!read) FAIL(read.error().message);
  return *read;
}

}  // namespace

TEST_CASE("a boat file of version 1 is read whole") {
  const Boat boat = released().boat;
  CHECK(boat.length == 0.5);
  REQUIRE(boat.parts.size() == 3);
  CHECK(boat.parts[1].volume == 30e-6);
  CHECK(boat.skins.size() == 2);
  CHECK(boat.places.size() == 3);
  CHECK(boat.log.size() == 2);
  CHECK(boat.log[1].sail_showing->value == 0.024);
  CHECK(boat.correction->mass_moment.x == 0.0009);
  CHECK(boat.ballast.has_value());
}

TEST_CASE("a link of version 1 brings the same boat") {
  std::string link = test::textOf("tests/file/released/link-1.txt");
  link.pop_back();  // the line's end
  const auto read = readBoatFragment(link);
  if (!read) FAIL(read.error().message);
  CHECK(read->boat == released().boat);
  CHECK(read->unknown == released().unknown);
}

TEST_CASE("what this version does not know is kept on rewriting, in files and links") {
  const BoatDocument boat = released();
  REQUIRE(boat.unknown.size() == 2);
  for (const std::string& text : {writeBoatFile(boat), writeCompactBoatFile(boat)}) {
    CHECK(text.find("\"club\"") != std::string::npos);
    CHECK(text.find("\"colour\"") != std::string::npos);
  }
  CHECK(readBoatFragment(boatFragment(boat))->unknown == boat.unknown);
}

TEST_CASE("a newer file is refused in words, whatever else is in it") {
  const auto read = readBoatFile("{\"pondtrim_boat\": 2, \"parts\": \"all new\"}");
  REQUIRE_FALSE(read);
  CHECK(read.error().field == "pondtrim_boat");
  CHECK(read.error().message.find("newer") != std::string::npos);
}
