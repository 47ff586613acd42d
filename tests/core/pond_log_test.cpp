// The pond log: exact readings give the truth back, spreads are honest, and what readings cannot see is not
// made up.
#include <doctest/doctest.h>

#include <cmath>
#include <pondtrim/pond_log.hpp>

#include "support/boats.hpp"
#include "support/presets.hpp"
#include "support/random.hpp"
#include "support/readings.hpp"

namespace {

using namespace pondtrim;

constexpr double kDegree = kPi / 180;
// Exact readings in these tests carry the finest spreads that a log takes, so that the priors weigh nothing.
constexpr double kFine = 1e-4;

Boat marrow() { return test::presetBoat("presets/boats/marrow.boat.json").boat; }

double normal(test::Random& dice) {  // Box-Muller
  return std::sqrt(-2 * std::log(dice.between(1e-12, 1.0))) * std::cos(dice.between(0.0, 2 * kPi));
}

/// A reading of `truth` without any error.
Reading exactReading(const Boat& truth, TankState tank, double spread) {
  return test::readingOf(truth, tank, spread, spread);
}

Part hiddenWeight(double mass, const Vec3& at, const char* name = "nobody wrote this down") {
  Part p;
  p.name = name;
  p.shape = PointShape{};
  p.mass = mass;
  p.position = at;
  return p;
}

/// A preset that dives without sinking, with something in it that the file does not know.
struct Secret {
  Boat file, truth;
};
Secret secretBoat(double mass) {
  Secret out;
  out.file = marrow();
  out.truth = out.file;
  const Marks& m = out.file.marks;
  out.truth.parts.push_back(hiddenWeight(mass, {0.7 * m.bow_x, 0.004, 0.5 * m.line_height}));
  Part air;
  air.name = "caught air";
  air.role = Role::TrappedAir;
  air.shape = BoxShape{{0.1, 0.05, 0.02}};
  air.volume = mass * 1e-3;
  air.position = {m.bow_x, 0, m.line_height + 0.015};
  out.truth.parts.push_back(air);
  return out;
}

}  // namespace

