// Undo, drafts and links ask whether two boats are the same: any number of the file that changes makes
// another.
#include <doctest/doctest.h>

#include <cctype>
#include <cstdlib>
#include <pondtrim/file/boat_file.hpp>
#include <set>
#include <sstream>

#include "support/boats.hpp"
#include "support/presets.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

struct NumberIn {
  std::size_t at = 0, size = 0;
  std::string key;  ///< the key before it
};

/// Every number that stands as a value, in the order of the text.
std::vector<NumberIn> numbersIn(const std::string& json) {
  std::vector<NumberIn> out;
  std::string word, key;
  for (std::size_t i = 0; i < json.size(); ++i) {
    if (json[i] == '"') {
      word.clear();
      for (++i; i < json.size() && json[i] != '"'; ++i) {
        if (json[i] == '\\') ++i;
        word += json[i];
      }
    } else if (json[i] == ':') {
      key = word;
    } else if (std::isdigit(static_cast<unsigned char>(json[i])) || json[i] == '-') {
      char* end = nullptr;
      (void)std::strtod(json.c_str() + i, &end);
      const std::size_t size = static_cast<std::size_t>(end - json.c_str()) - i;
      out.push_back({i, size, key});
      i += size - 1;
    }
  }
  return out;
}

std::string withOther(std::string json, const NumberIn& number, double change) {
  const double was = std::strtod(json.c_str() + number.at, nullptr);
  std::ostringstream other;
  other.precision(17);
  other << was + change;
  return json.replace(number.at, number.size, other.str());
}

}  // namespace

TEST_CASE("a boat with any one number changed is not the same boat") {
  std::vector<std::string> texts{test::textOf("tests/file/released/boat-1.boat.json")};
  for (const test::NamedBoat& named : test::allBoats()) {
    BoatDocument document;
    document.boat = named.boat;
    texts.push_back(writeBoatFile(document));
  }
  int changed = 0;
  std::set<std::string> keys;
  for (const std::string& text : texts) {
    const auto whole = readBoatFile(text);
    REQUIRE(whole);
    CHECK(readBoatFile(text)->boat == whole->boat);
    const std::string saved = writeBoatFile(*whole);
    const std::vector<NumberIn> numbers = numbersIn(text);
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      if (test::kEffortDivisor > 1 && keys.count(numbers[i].key) == 1) continue;
      CAPTURE(numbers[i].key);
      // A thousandth of a millimetre, gram or degree; a whole number of something by one.
      bool found = false;
      for (double change : {0.001, -0.001, 1.0}) {
        const auto other = readBoatFile(withOther(text, numbers[i], change));
        if (!other) continue;
        // What a newer Pondtrim wrote is kept beside the boat.
        if (other->unknown == whole->unknown) CHECK_FALSE(other->boat == whole->boat);
        CHECK(writeBoatFile(*other) != saved);
        keys.insert(numbers[i].key);
        found = true;
        break;
      }
      changed += found ? 1 : 0;
      if (!found) CHECK(numbers[i].key == "pondtrim_boat");  // the version alone may not be another
    }
  }
  CAPTURE(changed);
  CHECK(keys.size() > 75);
}
