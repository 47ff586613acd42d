// A boat in a link: the same boat comes back to the last bit, and a damaged, foreign or hostile link is
// refused.
#include <doctest/doctest.h>

#include <pondtrim/file/link.hpp>

#include "base64url.hpp"
#include "deflate.hpp"
#include "link_dictionary.hpp"
#include "support/presets.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::file;
using test::Random;

namespace {

std::string checksumOf(const std::string& stream) {
  const std::uint32_t c = crc32Of(stream);
  return {static_cast<char>(c >> 24), static_cast<char>(c >> 16), static_cast<char>(c >> 8),
          static_cast<char>(c)};
}

/// A link of that version around a text, as a stranger could make it.
std::string forged(const std::string& text, char version = 1) {
  const std::string stream = deflateRaw(text, kLinkDictionary1);
  return "boat=" + toBase64Url(std::string(1, version) + checksumOf(stream) + stream);
}

Error errorOf(const std::string& fragment) {
  const auto read = readBoatFragment(fragment);
  REQUIRE_FALSE(read);
  CHECK_FALSE(read.error().message.empty());
  return read.error();
}

void checkSame(const BoatDocument& document) {
  const std::string fragment = boatFragment(document);
  REQUIRE(fragment.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_=") ==
          std::string::npos);
  const auto back = readBoatFragment(fragment);
  if (!back) FAIL(back.error().message);
  REQUIRE(back->boat == document.boat);
  REQUIRE(back->unknown == document.unknown);
  REQUIRE(writeBoatFile(*back) == writeBoatFile(document));
}

/// A boat with a log, places, notes and a part of the file that this version does not know.
BoatDocument fullBoat() {
  BoatDocument document = test::presetBoat(test::presetPaths().front());
  Boat& boat = document.boat;
  boat.notes = "Private: \"weighed\" on Ellen's scale. \u00e9\n";
  boat.places = {{boat.parts.back().name, std::nullopt, 0.05, 0.005, std::nullopt}};
  Reading dip;
  dip.date = "2026-05-02T10:30";
  dip.note = "calm";
  dip.water = boat.water;
  dip.bow = Measured{0.003, kRulerSpread};
  dip.heel = Measured{0.01, kClinometerSpread};
  boat.log = {dip, dip};
  boat.correction = Correction{0.02, {0.0009, 0, 0}, 3e-6, 0, 0, 2.0 / 3};
  document.unknown.push_back({"log[1]", "sunshine", "\"bright\"", dip.date, 2});
  document.unknown.push_back({"", "club", "{\"pond\": [1, 2.50]}", "", 0});
  // As read from a file, so that the notices and the unknown parts' order are those of a reader.
  auto read = readBoatFile(writeBoatFile(document));
  if (!read) FAIL(read.error().message);
  return *read;
}

}  // namespace

TEST_CASE("base64url: the vectors of RFC 4648 section 10, without padding") {
  const char* const plain[] = {"", "f", "fo", "foo", "foob", "fooba", "foobar"};
  const char* const coded[] = {"", "Zg", "Zm8", "Zm9v", "Zm9vYg", "Zm9vYmE", "Zm9vYmFy"};
  for (int i = 0; i < 7; ++i) {
    CHECK(toBase64Url(plain[i]) == coded[i]);
    CHECK(fromBase64Url(coded[i]) == plain[i]);
  }
  CHECK(toBase64Url("\xff\xef\xfe") == "_-_-");  // section 5's own two letters
  CHECK(fromBase64Url("_-_-") == "\xff\xef\xfe");
  for (const char* wrong : {"Z", "Zm9vY", "Zg==", "Zm+v", "Zm/v", "Zh", "Zm9", "Zm 9v", "Zm9\xc3\xa9"})
    CHECK_MESSAGE(!fromBase64Url(wrong), wrong);
}

TEST_CASE("CRC-32 of the check string, and base64url of every length comes back") {
  CHECK(crc32Of("123456789") == 0xcbf43926u);  // the catalogue's check value, from memory
  Random random(4648);
  std::string bytes;
  for (int i = 0; i < 300; ++i) {
    REQUIRE(fromBase64Url(toBase64Url(bytes)) == bytes);
    REQUIRE(toBase64Url(bytes).size() == (4 * bytes.size() + 2) / 3);
    bytes += static_cast<char>(random.index(256));
  }
}

