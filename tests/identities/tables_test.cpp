// The tables of tolerances and known failures against the laws: no row without its law, no row twice.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "support/reference.hpp"

using namespace pondtrim::test;

namespace {

std::string sourcesOfLaws() {
  std::ostringstream all;
  const std::filesystem::path folder = std::string(PONDTRIM_SOURCE_DIR) + "/tests/identities";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".cpp") continue;
    std::ifstream in(entry.path());
    all << in.rdbuf();
  }
  return all.str();
}

}  // namespace

TEST_CASE("every tolerance and every known failure is of a law that is checked, and says why") {
  const std::string sources = sourcesOfLaws();
  std::set<std::string> laws, seen;
  for (const char* table : {"tolerances", "known_failures"}) {
    for (const ReferenceRow& row : dataTable(std::string("tests/identities/") + table + ".csv")) {
      const std::string& law = row.text("law");
      CAPTURE(law);
      CHECK(sources.find("TEST_CASE(\"" + law + "\")") != std::string::npos);
      CHECK(row.text("reason").size() >= 4);
      const bool known = std::string(table) == "known_failures";
      CHECK(seen.insert(law + "|" + row.text("quantity") + (known ? "|" + row.text("where") : "")).second);
      if (!known) CHECK(row.number("tolerance") > 0.0);
      laws.insert(law);
    }
  }
  // Each over every boat, which Law sees to; but one, of random boats.
  CHECK(laws.size() >= 36);
}
