// The forms of the hull: what they enclose, their skins, and what they refuse.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <pondtrim/model.hpp>
#include <pondtrim/plan.hpp>

#include "hull_section.hpp"
#include "skin_mesh.hpp"
#include "support/boats.hpp"
#include "support/meshes.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

Skin skinOf(const SkinForm& form) {
  Skin skin;
  skin.form = form;
  skin.position = {0.1, 0.02, 0.05};
  return skin;
}

double areaOf(const SkinForm& form) {
  const Skin skin = skinOf(form);
  return surfaceArea(meshSkin(skin)) * facetFactor(skin);
}

/// Area of a body of revolution by a million thin cones.
template <class Form>
double slowArea(const Form& form, double length) {
  constexpr int kSlices = 1000000;
  double area = kPi * (std::pow(radiusAt(form, 0), 2) + std::pow(radiusAt(form, length), 2)), before = 0,
         from = 0;
  for (int i = 0; i <= kSlices; ++i) {
    const double x = length * (1 - std::cos(kPi * i / kSlices)) / 2;  // slices crowd towards both ends
    const double r = radiusAt(form, x);
    if (i > 0) area += kPi * (r + before) * std::hypot(x - from, r - before);
    before = r;
    from = x;
  }
  return area;
}

Boat boatWith(const SkinForm& form) {
  Boat boat = fullBoat();
  boat.skins[0].form = form;
  return boat;
}

std::string faultOf(const SkinForm& form) {
  const auto checked = checkBoat(boatWith(form));
  return checked ? "" : checked.error().field;
}

}  // namespace

TEST_CASE("round hulls close, turn outwards and enclose the volume of their radii") {
  const SuboffForm suboff{0.9, 0.1, 0.2, 0.25};
  const MyringForm pointed{0.1, 0.15, 0.4, 0.3, 0, 0, 2.5, 0.3},
      cut{0.1, 0.15, 0.4, 0.3, 0.01, 0.03, 1.5, 0.4};
  const auto check = [](const auto& form, double length) {
    const Cut whole = CutMesh::solid(meshSkin(skinOf(form))).whole();
    double volume = 0;
    constexpr int kSlices = 200000;
    for (int i = 0; i < kSlices; ++i)
      volume += kPi * std::pow(radiusAt(form, length * (i + 0.5) / kSlices), 2) * length / kSlices;
    CHECK(hullSize(form).x == doctest::Approx(length));
    CHECK(whole.volume / polygonShare(64) == doctest::Approx(volume).epsilon(2e-3));
    CHECK(whole.moment.y / whole.volume == doctest::Approx(0.02));
    CHECK(whole.moment.z / whole.volume == doctest::Approx(0.05));
  };
  check(suboff, 0.9);
  check(pointed, 0.85);
  check(cut, 0.81);
}

TEST_CASE("the skin of a Myring body has the area of its curves, with and without offsets") {
  const MyringForm pointed{0.1, 0.15, 0.4, 0.3, 0, 0, 2, 0.3}, cut{0.1, 0.15, 0.4, 0.3, 0.01, 0.03, 2, 0.4};
  CHECK(areaOf(pointed) == doctest::Approx(slowArea(pointed, 0.85)).epsilon(3e-5));
  CHECK(areaOf(cut) == doctest::Approx(slowArea(cut, 0.81)).epsilon(3e-5));
}

TEST_CASE("a casing that is round, with round ends as long as it is half broad, is half a capsule") {
  const double r = 0.03, length = 0.4;
  const CasingForm form{length, 2 * r, r, r, r, 2, 2, 2};
  CHECK(areaOf(form) == doctest::Approx(2 * kPi * r * r + kPi * r * (length - 2 * r)).epsilon(3e-5));
  const Mesh mesh = meshSkin(skinOf(form));
  for (const Vec3& v : mesh.vertices) CHECK(v.z > 0.05 - 1e-12);  // the foot is open and lies on the hull
}

TEST_CASE("a flat casing is broad on top") {
  CasingForm form{0.4, 0.04, 0.02, 0.05, 0.05};
  form.section_power = 12;
  // Nearly a box: top and two sides of the parallel part.
  const double middle = 0.3 * (0.04 + 2 * 0.02);
  CHECK(areaOf(form) > 0.93 * middle);
}

TEST_CASE("a plate displaces its area times its thickness wherever it points, and a pair twice that") {
  const double area = (0.08 + 0.05) / 2 * 0.06, thickness = 0.003;
  for (const double slant : {0.0, 0.7, kPi / 2, -kPi / 2, -2.5}) {
    CAPTURE(slant);
    Skin skin = skinOf(PlateForm{0.08, 0.05, 0.06, 0.012, slant, false});
    skin.thickness = thickness;
    CHECK(surfaceArea(meshSkin(skin)) == doctest::Approx(area).epsilon(1e-12));
    CHECK(facetFactor(skin) == 1.0);
    const Cut whole = CutMesh::skin(meshSkin(skin), thickness).whole();
    CHECK(whole.volume == doctest::Approx(area * thickness).epsilon(1e-12));
    // Centroid of a trapezium: 1/3 (2 tip + root) / (tip + root) of the span.
    const double out = 0.06 / 3 * (2 * 0.05 + 0.08) / (0.05 + 0.08);
    const Vec3 centre = whole.moment / whole.volume;
    CHECK(centre.y == doctest::Approx(0.02 + out * std::cos(slant)));
    CHECK(centre.z == doctest::Approx(0.05 + out * std::sin(slant)));
    CHECK(centre.x == doctest::Approx(0.1 - 0.012 * out / 0.06));
    std::get<PlateForm>(skin.form).mirrored = true;
    const Cut pair = CutMesh::skin(meshSkin(skin), thickness).whole();
    CHECK(pair.volume == doctest::Approx(2 * area * thickness).epsilon(1e-12));
    CHECK(std::abs(pair.moment.y) < 1e-15);
  }
}