TEST_CASE("the dictionary of version 1 is frozen") {
  // A link of today must be readable for ever: this number never changes, a better dictionary is version 2.
  CHECK(kLinkDictionary1.size() == 10921);
  CHECK(crc32Of(kLinkDictionary1) == 0x1bcc187cu);
}

TEST_CASE("every preset comes back from its link, and fits one code") {
  // 25-L holds 1273 bytes (ISO/IEC 18004), of which an address takes up to 60.
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const BoatDocument document = test::presetBoat(path);
    checkSame(document);
    CHECK(boatFragment(document).size() < 1273 - 60);
    MESSAGE(path, ": ", boatFragment(document).size(), " characters");
  }
}

TEST_CASE("notes, log, places, correction and unknown parts travel, or stay at home") {
  const BoatDocument whole = fullBoat();
  checkSame(whole);
  for (const bool notes : {true, false}) {
    for (const bool log : {true, false}) {
      const BoatDocument kept = withContents(whole, {notes, log});
      checkSame(kept);
      const auto back = readBoatFragment(boatFragment(kept));
      REQUIRE(back);
      CHECK(back->boat.notes == (notes ? whole.boat.notes : ""));
      CHECK(back->boat.log.size() == (log ? 2 : 0));
      CHECK(back->boat.places == whole.boat.places);
      CHECK(back->boat.correction == whole.boat.correction);
      CHECK(back->boat.parts == whole.boat.parts);
      CHECK(back->unknown.size() == (log ? 2 : 1));
      CHECK((writeBoatFile(*back).find("sunshine") != std::string::npos) == log);
    }
  }
}

TEST_CASE("1,000 changed boats come back, to the last bit of each number") {
  Random random(18004);
  const auto paths = test::presetPaths();
  for (int i = 0; i < test::effort(1000); ++i) {
    BoatDocument document =
        test::presetBoat(paths[static_cast<std::size_t>(random.index(static_cast<int>(paths.size())))]);
    Boat& boat = document.boat;
    for (Part& part : boat.parts) {
      if (part.role != Role::Dry) part.position += random.inBox({-0.01, 0, -0.01}, {0.01, 0, 0.01});
      if (part.mass) *part.mass *= random.between(0.9, 1.1);
      if (random.chance(0.2)) part.name += " \u7af9 \"" + std::to_string(random.index(1000)) + "\"";
    }
    boat.notes =
        std::string(static_cast<std::size_t>(random.index(300)), static_cast<char>(' ' + random.index(95)));
    boat.places.clear();  // the parts' names have changed
    checkSame(document);
  }
}

TEST_CASE("any letter changed, left out, doubled or swapped is noticed") {
  const std::string good = boatFragment(fullBoat());
  REQUIRE(readBoatFragment(good));
  Random random(5);
  constexpr std::string_view kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  for (std::size_t length = 0; length < good.size(); ++length)
    REQUIRE_FALSE(readBoatFragment(good.substr(0, length)));
  for (int i = 0; i < test::effort(4000); ++i) {
    std::string bad = good;
    const auto at = static_cast<std::size_t>(5 + random.index(static_cast<int>(good.size()) - 6));
    if (i % 4 == 0) bad[at] = kLetters[static_cast<std::size_t>(random.index(64))];
    if (i % 4 == 1) bad.erase(at, 1);
    if (i % 4 == 2) bad.insert(at, 1, bad[at]);
    if (i % 4 == 3) std::swap(bad[at], bad[at + 1]);
    if (bad != good) REQUIRE_FALSE(readBoatFragment(bad));
  }
}

