// The picture: what is where, without a screen.
#include "scene/scene.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>

#include "scene/solids.hpp"
#include "session/presets.hpp"
#include "web/first_session.hpp"

using namespace pondtrim;
using test::firstSession;

namespace {
glm::vec2 measured(const std::string& text) { return {9.0f * static_cast<float>(text.size()), 17.0f}; }

SceneChoice phone(Camera::View view = Camera::View::Side) {
  Camera camera;
  camera.view = view;
  return {camera, {390, 270, 1}, false, {}, measured};
}

/// Volume enclosed by a triangle list.
double volumeOf(const std::vector<Vertex>& v) {
  double sum = 0;
  for (std::size_t i = 0; i + 2 < v.size(); i += 3)
    sum += static_cast<double>(glm::dot(v[i].position, glm::cross(v[i + 1].position, v[i + 2].position))) / 6;
  return sum;
}
}  // namespace

TEST_CASE("the water's plane is level zero of the world, and up is up") {
  const Attitude attitude{0.2, -0.4};
  const Plane plane{attitude.up(), 0.07};
  const glm::mat4 m = worldFrom(plane);
  const Vec3 on = plane.up * plane.level + glm::normalize(glm::cross(plane.up, Vec3(0, 1, 0))) * 0.3;
  CHECK((m * glm::vec4(glm::vec3(on), 1)).z == doctest::Approx(0).epsilon(1e-6).scale(1));
  CHECK((m * glm::vec4(glm::vec3(on + 0.1 * plane.up), 1)).z == doctest::Approx(0.1).epsilon(1e-5));
  CHECK(static_cast<double>(glm::determinant(glm::mat3(m))) == doctest::Approx(1).epsilon(1e-5));
}

TEST_CASE("a boat on her stern still has a picture") {
  const glm::mat4 m = worldFrom({{1, 0, 0}, 0.2});
  CHECK(static_cast<double>(glm::determinant(glm::mat3(m))) == doctest::Approx(1).epsilon(1e-5));
}

TEST_CASE("seen from the side the bow is right, seen from astern starboard is right") {
  const Session session = firstSession();
  const Scene side = makeScene(session, phone());
  CHECK(side.projection.boatToPicture({0.9, 0, 0.05}).x > side.projection.boatToPicture({0.1, 0, 0.05}).x);
  CHECK(side.projection.boatToPicture({0.5, 0, 0.1}).y < side.projection.boatToPicture({0.5, 0, 0.0}).y);
  const Scene end = makeScene(session, phone(Camera::View::End));
  CHECK(end.projection.boatToPicture({0.5, -0.05, 0.05}).x >
        end.projection.boatToPicture({0.5, 0.05, 0.05}).x);
}

TEST_CASE("the waterline on the hull lies in the water's plane, and is there") {
  const Session session = firstSession();
  const Plane plane = session.atFill().rest.plane;
  std::size_t found = 0;
  for (const SkinBody& skin : session.model().skins)
    for (const Vec3& p : meshMeetsPlane(*skin.mesh, plane)) {
      CHECK(glm::dot(plane.up, p) == doctest::Approx(plane.level).epsilon(1e-9));
      ++found;
    }
  CHECK(found > 50);
}

TEST_CASE("the whole boat is in the picture, afloat and dived, in every view") {
  Session session = firstSession();
  for (const double fill : {0.0, 0.5, 1.0}) {
    session.setFillShare(fill);
    for (const auto view : {Camera::View::Side, Camera::View::End, Camera::View::Around}) {
      CAPTURE(fill);
      CAPTURE(static_cast<int>(view));
      const Scene scene = makeScene(session, phone(view));
      for (const Vec3& p : {Vec3(0, 0, 0.05), Vec3(1, 0, 0.05), session.boat().marks.sail_top}) {
        const glm::vec2 at = scene.projection.boatToPicture(p);
        CHECK(at.x >= 0);
        CHECK(at.x <= 390);
        CHECK(at.y >= 0);
        CHECK(at.y <= 270);
      }
    }
  }
}

TEST_CASE("labels cover neither each other nor the edge") {
  const Session session = firstSession();
  SceneChoice choice = phone();
  choice.names = true;
  const Scene scene = makeScene(session, choice);
  REQUIRE(scene.labels.size() > 3);
  for (std::size_t i = 0; i < scene.labels.size(); ++i) {
    const Label& a = scene.labels[i];
    CHECK(a.corner.x >= 0);
    CHECK(a.corner.y >= 0);
    CHECK(a.corner.y + a.size.y <= 270);
    for (std::size_t k = 0; k < i; ++k) {
      const Label& b = scene.labels[k];
      const bool apart = a.corner.x >= b.corner.x + b.size.x || b.corner.x >= a.corner.x + a.size.x ||
                         a.corner.y >= b.corner.y + b.size.y || b.corner.y >= a.corner.y + a.size.y;
      CHECK(apart);
    }
  }
}

