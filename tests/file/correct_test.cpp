// The pond log's sentences and its whole answer for a boat with a secret.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/correct_json.hpp>
#include <pondtrim/model.hpp>
#include <pondtrim/report.hpp>

#include "support/presets.hpp"
#include "support/readings.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

constexpr double kFineRuler = 0.0003;  // so that 100 g show clearly at the marks

Boat marrow() { return test::presetBoat("presets/boats/marrow.boat.json").boat; }

Reading readingOf(const Boat& truth, TankState tank) {
  return test::readingOf(truth, tank, kFineRuler, kClinometerSpread);
}

/// A hundred grams that the file does not know, forward of the middle, and air that carries most of them
/// dived.
struct Secret {
  Boat file = marrow(), truth = marrow();
  double x = 0.6 * truth.marks.bow_x;
  Secret() {
    Part p;
    p.name = "forgotten";
    p.shape = PointShape{};
    p.mass = 0.1;
    p.position = {x, 0, 0.03};
    truth.parts.push_back(p);
    Part air;
    air.name = "caught air";
    air.role = Role::TrappedAir;
    air.shape = BoxShape{{0.1, 0.05, 0.02}};
    air.volume = 70e-6;
    air.position = {x, 0, truth.marks.line_height + 0.015};
    truth.parts.push_back(air);
    file.log = {readingOf(truth, TankState::Empty), readingOf(truth, TankState::Full)};
  }
};

bool says(const std::vector<std::string>& sentences, const std::string& words) {
  return std::any_of(sentences.begin(), sentences.end(),
                     [&](const std::string& s) { return s.find(words) != std::string::npos; });
}

std::string joined(const std::vector<std::string>& sentences) {
  std::string out;
  for (const std::string& s : sentences) out += s + "\n";
  return out;
}

Boat twoParts() {
  Boat boat;
  Part foam;
  foam.name = "bow foam";
  foam.role = Role::Foam;
  foam.position.x = 0.7;
  Part lead;
  lead.name = "keel lead";
  lead.role = Role::Lead;
  lead.mirrored = true;
  boat.parts = {foam, lead};
  return boat;
}

}  // namespace

TEST_CASE("a change is told as a builder does it") {
  const Boat boat = twoParts();
  CHECK(changeSentence(boat, {"bow foam", 50e-6, 30e-6, false}) == "Take 20 mL of foam out of the bow foam.");
  CHECK(changeSentence(boat, {"bow foam", 50e-6, 60e-6, false}) == "Add 10 mL of foam to the bow foam.");
  CHECK(changeSentence(boat, {"bow foam", 0, 60e-6, false}) ==
        "Add 60 mL of foam to the bow foam (at 700 mm from the stern).");
  CHECK(changeSentence(boat, {"keel lead", 0.1, 0.115, false}) ==
        "Add 15 g of lead to the keel lead, on each side.");
  CHECK(changeSentence(boat, {"battery", 0.6, 0.585, true}) ==
        "Slide the battery 15.0 mm aft, to 585.0 mm from the stern.");
  CHECK(changeSentence(boat, {"bow foam", 0, 29.5735295625e-6, false}, kInchUnits) ==
        "Add 1.00 fl oz of foam to the bow foam (at 27.6 in from the stern).");
}

TEST_CASE("a guess and a doubt are told with their numbers") {
  CHECK(guessSentence({CauseGuess::Skin, -0.031, 0.04}) ==
        "The skin displaces 3.1 % less than the file says (± 4.0 %).");
  CHECK(guessSentence({CauseGuess::TrappedAir, 12e-6, 5e-6}) ==
        "About 12 mL (± 5 mL) of air is trapped high in the bow.");
  CHECK(guessSentence({CauseGuess::Forgotten, 0.04, 0.01}) ==
        "Something of 40 g (± 10 g) in the boat is not in the file.");
  const std::string doubt = doubtSentence({1, "bow", 0.012, 0.0031, 6});
  CHECK(doubt.find("Reading 2: the line at the bow mark was read as 12.0 mm") == 0);
  CHECK(doubt.find("gives 3.1 mm") != std::string::npos);
  CHECK(doubtSentence({0, "heel", 0.1, 1e9, 1e9}).find("would not float so at all") != std::string::npos);
}