TEST_CASE("each fault has its message") {
  const std::string good = boatFragment(fullBoat());
  CHECK(errorOf("").message.find("no boat") != std::string::npos);
  CHECK(errorOf("view=side").message.find("no boat") != std::string::npos);
  CHECK(errorOf(good.substr(0, good.size() - 4)).message.find("damaged") != std::string::npos);
  CHECK(errorOf(good + "%20").message.find("damaged") != std::string::npos);
  const Error newer = errorOf(forged("{}", 2));
  CHECK(newer.was == "version 2");
  CHECK(newer.message.find("newer") != std::string::npos);
  CHECK(errorOf(forged("{}", 0)).message.find("damaged") != std::string::npos);
  CHECK(errorOf("boat=" + std::string(kMaxLinkCharacters, 'A')).was.find("1048581") != std::string::npos);
  // What is inside is held to the same as a file.
  CHECK(errorOf(forged("a boat")).field == "line 1, column 1");
  CHECK(errorOf(forged("{\"pondtrim_boat\":2}")).field == "pondtrim_boat");
  CHECK(errorOf(forged(std::string(100000, '['))).allowed.find("32") != std::string::npos);
}

TEST_CASE("a bomb is refused after 4 MiB, and so are bytes after the end") {
  const std::string zeros(kMaxFileBytes + 1, '0');
  const std::string bomb = forged(zeros);
  CHECK(bomb.size() < 6000);  // a thousandth
  CHECK(errorOf(bomb).message.find("4194304") != std::string::npos);
  CHECK(inflateRaw(deflateRaw(zeros, ""), "", kMaxFileBytes).text.size() == kMaxFileBytes);
  CHECK_FALSE(inflateRaw(deflateRaw(zeros, ""), "", kMaxFileBytes + 1).fault);
  CHECK(inflateRaw(deflateRaw("x", "") + "y", "", 10).fault == InflateFault::Damaged);
  CHECK(inflateRaw("", "", 10).fault == InflateFault::Damaged);
  // Another dictionary than it was made with never passes for a boat.
  const std::string stream = deflateRaw(writeCompactBoatFile(fullBoat()), kLinkDictionary1);
  CHECK(inflateRaw(stream, "", kMaxFileBytes).fault == InflateFault::Damaged);
}

TEST_CASE("a long link in parts, collected in any order") {
  const std::string good = boatFragment(fullBoat());
  CHECK(splitFragment(good, good.size()) == std::vector{good});
  for (const std::size_t most : {std::size_t{100}, std::size_t{137}, good.size() - 1}) {
    CAPTURE(most);
    const auto parts = splitFragment(good, most);
    REQUIRE(parts.size() > 1);
    PartCollection collection;
    for (std::size_t i = parts.size(); i-- > 0;) {
      CHECK(parts[i].size() <= most);
      CHECK_FALSE(collection.whole());
      const auto part = readPartFragment(parts[i]);
      REQUIRE(part);
      collection.add(*part);
      collection.add(*part);
      CHECK(collection.missing().size() == i);
    }
    CHECK(collection.whole() == good);
  }
  CHECK(splitFragment(boatFragment(fullBoat()), 100).size() <= 99);
  BoatDocument wordy = fullBoat();
  Random random(1);
  for (int i = 0; i < 20000; ++i) wordy.boat.notes += static_cast<char>(' ' + random.index(90));
  CHECK(splitFragment(boatFragment(wordy), 100).empty());
}

TEST_CASE("parts of another boat start anew; parts are kept as lines; wrong parts are refused") {
  const auto first = splitFragment(boatFragment(fullBoat()), 300);
  const auto second = splitFragment(boatFragment(withContents(fullBoat(), {false, false})), 300);
  PartCollection collection;
  collection.add(*readPartFragment(first[0]));
  collection.add(*readPartFragment(second[1]));
  CHECK(collection.missing().front() == 1);
  CHECK(collection.lines() == second[1] + "\n");
  for (const char* wrong :
       {"part=", "part=1.2.0123abcd.", "part=0.2.0123abcd.A", "part=3.2.0123abcd.A", "part=1.100.0123abcd.A",
        "part=1.2.0123ABCD.A", "part=1.2.0123abc.A", "part=-1.2.0123abcd.A", "part=1.2", "boat=A"})
    CHECK_MESSAGE(!readPartFragment(wrong), wrong);
  // Parts whose text was damaged make a whole that is refused.
  PartCollection damaged;
  for (const auto& fragment : first) {
    auto part = readPartFragment(fragment);
    REQUIRE(part);
    part->text.back() = part->text.back() == 'A' ? 'B' : 'A';
    damaged.add(*part);
  }
  REQUIRE(damaged.whole());
  CHECK_FALSE(readBoatFragment(*damaged.whole()));
}
