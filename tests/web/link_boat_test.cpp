// What a link carries of a boat with a mesh.
#include "session/link_boat.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <pondtrim/hull_mesh.hpp>
#include <pondtrim/model.hpp>

#include "session/qr_codes.hpp"
#include "support/meshes.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

file::BoatDocument withMesh(int rings, int sides, bool solid) {
  file::BoatDocument document = firstSession().document();
  std::vector<std::pair<double, double>> stations;
  for (int i = 0; i <= rings; ++i) {
    const double t = double(i) / rings;
    stations.emplace_back(0.9 * t, 0.055 * std::sqrt(std::max(0.0, 4 * t * (1 - t))));
  }
  auto form = packMesh(revolutionMesh(stations, sides), {1.0, Facing::PlusX, Facing::PlusZ, false});
  REQUIRE(form);
  form->solid = solid;
  document.boat.skins[0].form = *form;
  return document;
}

}  // namespace

TEST_CASE("a boat without a mesh, or with a small one, goes into a link as she is") {
  const file::BoatDocument plain = firstSession().document();
  const LinkBoat link = linkBoat(plain, 100);  // too long, but there is nothing to make simpler
  CHECK(link.fragment == file::boatFragment(plain));
  CHECK(linkSentence(link, "The link", {}).empty());
  const file::BoatDocument small = withMesh(10, 8, false);
  CHECK(linkBoat(small, kMostLinkCharacters).triangles == 0);
  CHECK(linkBoat(small, kMostLinkCharacters).fragment == file::boatFragment(small));
}

TEST_CASE("a large mesh is made simpler until the link holds it, and the error that is stated is the error") {
  for (const bool solid : {false, true}) {
    const file::BoatDocument document = withMesh(100, 90, solid);
    const LinkBoat link = linkBoat(document, kMostLinkCharacters);
    REQUIRE_FALSE(link.fragment.empty());
    CHECK(link.fragment.size() <= kMostLinkCharacters);
    const auto opened = file::readBoatFragment(link.fragment);
    REQUIRE(opened);
    const auto& form = std::get<MeshForm>(opened->boat.skins[0].form);
    CHECK(form.solid == solid);
    CHECK(form.mesh->triangles().size() / 3 == link.triangles);
    CHECK(link.triangles > 500);
    const auto now = buildModel(opened->boat), was = buildModel(document.boat);
    REQUIRE(now);
    REQUIRE(was);
    // A surface nowhere farther off than that changes the volume by no more than it times the area.
    const double off = link.farthest * was->skins[0].cut.area();
    if (solid) CHECK(std::abs(now->skins[0].cut.whole().volume - was->skins[0].cut.whole().volume) < off);
    CHECK(link.farthest > 0);
    CHECK(link.farthest < 0.01);
    CHECK(linkSentence(link, "The link", {}).find(std::to_string(link.triangles) + " triangles, within") !=
          std::string::npos);
    const LinkBoat codes = linkBoat(document, kMostCodes * codeRoom("http://localhost:8000/"));
    CHECK(codes.triangles < link.triangles);
    CHECK(codes.farthest >= link.farthest);
    CHECK(linksForCodes("http://localhost:8000/", codes.fragment).size() <= kMostCodes);
  }
}

TEST_CASE("where even the simplest hull is too long, that is said") {
  const LinkBoat none = linkBoat(withMesh(100, 90, false), 1000);
  CHECK(none.fragment.empty());
  CHECK(linkSentence(none, "The link", {}).find("cannot carry") != std::string::npos);
}
