// The ballast system in the boat file, and the dive's and the ballast's answers as text.
#include <doctest/doctest.h>

#include <algorithm>
#include <pondtrim/file/ballast_json.hpp>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/dive_json.hpp>
#include <pondtrim/stability.hpp>
#include <string>

#include "support/dive_boat.hpp"

using namespace pondtrim;

namespace {

Pump pump() {
  Pump out;
  out.free_flow = 18e-6;
  out.stall_pressure = 1.6e5;
  out.rated_voltage = 11.1;
  out.hose_loss = 1e4;
  out.free_current = 0.6;
  out.stall_current = 3.2;
  return out;
}

Boat boatWith(BallastKind kind) {
  Boat boat = withBulkheads(test::longTankBoat(), 3);
  for (SealedCylinder& c : boat.cylinders) c.material = "acrylic";
  boat.ballast = BallastSystem{std::move(kind), Battery{12.0, 10.2, 2200 * 3.6}};
  return boat;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

bool anyContains(const std::vector<std::string>& lines, const std::string& words) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const std::string& l) { return l.find(words) != std::string::npos; });
}

const BallastKind kKinds[] = {SealedTankPump{pump(), 1.1e-3}, VentedTankPump{pump(), 1e-3},
                              PistonTank{0.05, 0.01, 300, 12, 1.1e-3, 0.5, 4.0},
                              GasBlow{"n-butane", 0.2, 0.004, 0.02, 100e-6}};

}  // namespace

