// Simple bodies afloat, against textbooks and classical results. Numbers in tests/reference and the
// check-value names (F1...) beside each case.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <vector>

#include "support/compare.hpp"
#include "support/meshes.hpp"
#include "support/models.hpp"
#include "support/reference.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

// The solver's own goal is 1e-9 of the displacement; drafts and centres follow it linearly.
constexpr double kSolved = 1e-8;

double relative(double got, double want) { return std::abs(got - want) / std::abs(want); }

// Angle in degrees brought into [0, 90): a square log looks the same after a quarter turn.
double quarter(double deg) { return deg - 90.0 * std::floor(deg / 90.0); }

double distanceTo(double deg, double listed) {
  const double d = std::abs(quarter(deg) - quarter(listed));
  return std::min(d, 90.0 - d);
}

}  // namespace

TEST_SUITE("floating bodies against textbooks") {
  TEST_CASE("a homogeneous barge has KB, BM and GM as Derrett's formulas say (F1)") {
    // Derrett and Barrass, Ship Stability for Masters and Mates, ch. 12: KB = T/2, BM = B^2/12T, L^2/12T.
    Boat boat = boatOf(BoxShape{{1.2, 0.3, 0.24}}, freshDensity() * 0.1 / 0.24, 1.2);
    boat.parts[0].position = {0.6, 0, 0.12};
    const Model model = buildModel(boat).value();
    const Report r = reportOf(model);
    CHECK(r.rest.outcome == Outcome::Floats);
    CHECK(relative(r.displaced_volume, 0.036) < kSolved);
    CHECK(relative(r.centre_of_buoyancy.z, 0.050) < kSolved);
    CHECK(relative(r.bm_transverse.value(), 0.075) < kSolved);
    CHECK(relative(r.bm_longitudinal.value(), 1.2) < kSolved);
    CHECK(relative(r.gm_transverse, 0.005) < 1e-6);  // a difference of lengths 15 times larger
    CHECK(std::abs(r.rest.attitude.heel) < 1e-7);
    CHECK(std::abs(r.rest.attitude.trim) < 1e-7);
  }

  TEST_CASE("two boxes of Nicholls's exercises have his KM (F2, F3)") {
    // Nicholls's Seamanship and Nautical Knowledge, p. 536 no. 43: 200 x 40 ft, draft 10 ft, KM 18.33 ft;
    // p. 527: beam 36 ft, draft 18 ft, BM 6 ft, KM 15 ft. One foot taken as one metre.
    const double rho = freshDensity();
    const Report a = reportOf(barge(200, 40, 20, rho * 200 * 40 * 10, 5));
    CHECK(std::abs(a.centre_of_buoyancy.z + a.bm_transverse.value() - 18.33) < 0.01);
    const Report b = reportOf(barge(200, 36, 30, rho * 200 * 36 * 18, 5));
    CHECK(relative(b.bm_transverse.value(), 6) < kSolved);
    CHECK(relative(b.centre_of_buoyancy.z + b.bm_transverse.value(), 15) < kSolved);
  }

  TEST_CASE("a box of 10 m beam has its least KM, 4.08 m, at a draft of 4.08 m (F4)") {
    // Derrett and Barrass, p. 111: B / sqrt 6; BM 2.38 m at a draft of 3.5 m.
    const double rho = freshDensity();
    double least = 1e9, at = 0.0;
    for (int k = 200; k <= 700; ++k) {
      const double draft = 0.01 * k;
      const Report r = reportOf(barge(60, 10, 12, rho * 600 * draft, 0.1));
      const double km = r.centre_of_buoyancy.z + r.bm_transverse.value();
      if (km < least) {
        least = km;
        at = draft;
      }
      if (k == 350) CHECK(std::abs(r.bm_transverse.value() - 2.38) < 0.005);
    }
    CHECK(std::abs(least - 4.08) < 0.005);
    CHECK(std::abs(at - 4.08) < 0.011);  // steps of a centimetre
  }

  TEST_CASE("the box of a solved problem displaces 182.34 t at 1.5 m in water of 1013 (F27)") {
    // mathhomeworkanswers.org: 20 x 6 x 2.5 m, draft 1.5 m, density 1013: 182.34 t, KB 0.75 m.
    const Report r = reportOf(barge(20, 6, 2.5, 182340, 0.6), {waterOfDensity(1013), 0});
    CHECK(relative(r.centre_of_buoyancy.z, 0.75) < kSolved);
    REQUIRE(r.bow.has_value());
    CHECK(relative(r.bow->draft, 1.5) < kSolved);
    CHECK(relative(r.stern->draft, 1.5) < kSolved);
  }

  TEST_CASE("a square log rests at its stable tilts only, from wherever it starts (F5-F10)") {
    const double rho = freshDensity();
    int landings = 0;
    for (const ReferenceRow& row : referenceTable("square_log")) {
      CAPTURE(row.text("id"));
      const Boat boat = boatOf(BoxShape{{2.0, 0.1, 0.1}}, rho * row.number("s"), 2.0);
      const Model model = buildModel(boat).value();
      const double tilt = row.number("tilt_deg");
      for (double start : {-170.0, -95.0, -61.0, -45.0, -20.0, -1.0, 0.0, 0.5, 10.0, 26.0, 44.0, 45.0, 58.0,
                           90.0, 133.0, 180.0}) {
        CAPTURE(start);
        const Equilibrium e = rest(model, {}, {0.0, radians(start)});
        const double heel = degrees(e.attitude.heel);
        CAPTURE(heel);
        // Its mirror image is as good; flat logs and those at 45 degrees are their own.
        const double off = std::min(distanceTo(heel, tilt), distanceTo(heel, -tilt));
        CHECK(off < row.number("tolerance_deg"));
        CHECK(std::abs(degrees(e.attitude.trim)) < 1e-4);
        CHECK(relative(e.cut.volume, 0.02 * row.number("s")) < kSolved);
        ++landings;
      }
    }
    CHECK(landings == 8 * 16);
  }

  TEST_CASE("segments of a circle have their tabulated area, chord and centroid (F11-F15, F29-F31)") {
    const double d = 0.2, l = 1.0;
    const CylinderSolid solid{{0.5, 0, d / 2}, {1, 0, 0}, d / 2, l, 0, 0};
    int rows = 0;
    for (const ReferenceRow& row : referenceTable("circle_segments")) {
      CAPTURE(row.text("id"));
      const Cut cut = cutCylinder(solid, {{0, 0, 1}, row.number("h_over_D") * d});
      const double tolerance = row.number("tolerance");
      CHECK(std::abs(cut.volume / (l * d * d) - row.number("A_over_D2")) < tolerance);
      CHECK(std::abs(cut.plane_area / (l * d) - row.number("c_over_D")) < tolerance);
      CHECK(std::abs(centroid(cut).z / d - row.number("KB_over_D")) < tolerance);
      // The metacentre of any segment is the centre of its circle: KB + BM = D / 2.
      const double bm = centralSecond(cut).yy / cut.volume;
      CHECK(std::abs(centroid(cut).z + bm - d / 2) < 1e-12);
      ++rows;
    }
    CHECK(rows == 8);
  }

  TEST_CASE("a worked segment: radius 10, depth 5 gives 61.4185, 19.55 % of the circle (F21)") {
    const Cut cut = cutCylinder({{0, 0, 10}, {1, 0, 0}, 10, 1, 0, 0}, {{0, 0, 1}, 5});
    CHECK(std::abs(cut.volume - 61.4185) < 5e-5);
    CHECK(std::abs(cut.volume / (100 * kPi) - 0.1955) < 5e-5);
  }

  TEST_CASE("a tank read from a page: chord 1 m, surface 0.2 m below the top, 10 m long (F32)") {
    // hackmath.net 3613: r 0.725 m, volume 15.138 m3, printed to three decimals.
    const double r = 0.725;
    const Cut cut = cutCylinder({{5, 0, r}, {1, 0, 0}, r, 10, 0, 0}, {{0, 0, 1}, 2 * r - 0.2});
    CHECK(std::abs(cut.volume - 15.138) < 1e-3);
    CHECK(std::abs(cut.plane_area / 10 - 1.0) < 1e-12);
  }

  TEST_CASE("a log afloat on its side has its tabulated draft and centre of buoyancy (F16-F20, F28)") {
    const double rho = freshDensity(), d = 0.1;
    int rows = 0;
    for (const ReferenceRow& row : referenceTable("floating_cylinder")) {
      CAPTURE(row.text("id"));
      const double s = row.number("s");
      const Model model = buildModel(boatOf(CylinderShape{Axis::X, d, 1.0, 0, 0}, rho * s, 1.0)).value();
      const Equilibrium e = rest(model);
      CHECK(std::abs((e.plane.level - glm::dot(e.plane.up, Vec3{0.5, 0, 0.05}) + d / 2) / d -
                     row.number("T_over_D")) < row.number("tolerance"));
      const Vec3 b = centroid(e.cut);
      const double kb = glm::dot(e.plane.up, b - Vec3{0.5, 0, 0.05}) + d / 2;
      CHECK(std::abs(kb / d - row.number("KB_over_D")) < row.number("tolerance"));
      // T(s) + T(1 - s) = D.
      const Model light =
          buildModel(boatOf(CylinderShape{Axis::X, d, 1.0, 0, 0}, rho * (1 - s), 1.0)).value();
      const Equilibrium f = rest(light);
      const double centre =
          glm::dot(e.plane.up, Vec3{0.5, 0, 0.05}) + glm::dot(f.plane.up, Vec3{0.5, 0, 0.05});
      CHECK(std::abs(e.plane.level + f.plane.level - centre) < 1e-9);
      ++rows;
    }
    CHECK(rows == 6);
  }

  TEST_CASE("a ball floats as deep as its cubic says, whichever way it lies (F24, F34)") {
    const double rho = freshDensity(), r = 0.055;
    int rows = 0;
    for (const ReferenceRow& row : referenceTable("floating_sphere")) {
      CAPTURE(row.text("id"));
      const Model model = ModelBuilder(0.11)
                              .body(CylinderSolid{Vec3{0.0}, {1, 0, 0}, r, 0.0, r, r})
                              .weight(rho * row.number("s") * 4.0 / 3.0 * kPi * r * r * r, Vec3{0.0})
                              .finish();
      for (double heel : {0.0, 0.7, 2.5}) {
        const Equilibrium e = rest(model, {}, {0.3, heel});
        CHECK(std::abs((e.plane.level + r) / r - row.number("depth_over_radius")) < row.number("tolerance"));
      }
      ++rows;
    }
    CHECK(rows == 3);
  }

  TEST_CASE("a log on end stays upright only while it is short (F22)") {
    // Text problem (holooly.com, Q 3.13): density ratio 600/900, upright while L < D / sqrt(8 s (1 - s)) =
    // 0.75 D.
    const double rho = freshDensity(), d = 0.2, s = 600.0 / 900.0;
    const auto lean = [&](double ratio) {
      const Boat boat = boatOf(CylinderShape{Axis::Z, d, ratio * d, 0, 0}, rho * s, 1.0);
      const Equilibrium e = rest(buildModel(boat).value());
      return degrees(std::acos(e.plane.up.z));
    };
    CHECK(lean(0.7499) < 0.01);
    CHECK(lean(0.70) < 1e-4);
    CHECK(lean(0.7501) > 0.5);
    CHECK(lean(0.76) > 5.0);
  }

  TEST_CASE("a short log on end has the GM of two solved problems (F23, F33)") {
    // civinnovate.com: D 3, H 2 m, s 0.7: draft 1.4 m, GM 0.1018 m (printed 0.1017). askfilo: length 2 d, s
    // 0.6: GM = -0.347917 d, so it does not stay upright.
    const double rho = freshDensity();
    const CylinderSolid drum{{0, 0, 1}, {0, 0, 1}, 1.5, 2, 0, 0};
    const Model model =
        ModelBuilder(3).body(drum).weight(rho * 0.7 * kPi * 1.5 * 1.5 * 2, {0, 0, 1}).finish();
    const Report r = reportOf(model);
    CHECK(std::abs(r.rest.plane.level - 1.4) < 1e-8);
    CHECK(std::abs(r.gm_transverse - 0.1018) < 2e-4);
    CHECK(std::abs(r.gm_longitudinal - r.gm_transverse) < 1e-9);

    const CylinderSolid tall{{0, 0, 1}, {0, 0, 1}, 0.5, 2, 0, 0};
    const Cut cut = cutCylinder(tall, {{0, 0, 1}, 1.2});
    const double gm = centroid(cut).z + centralSecond(cut).yy / cut.volume - 1.0;
    CHECK(std::abs(gm + 0.347917) < 1e-6);
    const Equilibrium e =
        rest(ModelBuilder(2).body(tall).weight(rho * 0.6 * kPi * 0.25 * 2, {0, 0, 1}).finish());
    CHECK(degrees(std::acos(std::abs(e.plane.up.z))) > 80.0);
  }

  // A cone, apex down, of that share of the water's density and that whole apex angle, where it comes to
  // rest.
  static Equilibrium coneAtRest(double share, double apex_deg, bool apex_down = true) {
    const double h = 0.3, radius = h * std::tan(radians(apex_deg / 2));
    // The inscribed polygon's second moment is a little smaller than the circle's: a cone 4e-5 blunter.
    const Mesh lying = revolutionMesh({{0.0, 0.0}, {h, radius}}, 360);
    Mesh mesh = moved(lying, Mat3{Vec3{0, 0, 1}, Vec3{1, 0, 0}, Vec3{0, 1, 0}}, Vec3{0.0});
    if (!apex_down) mesh = moved(mesh, Mat3{Vec3{1, 0, 0}, Vec3{0, -1, 0}, Vec3{0, 0, -1}}, Vec3{0, 0, h});
    const CutMesh body = CutMesh::solid(mesh);
    const double g = (apex_down ? 0.75 : 0.25) * h;
    return rest(
        ModelBuilder(h).body(body).weight(freshDensity() * share * body.whole().volume, {0, 0, g}).finish());
  }

  TEST_CASE("a cone floats apex down only when it is blunt enough (F25)") {
    // civinnovate.com: s = 0.7, full apex angle at least 39.12 degrees, draft 0.8879 H; s > cos^6(half
    // angle).
    const Equilibrium blunt = coneAtRest(0.7, 39.2), sharp = coneAtRest(0.7, 39.0);
    CHECK(std::abs(blunt.plane.level / 0.3 - 0.8879) < 5e-5);
    CHECK(degrees(std::acos(blunt.plane.up.z)) < 0.01);
    CHECK(degrees(std::acos(sharp.plane.up.z)) > 0.5);
  }

  TEST_CASE("at half the water's density a cone of 27.0136 degrees floats either way up (F35)") {
    // Closed form: cos^6(half angle) = s apex down, 1 - s apex up; both are 1/2.
    for (const bool apex_down : {true, false}) {
      CAPTURE(apex_down);
      CHECK(degrees(std::acos(coneAtRest(0.5, 2 * 27.06, apex_down).plane.up.z)) < 0.01);
      CHECK(degrees(std::acos(coneAtRest(0.5, 2 * 26.96, apex_down).plane.up.z)) > 0.5);
    }
  }

  TEST_CASE("Archimedes' paraboloid stands upright when its density says so (F26)") {
    // Archimedes, On Floating Bodies II, as set out in Heath, A History of Greek Mathematics, vol. 2, p. 95
    // f.: r^2 = p x: BM = p/2, KB = 2T/3, draft sqrt(s) h, upright if s >= ((h - 3p/4)/h)^2 = 0.390625.
    const double rho = freshDensity(), p = 0.5;
    std::vector<std::pair<double, double>> stations;
    for (int i = 0; i <= 600; ++i) {
      const double x = (i / 600.0) * (i / 600.0);
      stations.emplace_back(x, std::sqrt(p * x));
    }
    const Mesh lying = revolutionMesh(stations, 240);
    const CutMesh body =
        CutMesh::solid(moved(lying, Mat3{Vec3{0, 0, 1}, Vec3{1, 0, 0}, Vec3{0, 1, 0}}, Vec3{0.0}));
    // Facets: 240 sides lose 1.1e-4 of area, chords between stations less.
    const Cut cut = body.cut({{0, 0, 1}, 0.6});
    CHECK(relative(centroid(cut).z, 0.4) < 1e-4);
    CHECK(relative(centralSecond(cut).yy / cut.volume, p / 2) < 2e-4);
    const auto lean = [&](double s) {
      const Vec3 g = centroid(body.whole());
      const Model model = ModelBuilder(1).body(body).weight(rho * s * body.whole().volume, g).finish();
      return degrees(std::acos(rest(model).plane.up.z));
    };
    CHECK(lean(0.3925) < 0.01);
    CHECK(lean(0.3890) > 0.5);
  }

  TEST_CASE("a box changes its draft with the water as Nicholls says (S13, G16)") {
    // Nicholls's Seamanship, p. 374: 24 ft 5 in in water of 1025 goes to 24 ft 10.8 in in 1005 (+5.8 in).
    const double draft = 24 + 5.0 / 12;
    const Model ship = barge(400, 50, 40, 1025 * 400 * 50 * draft, 10);
    const Report dock = reportOf(ship, {waterOfDensity(1005), 0}),
                 sea = reportOf(ship, {waterOfDensity(1025), 0});
    REQUIRE(dock.bow.has_value());
    CHECK(relative(sea.bow->draft, draft) < kSolved);
    CHECK(std::abs(12 * (dock.bow->draft - 24) - 10.8) < 0.05);
    // A model: 0.1000 m at 20 degC fresh becomes 0.0972937 m in sea water at 15 degC.
    const Model model = barge(1, 0.2, 0.2, waterDensity({293.15, 0}).value() * 0.2 * 0.1, 0.05);
    const Report salt = reportOf(model, {{288.15, 35}, 0});
    CHECK(std::abs(salt.bow->draft - 0.0972937) < 1e-7);
  }
}
