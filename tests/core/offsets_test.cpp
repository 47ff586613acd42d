// Tables of offsets of known forms, faired: their closed-form volume comes back within the stated error.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <pondtrim/hull.hpp>

#include "fair_hull.hpp"
#include "hull_section.hpp"
#include "skin_mesh.hpp"
#include "support/boats.hpp"
#include "support/compare.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

/// Half breadths of a form at `waterlines` between keel and deck of each station.
template <class Breadth, class Depth>
OffsetsForm tableOf(const std::vector<double>& stations, int waterlines, const Depth& half_height,
                    const Breadth& half_breadth) {
  OffsetsForm form;
  for (const double x : stations) {
    OffsetStation s;
    s.at_x = x;
    const double h = half_height(x);
    for (int k = 0; k <= waterlines && h > 0; ++k) {
      s.heights.push_back(h * (2.0 * k / waterlines - 1));
      s.half_breadths.push_back(k == 0 || k == waterlines ? 0.0 : half_breadth(x, s.heights.back()));
    }
    if (h <= 0) {
      s.heights = {0.0};
      s.half_breadths = {0.0};
    }
    form.stations.push_back(s);
  }
  return form;
}

std::vector<double> evenly(double from, double to, int pieces) {
  std::vector<double> out;
  for (int i = 0; i <= pieces; ++i) out.push_back(from + (to - from) * i / pieces);
  return out;
}

double root(double v) { return std::sqrt(std::max(0.0, v)); }

OffsetsForm ellipsoid(int stations, int waterlines) {
  const auto height = [](double x) { return 0.06 * root(1 - std::pow(2 * x - 1, 2)); };
  return tableOf(evenly(0, 1, stations), waterlines, height,
                 [&](double x, double z) { return 0.1 * root(1 - std::pow(2 * x - 1, 2) - z * z / 0.0036); });
}

/// Wigley's parabolas, below the water and mirrored above: y = B (1 - X^2) (1 - Z^2), level keel and deck.
OffsetsForm parabolas(int stations, int waterlines) {
  return tableOf(
      evenly(-0.5, 0.5, stations), waterlines, [](double x) { return std::abs(x) < 0.5 ? 0.07 : 0.0; },
      [](double x, double z) { return 0.05 * (1 - 4 * x * x) * (1 - z * z / 0.0049); });
}

void checkVolume(const OffsetsForm& form, double exact, double relative) {
  const Fairing fairing = fairingOf(form);
  CAPTURE(fairing.volume / exact - 1);
  CAPTURE(fairing.volume_spread / exact);
  CHECK(std::abs(fairing.volume - exact) < fairing.volume_spread);
  CHECK(fairing.volume_spread < relative * exact);
}

}  // namespace

TEST_CASE("offsets of an ellipsoid give its volume within the stated error, which falls with more of them") {
  const double exact = 4.0 / 3 * kPi * 0.5 * 0.1 * 0.06;
  checkVolume(ellipsoid(10, 8), exact, 0.075);
  checkVolume(ellipsoid(20, 16), exact, 0.00125);
  CHECK(std::abs(fairingOf(ellipsoid(20, 16)).volume / exact - 1) < 1e-4);
}

TEST_CASE("offsets of a hull of parabolas give its volume within the stated error") {
  // Integral of 2 B (1 - X^2)(1 - Z^2): 2 B (2/3 L) (2/3 H).
  const double exact = 2 * 0.05 * (2.0 / 3) * (2.0 / 3 * 0.14);
  checkVolume(parabolas(10, 8), exact, 0.0875);
  checkVolume(parabolas(20, 12), exact, 0.0063);
  CHECK(std::abs(fairingOf(parabolas(20, 12)).volume / exact - 1) < 0.001);
}

