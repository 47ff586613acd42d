// The presets are boats that a person could have built: they float at their line, dive as wanted, and what
// lies in the free-flooding space lies inside the hull.
#include "support/presets.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <pondtrim/report.hpp>

using namespace pondtrim;

namespace {

constexpr double kDegree = 0.017453292519943295;

bool isPoorOnPurpose(const Boat& boat) { return boat.name.find("poor trim") != std::string::npos; }

Report solve(const Boat& boat, double share_of_tank) {
  const auto model = buildModel(boat);
  if (!model) FAIL(model.error().message);
  const auto report = evaluate(*model, {boat.water, share_of_tank * model->tank_capacity});
  if (!report) FAIL(report.error().message);
  return *report;
}

/// How far out a point lies in the hull's section there: 1 on the skin's middle, less inside (SpindleForm).
double sectionReach(const Skin& skin, const Vec3& p) {
  const auto& f = std::get<SpindleForm>(skin.form);
  const double s = p.x - skin.position.x;
  double scale = 1.0, lift = 0.0;
  if (s < f.tail_length) {
    scale = std::pow(1.0 - std::pow((f.tail_length - s) / f.tail_length, f.tail_power), 1.0 / f.tail_root);
    lift = f.tail_lift;
  } else if (s > f.length - f.nose_length) {
    const double t = (s - f.length + f.nose_length) / f.nose_length;
    scale = std::pow(1.0 - std::pow(t, f.nose_power), 1.0 / f.nose_root);
    lift = f.nose_lift;
  }
  const double y = p.y / (0.5 * f.breadth * scale);
  const double z = (p.z - skin.position.z - lift * (1.0 - scale) * 0.5 * f.height) / (0.5 * f.height * scale);
  return std::pow(std::abs(y), f.section_power) + std::pow(std::abs(z), f.section_power);
}

/// Corners of a box or strip.
std::vector<Vec3> corners(const Part& part) {
  Vec3 aft{0.0}, fore{0.0};
  if (const auto* box = std::get_if<BoxShape>(&part.shape)) {
    aft = fore = box->size;
  } else if (const auto* strip = std::get_if<StripShape>(&part.shape)) {
    aft = {strip->length, strip->aft_breadth, strip->aft_height};
    fore = {strip->length, strip->fore_breadth, strip->fore_height};
  }
  if (aft.x == 0.0) FAIL("this test knows boxes and strips only: " << part.name);
  std::vector<Vec3> out;
  for (const double y : {-0.5, 0.5}) {
    for (const double z : {-0.5, 0.5}) {
      out.push_back(part.position + Vec3(-0.5 * aft.x, y * aft.y, z * aft.z));
      out.push_back(part.position + Vec3(0.5 * fore.x, y * fore.y, z * fore.z));
    }
  }
  return out;
}

}  // namespace

TEST_CASE("at least five boats from 0.6 m to 2.2 m, one of them above 20 kg") {
  double shortest = 10.0, longest = 0.0, heaviest = 0.0;
  for (const std::string& path : test::presetPaths()) {
    const Boat boat = test::presetBoat(path).boat;
    shortest = std::min(shortest, boat.length);
    longest = std::max(longest, boat.length);
    heaviest = std::max(heaviest, solve(boat, 0.0).carry_mass);
  }
  CHECK(test::presetPaths().size() >= 5);
  CHECK(shortest == 0.6);
  CHECK(longest == 2.2);
  CHECK(heaviest > 20.0);
}

TEST_CASE("the good boats float within 2 mm of their line, upright, and dive level with a little sail out") {
  int good = 0;
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat boat = test::presetBoat(path).boat;
    if (isPoorOnPurpose(boat)) continue;
    const Report surfaced = solve(boat, 0.0), dived = solve(boat, 1.0);
    REQUIRE(surfaced.bow);
    CHECK(std::abs(surfaced.bow->line_above_water) < 0.002);
    CHECK(std::abs(surfaced.stern->line_above_water) < 0.002);
    CHECK(std::abs(surfaced.rest.attitude.heel) < 0.2 * kDegree);
    CHECK(surfaced.gm_transverse > 0.004);
    CHECK(dived.rest.outcome == Outcome::FloatsAwash);
    CHECK(std::abs(dived.rest.attitude.trim) < 1.0 * kDegree);
    CHECK(std::abs(dived.rest.attitude.heel) < 0.2 * kDegree);
    CHECK(std::abs(dived.sail_showing - boat.aims.sail_showing) < 0.005);
    CHECK(dived.net_buoyancy_submerged > 0.0);
    CHECK(dived.net_buoyancy_submerged < 0.01 * dived.total_mass);
    CHECK(dived.bg_submerged > 0.004);
    ++good;
  }
  CHECK(good >= 5);
}

TEST_CASE("on the way down the good boats stay upright and near level") {
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat boat = test::presetBoat(path).boat;
    if (isPoorOnPurpose(boat)) continue;
    for (int tenth = 1; tenth < 10; ++tenth) {
      CAPTURE(tenth);
      const Report r = solve(boat, 0.1 * tenth);
      CHECK(std::abs(r.rest.attitude.trim) < 2.0 * kDegree);
      CHECK(std::abs(r.rest.attitude.heel) < 0.2 * kDegree);
      CHECK(r.gm_transverse > 0.004);
    }
  }
}

TEST_CASE("the poor one is off by more than a centimetre, leans, and dives badly") {
  int poor = 0;
  for (const std::string& path : test::presetPaths()) {
    const Boat boat = test::presetBoat(path).boat;
    if (!isPoorOnPurpose(boat)) continue;
    CAPTURE(path);
    const Report surfaced = solve(boat, 0.0), dived = solve(boat, 1.0);
    REQUIRE(surfaced.bow);
    CHECK(surfaced.rest.outcome == Outcome::Floats);
    CHECK(surfaced.bow->line_above_water - surfaced.stern->line_above_water > 0.01);
    CHECK(std::abs(surfaced.rest.attitude.heel) > 1.0 * kDegree);
    CHECK(std::abs(dived.rest.attitude.trim) > 2.0 * kDegree);
    ++poor;
  }
  CHECK(poor == 1);
}

TEST_CASE("foam and lead lie inside the skin and clear of the cylinder") {
  int checked = 0;
  for (const std::string& path : test::presetPaths()) {
    CAPTURE(path);
    const Boat boat = test::presetBoat(path).boat;
    const Skin& hull = boat.skins.front();
    for (const Part& part : boat.parts) {
      if (part.role != Role::Foam && part.role != Role::Lead) continue;
      CAPTURE(part.name);
      double low_y = 1.0, high_y = -1.0, low_z = 1.0, high_z = -1.0;
      for (const Vec3& corner : corners(part)) {
        CHECK(sectionReach(hull, corner) < 1.0);
        low_y = std::min(low_y, corner.y), high_y = std::max(high_y, corner.y);
        low_z = std::min(low_z, corner.z), high_z = std::max(high_z, corner.z);
      }
      for (const SealedCylinder& c : boat.cylinders) {
        const double half = std::abs(corners(part)[1].x - part.position.x);
        if (part.position.x + half <= c.position.x || part.position.x - half >= c.position.x + c.length)
          continue;
        const double dy = std::max({0.0, low_y - c.position.y, c.position.y - high_y});
        const double dz = std::max({0.0, low_z - c.position.z, c.position.z - high_z});
        CHECK(std::hypot(dy, dz) > 0.5 * c.diameter - 1e-5);
      }
      ++checked;
    }
  }
  CHECK(checked > 20);
}
