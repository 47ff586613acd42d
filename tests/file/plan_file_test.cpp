// Places and aims in the boat file, and the plan in words and JSON.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/plan_json.hpp>

using namespace pondtrim;

namespace {

std::string brindleText() {
  std::ifstream in(PONDTRIM_SOURCE_DIR "/presets/boats/brindle.boat.json");
  return {std::istreambuf_iterator<char>(in), {}};
}

/// The preset with this in place of its places, if any.
Result<file::BoatDocument> withMember(const std::string& member) {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  document->boat.places.clear();
  document->boat.aims = {};
  std::string text = file::writeBoatFile(*document);
  const std::size_t at = text.find("\"name\"");
  if (member.find("\"aims\"") != std::string::npos) {
    const std::size_t from = text.find("\"aims\"");
    text.erase(from, text.find('}', from) + 1 - from);
    return file::readBoatFile(text.insert(from, member));
  }
  return file::readBoatFile(text.insert(at, member + ", "));
}

}  // namespace

TEST_CASE("places and aims come back as they were written") {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  Boat& boat = document->boat;
  boat.places.clear();
  boat = proposePlaces(boat);
  boat.places[0].least = 1e-5;
  boat.places.push_back({"battery", std::nullopt, std::nullopt, 0.005, Rail{0.65, 0.7}});
  boat.aims.net_buoyancy = 0.015;
  boat.aims.least_gm = 0.004;
  boat.aims.further = {{"sea", false, Water{285.15, 35}, "", 0, 0.01, 0.05}};
  const auto again = file::readBoatFile(file::writeBoatFile(*document));
  REQUIRE(again);
  CHECK(again->unknown.empty());
  CHECK(again->boat.places.size() == boat.places.size());
  for (std::size_t i = 0; i < boat.places.size(); ++i) CHECK(again->boat.places[i] == boat.places[i]);
  CHECK(again->boat.aims.net_buoyancy == boat.aims.net_buoyancy);
  CHECK(again->boat.aims.least_gm == boat.aims.least_gm);
  REQUIRE(again->boat.aims.further.size() == 1);
  CHECK(again->boat.aims.further[0].water == boat.aims.further[0].water);
  CHECK(again->boat.aims.further[0].trim_tolerance == doctest::Approx(0.05));
}

TEST_CASE("places at fault are named as the file spells them, in its units") {
  const auto swapped = withMember(
      R"("places": [{"part": "bow foam, below the line", "least_volume_mL": 50, "most_volume_mL": 40}])");
  REQUIRE(!swapped);
  CHECK(swapped.error().field.find("places[0].least_volume_mL") == 0);
  CHECK(swapped.error().was == "50");
  CHECK(swapped.error().allowed.find("40") != std::string::npos);
  CHECK(swapped.error().other_field == "places[0].most_volume_mL");
  const auto negative = withMember(R"("places": [{"part": "keel lead, aft", "mass_step_g": -5}])");
  REQUIRE(!negative);
  CHECK(negative.error().field.find("places[0].mass_step_g") == 0);
  CHECK(negative.error().was == "-5");
  const auto kind = withMember(R"("places": [{"part": "bow foam, below the line", "most_mass_g": 40}])");
  REQUIRE(!kind);
  CHECK(kind.error().allowed.find("mL") != std::string::npos);
  const auto missing = withMember(R"("places": [{"part": "no such part"}])");
  REQUIRE(!missing);
  CHECK(missing.error().field.find("places[0].part") == 0);
  CHECK(missing.error().allowed.find("bow foam") != std::string::npos);
}

TEST_CASE("a plan is told in sentences that can be read aloud") {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  const Boat boat = proposePlaces(document->boat);
  std::size_t foam = 0, lead = 0;
  for (std::size_t i = 0; i < boat.places.size(); ++i) {
    if (boat.places[i].part == "bow foam, below the line") foam = i;
    if (boat.places[i].part == "keel lead, fore") lead = i;
  }
  CHECK(file::changeSentence(boat, {foam, Work::TakeOut, 120e-6})
            .find("Take 120 mL foam out of \"bow foam, below the line\"") == 0);
  CHECK(file::changeSentence(boat, {lead, Work::PutIn, 0.085}).find("Add 85 g lead at \"keel lead, fore\"") ==
        0);
  CHECK(file::changeSentence(boat, {lead, Work::PutIn, 0.085}, file::kInchUnits).find("3 oz") !=
        std::string::npos);
  CHECK(file::limitSentence(boat, {LimitKind::TankCapacity, 0, 400e-6, 485e-6}) ==
        "The tank is 85 mL too small.");
  CHECK(file::limitSentence(boat, {LimitKind::TankCapacity, 0, 400e-6, 300e-6}) ==
        "The tank is 100 mL too large.");
}