TEST_CASE("offsets of SUBOFF give its volume and centroid within the stated error") {
  const SuboffForm suboff;  // H1, H3 in tests/reference/suboff.csv, for a hull one metre long
  const double feet = 343.0 / 24, exact = 24.69240 / (feet * feet * feet);
  // The last number: as measured, a little more.
  for (const auto& [stations, stated] :
       {std::pair{9u, 0.0175}, std::pair{15u, 0.0213}, std::pair{25u, 0.0063}}) {
    const OffsetsForm form = offsetsOf(suboff, stations, 13);
    checkVolume(form, exact, stated);
    if (stations < 15) continue;
    Skin skin;
    skin.form = form;
    CHECK(roomInside(skin).centroid.x == doctest::Approx(1 - 6.58992 / feet).epsilon(0.005));
  }
}

TEST_CASE("few numbers or many, the error of fairing is within what is stated") {
  // Both once failed: of 9 stations of SUBOFF those left after leaving out the odd ones held both shoulders;
  // and the upright stem of the parabolas ends in a point, so that the error falls only with the first power
  // of their number.
  const double feet = 343.0 / 24, suboff = 24.69240 / (feet * feet * feet);
  for (std::size_t stations = 5; stations <= 31; ++stations) {
    CAPTURE(stations);
    checkVolume(offsetsOf(SuboffForm{}, stations, 13), suboff, 0.35);
  }
  for (std::size_t points = 5; points <= 17; ++points) {
    CAPTURE(points);
    checkVolume(offsetsOf(SuboffForm{}, 21, points), suboff, 0.35);
  }
  for (int pieces = 4; pieces <= 24; ++pieces) {
    CAPTURE(pieces);
    checkVolume(ellipsoid(pieces, 8), 4.0 / 3 * kPi * 0.5 * 0.1 * 0.06, 0.6);
    checkVolume(parabolas(pieces, 16), 2 * 0.05 * (2.0 / 3) * (2.0 / 3 * 0.14), 0.6);
  }
}

TEST_CASE("the hull passes through every number of its table") {
  const OffsetsForm form = ellipsoid(8, 6);
  const FairHull hull(form);
  for (std::size_t i = 1; i + 1 < form.stations.size(); ++i) {
    const OffsetStation& s = form.stations[i];
    // 33 points of the curve: between them, chords.
    for (std::size_t k = 0; k < s.heights.size(); ++k)
      CHECK(breadthAt(hull.section(s.at_x + 1e-9), s.heights[k]) ==
            doctest::Approx(s.half_breadths[k]).epsilon(0.02));
  }
}

TEST_CASE("straight stays straight: a box of offsets is a box, and a parallel middle stays parallel") {
  OffsetsForm box;
  for (const double x : {0.0, 0.3, 0.5, 1.0}) {
    OffsetStation s;
    s.at_x = x;
    s.heights = {0, 0, 0.1, 0.1};
    s.half_breadths = {0, 0.05, 0.05, 0};
    box.stations.push_back(s);
  }
  Skin skin;
  skin.form = box;
  CHECK(roomInside(skin).volume == doctest::Approx(0.01).epsilon(0.02));
  const FairHull hull(box);
  for (const double x : {0.1, 0.4, 0.77}) CHECK(breadthAt(hull.section(x), 0.05) == doctest::Approx(0.05));
}

TEST_CASE("the skin of offsets closes and turns outwards, in points and in flat ends") {
  OffsetsForm cut = ellipsoid(10, 8);
  cut.stations.erase(cut.stations.begin());
  for (const OffsetsForm& form : {ellipsoid(10, 8), parabolas(9, 7), cut}) {
    Skin skin;
    skin.form = form;
    const Mesh mesh = meshSkin(skin);
    CHECK(openEdge(mesh).empty());
    const Cut whole = CutMesh::solid(mesh).whole();
    CHECK(whole.volume > 0);
    CHECK(whole.volume == doctest::Approx(fairingOf(form).volume).epsilon(0.005));
    CHECK(std::abs(whole.moment.y) < 1e-12);
  }
}

TEST_CASE("a slip of the pen is found: the number that its neighbours deny") {
  OffsetsForm form = ellipsoid(12, 8);
  CHECK(fairingOf(form).typical < 0.004);
  form.stations[5].half_breadths[3] += 0.02;
  const Fairing fairing = fairingOf(form);
  CHECK(fairing.station == 5);
  CHECK(fairing.point == 3);
  CHECK(fairing.farthest > 0.01);
}