TEST_CASE("without a reading nothing is claimed") {
  const Boat boat = marrow();
  const auto answer = answerCorrect(boat);
  if (!answer) FAIL(answer.error().message);
  CHECK(says(correctionSentences(boat, *answer), "no reading yet"));
  CHECK(says(verdictSentences(*answer), "Not done"));
  CHECK(says(verdictSentences(*answer), "both readings before you cut"));
  CHECK(says(verdictSentences(*answer), "hang her by one hook"));
  CHECK(answer->step == PondStep::ReadEmpty);
  CHECK(answer->surfaced.weight.value == 0.0);
  CHECK(answer->surfaced.weight.spread > 0.005);
  CHECK_FALSE(answer->surfaced.x);
}

TEST_CASE("a forgotten weight is found with its place, and stays a guess") {
  const Secret s;
  const auto answer = answerCorrect(s.file);
  if (!answer) FAIL(answer.error().message);
  const BalanceFound& b = answer->surfaced;
  CHECK(std::abs(b.weight.value - 0.1) < 2 * b.weight.spread + 0.003);
  REQUIRE(b.x);
  CHECK(std::abs(b.x->value - s.x) < 3 * b.x->spread);
  CHECK(b.x->spread < 0.1);
  const auto sentences = correctionSentences(s.file, *answer);
  CAPTURE(joined(sentences));
  CHECK(says(sentences, " heavier than the file says, somewhere near "));
  CHECK(says(sentences, "A guess at the cause: "));
  CHECK(says(sentences, "The height of her weight (G) does not show"));
  CHECK(answer->estimate.doubts.empty());
  CHECK_FALSE(answer->outlook.done);
  CHECK(says(verdictSentences(*answer), "Not done: the chance that all of it"));
}

TEST_CASE("the applied boat floats better in truth, and old readings keep what was in her") {
  const Secret s;
  const auto answer = answerCorrect(s.file);
  if (!answer) FAIL(answer.error().message);
  REQUIRE_FALSE(answer->next.changes.empty());
  CHECK(says(nextSentences(*answer), "After this change:"));

  Boat truth = answer->applied;  // the same foam and lead in the true boat
  truth.correction.reset();
  truth.log.clear();
  truth.parts.insert(truth.parts.end(), s.truth.parts.end() - 2, s.truth.parts.end());
  const auto line = [](const Boat& boat) {
    const Report r = *evaluate(*buildModel(boat), {boat.water, 0.0});
    return std::max(std::abs(r.bow->line_above_water), std::abs(r.stern->line_above_water));
  };
  CHECK(line(truth) < 0.5 * line(s.truth));

  // Through the file, the applied boat tells the same story of the old dips: nothing new, no doubt.
  const auto again = readBoatFile(writeBoatFile({answer->applied, {}, {}}));
  if (!again) FAIL(again.error().message);
  // Angles that were computed and not typed in degrees may come back off by a rounding (decimal.hpp).
  Boat back = again->boat;
  REQUIRE(back.log.size() == answer->applied.log.size());
  for (std::size_t i = 0; i < back.log.size(); ++i) {
    for (const auto angle : {&Reading::trim, &Reading::heel}) {
      const std::optional<Measured>& want = answer->applied.log[i].*angle;
      std::optional<Measured>& got = back.log[i].*angle;
      REQUIRE(got.has_value() == want.has_value());
      if (got) CHECK(std::abs(got->value - want->value) <= 1e-15);
      got = want;
    }
  }
  CHECK(back == answer->applied);
  CHECK(again->boat.correction);
  CHECK(again->boat.places == s.file.places);
  const auto later = answerCorrect(again->boat);
  REQUIRE(later);
  CHECK(later->estimate.doubts.empty());
  CHECK(std::abs(later->surfaced.weight.value - answer->surfaced.weight.value) < 0.003);
  CHECK_FALSE(later->outlook.surfaced_read);
  CHECK(says(verdictSentences(*later), "not read since the last change"));
  CHECK(later->outlook.bow.value == doctest::Approx(answer->next.after.bow.value).epsilon(0.01));
}

TEST_CASE("the JSON holds the sentences and the numbers with their units") {
  const Secret s;
  const auto answer = answerCorrect(s.file);
  if (!answer) FAIL(answer.error().message);
  const std::string text = correctJson(s.file, *answer);
  for (const char* key : {"\"heavier_g\"", "\"heavier_spread_g\"", "\"tank_full\"", "\"probability_percent\"",
                          "\"next_change\"", "\"say\"", "\"height_seen\": false", "\"cause\": \"skin\"",
                          "\"best_reading\"", "\"tolerance_mm\": 3", "\"done\": false"}) {
    CAPTURE(std::string(key));
    CHECK(text.find(key) != std::string::npos);
  }
}

