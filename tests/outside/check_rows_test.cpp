// The list of collected values (tests/reference/check_rows.csv) against the tests that are said to check
// them.
#include <doctest/doctest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "support/reference.hpp"

using namespace pondtrim::test;

namespace {

std::string textOf(const std::string& path) {
  std::ifstream in(std::string(PONDTRIM_SOURCE_DIR) + "/" + path);
  REQUIRE_MESSAGE(in, path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("every collected value is checked where its list says, or nothing is computed from it") {
  std::set<std::string> ids;
  int checked = 0;
  for (const ReferenceRow& row : referenceTable("check_rows")) {
    const std::string &id = row.text("id"), &file = row.text("file"), &text = row.text("text");
    CAPTURE(id);
    CHECK(ids.insert(id).second);
    CHECK(row.text("known").find_first_of("RDM") != std::string::npos);
    CHECK(text.size() >= 3);
    if (file == "not computed") continue;
    CHECK(textOf(file).find(text) != std::string::npos);
    for (const char* column : {"source", "units", "tolerance", "reason"}) {
      CAPTURE(column);
      CHECK(!row.text(column).empty());
    }
    // Memory alone is no evidence.
    CHECK((row.text("known").find_first_of("RD") != std::string::npos || row.text("also").size() > 10));
    ++checked;
  }
  CHECK(ids.size() == 187);
  CHECK(checked >= 160);
}
