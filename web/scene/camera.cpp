#include "scene/camera.hpp"

#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/vec4.hpp>

namespace pondtrim {
namespace {

struct Axes {
  glm::vec3 right, up, towards_viewer;  // world
};

Axes axesOf(const Camera& camera) {
  switch (camera.view) {
    case Camera::View::Side:  // from starboard, bow to the right
      return {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}};
    case Camera::View::End:  // from astern: starboard is on the right
      return {{0, -1, 0}, {0, 0, 1}, {-1, 0, 0}};
    case Camera::View::Around:
      break;
  }
  const float cy = std::cos(camera.yaw), sy = std::sin(camera.yaw);
  const float cp = std::cos(camera.pitch), sp = std::sin(camera.pitch);
  const glm::vec3 towards(sy * cp, -cy * cp, sp), right(cy, sy, 0);
  return {right, glm::cross(towards, right), towards};
}

float scaleOf(const Camera& camera, const PictureSize& size, const glm::vec3& boat) {
  const float along = boat.x * 1.12f, around_height = boat.z * 1.5f;  // room to rise and sink in
  const float usable_height = 0.96f * size.clearHeight();
  switch (camera.view) {
    case Camera::View::Side:
      return std::min(size.width / along, usable_height / around_height);
    case Camera::View::End:
      return std::min(size.width / (boat.y * 3.0f), usable_height / (boat.z * 1.15f));
    case Camera::View::Around:
      break;
  }
  const float c = std::abs(std::cos(camera.yaw)), s = std::abs(std::sin(camera.yaw));
  const float wide = 1.02f * boat.x * c + 0.44f * boat.x * s;  // of the pond's block, see scene.cpp
  const float tall = (boat.x * s + boat.y * c) * std::abs(std::sin(camera.pitch)) + boat.z * 1.3f;
  return std::min(size.width / (1.12f * std::max(wide, 0.5f * boat.x)), usable_height / tall);
}

/// What the boat's box and the water's level take up in the picture's plane [m].
struct Extent {
  glm::vec2 low{1e9f}, high{-1e9f};
};

Extent extentOf(const glm::mat4& boat_to_world, const Axes& axes, const glm::vec3& boat) {
  Extent extent;
  for (unsigned k = 0; k < 8; ++k) {
    const glm::vec4 corner(k & 1 ? boat.x : 0.0f, k & 2 ? boat.y / 2 : -boat.y / 2, k & 4 ? boat.z : 0.0f, 1);
    const glm::vec3 world(boat_to_world * corner);
    const glm::vec2 at(glm::dot(world, axes.right), glm::dot(world, axes.up));
    extent.low = glm::min(extent.low, at);
    extent.high = glm::max(extent.high, at);
  }
  extent.low.y = std::min(extent.low.y, 0.0f);
  extent.high.y = std::max(extent.high.y, 0.0f);
  return extent;
}

}  // namespace

void Camera::turn(float dx_px, float dy_px) {
  yaw -= dx_px * 0.01f;
  pitch = std::clamp(pitch + dy_px * 0.01f, -1.2f, 1.45f);
}

glm::mat4 worldFrom(const Plane& plane) {
  const Vec3 z = plane.up;
  Vec3 x = Vec3(1, 0, 0) - z.x * z;
  // Standing on her end, x points up: take z of the boat instead.
  x = glm::length(x) > 1e-6 ? glm::normalize(x) : glm::normalize(Vec3(0, 0, -1) + z.z * z);
  const Vec3 y = glm::cross(z, x);
  glm::mat4 m(1.0f);
  for (int i = 0; i < 3; ++i) m[i] = glm::vec4(float(x[i]), float(y[i]), float(z[i]), 0.0f);
  m[3] = glm::vec4(0, 0, -float(plane.level), 1);
  return m;
}

Projection project(const Camera& camera, const PictureSize& size, const Plane& plane, const Vec3& boat_size) {
  const glm::vec3 boat(boat_size);
  const Axes axes = axesOf(camera);
  Projection p;
  p.size = size;
  p.boat_to_world = worldFrom(plane);
  p.towards_viewer = axes.towards_viewer;
  const Extent extent = extentOf(p.boat_to_world, axes, boat);
  const glm::vec2 span = extent.high - extent.low;
  const float fitting = std::min(0.94f * size.width / span.x, 0.96f * size.clearHeight() / span.y);
  p.px_per_m = std::min(scaleOf(camera, size, boat), fitting) * camera.zoom;

  // The water's level stays put in the picture while she rises and sinks; only a boat that would leave the
  // picture is followed.
  const glm::vec2 half = 0.5f * glm::vec2(size.width, size.height) / p.px_per_m;
  const float whole = 0.5f * size.clearHeight() / p.px_per_m * camera.zoom;  // clear height before zooming
  const glm::vec3 middle(p.boat_to_world * glm::vec4(0.5f * boat.x, 0, 0.5f * boat.z, 1));
  float up =
      camera.view == Camera::View::Around ? 0.5f * glm::dot(middle, axes.up) - 0.14f * whole : -0.14f * whole;
  const float highest = extent.high.y - 0.97f * whole, lowest = extent.low.y + 0.97f * whole;
  up = std::clamp(up, std::min(highest, lowest), std::max(highest, lowest));
  up += 0.5f * (size.covered_above - size.covered_below) / p.px_per_m * camera.zoom;
  const glm::vec2 at = glm::vec2(0.5f * (extent.low.x + extent.high.x), up) - camera.pan;

  p.world_min = at - half;
  p.world_max = at + half;
  const float depth = 4.0f * boat.x;
  const float middle_depth = glm::dot(middle, axes.towards_viewer);
  glm::mat4& m = p.world_to_clip;
  for (int i = 0; i < 3; ++i)
    m[i] = glm::vec4(axes.right[i] / half.x, axes.up[i] / half.y, -axes.towards_viewer[i] / depth, 0);
  m[3] = glm::vec4(-at.x / half.x, -at.y / half.y, middle_depth / depth, 1);
  return p;
}

glm::vec2 Projection::worldToPicture(const glm::vec3& point) const {
  const glm::vec4 clip = world_to_clip * glm::vec4(point, 1);
  return {(clip.x + 1) / 2 * size.width, (1 - clip.y) / 2 * size.height};
}

glm::vec2 Projection::boatToPicture(const Vec3& point) const {
  return worldToPicture(glm::vec3(boat_to_world * glm::vec4(glm::vec3(point), 1)));
}

glm::vec2 panFor(const Projection& projection, float dx_px, float dy_px) {
  return {dx_px / projection.px_per_m, -dy_px / projection.px_per_m};
}

}  // namespace pondtrim