TEST_SUITE("ballast file") {
  TEST_CASE("each kind of ballast system comes back from the file as it went in") {
    for (const BallastKind& kind : kKinds) {
      Boat boat = boatWith(kind);
      boat.cylinders[0].elastic_modulus = 2.9e9;
      boat.cylinders[0].poisson_ratio = 0.37;
      boat.cylinders[0].strength = 55e6;
      boat.cylinders[0].flexibility = 3e-11;
      boat.parts[0].bulk_modulus = 3.3e6;
      boat.parts[0].water_uptake = 0.007;
      const std::string text = file::writeBoatFile({boat, {}, {}});
      const auto back = file::readBoatFile(text);
      CAPTURE(text);
      if (!back) FAIL(back.error().message);
      CHECK(back->boat == boat);
      CHECK(back->unknown.empty());
    }
  }

  TEST_CASE("keys carry the units a builder has on the label") {
    const std::string text = file::writeBoatFile({boatWith(kKinds[1]), {}, {}});
    for (const char* words :
         {"\"free_flow_mL_per_s\": 18", "\"stall_pressure_bar\": 1.6", "\"charge_mAh\": 2200",
          "\"rated_voltage_V\": 11.1", "\"cylinder_air_mL\": 1000"}) {
      CAPTURE(words);
      CHECK(text.find(words) != std::string::npos);
    }
  }

  TEST_CASE("errors speak the file's keys and units, and unknown keys in the ballast system are kept") {
    const std::string text = file::writeBoatFile({boatWith(kKinds[1]), {}, {}});
    const auto errorOf = [&](const char* from, const char* to) {
      const auto read = file::readBoatFile(replaced(text, from, to));
      REQUIRE_FALSE(read);
      return read.error();
    };
    const Error still = errorOf("\"free_flow_mL_per_s\": 18", "\"free_flow_mL_per_s\": 0");
    CHECK(still.field == "ballast.pump.free_flow_mL_per_s");
    CHECK(still.allowed.find("moves no water") != std::string::npos);
    const Error negative = errorOf("\"tired_voltage_V\": 10.2", "\"tired_voltage_V\": -10.2");
    CHECK(negative.field == "ballast.battery.tired_voltage_V");
    CHECK(negative.was == "-10.2");
    CHECK(errorOf("\"pump into vented tank\"", "\"magic\"").field == "ballast.kind");
    CHECK(errorOf("\"stall_pressure_bar\"", "\"stall_pressure_psi\"").field ==
          "ballast.pump.stall_pressure_psi");
    const std::string gas = file::writeBoatFile({boatWith(kKinds[3]), {}, {}});
    const auto unknown_gas = file::readBoatFile(replaced(gas, "\"n-butane\"", "\"swamp gas\""));
    REQUIRE_FALSE(unknown_gas);
    CHECK(unknown_gas.error().field == "ballast.gas");
    CHECK(unknown_gas.error().allowed.find("R-134a") != std::string::npos);
    const auto kept = file::readBoatFile(replaced(text, "\"charge_mAh\"", "\"cells\": 3, \"charge_mAh\""));
    REQUIRE(kept);
    REQUIRE(kept->unknown.size() == 1);
    CHECK(kept->unknown[0].path() == "ballast.battery.cells");
    CHECK(file::writeBoatFile(*kept).find("\"cells\": 3") != std::string::npos);
  }

  TEST_CASE("the dive in words: what goes wrong, why, what cures it") {
    const Boat boat = test::longTankBoat();
    const auto model = buildModel(boat);
    REQUIRE(model);
    const auto answer = file::answerDive(boat, *model, boat.water, 40);
    REQUIRE(answer);
    const auto lines = file::diveSentences(answer->sweep, answer->helps);
    CHECK(anyContains(lines, "runs along the part-full tank"));
    CHECK(anyContains(lines, "bulkhead"));
    CHECK(anyContains(lines, "coming up is not the way she went down"));
    const std::string json = file::diveJson(boat, *answer);
    for (const char* key : {"\"trouble\": \"pitches\"", "\"water_runs\": true", "\"bulkheads\"", "\"down\"",
                            "\"up\"", "\"righting_dived\""}) {
      CAPTURE(key);
      CHECK(json.find(key) != std::string::npos);
    }
    const Boat good = withBulkheads(boat, 3);
    const auto good_model = buildModel(good);
    REQUIRE(good_model);
    const auto good_answer = file::answerDive(good, *good_model, good.water, 20);
    REQUIRE(good_answer);
    CHECK(anyContains(file::diveSentences(good_answer->sweep, good_answer->helps), "Nothing goes wrong"));
    const std::string good_json = file::diveJson(good, *good_answer);
    CHECK(good_json.find("\"metering_mL\"") != std::string::npos);
    CHECK(good_json.find("\"scope\"") != std::string::npos);
    const auto thick = file::answerDive(good, *good_model, good.water, 20, 0.008);
    REQUIRE(thick);
    CHECK(thick->scope_mass_per_length == massPerLengthOfScope(0.008, waterDensity(good.water).value()));
    CHECK(file::answerDive(good, *good_model, good.water, 20, 0.2).error().field == "scope");
  }

  TEST_CASE("a stalled pump's air presses on the tube from inside; an open tank's does not") {
    Boat boat = boatWith(SealedTankPump{pump(), {}});
    boat.cylinders[1].material = "PVC";
    const auto insideAt = [&](bool completes) {
      const auto model = buildModel(boat);
      REQUIRE(model);
      const auto report = evaluateBallast(boat, *model, boat.water, 1.0);
      REQUIRE(report);
      CHECK(report->fill_full.completes == completes);
      const auto s = file::estimateStrengths(boat, boat.water, 1, &*report)[1];
      REQUIRE(s);
      return std::pair(s->inside_pressure, report->air_pressure_sudden.value_or(0.0));
    };
    CHECK(insideAt(false).first == doctest::Approx(1.6e5 * 12.0 / 11.1).epsilon(1e-6));  // the pump's stall
    boat.cylinders[1].diameter = 0.08;  // air enough behind the vent
    boat.ballast->kind = VentedTankPump{pump(), 2e-3};
    boat.tank->capacity = 0.9e-3;
    const auto [inside, sudden] = insideAt(true);
    CHECK(inside == sudden);
    CHECK(sudden > 0);
    boat.ballast->kind = kKinds[3];
    CHECK(insideAt(true).first == 0.0);
  }

  TEST_CASE(
      "the ballast system in words, in the person's units, always ends with the caution about pressure") {
    for (const BallastKind& kind : kKinds) {
      const Boat boat = boatWith(kind);
      const auto model = buildModel(boat);
      REQUIRE(model);
      const auto answer = file::answerBallast(boat, *model, boat.water, 1.0);
      REQUIRE(answer);
      const auto lines = file::ballastSentences(boat, *answer);
      CHECK(lines.back() == kPressureCaution);
      CHECK(anyContains(lines, "comes up by herself"));
      const std::string json = file::ballastJson(boat, *answer);
      CHECK(json.find("\"caution\"") != std::string::npos);
      CHECK(json.find("inf") == std::string::npos);
      CHECK(json.find("nan") == std::string::npos);
      for (const std::string& line : file::ballastSentences(boat, *answer, file::kInchUnits)) {
        CAPTURE(line);
        for (const char* metric : {" bar", " g ", " mL", " mm", " m ", " m.", " m;"})
          CHECK(line.find(metric) == std::string::npos);
      }
    }
  }
}
