#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <pondtrim/hull.hpp>
#include <pondtrim/hull_mesh.hpp>
#include <pondtrim/report.hpp>

#include "support/boats.hpp"
#include "support/mesh_files.hpp"
#include "support/meshes.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

Boat boatOf(const SkinForm& form, const Vec3& position) {
  Boat boat = fullBoat();
  boat.skins[0].form = form;
  boat.skins[0].position = position;
  return boat;
}

MeshForm packed(const Mesh& mesh, const MeshPlacing& placing = {1.0}) {
  const auto form = packMesh(mesh, placing);
  REQUIRE(form);
  return *form;
}

std::string faultOf(const SkinForm& form) {
  const auto result = checkBoat(boatOf(form, {0, 0, 0}));
  return result ? std::string() : result.error().field;
}

}  // namespace

TEST_CASE("a hull given as the mesh of a spindle floats as the spindle does") {
  const Boat boat = fullBoat();
  Skin hull = boat.skins[0];
  REQUIRE(std::holds_alternative<SpindleForm>(hull.form));
  hull.position = {0, 0, 0};
  const Mesh mesh = meshSkin(hull);
  const MeshForm form = packed(mesh);
  const HullBox box = hullBox(hull.form);
  const Boat other = boatOf(form, boat.skins[0].position + Vec3(box.low.x, 0, box.low.z));
  const auto a = buildModel(boat), b = buildModel(other);
  REQUIRE(a);
  REQUIRE(b);
  // The form's area is that of the form, the mesh's that of facets: 0.1 % or less.
  CHECK(b->skins[0].cut.whole().volume == doctest::Approx(a->skins[0].cut.whole().volume).epsilon(1.5e-3));
  CHECK(roomInside(other.skins[0]).volume == doctest::Approx(roomInside(boat.skins[0]).volume).epsilon(4e-3));
  const auto before = evaluate(*a, {boat.water, 0}), after = evaluate(*b, {other.water, 0});
  REQUIRE(before);
  REQUIRE(after);
  CHECK(std::abs(before->bow->draft - after->bow->draft) < 2e-4);
  CHECK(std::abs(before->stern->draft - after->stern->draft) < 2e-4);
  const auto line = paintedLine(boat, 0.05), same = paintedLine(other, 0.05);
  REQUIRE(line.size() == same.size());
  for (std::size_t i = 0; i < line.size(); ++i) {
    CHECK(std::abs(line[i].half_breadth - same[i].half_breadth) < 5e-4);
    CHECK(std::abs(line[i].from_deck - same[i].from_deck) < 2e-3);
  }
  const auto areas = sectionalAreas(other.skins[0], 11), wanted = sectionalAreas(boat.skins[0], 11);
  for (std::size_t i = 0; i < areas.size(); ++i)
    CHECK(areas[i].area == doctest::Approx(wanted[i].area).epsilon(0.01).scale(1e-4));
}

TEST_CASE("a solid displaces what it encloses, a skin area times thickness") {
  const Mesh box = boxMesh({10, 0, 5}, {400, 30, 20});
  MeshForm form = packed(box, {0.001});
  Boat boat = boatOf(form, {0, 0, 0});
  boat.skins[0].mass.reset();
  boat.skins[0].density = 1200;
  boat.skins[0].thickness = 0.002;
  const double area = 2 * (0.4 * 0.03 + 0.4 * 0.02 + 0.03 * 0.02);
  auto model = buildModel(boat);
  REQUIRE(model);
  CHECK(model->skins[0].cut.whole().volume == doctest::Approx(0.002 * area));
  CHECK(roomInside(boat.skins[0]).volume == doctest::Approx(0.4 * 0.03 * 0.02));
  form.solid = true;
  boat.skins[0].form = form;
  model = buildModel(boat);
  REQUIRE(model);
  const Cut& whole = model->skins[0].cut.whole();
  CHECK(whole.volume == doctest::Approx(0.4 * 0.03 * 0.02));
  CHECK(glm::distance(whole.moment / whole.volume, Vec3(0.2, 0, 0.01)) < 1e-9);
  CHECK(model->skins[0].cut.cut({{0, 0, 1}, 0.005}).volume == doctest::Approx(0.4 * 0.03 * 0.005));
  CHECK(skinMass(model->skins[0]).area == doctest::Approx(area));
  CHECK(*skinMass(model->skins[0]).reckoned == doctest::Approx(1200 * whole.volume));
  CHECK(roomInside(boat.skins[0]).volume == 0);
}