TEST_CASE("an inclining tells GM and how high G lies, in words and as numbers; without one nobody does") {
  constexpr double kMoved = 0.1, kBy = 0.06, kUp = 0.06, kHidden = 0.3;
  Boat file = marrow();
  Part ballast;
  ballast.name = "ballast";
  ballast.shape = PointShape{};
  ballast.mass = kHidden;
  ballast.position = {file.length / 2, 0, 0.02};
  Part moved = ballast;
  moved.name = "moved";
  moved.mass = kMoved;
  moved.position.z = file.marks.line_height;
  file.parts.insert(file.parts.end(), {ballast, moved});
  Boat truth = file;  // she carries it higher than the file says
  truth.parts[truth.parts.size() - 2].position.z += kUp;
  Boat leant = truth;
  leant.parts.back().position.y = kBy;
  // A pendulum over a scale: the priors know G too well for a coarse clinometer to add to.
  constexpr double kPendulum = kClinometerSpread / 5;
  Reading lean = test::readingOf(leant, TankState::Empty, kFineRuler, kPendulum);
  lean.shifted_mass = kMoved;
  lean.shifted_by = kBy;
  file.log = {test::readingOf(truth, TankState::Empty, kFineRuler, kPendulum)};

  auto answer = answerCorrect(file);
  if (!answer) FAIL(answer.error().message);
  CHECK_FALSE(answer->height);
  CHECK(says(correctionSentences(file, *answer), "stability is as the file says: with the tank empty GM"));
  CHECK(correctJson(file, *answer).find("\"g_higher") == std::string::npos);

  file.log.push_back(lean);
  answer = answerCorrect(file);
  if (!answer) FAIL(answer.error().message);
  REQUIRE(answer->height);
  const Model model = *buildModel(truth);
  const double higher = kHidden * kUp / model.mass;
  CHECK(std::abs(answer->height->value - higher) < 3 * answer->height->spread);
  CHECK(answer->height->spread < higher / 3);  // clear enough to be told
  const double gm = evaluate(model, {truth.water, 0.0})->gm_transverse;
  CHECK(std::abs(answer->outlook.gm.value - gm) < 3 * answer->outlook.gm.spread);
  const auto sentences = correctionSentences(file, *answer);
  CAPTURE(joined(sentences));
  CHECK(says(sentences, "By the heel read with a weight moved to one side, GM with the tank empty is "));
  CHECK(says(sentences, " higher than the file says."));
  CHECK_FALSE(says(sentences, "does not show"));
  const std::string text = correctJson(file, *answer);
  for (const char* key : {"\"g_higher_mm\"", "\"g_higher_spread_mm\"", "\"gm\"", "\"height_seen\": true"}) {
    CAPTURE(std::string(key));
    CHECK(text.find(key) != std::string::npos);
  }
}

TEST_CASE("air that would have to be less than none is not shown") {
  const Secret s;
  auto answer = answerCorrect(s.file);
  if (!answer) FAIL(answer.error().message);
  answer->estimate.guesses = {{CauseGuess::TrappedAir, -8e-6, 5e-6}, {CauseGuess::Skin, 0.03, 0.01}};
  const std::string text = correctJson(s.file, *answer);
  CHECK(text.find("trapped air") == std::string::npos);
  CHECK(text.find("\"skin\"") != std::string::npos);
  answer->estimate.guesses[0].change = 8e-6;
  CHECK(correctJson(s.file, *answer).find("trapped air") != std::string::npos);
}

TEST_CASE("a reading that cannot be true is named") {
  Secret s;
  s.file.log[0].bow->value += 0.2;
  s.file.log[0].stern->value -= 0.2;
  const auto answer = answerCorrect(s.file);
  if (!answer) FAIL(answer.error().message);
  CHECK_FALSE(answer->estimate.doubts.empty());
  CHECK(says(correctionSentences(s.file, *answer), "Reading 1: "));
  CHECK_FALSE(answer->outlook.done);
}

TEST_CASE("a step that turns a short boat too far is told") {
  CHECK(coarseSentence(twoParts(), {"bow foam", 10e-6, 1.4 * kPi / 180, false}) ==
        "One step of 10 mL at the bow foam turns her dived trim by 1.4°: take finer steps there, or slide a "
        "weight "
        "instead.");
  const Boat shorter = test::presetBoat("presets/boats/brindle.boat.json").boat;
  const auto answer = answerCorrect(shorter);
  if (!answer) FAIL(answer.error().message);
  REQUIRE_FALSE(answer->coarse.empty());
  for (const CoarseStep& c : answer->coarse) CHECK(c.turn > Tolerance{}.trim);
  // One of them against the boat solved with that step in her.
  const CoarseStep& step = answer->coarse.front();
  Boat more = shorter;
  const auto part =
      std::find_if(more.parts.begin(), more.parts.end(), [&](Part& p) { return p.name == step.part; });
  REQUIRE(part != more.parts.end());
  REQUIRE(part->role == Role::Foam);
  REQUIRE(part->volume);
  REQUIRE_FALSE(part->mass);
  const double small = 0.02;  // of a step: the answer is linear
  *part->volume += small * step.step;
  const auto trim = [](const Boat& boat) {
    const Model model = *buildModel(boat);
    return evaluate(model, {boat.water, model.tank_capacity})->rest.attitude.trim;
  };
  CHECK(std::abs(trim(more) - trim(shorter)) == doctest::Approx(small * step.turn).epsilon(0.05));
}

