#pragma once
#include <glm/geometric.hpp>
#include <pondtrim/vec.hpp>

namespace pondtrim {

/// Two unit directions square to `up`: how it moves with trim (bow up) and with heel (to starboard).
struct Tangent {
  Vec3 trim, heel;
};

/// On end (bow or stern straight up) heel has no direction of its own, and any pair will do.
inline Tangent tangentAt(const Vec3& up) {
  Vec3 heel = glm::cross(up, Vec3(1, 0, 0));
  const double size = glm::length(heel);
  heel = size > 1e-3 ? heel / size : glm::normalize(glm::cross(up, Vec3(0, 1, 0)));
  return {glm::cross(heel, up), heel};
}

}  // namespace pondtrim