TEST_CASE("sectional areas add up to the room inside") {
  for (const SkinForm& form : {SkinForm(SuboffForm{}), SkinForm(MyringForm{}), SkinForm(SpindleForm{}),
                               SkinForm(ellipsoid(16, 12))}) {
    Skin skin;
    skin.form = form;
    const auto areas = sectionalAreas(skin, 401);
    REQUIRE(areas.size() == 401);
    double volume = 0;
    for (std::size_t i = 0; i + 1 < areas.size(); ++i)
      volume += (areas[i].area + areas[i + 1].area) / 2 * (areas[i + 1].x - areas[i].x);
    CHECK(volume == doctest::Approx(roomInside(skin).volume).epsilon(0.003));
  }
  Skin sail;
  sail.form = SailForm{};
  CHECK(sectionalAreas(sail, 11).empty());
}

TEST_CASE("a table of offsets of any hull is that hull again") {
  for (const SkinForm& form :
       {SkinForm(SuboffForm{0.9, 0.1, 0.2, 0.25}), SkinForm(MyringForm{0.1, 0.1, 0.4, 0.3, 0.005, 0.02}),
        SkinForm(SpindleForm{0.9, 0.1, 0.12, 0.2, 0.3, 2, 2, 2, 1, 0.5, 0, 3})}) {
    Skin as_form, as_table;
    as_form.form = form;
    as_table.form = offsetsOf(form, 17, 13);
    CHECK(roomInside(as_table).volume == doctest::Approx(roomInside(as_form).volume).epsilon(0.015));
    const Vec3 a = hullSize(as_form.form), b = hullSize(as_table.form);
    CHECK(b.x == doctest::Approx(a.x));
    CHECK(b.z == doctest::Approx(a.z).epsilon(0.01));
  }
}

TEST_CASE("what is wrong with a table of offsets is named") {
  const auto fault = [](const OffsetsForm& form) {
    Boat boat = fullBoat();
    boat.skins[0].form = form;
    const auto checked = checkBoat(boat);
    return checked ? std::string() : checked.error().field;
  };
  const std::string at = "skins[0].form.stations";
  const OffsetsForm good = ellipsoid(4, 4);
  CHECK(fault(good).empty());
  CHECK(fault(OffsetsForm{}) == at);
  const auto spoilt = [&](auto&& deed) {
    OffsetsForm form = good;
    deed(form);
    return fault(form);
  };
  CHECK(spoilt([](OffsetsForm& f) { f.stations[1].at_x = 0; }) == at + "[1].at_x");
  CHECK(spoilt([](OffsetsForm& f) { f.stations[1].at_x = 11; }) == at + "[1].at_x");
  CHECK(spoilt([](OffsetsForm& f) { f.stations[2].half_breadths.pop_back(); }) == at + "[2].half_breadths");
  CHECK(spoilt([](OffsetsForm& f) { f.stations[2].half_breadths[1] = -1; }) == at + "[2].half_breadths[1]");
  CHECK(spoilt([](OffsetsForm& f) { f.stations[2].heights[1] = -1; }) == at + "[2].heights[1]");
  CHECK(spoilt([](OffsetsForm& f) { f.stations[2] = {0.5, {0.0}, {0.0}}; }) == at + "[2].heights");
  CHECK(spoilt([](OffsetsForm& f) { f.stations[2] = {0.5, {0.1, 0.1}, {0.0, 0.1}}; }) == at + "[2].heights");
  CHECK(spoilt([](OffsetsForm& f) {
          f.stations[2].heights[2] = f.stations[2].heights[1];
          f.stations[2].half_breadths[2] = f.stations[2].half_breadths[1];
        }) == at + "[2].half_breadths[2]");
  CHECK(spoilt([](OffsetsForm& f) {
          for (OffsetStation& s : f.stations) s.half_breadths.assign(s.heights.size(), 0.0);
        }).rfind(at, 0) == 0);
}