TEST_CASE("a bar keel is a plate of its own thickness: cut at any draft it displaces the bar below") {
  Skin keel = skinOf(PlateForm{0.3, 0.3, 0.01, 0, -kPi / 2, false});
  keel.thickness = 0.012;
  const CutMesh cut = CutMesh::skin(meshSkin(keel), keel.thickness);
  for (const double z : {0.042, 0.045, 0.049})
    CHECK(cut.cut({{0, 0, 1}, z}).volume == doctest::Approx(0.3 * 0.012 * (z - 0.04)).epsilon(1e-9));
}

TEST_CASE("the numbers of each form have their ranges, and the two that disagree are named") {
  CHECK(faultOf(SuboffForm{}).empty());
  CHECK(faultOf(MyringForm{}).empty());
  CHECK(faultOf(CasingForm{}).empty());
  CHECK(faultOf(PlateForm{}).empty());
  const std::string at = "skins[0].form.";
  CHECK(faultOf(SuboffForm{1, 0, 0.2, 0.2}) == at + "diameter");
  CHECK(faultOf(SuboffForm{1, 0.1, 0.6, 0.5}) == at + "nose_length");
  CHECK(faultOf(SuboffForm{11, 0.1, 0.6, 0.5}) == at + "length");
  CHECK(faultOf(MyringForm{0.1, 0, 0.4, 0.3}) == at + "nose_length");
  CHECK(faultOf(MyringForm{0.1, 0.1, -1, 0.3}) == at + "middle_length");
  CHECK(faultOf(MyringForm{0.1, 0.1, 0.4, 0.3, 0.2}) == at + "nose_offset");
  CHECK(faultOf(MyringForm{0.1, 0.1, 0.4, 0.3, 0, 0.29}) == at + "tail_offset");
  CHECK(faultOf(MyringForm{0.1, 0.1, 0.4, 0.3, 0, 0, 0.5}) == at + "nose_power");
  CHECK(faultOf(MyringForm{0.1, 0.1, 0.4, 0.3, 0, 0, 2, 0.5}) == at + "tail_angle");  // it would swell
  CHECK(faultOf(MyringForm{0.1, 0.1, 0.4, 0.3, 0, 0, 2, -0.1}) == at + "tail_angle");
  CHECK(faultOf(CasingForm{0.5, 0.04, 0}) == at + "height");
  CHECK(faultOf(CasingForm{0.5, 0.04, 0.02, 0.3, 0.3}) == at + "nose_length");
  CHECK(faultOf(CasingForm{0.5, 0.04, 0.02, 0.1, 0.1, 9}) == at + "nose_root");
  CHECK(faultOf(CasingForm{0.5, 0.04, 0.02, 0.1, 0.1, 2, 0.5}) == at + "tail_root");
  CHECK(faultOf(CasingForm{0.5, 0.04, 0.02, 0.1, 0.1, 2, 2, 13}) == at + "section_power");
  CHECK(faultOf(PlateForm{0, 0.05, 0.05}) == at + "length");
  CHECK(faultOf(PlateForm{0.08, 0, 0.05}) == at + "tip_length");
  CHECK(faultOf(PlateForm{0.08, 0.05, 0}) == at + "span");
  CHECK(faultOf(PlateForm{0.08, 0.05, 0.05, 20}) == at + "rake");
  CHECK(faultOf(PlateForm{0.08, 0.05, 0.05, 0, 4}) == at + "slant");
}

TEST_CASE("places proposed for a round hull lie inside its skin") {
  Boat boat = boatWith(SuboffForm{0.96, 0.12, 0.224, 0.245});
  boat.skins[0].position = {0.0, 0, 0.06};
  boat.places.clear();
  const Boat with = proposePlaces(boat);
  REQUIRE(with.parts.size() > boat.parts.size());
  int corners = 0;
  for (std::size_t i = boat.parts.size(); i < with.parts.size(); ++i) {
    const Part& part = with.parts[i];
    const auto* box = std::get_if<BoxShape>(&part.shape);
    if (part.role != Role::Foam || box == nullptr) continue;
    CAPTURE(part.name);
    for (const double sx : {-0.5, 0.5}) {
      for (const double sz : {-0.5, 0.5}) {
        const Vec3 corner = part.position + box->size * Vec3(sx, 0.5, sz);
        CHECK(corner.y < HullSections(boat.skins[0].form).halfBreadth(corner.x, corner.z - 0.06));
        ++corners;
      }
    }
  }
  CHECK(corners >= 8);
}
