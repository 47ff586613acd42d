#include <doctest/doctest.h>

#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/compare.hpp>
#include <pondtrim/file/link.hpp>
#include <pondtrim/hull_mesh.hpp>

#include "base64url.hpp"
#include "packed_text.hpp"
#include "support/boats.hpp"
#include "support/meshes.hpp"

using namespace pondtrim;
using namespace pondtrim::file;
using namespace pondtrim::test;

namespace {

Boat meshBoat(unsigned long long seed) {
  Boat boat = fullBoat();
  const auto form = packMesh(lumpySphereMesh({0, 0, 0}, 0.1, 0.2, 30, seed), {1.0});
  REQUIRE(form);
  boat.skins[0].form = *form;
  return boat;
}

std::string faultOf(const std::string& text) {
  const auto read = packedFromText(text);
  return read ? std::string() : read.error().was;
}

}  // namespace

TEST_CASE("a boat with a mesh comes back from her file bit for bit") {
  const BoatDocument document{meshBoat(1), {}, {}};
  const std::string text = writeBoatFile(document);
  const auto read = readBoatFile(text);
  REQUIRE(read);
  CHECK(read->boat == document.boat);
  CHECK(writeBoatFile(*read) == text);
  CHECK(text.find("\"mesh\": \"1.") != std::string::npos);
}

TEST_CASE("side by side, another mesh is told as another; the same one is not") {
  CHECK(compareBoats(meshBoat(1), meshBoat(1)).empty());
  CHECK_FALSE(compareBoats(meshBoat(1), meshBoat(2)).empty());
}

TEST_CASE("a damaged mesh is refused by its field") {
  const std::string text = writeBoatFile({meshBoat(1), {}, {}});
  const auto spoilt = [&](const std::string& from, const std::string& to) {
    std::string changed = text;
    const auto at = changed.find(from);
    REQUIRE(at != std::string::npos);
    const auto read = readBoatFile(changed.replace(at, from.size(), to));
    REQUIRE_FALSE(read);
    return read.error();
  };
  const Error other = spoilt("\"1.", "\"2.");
  CHECK(other.field == "skins[0].form.mesh");
  CHECK(other.message.find("of another version") != std::string::npos);
  CHECK(spoilt("\"1.", "\"1.*").field == "skins[0].form.mesh");
  CHECK(spoilt("\"mesh\": \"1.", "\"nesh\": \"1.").field == "skins[0].form.mesh");
  CHECK(spoilt("\"size_mm\": [", "\"size_mm\": [0.0001, ").field.find("skins[0].form.size") == 0);
}

TEST_CASE("the word of a mesh: wrong lengths and counts") {
  const auto good = packMesh(boxMesh({0, 0, 0}, {1, 1, 1}), {1.0});
  REQUIRE(good);
  const std::string bytes = *fromBase64Url(packedText(*good->mesh).substr(2));
  const auto word = [](const std::string& b) { return "1." + toBase64Url(b); };
  CHECK(faultOf(word(bytes)).empty());
  CHECK(faultOf(word(bytes.substr(0, bytes.size() - 1))) == "127 bytes long");
  CHECK(faultOf(word(bytes + "x")) == "129 bytes long");
  CHECK(faultOf(word("1234567")) == "damaged");
  CHECK(faultOf("1.") == "damaged");
  CHECK(faultOf("") == "of another version");
  CHECK(faultOf(word(std::string(8, '\xff'))) == "4294967295 vertices and 4294967295 triangles");
  std::string wrong = bytes;
  wrong[wrong.size() - 2] = 8;
  CHECK(faultOf(word(wrong)) == "vertex 8 in triangle 11");
}
