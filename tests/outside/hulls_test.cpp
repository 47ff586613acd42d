// Hulls whose volumes and surfaces are published: the core's forms, turned into finer meshes than those of a
// boat and cut by the core. Sources: tests/reference/suboff*.csv, remus.csv, plain_solids.csv.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <glm/geometric.hpp>
#include <map>
#include <pondtrim/model.hpp>
#include <string>

#include "hull_section.hpp"
#include "skin_mesh.hpp"
#include "support/compare.hpp"
#include "support/meshes.hpp"
#include "support/reference.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

constexpr int kSides = 96;  // loses 0.071379 % of area (H21), known exactly and put back in
// Chords between 400 cosine-spaced stations lie inside the curve: about 1e-6 of volume.
constexpr double kMesh = 5e-6;
const Plane kAllUnder{{0, 0, 1}, 10.0};

double relative(double got, double want) { return std::abs(got - want) / std::abs(want); }

// What the round body has when the polygon's share is put back: volume and its moment along x.
Cut rounded(Cut cut) {
  cut.volume /= polygonShare(kSides);
  cut.moment /= polygonShare(kSides);
  return cut;
}

using Stations = std::vector<std::pair<double, double>>;

/// (x, radius) from x0 to x1 in n steps, closer together at both ends, where hulls are round.
Stations stations(const std::function<double(double)>& radius, double x0, double x1, int n) {
  Stations out;
  for (int i = 0; i <= n; ++i) {
    const double x = x0 + (x1 - x0) * (1.0 - std::cos(kPi * i / n)) / 2.0;
    out.emplace_back(x, std::max(0.0, radius(x)));
  }
  return out;
}

// Stations count from the nose here, as in the published tables; the core counts from the aft end.
constexpr double kSuboffLength = 343.0 / 24, kSuboffMaxRadius = 5.0 / 6.0;  // [ft]
constexpr double kSuboffBow = 10.0 / 3, kSuboffMiddle = 511.0 / 48, kSuboffAfter = 671.0 / 48;
const SuboffForm kSuboff{kSuboffLength, 2 * kSuboffMaxRadius, kSuboffBow, kSuboffLength - kSuboffMiddle};
double suboffRadius(double x) { return radiusAt(kSuboff, kSuboffLength - x); }

// Prestero 2001, Table 2.1 [m].
const MyringForm kRemus{0.191, 0.191, 0.654, 0.541, 0.0165, 0.0368, 2, 0.436};
double remusLength() { return lengthOf(kRemus); }
double remusRadius(double s) { return radiusAt(kRemus, remusLength() - s); }

std::map<std::string, double> values(const std::string& table, const std::string& key,
                                     const std::string& column) {
  std::map<std::string, double> out;
  for (const ReferenceRow& row : referenceTable(table)) out[row.text(key)] = row.number(column);
  return out;
}

Cut wholeOf(const Stations& s) { return rounded(CutMesh::solid(revolutionMesh(s, kSides)).cut(kAllUnder)); }

Stations append(Stations a, const Stations& b) {
  a.insert(a.end(), b.begin() + 1, b.end());
  return a;
}

Stations suboff() {
  Stations all = stations(suboffRadius, 0, kSuboffBow, 400);
  all.emplace_back(kSuboffMiddle, kSuboffMaxRadius);
  all = append(all, stations(suboffRadius, kSuboffMiddle, kSuboffAfter - 1e-9, 400));
  return append(all, stations(suboffRadius, kSuboffAfter, kSuboffLength, 100));
}

Stations remus() {
  const double nose = 0.191 - 0.0165, shoulder = nose + 0.654;
  Stations all = stations(remusRadius, 0, nose - 1e-12, 400);
  all.emplace_back(shoulder, 0.191 / 2);
  return append(all, stations(remusRadius, shoulder, remusLength(), 400));
}

// Area of the side view by the waterline of a cut along the axis.
double lateralArea(const Stations& s) { return CutMesh::skin(revolutionMesh(s, kSides, false), 1e-4).area(); }

}  // namespace

