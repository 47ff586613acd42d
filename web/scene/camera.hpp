#pragma once
// From the boat frame to the world (water level at z = 0) and on to the picture. Parallel projection in every
// view: lengths stay comparable.
#include <glm/mat4x4.hpp>
#include <glm/vec2.hpp>
#include <pondtrim/hydrostatics.hpp>

namespace pondtrim {

/// The person's choice of view.
struct Camera {
  enum class View { Side, End, Around };
  View view = View::Side;
  float yaw = 0.6f, pitch = 0.35f;  ///< of Around [rad]: yaw 0 looks from starboard, pitch + from above
  float zoom = 1.0f;
  glm::vec2 pan{0.0f};  ///< [m] in the picture's plane

  void turn(float dx_px, float dy_px);
};

/// Size of the picture [device px].
struct PictureSize {
  float width = 1, height = 1;
  float ratio = 1;                             ///< device px per CSS px
  float covered_above = 0, covered_below = 0;  ///< by controls; the boat keeps clear of these
  [[nodiscard]] float clearHeight() const { return height - covered_above - covered_below; }
};

/// What every part of the scene needs to know to place things in the picture.
struct Projection {
  glm::mat4 boat_to_world{1.0f};
  glm::mat4 world_to_clip{1.0f};
  glm::vec3 towards_viewer{0, -1, 0};  ///< world, unit
  float px_per_m = 1;
  glm::vec2 world_min{0.0f},
      world_max{0.0f};  ///< picture's edges in its own plane [m], from the world's origin
  PictureSize size;

  /// Picture position [device px, y down] of a point in the boat frame or world.
  [[nodiscard]] glm::vec2 boatToPicture(const Vec3& point) const;
  [[nodiscard]] glm::vec2 worldToPicture(const glm::vec3& point) const;
};

/// Boat frame -> world: the water's plane becomes z = 0, x stays as level as it can.
[[nodiscard]] glm::mat4 worldFrom(const Plane& plane);

/// `boat_size`: length, breadth and height of the boat [m].
[[nodiscard]] Projection project(const Camera& camera, const PictureSize& size, const Plane& plane,
                                 const Vec3& boat_size);

/// Metres of pan that follow a finger.
[[nodiscard]] glm::vec2 panFor(const Projection& projection, float dx_px, float dy_px);

}  // namespace pondtrim
