#pragma once
// The picture of one moment: lines, tank water, the pond, markers and labels. Report + Model in, drawables
// out; no GL, so tests look at it natively.
#include <functional>
#include <string>
#include <vector>

#include "scene/camera.hpp"
#include "scene/geometry.hpp"
#include "scene/labels.hpp"
#include "session/session.hpp"

namespace pondtrim {

/// A line between two points of the boat frame.
struct Line {
  glm::vec3 from, to;
  Colour colour;
  float width = 2;  ///< [CSS px]
  float dash = 0;   ///< length of dash and of gap [CSS px]; 0: solid
};

/// The pond: a block of water around the boat, in the world.
struct Pond {
  glm::vec3 low{0.0f}, high{0.0f};  ///< high.z is the water's level, 0
};

struct Marker {
  enum class Sign { Gravity, Buoyancy };
  Sign sign = Sign::Gravity;
  glm::vec2 at{0.0f};    ///< picture, device px
  glm::vec2 disc{0.0f};  ///< middle of its letter's disc, beside it
};

struct Scene {
  Projection projection;
  std::vector<Vertex> tank_water;  ///< boat frame
  std::vector<Line> lines;         ///< boat frame
  Pond pond;
  std::vector<Marker> markers;
  std::vector<Label> labels;  ///< placed
  Vec3 boat_size{0.0};        ///< what the picture's scale was chosen for [m]
  const char* ghost = "";     ///< what the dashed waterline is; empty: there is none
};

/// Where the letters G and B go: beside their points, clear of `obstacles`, inside the picture where they
/// can.
[[nodiscard]] std::vector<Marker> markersOf(const Report& now, const Projection& projection,
                                            const std::vector<Obstacle>& obstacles);

struct SceneChoice {
  Camera camera;
  PictureSize size;
  bool names = false;               ///< label every part
  std::vector<Obstacle> obstacles;  ///< what lies over the picture
  MeasureText measure;              ///< of a label's text [device px]
  /// The ghost: the water as a plan would have it; empty: as it lay before the edit.
  std::optional<Plane> planned = std::nullopt;
  /// The scale stays that of a boat of this size (while a handle is dragged).
  std::optional<Vec3> held_size = std::nullopt;
};

[[nodiscard]] Scene makeScene(const Session& session, const SceneChoice& choice);

/// Where on the boat a point of the picture lies, on her middle plane seen from the side; none off the boat.
[[nodiscard]] std::optional<Vec3> placeAt(const Boat& boat, const Projection& projection, glm::vec2 point);

/// The part drawn at a point of the picture, or nearest to it within `reach` [device px].
[[nodiscard]] std::optional<Selection> partAt(const Boat& boat, const Projection& projection, glm::vec2 point,
                                              float reach);

/// Where a mesh meets a plane: pairs of points.
[[nodiscard]] std::vector<Vec3> meshMeetsPlane(const Mesh& mesh, const Plane& plane);

}  // namespace pondtrim