TEST_SUITE("hulls with published volumes") {
  TEST_CASE("SUBOFF offsets are those of Roddy's table, so the equations are right (H5, H17)") {
    int rows = 0;
    for (const ReferenceRow& row : referenceTable("suboff_offsets")) {
      CAPTURE(row.text("id"));
      const double got = suboffRadius(row.number("x_ft")) / kSuboffMaxRadius;
      CHECK(std::abs(got - row.number("R_over_Rmax")) < row.number("tolerance"));
      ++rows;
    }
    CHECK(rows == 13);
  }

  TEST_CASE("SUBOFF displaces 24.692 cubic feet with its centroid 6.590 ft from the nose (H1, H3, H4)") {
    const auto want = values("suboff", "quantity", "value");
    const Cut whole = wholeOf(suboff());
    CHECK(relative(whole.volume, want.at("volume")) < kMesh);
    CHECK(relative(centroid(whole).x, want.at("lcb")) < 1e-5);
    CHECK(relative(wholeOf(stations(suboffRadius, 0, kSuboffBow, 400)).volume, want.at("volume_bow")) <
          kMesh);
    CHECK(relative(wholeOf(stations(suboffRadius, kSuboffBow, kSuboffMiddle, 4)).volume,
                   want.at("volume_middle")) < kMesh);
    CHECK(relative(wholeOf(stations(suboffRadius, kSuboffMiddle, kSuboffAfter - 1e-9, 400)).volume,
                   want.at("volume_afterbody")) < kMesh);
  }

  TEST_CASE("SUBOFF's wetted surface is 64.457 square feet (H2, H18)") {
    // An inscribed 96-gon's perimeter is short by 1.8e-4; chords along the length by some 1e-6.
    const double sides = std::sin(kPi / kSides) / (kPi / kSides), tolerance = 1e-4;
    const auto want = values("suboff", "quantity", "value");
    const auto area = [&](double x0, double x1, int n) {
      return lateralArea(stations(suboffRadius, x0, x1, n)) / sides;
    };
    CHECK(relative(lateralArea(suboff()) / sides, want.at("wetted_surface")) < tolerance);
    CHECK(relative(area(0, kSuboffBow, 400), want.at("wetted_bow")) < tolerance);
    CHECK(relative(area(kSuboffBow, kSuboffMiddle, 2), want.at("wetted_middle")) < tolerance);
    CHECK(relative(area(kSuboffMiddle, kSuboffAfter - 1e-9, 400), want.at("wetted_aft")) < tolerance);
    CHECK(relative(area(kSuboffAfter, kSuboffLength, 200), want.at("wetted_cap")) < tolerance);
  }

  TEST_CASE("SUBOFF cut along its axis shows half of all that, whichever way it is rolled") {
    const auto want = values("suboff", "quantity", "value");
    const CutMesh solid = CutMesh::solid(revolutionMesh(suboff(), kSides));
    const CutMesh skin = CutMesh::skin(revolutionMesh(suboff(), kSides, false), 1e-3);
    for (double roll : {0.0, 0.3, 1.1, 2.0, 4.4}) {
      const Plane plane{{0, std::sin(roll), std::cos(roll)}, 0.0};
      CHECK(relative(rounded(solid.cut(plane)).volume, want.at("volume") / 2) < kMesh);
      CHECK(relative(skin.cut(plane).volume, want.at("wetted_surface") / 2 * 1e-3) < 1e-3);
    }
  }

  TEST_CASE("a boat's skin of SUBOFF form has SUBOFF's wetted surface at any scale (H2)") {
    const auto want = values("suboff", "quantity", "value");
    for (const double scale : {1.0, 1.0 / 24, 0.3048}) {
      Skin skin;
      skin.form = SuboffForm{kSuboff.length * scale, kSuboff.diameter * scale, kSuboff.nose_length * scale,
                             kSuboff.tail_length * scale};
      const double area = surfaceArea(meshSkin(skin)) * facetFactor(skin) / (scale * scale);
      CHECK(relative(area, want.at("wetted_surface")) < 2e-5);
    }
  }

  TEST_CASE("the standard proportions are SUBOFF's") {
    const SuboffForm standard;
    for (const double x : {0.0, 0.01, 0.1, 0.22, 0.3, 0.7, 0.85, 0.99}) {
      CAPTURE(x);
      CHECK(std::abs(radiusAt(standard, x) - radiusAt(kSuboff, x * kSuboffLength) / kSuboffLength) < 1e-12);
    }
  }

  TEST_CASE("REMUS displaces what Prestero's thesis says (H6-H10)") {
    const auto want = values("remus", "quantity", "value"), thesis = values("remus", "quantity", "thesis");
    const auto tolerance = values("remus", "quantity", "thesis_tolerance");
    const Cut whole = wholeOf(remus());
    const CutMesh solid = CutMesh::solid(revolutionMesh(remus(), kSides));
    const std::map<std::string, double> got{
        {"length", remusLength()},
        {"volume", whole.volume},
        {"centroid", centroid(whole).x},
        {"side_area", solid.cut({{0, 0, 1}, 0.0}).plane_area},
        {"frontal_area", solid.cut({{1, 0, 0}, 0.5}).plane_area / polygonShare(kSides)},
    };
    for (const auto& row : got) {  // clang 14 cannot capture a structured binding
      const auto& quantity = row.first;
      const double value = row.second;
      CAPTURE(quantity);
      CHECK(relative(value, want.at(quantity)) < 2e-5);
      CHECK(std::abs(value - thesis.at(quantity)) < tolerance.at(quantity));
    }
    CHECK(got.size() == want.size());
  }

  TEST_CASE("plain solids have their closed-form volumes and surfaces (H13-H16, H19, H20)") {
    const auto volume = values("plain_solids", "solid", "volume"),
               surface = values("plain_solids", "solid", "surface");
    const auto centre = values("plain_solids", "solid", "centroid");
    const auto ellipse = [](double x) {
      return 0.1 * std::sqrt(std::max(0.0, 1 - std::pow((x - 0.5) / 0.5, 2)));
    };
    const auto sears = [](double x) { return 0.05 * std::pow(std::max(0.0, 4 * x * (1 - x)), 0.75); };
    const std::map<std::string, Stations> solids{
        {"spheroid", stations(ellipse, 0, 1, 800)},
        {"cone", {{0, 0}, {0.3, 0.1}}},
        {"sears_haack", stations(sears, 0, 1, 800)},
        {"frustum", {{0, 0.06}, {0.2, 0.03}}},
    };
    for (const auto& row : solids) {
      const auto& name = row.first;
      const auto& s = row.second;
      CAPTURE(name);
      const Cut whole = wholeOf(s);
      CHECK(relative(whole.volume, volume.at(name)) < 1e-5);
      CHECK(relative(centroid(whole).x, centre.at(name)) < 1e-5);
      if (surface.at(name) > 0) {
        CHECK(relative(lateralArea(s) / (std::sin(kPi / kSides) / (kPi / kSides)), surface.at(name)) < 5e-4);
      }
    }
    // The same spheroid and capsule without facets.
    const Cut spheroid = cutCylinder({{0.5, 0, 0}, {1, 0, 0}, 0.1, 0.0, 0.5, 0.5}, kAllUnder);
    CHECK(relative(spheroid.volume, volume.at("spheroid")) < 3e-6);  // the printed digits
    const Cut capsule = cutCylinder({{0.2, 0, 0}, {1, 0, 0}, 0.05, 0.3, 0.05, 0.05}, kAllUnder);
    CHECK(relative(capsule.volume, volume.at("capsule")) < 2e-6);
    CHECK(relative(centroid(capsule).x, centre.at("capsule")) < 1e-12);
  }

  TEST_CASE("a ring has positive volume and the waterplane of two discs (H20)") {
    const int around = 200;
    const CutMesh ring = CutMesh::solid(torusMesh(0.1, 0.01, around, kSides));
    const double share = polygonShare(around) * polygonShare(kSides);
    const auto volume = values("plain_solids", "solid", "volume");
    CHECK(relative(ring.whole().volume / share, volume.at("torus")) < 2e-4);
    // On edge, cut through the hole: two round sections, each the tube's.
    const Cut half = ring.cut({{1, 0, 0}, 0.0});
    CHECK(relative(half.volume, ring.whole().volume / 2) < 1e-12);
    CHECK(relative(half.plane_area / polygonShare(kSides), 2 * kPi * 1e-4) < 1e-9);
  }

  TEST_CASE("an inscribed 96-gon loses 0.071379 % of its cylinder, and the closed form nothing (H21)") {
    const CylinderSolid round{{0.5, 0, 0}, {1, 0, 0}, 0.05, 1.0, 0, 0};
    const Cut facets = CutMesh::solid(revolutionMesh({{0, 0.05}, {1, 0.05}}, 96)).cut(kAllUnder);
    const Cut exact = cutCylinder(round, kAllUnder);
    CHECK(relative(exact.volume, kPi * 0.05 * 0.05) < 1e-14);
    CHECK(std::abs(100 * (1 - facets.volume / exact.volume) - 0.071379) < 1e-6);
  }
}
