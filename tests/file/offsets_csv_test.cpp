#include <doctest/doctest.h>

#include <pondtrim/file/offsets_csv.hpp>
#include <pondtrim/hull.hpp>

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

constexpr const char* kTable =
    "x_mm,keel,deck,20,40,60\n"
    "0,40,40,,,\n"
    "200,10,70,30,42,28\n"
    "400,0,80,41,50,38\n"
    "700,5,75,33,44,30\n"
    "900,40,,,,\n";

std::string faultOf(const std::string& text) {
  const auto read = readOffsetsCsv(text);
  return read ? std::string() : read.error().message;
}

bool says(const std::string& message, std::initializer_list<const char*> words) {
  for (const char* word : words) {
    CAPTURE(message);
    CAPTURE(word);
    if (message.find(word) == std::string::npos) return false;
  }
  return true;
}

std::string with(const std::string& from, const std::string& to) {
  std::string text = kTable;
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a table of offsets is read: points from keel to deck, points at the ends") {
  const auto form = readOffsetsCsv(kTable);
  REQUIRE(form);
  REQUIRE(form->stations.size() == 5);
  CHECK(form->stations[0] == OffsetStation{0.0, {0.04}, {0.0}});
  CHECK(form->stations[1] == OffsetStation{0.2, {0.01, 0.02, 0.04, 0.06, 0.07}, {0, 0.03, 0.042, 0.028, 0}});
  CHECK(form->stations[4] == OffsetStation{0.9, {0.04}, {0.0}});
}

TEST_CASE("what is written comes back, in either unit") {
  for (const UnitSet& units : {kMetricUnits, kInchUnits}) {
    const auto form = readOffsetsCsv(kTable);
    REQUIRE(form);
    const auto again = readOffsetsCsv(writeOffsetsCsv(*form, units));
    REQUIRE(again);
    REQUIRE(again->stations.size() == form->stations.size());
    for (std::size_t i = 0; i < form->stations.size(); ++i) {
      REQUIRE(again->stations[i].heights.size() == form->stations[i].heights.size());
      for (std::size_t k = 0; k < form->stations[i].heights.size(); ++k) {
        CHECK(again->stations[i].heights[k] == doctest::Approx(form->stations[i].heights[k]).epsilon(1e-14));
        CHECK(again->stations[i].half_breadths[k] ==
              doctest::Approx(form->stations[i].half_breadths[k]).epsilon(1e-14));
      }
    }
  }
  const OffsetsForm suboff = offsetsOf(SuboffForm{}, 15, 9);
  const auto again = readOffsetsCsv(writeOffsetsCsv(suboff));
  REQUIRE(again);
  CHECK(*again == suboff);
}

TEST_CASE("tabs, semicolons, decimal commas, rows in any order and plain x are understood") {
  const std::string text =
      "x;keel;deck;20;40;60\n900;40;40;;;\n400;0;80;41;50;38,5\n200;10;70;30;42;28\n0;40;40\n";
  const auto form = readOffsetsCsv(text);
  REQUIRE(form);
  REQUIRE(form->stations.size() == 4);
  CHECK(form->stations[2].half_breadths[3] == 0.0385);
  CHECK(form->stations[3].at_x == 0.9);
}

TEST_CASE("keel, deck and half-breadth alone make elliptical sections") {
  const auto form =
      readOffsetsCsv("x_mm,keel,deck,half-breadth\n0,50,50,0\n300,0,100,40\n600,0,100,40\n900,50,50,0\n");
  REQUIRE(form);
  const OffsetStation& s = form->stations[1];
  REQUIRE(s.heights.size() == 10);
  for (std::size_t k = 0; k < 10; ++k) {
    const double z = (s.heights[k] - 0.05) / 0.05, y = s.half_breadths[k] / 0.04;
    CHECK(y * y + z * z == doctest::Approx(1.0));
  }
  CHECK(form->stations[0].heights.size() == 1);
}

TEST_CASE("a flat bottom and a flat deck need no keel and no deck") {
  const auto form = readOffsetsCsv("x_mm,0,50\n0,20,20\n100,30,30\n200,20,20\n");
  REQUIRE(form);
  CHECK(form->stations[1] == OffsetStation{0.1, {0.0, 0.05}, {0.03, 0.03}});
}

TEST_CASE("what is wrong is said with row and column") {
  CHECK(says(faultOf(""), {"table", "empty"}));
  CHECK(says(faultOf("keel,deck,20\n1,2,3\n"), {"row 1", "no column x"}));
  CHECK(says(faultOf("x_mm,keel,deck\n1,2,3\n"), {"row 1", "no waterlines"}));
  CHECK(says(faultOf(with("deck", "deckk")), {"row 1, column 3", "deckk"}));
  CHECK(says(faultOf(with("50,38", "5o,38")), {"row 4, 40", "5o", "a number or nothing"}));
  CHECK(says(faultOf(with("200,10", ",10")), {"row 3, x", "empty"}));
  CHECK(says(faultOf(with("30,42", "-30,42")), {"row 3, waterline 20", "-30"}));
  CHECK(says(faultOf(with("200,10,70,30", "200,25,70,30")), {"row 3, waterline 20", "30", "keel", "25"}));
  CHECK(says(faultOf(with("200,10,70", "200,10,50")), {"row 3, waterline 60", "28", "deck", "50"}));
  CHECK(says(faultOf(with("0,40,40,,,", "0,40,30,,,")), {"row 2, deck", "30", "40"}));
  CHECK(says(faultOf(with("0,40,40,,,", "0,,,,,")), {"row 2", "nothing but x"}));
  CHECK(says(faultOf(std::string(kTable) + "\"open"), {"quotation mark"}));
}
