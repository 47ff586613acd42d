// Files from strangers: too large, too deep, cut short, damaged. Each is refused, none does harm.
#include <doctest/doctest.h>

#include <pondtrim/file/boat_file.hpp>

#include "support/presets.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

std::string repeat(const std::string& piece, std::size_t times) {
  std::string text;
  text.reserve(piece.size() * times);
  for (std::size_t i = 0; i < times; ++i) text += piece;
  return text;
}

Error errorOf(const std::string& text) {
  const auto d = readBoatFile(text);
  REQUIRE_FALSE(d);
  return d.error();
}

}  // namespace

TEST_CASE("a preset cut short at any byte is refused with line and column") {
  const std::string whole = test::textOf(test::presetPaths().front());
  const std::size_t end = whole.find_last_of('}');
  for (std::size_t length = 0; length <= end; ++length) {
    const auto d = readBoatFile(std::string_view(whole).substr(0, length));
    REQUIRE_FALSE(d);
    REQUIRE_MESSAGE(d.error().field.rfind("line ", 0) == 0, d.error().message);
  }
  CHECK(readBoatFile(whole));
}

TEST_CASE("too large is refused before reading") {
  const Error e = errorOf(std::string(kMaxFileBytes + 1, ' '));
  CHECK(e.field == "file");
  CHECK(e.was.find("more than 4194304") != std::string::npos);
  CHECK(e.allowed.find("4194304") != std::string::npos);
}

TEST_CASE("too deep is refused, whatever the depth") {
  for (const std::size_t depth : {std::size_t{33}, std::size_t{1000}, std::size_t{2000000}}) {
    const Error e = errorOf(repeat("[", depth));
    CHECK(e.allowed.find("32") != std::string::npos);
  }
  CHECK(errorOf(repeat("{\"a\":", 500000)).allowed.find("32") != std::string::npos);
}

TEST_CASE("lists that are too long are refused") {
  const std::string start = R"({"pondtrim_boat": 1, "name": "x", "length_mm": 100, "parts": [)";
  const Error e = errorOf(start + repeat("{},", 1000) + "{}]}");
  CHECK(e.field == "parts");
  CHECK(e.was == "1001 entries");
  CHECK(e.allowed.find("1000") != std::string::npos);
}

TEST_CASE("many unknown keys, doubled keys and long texts stay quick") {
  std::string keys;
  for (int i = 0; i < 100000; ++i) keys += "\"k" + std::to_string(i) + "\": 1,";
  const Error e = errorOf("{" + keys + "\"k5\": 2}");
  CHECK(e.field == "k5");
  CHECK(errorOf("{\"pondtrim_boat\": 1, \"name\": \"" + std::string(3000000, 'x') + "\"}").field ==
        "length_mm");
}

TEST_CASE("a zero byte ends nothing quietly") {
  const std::string whole = test::textOf(test::presetPaths().front());
  CHECK(errorOf(whole + std::string(1, '\0') + "more").allowed == "the end of the file");
  std::string inside = whole;
  inside[whole.size() / 2] = '\0';
  errorOf(inside);
}

TEST_CASE("numbers at the edge of a double") {
  const std::string good = R"({"pondtrim_boat": 1, "name": "x", "length_mm": 100, "marks": {"bow_x_mm": 90,
    "stern_x_mm": 10, "line_height_mm": 5, "deck_height_mm": 9, "sail_top_mm": [50, 0, 9]}, "aims": {"sail_showing_mm": )";
  for (const char* number : {"1e-400", "-0", "0.000e-99999999999", "1e-99999999999999999999", "0.0"}) {
    CAPTURE(number);
    const auto d = readBoatFile(good + number + "}}");
    REQUIRE(d);
    CHECK(d->boat.aims.sail_showing == 0.0);
  }
  for (const char* number : {"1e308", "1e309", "-1e400", "1e99999999999999999999"}) {
    CAPTURE(number);
    CHECK_FALSE(readBoatFile(good + number + "}}"));
  }
  CHECK_FALSE(readBoatFile(good + std::string(400, '9') + "}}"));
}

TEST_CASE("half of a surrogate pair is no text, as a value and as a key") {
  const std::string start = R"({"pondtrim_boat": 1, "length_mm": 500, )";
  for (const char* text : {R"("name": "a\udded"})", R"("name": "a\ud83d"})", R"("a\uddedb": 1, "name": "a"})",
                           R"("name": "\udded\ud83d"})"}) {
    const Error e = errorOf(start + text);
    CHECK(e.field.rfind("line 1, column ", 0) == 0);
    CHECK(e.allowed == "a complete pair of \\u surrogates");
  }
  // The whole pair, and the last characters before the surrogates, are text.
  std::string preset = test::textOf(test::presetPaths().front());
  const std::size_t name = preset.find("\"name\": \"") + 9;
  preset.insert(name, R"(\ud83d\udea2 \ud7ff )");
  const auto d = readBoatFile(preset);
  REQUIRE(d);
  CHECK(d->boat.name.rfind("\xF0\x9F\x9A\xA2 \xED\x9F\xBF ", 0) == 0);
  CHECK(readBoatFile(writeBoatFile(*d))->boat == d->boat);
}

TEST_CASE("a length that is a number in metres and none in millimetres is refused in words") {
  std::string preset = test::textOf(test::presetPaths().front());
  const std::size_t at = preset.find("\"length_mm\": ") + 13;
  for (const char* sign : {"", "-"}) {
    std::string text = preset;
    text.replace(at, preset.find(',', at) - at, std::string(sign) + "5e308");
    const Error e = errorOf(text);
    CHECK(e.field == "length_mm");
    CHECK(e.message.find("5e308") != std::string::npos);
    CHECK(e.message.find("inf") == std::string::npos);
  }
}

TEST_CASE("damaged presets are read or refused, and what is read can be written") {
  constexpr std::uint64_t kSeed = 99;
  test::Random random(kSeed);
  const std::string whole = test::textOf(test::presetPaths().front());
  constexpr const char* kBits[] = {"\"", "{", "}",    "[",  "]",    ",",  ":",  "-",
                                   "e9", "0", "null", "\\", "\xC3", "\n", "_mm"};
  int read = 0, refused = 0;
  for (int i = 0; i < test::effort(10000); ++i) {
    std::string text = whole;
    for (int k = random.index(3); k >= 0; --k) {
      const auto at = static_cast<std::size_t>(random.index(static_cast<int>(text.size())));
      if (random.chance(0.3))
        text.erase(at, static_cast<std::size_t>(random.index(20)));
      else if (random.chance(0.5))
        text.insert(at, kBits[random.index(15)]);
      else
        text[at] = static_cast<char>(random.index(256));
    }
    const auto d = readBoatFile(text);
    d ? ++read : ++refused;
    if (!d) REQUIRE_FALSE(d.error().message.empty());
    if (!d) continue;
    const auto again = readBoatFile(writeBoatFile(*d));
    if (!again) FAIL(again.error().message);
    REQUIRE(again->boat == d->boat);
    REQUIRE(again->unknown == d->unknown);
  }
  CHECK(read > 0);
  CHECK(refused > 0);
}