TEST_CASE("of marks that hardly can be true no cause is guessed and no change made") {
  Boat boat = test::presetBoat("presets/boats/brindle.boat.json").boat;
  Reading up;
  up.water = boat.water;
  up.bow = Measured{0.15, kRulerSpread};
  up.stern = Measured{-0.1, kRulerSpread};
  boat.log = {up};
  const auto answer = answerCorrect(boat);
  if (!answer) FAIL(answer.error().message);
  CHECK(answer->step == PondStep::ReadEmpty);
  CHECK(answer->estimate.guesses.empty());
  CHECK(answer->next.changes.empty());
  CHECK_FALSE(answer->applied.correction);
  CHECK(answer->applied.parts == boat.parts);
  CHECK(says(correctionSentences(boat, *answer),
             "the line at the bow mark was read as 150.0 mm, where the file's boat"));
  CHECK(says(nextSentences(*answer), "No change is worked out from a reading that hardly can be true"));
  CHECK(correctJson(boat, *answer).find("\"kind\": \"unlikely\"") != std::string::npos);
}

TEST_CASE("no cause is guessed to be less than nothing") {
  Boat boat = test::presetBoat("presets/boats/brindle.boat.json").boat;
  Reading hung;  // contradicts the dip in which she floats right
  hung.tank = TankState::Full;
  hung.water = boat.water;
  hung.bow_pull = hung.stern_pull = Measured{0.3, kScaleSpread};
  hung.bow_hook_x = boat.marks.bow_x;
  hung.stern_hook_x = boat.marks.stern_x;
  Reading up = readingOf(boat, TankState::Empty);
  boat.log = {up, up, hung, hung};  // twice alike: believed
  const auto answer = answerCorrect(boat);
  if (!answer) FAIL(answer.error().message);
  REQUIRE_FALSE(answer->estimate.guesses.empty());
  for (const CauseGuess& g : answer->estimate.guesses)
    if (g.kind == CauseGuess::Skin || g.kind == CauseGuess::Foam || g.kind == CauseGuess::Solids)
      CHECK(g.change >= -1);
}

TEST_CASE("done says what was checked, and what was read close to its limit asks to be read again") {
  Boat boat = test::presetBoat("presets/boats/brindle.boat.json").boat;
  Reading up, down;
  up.water = down.water = boat.water;
  up.bow = Measured{0.0028, kRulerSpread};
  up.stern = Measured{0.0, kRulerSpread};
  down.tank = TankState::Full;
  down.sail_showing = Measured{boat.aims.sail_showing, kRulerSpread};
  up.heel = down.heel = down.trim = Measured{0, kClinometerSpread};
  boat.log = {up, down};
  auto answer = answerCorrect(boat);
  if (!answer) FAIL(answer.error().message);
  CAPTURE(joined(verdictSentences(*answer)));
  CHECK(says(verdictSentences(*answer), "Close to the limit, read again: the bow mark"));
  if (answer->outlook.done) {
    CHECK(says(verdictSentences(*answer), "within its limit and its own spread). The chance that all of it"));
  }
  boat.log[0].bow->value = 0;
  boat.log[0].heel.reset();
  answer = answerCorrect(boat);
  REQUIRE(answer);
  CHECK_FALSE(answer->outlook.done);
  CAPTURE(joined(verdictSentences(*answer)));
  CHECK(says(verdictSentences(*answer), "not read since the last change: the heel with the tank empty"));
}

TEST_CASE("a change is put in only when it is the next step, and its amounts are decimal numbers") {
  Secret s;
  const auto both = answerCorrect(s.file);
  if (!both) FAIL(both.error().message);
  REQUIRE_FALSE(both->next.changes.empty());
  CHECK(both->corrected.parts == s.file.parts);
  CHECK(both->corrected.correction == both->applied.correction);
  for (const PondChange& c : both->next.changes) CHECK(std::round(c.after * 1e9) / 1e9 == c.after);
}