TEST_CASE(
    "axes of the file: each way of lying brings the same body, and a mirror image stays turned outward") {
  // Longest forward, then up, then across; a corner cut off tells the sides apart.
  Mesh mesh = boxMesh({0, 0, 0}, {8, 2, 4});
  for (Vec3& v : mesh.vertices)
    if (v.x > 0 && v.y > 0 && v.z > 0) v = {3, 0.5, 1};
  const MeshForm own = packed(mesh);
  const double volume = mendMesh(mesh).found.volume;
  for (int forward = 0; forward < 6; ++forward)
    for (int up = 0; up < 6; ++up) {
      const MeshPlacing placing{1.0, Facing(forward), Facing(up)};
      if (forward / 2 == up / 2) {
        CHECK(packMesh(mesh, placing).error().field == "up");
        continue;
      }
      const auto axis = [](int i) {
        Vec3 out(0.0);
        out[i / 2] = i % 2 == 0 ? 1 : -1;
        return out;
      };
      const Vec3 x = axis(forward), z = axis(up);
      const Mat3 to_file(x, glm::cross(z, x), z);
      const MeshForm form = packed(moved(mesh, to_file, {5, 6, 7}), placing);
      CHECK(glm::distance(form.size, Vec3(8, 2, 4)) < 1e-12);
      for (std::size_t i = 0; i < own.mesh->corners().size(); ++i)
        CHECK(std::abs(form.mesh->corners()[i] - own.mesh->corners()[i]) <= 1);
      CHECK(mendMesh(unpackMesh(form)).found.volume == doctest::Approx(volume).epsilon(1e-4));
    }
  const Mesh mirrored = unpackMesh(packed(mesh, {1.0, Facing::PlusX, Facing::PlusZ, true}));
  const MendedMesh m = mendMesh(mirrored);
  CHECK(m.done.inside_out == 0);
  CHECK(m.found.volume == doctest::Approx(volume).epsilon(1e-4));
  for (std::size_t i = 0; i < mirrored.vertices.size(); ++i)
    CHECK(std::abs(mirrored.vertices[i].y + unpackMesh(own).vertices[i].y) < 1e-4);
}

TEST_CASE("packing is right to half a step of the box") {
  const Mesh mesh = lumpySphereMesh({0.5, 0, 0.3}, 0.25, 0.2, 20, 5);
  const MeshForm form = packed(mesh);
  const Mesh back = unpackMesh(form);
  const MendedMesh before = mendMesh(mesh);
  const Vec3 shift(before.found.low.x, (before.found.low.y + before.found.high.y) / 2, before.found.low.z);
  for (std::size_t i = 0; i < mesh.vertices.size(); ++i)
    CHECK(glm::distance(back.vertices[i] + shift, mesh.vertices[i]) <
          0.5 * glm::length(form.size) / 65535 + 1e-12);
  CHECK(form.mesh->closed());
}

TEST_CASE("a mesh form that is none is refused by field") {
  const MeshForm good = packed(boxMesh({0, 0, 0}, {0.5, 0.1, 0.1}));
  const std::string at = "skins[0].form.";
  CHECK(faultOf(good).empty());
  CHECK(faultOf(MeshForm{}) == at + "mesh");
  for (const auto& [axis, name] : {std::pair{0, "size.x"}, {1, "size.y"}, {2, "size.z"}}) {
    MeshForm form = good;
    form.size[axis] = 0;
    CHECK(faultOf(form) == at + name);
    form.size[axis] = std::nan("");
    CHECK(faultOf(form) == at + name);
  }
  Mesh open = boxMesh({0, 0, 0}, {0.5, 0.1, 0.1});
  open.triangles.resize(30);
  MeshForm form = packed(open);
  CHECK(faultOf(form).empty());
  form.solid = true;
  CHECK(faultOf(form) == at + "solid");
  form = packed(withTurned(boxMesh({0, 0, 0}, {0.5, 0.1, 0.1}), 1));  // inside out
  form.solid = true;
  CHECK(faultOf(form) == at + "solid");
  const auto make = [](std::vector<std::uint16_t> corners, std::vector<std::uint16_t> triangles) {
    const auto made = PackedMesh::make(std::move(corners), std::move(triangles));
    return made ? std::string() : made.error().was;
  };
  CHECK(make({0, 0, 0, 9, 0, 0, 0, 9, 0}, {0, 1, 2}).empty());
  CHECK(make({0, 0, 0, 9, 0, 0}, {0, 1, 1}) == "2 vertices");
  CHECK(make({0, 0, 0, 9, 0, 0, 0, 9, 0}, {}) == "0 triangles");
  CHECK(make({0, 0, 0, 9, 0, 0, 0, 9, 0}, {0, 1, 3}) == "vertex 3 in triangle 0");
  CHECK(make({0, 0, 0, 9, 0, 0, 18, 0, 0}, {0, 1, 2}) == "no area");
  CHECK(make(std::vector<std::uint16_t>(3 * (kMostPackedVertices + 1)), {0, 1, 2}) == "40001 vertices");
}
