// Parts of the file that this version does not know are reported and kept.
#include <doctest/doctest.h>

#include <algorithm>
#include <pondtrim/file/boat_file.hpp>

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

constexpr const char* kText = R"({"pondtrim_boat": 1, "name": "Raft", "length_mm": 300,
  "log.of dips": [{"bow_mm": 2.50, "note": "windy \u00e9"}, null, true],
  "marks": {"bow_x_mm": 250, "stern_x_mm": 50, "line_height_mm": 20, "deck_height_mm": 40, "sail_top_mm": [150, 0, 60],
            "paint": "red"},
  "parts": [
    {"name": "raft", "role": "solid", "shape": {"kind": "box", "size_mm": [300, 100, 40], "corner": 3},
     "position_mm": [150, 0, 20], "mass_g": 600, "price": 1e2},
    {"name": "brick", "role": "solid", "shape": {"kind": "point"}, "position_mm": [150, 0, 20], "mass_g": 1, "glued": "yes"}
  ]})";

BoatDocument read(const std::string& text) {
  auto d = readBoatFile(text);
  if (!d) FAIL(d.error().message);
  return *d;
}

const UnknownPart* find(const BoatDocument& d, const std::string& path) {
  for (const UnknownPart& part : d.unknown)
    if (part.path() == path) return &part;
  return nullptr;
}

}  // namespace

TEST_CASE("unknown keys are reported by path, one sentence each") {
  const BoatDocument d = read(kText);
  REQUIRE(d.unknown.size() == 5);
  REQUIRE(d.notices.size() == 5);
  for (const char* path :
       {"log.of dips", "marks.paint", "parts[0].shape.corner", "parts[0].price", "parts[1].glued"}) {
    CAPTURE(path);
    REQUIRE(find(d, path) != nullptr);
    CHECK(std::any_of(d.notices.begin(), d.notices.end(),
                      [&](const std::string& n) { return n.rfind(path, 0) == 0; }));
  }
}

TEST_CASE("they are written back as they were, numbers as typed") {
  const BoatDocument d = read(kText);
  const std::string text = writeBoatFile(d);
  CHECK(text.find("\"bow_mm\": 2.50") != std::string::npos);
  CHECK(text.find("\"price\": 1e2") != std::string::npos);
  CHECK(text.find("windy \u00e9") != std::string::npos);
  CHECK(read(text) == d);
}

TEST_CASE("they stay with their part when the list changes") {
  BoatDocument d = read(kText);
  Part foam = d.boat.parts[0];
  foam.name = "foam";
  d.boat.parts.insert(d.boat.parts.begin(), foam);
  std::swap(d.boat.parts[1], d.boat.parts[2]);
  const BoatDocument again = read(writeBoatFile(d));
  REQUIRE(again.unknown.size() == 5);
  CHECK(find(again, "parts[2].price") != nullptr);
  CHECK(find(again, "parts[2].shape.corner") != nullptr);
  CHECK(find(again, "parts[1].glued") != nullptr);
}

TEST_CASE("they follow a part that is renamed, and go with one that is taken out") {
  BoatDocument renamed = read(kText);
  renamed.boat.parts[1].name = "stone";
  CHECK(find(read(writeBoatFile(renamed)), "parts[1].glued") != nullptr);
  BoatDocument removed = read(kText);
  removed.boat.parts.erase(removed.boat.parts.begin());
  const BoatDocument again = read(writeBoatFile(removed));
  CHECK(find(again, "parts[0].glued") != nullptr);
  CHECK(again.unknown.size() == 3);
}
