// A hull from a file on its way into the boat: loaded in pieces, checked, turned, scaled, put in and taken
// out again.
#include "session/mesh_import.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <pondtrim/hull.hpp>

#include "support/mesh_files.hpp"
#include "support/meshes.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

/// A hull along x, finer ahead than astern, in the drawing's steps.
Mesh hullMesh(double length, double height, int rings = 40, int sides = 24) {
  std::vector<std::pair<double, double>> stations;
  for (int i = 0; i <= rings; ++i) {
    const double t = double(i) / rings;
    stations.emplace_back(length * t,
                          height / 2 * std::sqrt(std::max(0.0, 4 * t * (1 - t))) * (1.2 - 0.4 * t));
  }
  return revolutionMesh(stations, sides);
}

/// As the page sends it: in pieces, then all the work.
Result<void> bring(Session& session, const std::string& bytes, const std::string& name = "hull.stl") {
  MeshImport& import = session.meshImport();
  if (auto begun = import.begin(name, bytes.size()); !begun) return begun;
  double before = import.share();
  for (std::size_t at = 0; at < bytes.size(); at += 10'000) {
    CHECK(import.stage() == MeshImport::Stage::Loading);
    import.add(std::string_view(bytes).substr(at, 10'000));
  }
  while (import.owes()) {
    if (auto done = import.work(session.boat()); !done) return done;
    CHECK(import.share() >= before);
    before = import.share();
  }
  return {};
}

Boat put(const Session& session) {
  const auto boat = session.meshImport().boatWith(session.boat());
  REQUIRE(boat);
  return *boat;
}

std::size_t hullOf(const Boat& boat) {
  for (std::size_t i = 0; i < boat.skins.size(); ++i)
    if (hullSize(boat.skins[i].form).x > 0.5 * boat.length) return i;
  return 0;
}

}  // namespace

TEST_CASE("a hull from an STL takes the place of the one she has, and undo brings that back") {
  Session session = firstSession();
  const Boat before = session.boat();
  const std::size_t at = hullOf(before);
  const double length = 1000 * before.length;
  REQUIRE(bring(session, binaryStl(hullMesh(length, 0.12 * length))));
  MeshImport& import = session.meshImport();
  REQUIRE(import.stage() == MeshImport::Stage::Ready);
  CHECK(import.share() == 1.0);
  CHECK(import.found().closed);
  CHECK(std::string(kMeshUnits[import.choices().unit].id) == "mm");  // guessed from her length
  CHECK(import.choices().replaces == at);
  CHECK(import.size().x == doctest::Approx(before.length));
  const Boat after = put(session);
  const Skin &old = before.skins[at], &skin = after.skins[at];
  CHECK(after.skins.size() == before.skins.size());
  CHECK(skin.name == old.name);
  CHECK(skin.mass == old.mass);
  CHECK(skin.thickness == old.thickness);
  const HullBox was = hullBox(old.form), is = hullBox(skin.form);
  CHECK(skin.position.x + is.low.x == doctest::Approx(old.position.x + was.low.x));
  CHECK(skin.position.z + is.low.z == doctest::Approx(old.position.z + was.low.z));
  REQUIRE(session.edit(after));
  session.undo();
  CHECK(session.boat() == before);
}

TEST_CASE("axes: bow, up and sides come to lie where they are said to") {
  Session session = firstSession();
  // Three marks tell the axes apart: a tall fin near the low end of x, on the y > 0 side.
  const Mesh drawn = joined(boxMesh({50, 0, 0}, {100, 10, 20}), boxMesh({20, 4, 15}, {10, 1, 10}));
  REQUIRE(bring(session, binaryStl(drawn)));
  MeshImport& import = session.meshImport();
  const Vec3 fin{20, 4, 20}, middle{50, 0, 0};
  const auto finFromMiddle = [&] { return (import.inBoat(fin) - import.inBoat(middle)) / import.metres(); };
  const auto same = [](const Vec3& a, const Vec3& b) {
    for (int k = 0; k < 3; ++k) CHECK(a[k] == doctest::Approx(b[k]));
  };
  CHECK(import.choices().forward == Facing::PlusX);
  same(finFromMiddle(), {-30, 4, 20});
  import.setForward(Facing::MinusX);
  same(finFromMiddle(), {30, -4, 20});
  import.setMirrored(true);
  same(finFromMiddle(), {30, 4, 20});
  import.setMirrored(false);
  import.setUp(Facing::MinusZ);
  same(finFromMiddle(), {30, 4, -20});
  import.setForward(Facing::PlusZ);  // up has to move
  CHECK(axisOf(import.choices().up) != axisOf(import.choices().forward));
  import.setUp(Facing::PlusZ);  // and forward
  CHECK(axisOf(import.choices().up) != axisOf(import.choices().forward));
  // Whatever the axes, the body stands with aft end and lowest point at the place, its middle on the middle
  // line.
  for (const Facing forward : {Facing::PlusX, Facing::MinusX, Facing::PlusY, Facing::MinusZ}) {
    import.setForward(forward);
    Vec3 low(1e9), high(-1e9);
    for (const Vec3& v : drawn.vertices)
      low = glm::min(low, import.inBoat(v)), high = glm::max(high, import.inBoat(v));
    same(high - low, import.size());
    CHECK(low.x == doctest::Approx(import.position().x));
    CHECK(low.y + high.y == doctest::Approx(0));
    CHECK(low.z == doctest::Approx(import.position().z));
    // And so it is in the boat.
    const Boat boat = put(session);
    const HullBox box = hullBox(boat.skins[*import.choices().replaces].form);
    same(box.high - box.low, import.size());
  }
}

TEST_CASE("units and length: each unit says what it would come to, a length scales all ways alike") {
  Session session = firstSession();
  REQUIRE(bring(session, textStl(hullMesh(36, 4))));
  MeshImport& import = session.meshImport();
  CHECK(import.sizeIn(0).x == doctest::Approx(0.036));
  CHECK(import.sizeIn(1).x == doctest::Approx(0.36));
  CHECK(import.sizeIn(2).x == doctest::Approx(36));
  CHECK(import.sizeIn(3).x == doctest::Approx(36 * 0.0254));
  CHECK(std::string(kMeshUnits[import.choices().unit].id) == "inch");
  const double ratio = import.size().z / import.size().x;
  REQUIRE(import.setLength(0.8));
  CHECK(import.size().x == doctest::Approx(0.8));
  CHECK(import.size().z == doctest::Approx(0.8 * ratio));
  CHECK(import.choices().scale == doctest::Approx(0.8 / (36 * 0.0254)));
  CHECK_FALSE(import.setLength(0));
  CHECK(import.size().x == doctest::Approx(0.8));
  import.setUnit(0);
  CHECK(import.choices().scale == 1.0);
  CHECK(import.size().x == doctest::Approx(0.036));
}

TEST_CASE("a body may lie where its drawing has it") {
  Session session = firstSession();
  Mesh drawn = hullMesh(300, 40);
  for (Vec3& v : drawn.vertices) v += Vec3(120, 15, 70);
  REQUIRE(bring(session, binaryStl(drawn)));
  MeshImport& import = session.meshImport();
  import.setUnit(0);
  import.setReplaces(session.boat(), {});
  CHECK(import.position().x == 0);
  import.setAsInFile(true);
  CHECK(import.inBoat({120, 15, 70}).x == doctest::Approx(0.12));
  CHECK(import.inBoat({120, 15, 70}).y == doctest::Approx(0.015));
  CHECK(import.inBoat({120, 15, 70}).z == doctest::Approx(0.07));
  import.setPosition(2, 0.01);  // typed: the others stay
  CHECK_FALSE(import.choices().as_in_file);
  CHECK(import.position().x == doctest::Approx(0.12));
  CHECK(import.position().z == doctest::Approx(0.01));
  const Boat boat = put(session);
  CHECK(boat.skins.size() == session.boat().skins.size() + 1);
  CHECK(boat.skins.back().position.x == doctest::Approx(0.12).epsilon(1e-4));
  REQUIRE(session.edit(boat));
}

TEST_CASE("a solid displaces its volume, a skin its area times thickness; an open body is no solid") {
  Session session = firstSession();
  const Mesh drawn = hullMesh(900, 100);
  REQUIRE(bring(session, binaryStl(drawn)));
  MeshImport& import = session.meshImport();
  import.setUnit(0);
  import.setSolid(true);
  REQUIRE(session.edit(put(session)));
  const std::size_t at = *import.choices().replaces;
  CHECK(session.model().skins[at].cut.whole().volume ==
        doctest::Approx(CutMesh::solid(drawn).whole().volume * 1e-9).epsilon(1e-3));
  import.setSolid(false);
  REQUIRE(import.setThickness(0.003));
  REQUIRE(session.edit(put(session)));
  CHECK(session.model().skins[at].cut.whole().volume ==
        doctest::Approx(surfaceArea(drawn) * 1e-6 * 0.003).epsilon(1e-3));
  REQUIRE(bring(session, binaryStl(piece(drawn, 10, drawn.triangles.size() / 3))));
  CHECK_FALSE(session.meshImport().found().closed);
}

TEST_CASE("a fine mesh is thinned to what a boat keeps, and the sentence says how far that is off") {
  Session session = firstSession();
  const Mesh drawn = hullMesh(900, 100, 300, 200);
  REQUIRE(bring(session, binaryStl(drawn)));
  const MeshImport& import = session.meshImport();
  const std::size_t kept = import.kept().mesh.triangles.size() / 3;
  CHECK(import.found().triangles > 5 * kKeptTriangles);
  CHECK(kept <= kKeptTriangles);
  CHECK(kept > kKeptTriangles / 4);
  const std::string words = thinnedSentence(import, session.units());
  CHECK(words.find("Of " + std::to_string(import.found().triangles) + " triangles the boat keeps " +
                   std::to_string(kept)) == 0);
  CHECK(words.find("volume") != std::string::npos);
  CHECK(session.edit(put(session)));
  REQUIRE(bring(session, binaryStl(hullMesh(900, 100))));
  CHECK(thinnedSentence(session.meshImport(), session.units()).find("keeps all") != std::string::npos);
}

TEST_CASE("loose triangles, with three corners each, are thinned until their corners fit as well") {
  Session session = firstSession();
  Mesh drawn;
  for (int i = 0; i < 15'000; ++i)
    for (const Vec3& p : {Vec3(0, 0, 0), Vec3(1, 0, 0), Vec3(0, 1, 0)}) {
      drawn.triangles.push_back(std::uint32_t(drawn.vertices.size()));
      drawn.vertices.push_back(p + Vec3(3 * (i % 150), 3 * (i / 150), 0));
    }
  REQUIRE(bring(session, binaryStl(drawn)));
  const MeshImport& import = session.meshImport();
  CHECK(import.found().pieces == 15'000);
  CHECK(import.kept().mesh.vertices.size() <= kMostPackedVertices);
  CHECK(import.kept().mesh.triangles.size() > 0);
}

TEST_CASE("what is no mesh, too large or without a surface is refused, and nothing is left of it") {
  Session session = firstSession();
  const Boat before = session.boat();
  const auto fault = [&](const std::string& bytes) {
    const auto done = bring(session, bytes);
    CHECK(session.meshImport().stage() == MeshImport::Stage::None);
    return done ? std::string("nothing wrong") : done.error().message;
  };
  CHECK(fault("solid x\nfacet normal 0 0 1\n").find("cut off") != std::string::npos);
  CHECK(fault("").find("an STL or OBJ with at least one triangle") != std::string::npos);
  CHECK(fault(std::string(90, '\0')).find("as many as the file holds") == std::string::npos);
  CHECK(fault(textStl({{Vec3(1, 1, 1), Vec3(1, 1, 1), Vec3(1, 1, 1)}, {0, 1, 2}}))
            .find("no triangle in it has any area") != std::string::npos);
  const auto huge = session.meshImport().begin("huge.stl", file::kMostMeshBytes + 1);
  REQUIRE_FALSE(huge);
  CHECK(huge.error().message.find("256 MiB") != std::string::npos);
  CHECK(session.boat() == before);
}

TEST_CASE("dropped half way, or with its boat gone, an import does no harm") {
  Session session = firstSession();
  const std::string bytes = binaryStl(hullMesh(900, 100));
  MeshImport& import = session.meshImport();
  REQUIRE(import.begin("a.stl", bytes.size()));
  import.add(bytes.substr(0, 1000));
  import.drop();
  import.add(bytes.substr(1000));
  CHECK(import.stage() == MeshImport::Stage::None);
  REQUIRE(bring(session, bytes));
  Boat bare = session.boat();
  bare.skins.clear();
  bare.openings.clear();
  const auto boat = session.meshImport().boatWith(bare);  // what it was to replace is not there any more
  REQUIRE(boat);
  CHECK(boat->skins.size() == 1);
}

TEST_CASE("she is floated with all the triangles of a drawing, beside those that she keeps") {
  Session session = firstSession();
  const double length = 1000 * session.boat().length;
  const Mesh drawn = hullMesh(length, 0.12 * length, 200, 160);  // 64,000 triangles
  REQUIRE(bring(session, binaryStl(drawn)));
  MeshImport& import = session.meshImport();
  REQUIRE(import.kept().mesh.triangles.size() / 3 <= kKeptTriangles);
  for (const bool mirrored : {false, true})
    for (const bool solid : {false, true}) {
      CAPTURE(mirrored);
      CAPTURE(solid);
      import.setMirrored(mirrored);
      import.setSolid(solid);
      REQUIRE_FALSE(import.trial());
      REQUIRE(import.tryDrawn(session.boat()));
      double before = 0;
      while (import.owes()) {
        REQUIRE(import.work(session.boat()));
        CHECK(import.trial()->share() >= before);
        before = import.trial()->share();
      }
      CHECK(import.stage() == MeshImport::Stage::Ready);
      const DrawnTrial& trial = *import.trial();
      CHECK(trial.isOf(session.boat()));
      CHECK(trial.triangles() == import.found().triangles);
      // As the boat that she would be, and as all of the drawing put in by hand.
      const Boat kept = put(session);
      auto model = buildModel(kept);
      REQUIRE(model);
      const auto with_kept = evaluate(*model, {});
      REQUIRE(with_kept);
      CHECK(trial.withKept().rest.plane.level == with_kept->rest.plane.level);
      Mesh placed = drawn;
      for (Vec3& v : placed.vertices) v = import.inBoat(v);
      CutMesh all = CutMesh::skin(placed, kept.skins[hullOf(kept)].thickness);
      if (solid) {
        if (mirrored)
          for (std::size_t i = 0; i < placed.triangles.size(); i += 3)
            std::swap(placed.triangles[i], placed.triangles[i + 2]);
        all = CutMesh::solid(placed);
      }
      refineSkin(*model, hullOf(kept), all);
      const auto with_all = evaluate(*model, {});
      REQUIRE(with_all);
      CHECK(trial.withAll().rest.plane.level == doctest::Approx(with_all->rest.plane.level).epsilon(1e-9));
      CHECK(trial.withAll().displaced_volume == doctest::Approx(with_all->displaced_volume).epsilon(1e-9));
      if (!solid) CHECK(trial.withAll().rest.plane.level != with_kept->rest.plane.level);
    }
  import.setSolid(false);
  REQUIRE(import.tryDrawn(session.boat()));
  while (import.owes()) REQUIRE(import.work(session.boat()));
  CHECK(trialSentence(*import.trial(), {}).find("With all 63680 triangles she floats ") == 0);
  Boat changed = session.boat();
  changed.name = "Another";
  CHECK_FALSE(import.trial()->isOf(changed));
  import.setPosition(2, 0.02);
  CHECK_FALSE(import.trial());
}
