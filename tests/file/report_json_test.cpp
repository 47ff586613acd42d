// The report as JSON against the report itself, by an independent walk through the text.
#include <doctest/doctest.h>
#include <rapidjson/document.h>

#include <pondtrim/file/report_json.hpp>

#include "support/presets.hpp"

using namespace pondtrim;
using namespace pondtrim::file;

namespace {

struct Solved {
  Model model;
  Condition condition;
  Report report;
  rapidjson::Document json;
};

void solve(Solved& s, const Boat& boat, double share_of_tank) {
  s.model = buildModel(boat).value();
  s.condition = {boat.water, share_of_tank * s.model.tank_capacity};
  s.report = evaluate(s.model, s.condition).value();
  s.json.Parse(reportJson(boat, s.model, s.condition, s.report).c_str());
  REQUIRE_FALSE(s.json.HasParseError());
}

void checkNumber(const rapidjson::Value& object, const char* key, double expected) {
  CAPTURE(std::string(key));
  REQUIRE(object.HasMember(key));
  REQUIRE(object[key].IsNumber());
  CHECK(object[key].GetDouble() == doctest::Approx(expected).epsilon(1e-9));
}

constexpr double kDegrees = 57.29577951308232;

}  // namespace

TEST_CASE("every number of the report stands under a key with its unit") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    Solved s;
    solve(s, test::presetBoat(path).boat, 0.0);
    const Report& r = s.report;
    REQUIRE(r.bow);
    checkNumber(s.json, "draft_bow_mm", 1e3 * r.bow->draft);
    checkNumber(s.json, "draft_stern_mm", 1e3 * r.stern->draft);
    checkNumber(s.json, "line_above_water_bow_mm", 1e3 * r.bow->line_above_water);
    checkNumber(s.json, "line_above_water_stern_mm", 1e3 * r.stern->line_above_water);
    checkNumber(s.json, "sail_showing_mm", 1e3 * r.sail_showing);
    checkNumber(s.json, "trim_deg", kDegrees * r.rest.attitude.trim);
    checkNumber(s.json, "heel_deg", kDegrees * r.rest.attitude.heel);
    checkNumber(s.json, "displaced_mL", 1e6 * r.displaced_volume);
    checkNumber(s.json, "total_mass_g", 1e3 * r.total_mass);
    checkNumber(s.json, "carry_mass_g", 1e3 * r.carry_mass);
    checkNumber(s.json, "reserve_buoyancy_mL", 1e6 * r.reserve_buoyancy_volume);
    checkNumber(s.json, "net_buoyancy_submerged_g", 1e3 * r.net_buoyancy_submerged);
    checkNumber(s.json, "lcb_mm", 1e3 * r.centre_of_buoyancy.x);
    checkNumber(s.json, "vcg_mm", 1e3 * r.centre_of_gravity.z);
    checkNumber(s.json, "lcf_mm", 1e3 * r.lcf.value());
    checkNumber(s.json, "waterplane_area_cm2", 1e4 * r.waterplane_area);
    checkNumber(s.json, "gm_transverse_mm", 1e3 * r.gm_transverse);
    checkNumber(s.json, "gm_longitudinal_mm", 1e3 * r.gm_longitudinal);
    checkNumber(s.json, "bg_submerged_mm", 1e3 * r.bg_submerged);
    checkNumber(s.json, "mass_per_immersion_g_per_mm", r.mass_per_immersion);
    checkNumber(s.json, "moment_to_change_trim_g_mm_per_deg",
                r.moment_to_change_trim * 1e6 / 9.80665 / kDegrees);
    checkNumber(s.json["condition"], "water_density_kg_per_m3", r.rest.density);
    checkNumber(s.json["condition"], "tank_capacity_mL", 1e6 * s.model.tank_capacity);
    CHECK(s.json["outcome"] == "floats");
    CHECK_FALSE(s.json.HasMember("missing_buoyancy_g"));
  }
}

TEST_CASE("the table of 10 g is what 10 g do") {
  const Boat boat = test::presetBoat(test::presetPaths().front()).boat;
  Solved before, after;
  solve(before, boat, 0.0);
  const auto& row = before.json["effect_of_10_g"]["table"][7];
  Boat heavier = boat;
  Part weight;
  weight.name = "ten grams";
  weight.shape = PointShape{};
  weight.position = {row["x_mm"].GetDouble() / 1e3, 0.0, boat.marks.line_height};
  weight.mass = 0.01;
  heavier.parts.push_back(weight);
  solve(after, heavier, 0.0);
  for (const char* mark : {"draft_bow_mm", "draft_stern_mm"}) {
    const double change = after.json[mark].GetDouble() - before.json[mark].GetDouble();
    CHECK(row[mark].GetDouble() == doctest::Approx(change).epsilon(0.05));
  }
}

TEST_CASE("a boat that sinks: the word and the missing grams") {
  Boat boat = test::presetBoat(test::presetPaths().front()).boat;
  Part brick;
  brick.name = "brick";
  brick.shape = PointShape{};
  brick.position = {boat.length / 2, 0, 0};
  brick.mass = 50.0;
  boat.parts.push_back(brick);
  Solved s;
  solve(s, boat, 1.0);
  CHECK(s.json["outcome"] == "sinks");
  checkNumber(s.json, "missing_buoyancy_g", 1e3 * s.report.rest.missing_buoyancy);
  CHECK(s.report.rest.missing_buoyancy > 40.0);
  checkNumber(s.json["condition"], "tank_fill_mL", 1e6 * s.model.tank_capacity);
}