TEST_SUITE("pond log") {
  TEST_CASE("exact readings of both conditions bring the corrected boat to where the true one lies") {
    const Secret s = secretBoat(0.06);
    Boat read = s.file;
    read.log = {exactReading(s.truth, TankState::Empty, kFine),
                exactReading(s.truth, TankState::Full, kFine)};
    const auto estimate = estimateCorrection(read);
    REQUIRE(estimate);
    CHECK(estimate->doubts.empty());
    const Model corrected = *buildModel(withCorrection(read, *estimate)), truth = *buildModel(s.truth),
                file = *buildModel(s.file);
    for (const double share : {0.0, 1.0}) {
      const Report want = *evaluate(truth, {s.truth.water, share * truth.tank_capacity});
      const Report got = *evaluate(corrected, {s.truth.water, share * corrected.tank_capacity});
      const Report blind = *evaluate(file, {s.truth.water, share * file.tank_capacity});
      // 0.3 mm and 0.05 degrees: the spread of the readings (0.1 mm) with room for the priors' pull.
      CHECK(got.sail_showing == doctest::Approx(want.sail_showing).epsilon(0).scale(1).epsilon(3e-4));
      CHECK(std::abs(got.rest.attitude.trim - want.rest.attitude.trim) < 0.05 * kDegree);
      CHECK(std::abs(got.rest.attitude.heel - want.rest.attitude.heel) < 0.05 * kDegree);
      // and the file alone was wrong by more than that, or this test would show nothing
      CHECK(std::abs(blind.sail_showing - want.sail_showing) > 6e-4);
    }
  }

  TEST_CASE("without readings nothing is corrected and nothing is claimed") {
    const auto estimate = estimateCorrection(marrow());
    REQUIRE(estimate);
    for (const double v : estimate->mean) CHECK(v == 0.0);
    CHECK(estimate->values_used == 0);
    CHECK_FALSE(estimate->height_seen);
    const auto outlook = predict(marrow(), *estimate);
    REQUIRE(outlook);
    CHECK_FALSE(outlook->done);
    CHECK(outlook->best_gain > 0.1);
  }

  TEST_CASE("a reading that no attitude explains is doubted") {
    const Secret s = secretBoat(0.01);
    Boat read = s.file;
    Reading wrong = exactReading(s.truth, TankState::Empty, 0.0015);
    wrong.bow->value += 0.2;
    wrong.stern->value -= 0.2;
    read.log = {wrong};
    const auto estimate = estimateCorrection(read);
    REQUIRE(estimate);
    CHECK_FALSE(estimate->doubts.empty());
  }

  TEST_CASE("an inclining reading shows the height of G, and only it does") {
    Secret s = secretBoat(0.01);
    s.truth.parts.push_back(hiddenWeight(0.2, {s.file.length / 2, 0, s.file.marks.deck_height}, "ballast"));
    s.file.parts.push_back(
        hiddenWeight(0.2, {s.file.length / 2, 0, 0.5 * s.file.marks.deck_height}, "ballast"));
    Boat read = s.file;
    read.log = {exactReading(s.truth, TankState::Empty, kFine)};
    CHECK_FALSE(estimateCorrection(read)->height_seen);

    Boat inclined = s.truth;  // 100 g moved 60 mm to port, solved as parts of the boat
    inclined.parts.push_back(hiddenWeight(0.1, {s.file.length / 2, 0.06, s.file.marks.line_height}));
    inclined.parts.back().name = "moved";
    Boat before = s.truth;
    before.parts.push_back(inclined.parts.back());
    before.parts.back().position.y = 0;
    Boat file = s.file;
    file.parts.push_back(before.parts.back());
    Reading lean = exactReading(inclined, TankState::Empty, kFine);
    lean.shifted_mass = 0.1;
    lean.shifted_by = 0.06;
    file.log = {exactReading(before, TankState::Empty, kFine), lean};
    const auto estimate = estimateCorrection(file);
    REQUIRE(estimate);
    CHECK(estimate->height_seen);
    const Report want = *evaluate(*buildModel(before), {file.water, 0.0});
    const Report blind = *evaluate(*buildModel(file), {file.water, 0.0});
    const Report got = *evaluate(*buildModel(withCorrection(file, *estimate)), {file.water, 0.0});
    CHECK(std::abs(got.gm_transverse - want.gm_transverse) <
          0.1 * std::abs(blind.gm_transverse - want.gm_transverse));
  }

  TEST_CASE("two hooks of a boat that sank give her weight in water and her trim moment") {
    Secret s = secretBoat(0.01);
    s.truth.parts.push_back(hiddenWeight(0.25, {0.6 * s.file.length, 0, 0.02}));
    s.truth.parts.back().name = "heavy";
    const Model truth = *buildModel(s.truth);
    const Report r = *evaluate(truth, {s.truth.water, truth.tank_capacity});
    REQUIRE(r.rest.outcome == Outcome::Sinks);
    const Marks& m = s.file.marks;
    const double net = -r.net_buoyancy_submerged;
    const Vec3 moment =
        r.centre_of_gravity * r.total_mass - truth.whole_centroid * (truth.whole_volume * r.rest.density);
    Reading hung;
    hung.tank = TankState::Full;
    hung.water = s.file.water;
    hung.bow_hook_x = m.bow_x;
    hung.stern_hook_x = m.stern_x;
    hung.bow_pull = Measured{(moment.x - m.stern_x * net) / (m.bow_x - m.stern_x), kFine};
    hung.stern_pull = Measured{net - hung.bow_pull->value, kFine};
    Boat read = s.file;
    read.log = {hung};
    const auto estimate = estimateCorrection(read);
    REQUIRE(estimate);
    const Model corrected = *buildModel(withCorrection(read, *estimate));
    const Report got = *evaluate(corrected, {read.water, corrected.tank_capacity});
    CHECK(std::abs(got.net_buoyancy_submerged + net) < 0.001);
    // Tank capacity and tank water's place are part of it, so only the moment about the marks is fixed: 1 g
    // m.
    const Vec3 back = got.centre_of_gravity * got.total_mass -
                      corrected.whole_centroid * (corrected.whole_volume * got.rest.density);
    CHECK(std::abs(back.x - moment.x) < 0.001);
  }

  TEST_CASE("spreads are what repeated noisy readings scatter by") {
    const Secret s = secretBoat(0.0);
    const double ruler = 0.0015, clinometer = 0.5 * kDegree;
    Priors wide;  // so wide that the readings alone decide
    wide.mass = 0.2;
    wide.forgotten = 2;
    const Model file = *buildModel(s.file);
    test::Random dice(4711);
    const Reading exact = exactReading(s.file, TankState::Empty, ruler);
    constexpr int kDraws = 300;
    double sum = 0, squares = 0, claimed = 0;
    for (int i = 0; i < kDraws; ++i) {
      Boat read = s.file;
      Reading noisy = exact;
      noisy.bow->value += normal(dice) * ruler;
      noisy.stern->value += normal(dice) * ruler;
      noisy.heel = Measured{exact.heel->value + normal(dice) * clinometer, clinometer};
      read.log = {noisy};
      const auto estimate = estimateCorrection(read, wide, &file);
      REQUIRE(estimate);
      sum += estimate->mean[kMass];
      squares += estimate->mean[kMass] * estimate->mean[kMass];
      claimed += std::sqrt(estimate->covariance[kMass][kMass]);
    }
    const double scatter = std::sqrt(squares / kDraws - (sum / kDraws) * (sum / kDraws));
    // The standard deviation of 300 draws is itself known to 1 / sqrt(600) = 4 %; three of those, and 5 % for
    // the priors' share.
    CHECK(scatter == doctest::Approx(claimed / kDraws).epsilon(0.17));
    CHECK(scatter > 0.005);
  }

  TEST_CASE("a reading out of range names its place in the log") {
    Boat boat = marrow();
    Reading r = exactReading(boat, TankState::Empty, 0.0015);
    r.heel = Measured{4.0, 0.01};
    boat.log = {exactReading(boat, TankState::Empty, 0.0015), r};
    CHECK(estimateCorrection(boat).error().field == "log[1].heel");
    boat.log[1].heel.reset();
    boat.log[1].bow_pull = Measured{0.1, 0.003};
    CHECK(estimateCorrection(boat).error().field == "log[1].bow_pull");
  }

  TEST_CASE("the next change in whole steps brings the true boat nearer than she was") {
    const Secret s = secretBoat(0.06);
    Boat read = s.file;
    read.places.clear();
    int found = 0;
    for (const Part& p : read.parts) {
      if (p.role != Role::Foam && p.role != Role::Lead) continue;
      Place place;
      place.part = p.name;
      place.step = p.role == Role::Foam ? 5e-6 : 0.005;
      read.places.push_back(place);
      ++found;
    }
    REQUIRE(found >= 3);
    read.log = {exactReading(s.truth, TankState::Empty, kFine),
                exactReading(s.truth, TankState::Full, kFine)};
    const auto estimate = estimateCorrection(read);
    REQUIRE(estimate);
    const auto before = predict(read, *estimate);
    const auto next = nextChange(read, *estimate);
    REQUIRE(before);
    REQUIRE(next);
    CHECK_FALSE(next->changes.empty());
    CHECK(next->after.misfit < 0.5 * before->misfit);
    for (const PondChange& c : next->changes) {
      const double step = c.part.find("lead") != std::string::npos ? 0.005 : 5e-6;
      CHECK(std::abs(std::remainder(c.after - c.before, step)) < 1e-9);
    }
    Boat none = s.file;
    none.places.clear();
    CHECK(nextChange(none, *estimate).error().field == "places");
  }
}