TEST_CASE("the letters G and B keep clear of the controls over the picture and of each other") {
  Session session = firstSession();
  SceneChoice choice = phone();
  choice.obstacles = {{{0, 0}, {390, 52}}, {{0, 190}, {390, 270}}};
  choice.size.covered_above = 52;
  choice.size.covered_below = 80;
  for (const double fill : {0.0, 0.3, 0.6, 1.0}) {
    session.setFillShare(fill);
    CAPTURE(fill);
    const Scene scene = makeScene(session, choice);
    REQUIRE(scene.markers.size() == 2);
    for (const Marker& m : scene.markers) {
      CHECK(m.disc.y > 52 + 11);
      CHECK(m.disc.y < 190 - 11);
      CHECK(glm::length(m.disc - m.at) < 45);
    }
    CHECK(glm::length(scene.markers[0].disc - scene.markers[1].disc) > 22);
    for (const Vec3& p : {Vec3(0, 0, 0), Vec3(session.boat().length, 0, 0), session.boat().marks.sail_top}) {
      CHECK(scene.projection.boatToPicture(p).y > 52);
      CHECK(scene.projection.boatToPicture(p).y < 190);
    }
  }
}

TEST_CASE("drawn bodies are closed, turned outwards and as large as they should be") {
  std::vector<Vertex> box, cylinder, strip;
  addBox(box, {0.1, 0.2, 0.3}, {0.2, 0.1, 0.05}, 0);
  CHECK(volumeOf(box) == doctest::Approx(0.001).epsilon(1e-4));
  addCylinder(cylinder, {{0, 0, 0}, {1, 0, 0}, 0.05, 0.2, 0.03, 0.03}, 0);
  const double exact = kPi * 0.0025 * 0.2 + 4.0 / 3 * kPi * 0.0025 * 0.03;
  CHECK(volumeOf(cylinder) == doctest::Approx(exact).epsilon(0.01));  // 40 sides lose 0.4 %
  addStrip(strip, {{0, 0, 0}, 0.3, 0.01, 0.02, 0.01, 0.02}, 0);
  CHECK(volumeOf(strip) == doctest::Approx(0.3 * 0.02 * 0.04).epsilon(1e-4));
}

TEST_CASE("tank water as drawn is as much as the core says") {
  Session session = firstSession();
  REQUIRE(session.model().tank_capacity > 0);
  for (const double fill : {0.25, 0.5, 0.9}) {
    session.setFillShare(fill);
    const Scene scene = makeScene(session, phone());
    // Drawn a little narrower than the bore (0.97 squared) and with 40 sides.
    CHECK(volumeOf(scene.tank_water) ==
          doctest::Approx(session.atFill().rest.tank.volume * 0.94).epsilon(0.08));
  }
}

TEST_CASE("a tap on a part finds it") {
  const Session session = firstSession();
  const Scene scene = makeScene(session, phone());
  const Boat& boat = session.boat();
  std::size_t found = 0;
  for (std::size_t i = 0; i < boat.parts.size(); ++i) {
    const auto hit =
        partAt(boat, scene.projection, scene.projection.boatToPicture(boat.parts[i].position), 1);
    if (hit == Selection{Owner::Part, i}) ++found;
    CHECK(hit);  // perhaps another one in front of it
  }
  CHECK(found > boat.parts.size() / 2);
  CHECK_FALSE(partAt(boat, scene.projection, {2, 2}, 10));
}

TEST_CASE("the waterline before the edit is the ghost, unless it lies where the water is") {
  Session session = test::firstSession();
  Boat renamed = session.boat();
  renamed.name = "Another";
  REQUIRE(session.edit(renamed));
  CHECK(makeScene(session, phone()).ghost == std::string());
  Boat heavier = session.boat();
  heavier.parts.front().mass = heavier.parts.front().mass.value_or(0.1) + 0.1;
  REQUIRE(session.edit(heavier));
  CHECK(makeScene(session, phone()).ghost == std::string("before"));
}

TEST_CASE("a planned waterline is the ghost; without one it is that of the boat before the edit") {
  Session session = test::firstSession();
  CHECK(makeScene(session, phone()).ghost == std::string());
  SceneChoice choice = phone();
  choice.planned = session.atFill().rest.plane;
  choice.planned->level += 0.005;
  const Scene planned = makeScene(session, choice);
  CHECK(planned.ghost == std::string("planned"));
  const auto dashed = [](const Scene& scene) {
    std::vector<Line> lines;
    for (const Line& line : scene.lines)
      if (line.dash > 0) lines.push_back(line);
    return lines;
  };
  REQUIRE(!dashed(planned).empty());
  for (const Line& line : dashed(planned))
    CHECK(glm::dot(Vec3(line.from), choice.planned->up) ==
          doctest::Approx(choice.planned->level).epsilon(1e-5));
  CHECK(dashed(makeScene(session, phone())).empty());
}