TEST_CASE("a moved weight is told its way and where it comes to lie") {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  Boat boat = document->boat;
  boat.places = {{"battery", std::nullopt, std::nullopt, 0.001, Rail{0.4, 0.8}}};
  for (Part& part : boat.parts) {
    if (part.name == "battery") part.position.x = 0.61;
  }
  CHECK(file::changeSentence(boat, {0, Work::Move, -0.027}) ==
        "Move \"battery\" 27 mm aft, until its middle is 583 mm from the aft end.");
}

TEST_CASE("a step that its limits leave broken is said with the change") {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  const std::string whole = file::changeSentence(document->boat, {0, Work::PutIn, 4e-7});
  const std::string broken = file::changeSentence(document->boat, {0, Work::PutIn, 4e-7, true});
  CHECK(broken == whole + " Not a whole step: its limits leave none.");
}

TEST_CASE("what would do is rounded to the side that does") {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  const auto says = [&](const Limit& l) { return file::limitSentence(document->boat, l); };
  CHECK(says({LimitKind::LeastGm, 0, 0.1, 0.01766}).find("be 17.6 mm") != std::string::npos);
  CHECK(says({LimitKind::LeadBudget, 0, 0.1, 0.3411}).find("be 342 g") != std::string::npos);
  CHECK(says({LimitKind::LeastBg, 0, 0.1, 0.008}).find("be 8 mm") != std::string::npos);
}

TEST_CASE("pieces too coarse to put her right are said to be, in words and JSON") {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  Boat boat = document->boat;
  for (Place& place : boat.places) {
    for (Part& part : boat.parts) {
      if (part.name != place.part || place.rail) continue;
      place.step = part.role == Role::Foam ? 50e-6 : 0.1;
      if (part.name == "bow foam, below the line") *part.volume -= 15e-6;
    }
  }
  PlanRequest request;
  request.whole_pieces = true;
  const auto coarse = makePlan(boat, request);
  REQUIRE(coarse);
  REQUIRE(coarse->found);
  REQUIRE(!coarse->proofs[1].holds);
  const auto said = file::shortfallSentences(*coarse);
  REQUIRE(!said.empty());
  CHECK(said.back().find("Not right with these pieces, tank full: ") == 0);
  CHECK(said.back().find(" of the sail than wanted") != std::string::npos);
  CHECK(file::planJson(boat, *coarse).find(said.back()) != std::string::npos);
  request.whole_pieces = false;
  const auto free = makePlan(boat, request);
  REQUIRE(free);
  CHECK(file::shortfallSentences(*free).empty());
  CHECK(file::planJson(boat, *free).find("\"not_right\": []") != std::string::npos);
}

TEST_CASE("the JSON of a plan holds its proof, and of no plan its blame") {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  Boat boat = proposePlaces(document->boat);
  boat.aims.least_gm = boat.aims.least_bg = 0.002;
  const auto plan = makePlan(boat);
  REQUIRE(plan);
  REQUIRE(plan->found);
  const std::string text = file::planJson(boat, *plan);
  for (const char* key : {"\"found\": true", "\"changes\"", "\"proof\"", "\"bow_off_mm\"", "\"trim_off_deg\"",
                          "\"carry_mass_after_g\""})
    CHECK_MESSAGE(text.find(key) != std::string::npos, key);
  boat.aims.least_bg = 0.5;
  const auto none = makePlan(boat);
  REQUIRE(none);
  const std::string blame = file::planJson(boat, *none);
  for (const char* key : {"\"found\": false", "\"conflict\"", "\"remedy\"", "\"would_do_mm\""})
    CHECK_MESSAGE(blame.find(key) != std::string::npos, key);
}

TEST_CASE("the diagrams come after the plan, and say when what is needed cannot be had") {
  auto document = file::readBoatFile(brindleText());
  REQUIRE(document);
  Boat boat = document->boat;
  boat.tank->capacity = 200e-6;
  boat.places.resize(4);  // foam alone holds no such boat down
  const auto plan = makePlan(boat);
  REQUIRE(plan);
  CHECK(!plan->found);
  CHECK(file::planJson(boat, *plan).find("equilibrium_polygons") == std::string::npos);
  const auto curve = stabilityCurve(boat);
  const auto balance = balanceDiagrams(boat);
  REQUIRE(curve);
  REQUIRE(balance);
  CHECK(curve->empty());
  CHECK(!balance->at(1).inside);
  const file::PlanDiagrams diagrams{*curve, *balance};
  const std::string text = file::planJson(boat, *plan, &diagrams);
  for (const char* key : {"\"weight_against_stability\": []", "\"equilibrium_polygons\"", "\"inside\": false",
                          "\"moment_g_m\"", "\"bow_first\""})
    CHECK_MESSAGE(text.find(key) != std::string::npos, key);
}
