// The trim sheet: what it says is what the reports say, and a stranger's text stays text.
#include "session/trim_sheet.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "session/presets.hpp"
#include "session/structure.hpp"
#include "session/words.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// Every tag that opens closes again, in order.
bool balanced(const std::string& html) {
  std::vector<std::string> open;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    const std::size_t end = html.find('>', at);
    if (end == std::string::npos) return false;
    if (html[end - 1] == '/') continue;
    const bool closes = html[at + 1] == '/';
    const std::size_t from = at + (closes ? 2 : 1);
    const std::string name = html.substr(from, html.find_first_of(" >", from) - from);
    if (!closes)
      open.push_back(name);
    else if (open.empty() || open.back() != name)
      return false;
    else
      open.pop_back();
  }
  return open.empty();
}

}  // namespace

/// As it stands on the page.
std::string page(const Session& session) { return file::sheetHtml(trimSheet(session), sideDrawing(session)); }

TEST_CASE("the sheet of every preset is whole, and says how she lies and all she is made of") {
  for (const PresetName& name : presetNames()) {
    CAPTURE(name.name);
    auto document = preset(name.index);
    REQUIRE(document);
    const auto session = Session::start(std::move(*document));
    REQUIRE(session);
    const std::string sheet = page(*session);
    CHECK(balanced(sheet));
    CHECK(holds(sheet, "<h1>" + file::escapedHtml(session->boat().name) + "</h1>"));
    CHECK(holds(sheet, file::escapedHtml(liesSentence(*session))));
    for (const SealedCylinder& c : session->boat().cylinders)
      CHECK(holds(sheet, ">" + file::escapedHtml(c.name) + "<"));
    const auto grams = [](double kg) { return std::to_string(std::lround(1000 * kg)) + " g"; };
    CHECK(holds(sheet, ">" + grams(session->full().total_mass) + "<"));
    CHECK(holds(sheet, ">" + grams(session->empty().total_mass) + "<"));
    CHECK_FALSE(holds(sheet, "nan"));
    CHECK_FALSE(holds(sheet, "inf"));
    CHECK(holds(sheet, "These are estimates."));
  }
}

TEST_CASE("the weights of the table add up to the last row, which is the boat's") {
  const Session session = test::firstSession();
  const file::TrimSheet sheet = trimSheet(session);
  const auto weights =
      std::find_if(sheet.sections.begin(), sheet.sections.end(),
                   [](const file::SheetSection& section) { return section.heading == "Weights"; });
  REQUIRE(weights != sheet.sections.end());
  double sum = 0;
  const auto grams = [](const std::string& cell) {
    return std::strtod(cell.c_str() + (cell.compare(0, 3, "\u2248") == 0 ? 4 : 0), nullptr);
  };
  for (const auto& row : weights->table.rows) sum += grams(row[2]);
  const double all = grams(weights->table.rows.back()[2]);
  CHECK(all == doctest::Approx(1000 * session.model().mass).epsilon(0.001));
  CHECK(sum - all == doctest::Approx(all).epsilon(0.005));  // cells are rounded
}

TEST_CASE("names and notes are text, whatever is in them") {
  Session session = test::firstSession();
  Boat boat = session.boat();
  boat.name = "<script>alert('1')</script>&\"";
  boat.notes = "</p><svg onload=alert(2)>";
  REQUIRE(session.edit(withName(boat, {Owner::Part, 0}, "<img src=x onerror=alert(1)>")));
  const std::string sheet = page(session);
  CHECK(balanced(sheet));
  CHECK_FALSE(holds(sheet, "<script"));
  CHECK_FALSE(holds(sheet, "<img"));
  CHECK_FALSE(holds(sheet, "<svg onload"));
  CHECK(holds(sheet, "&lt;script&gt;alert(&#39;1&#39;)&lt;/script&gt;&amp;&quot;"));
}

TEST_CASE("a boat out of trim gets her plan on the sheet") {
  Session session = test::firstSession();
  Boat boat = session.boat();
  REQUIRE_FALSE(boat.places.empty());
  const auto lead = std::find_if(boat.parts.begin(), boat.parts.end(), [&](const Part& p) {
    return p.role == Role::Lead && p.mass.value_or(0) > 0.1;
  });
  REQUIRE(lead != boat.parts.end());
  *lead->mass -= 0.06;
  REQUIRE(session.edit(boat));
  const std::string sheet = page(session);
  const std::size_t plan = sheet.find("<h2>Plan</h2>");
  REQUIRE(plan != std::string::npos);
  CHECK(holds(sheet.substr(plan), "<li>Add "));
}
