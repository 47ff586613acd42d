#pragma once
// Vectors of the core: double precision glm, in the boat frame unless a comment says otherwise.
// Boat frame, right-handed: x forward from the aft end of the hull, y to port, z up from the baseline.
#include <glm/mat3x3.hpp>
#include <glm/vec3.hpp>

namespace pondtrim {
using Vec3 = glm::dvec3;
using Mat3 = glm::dmat3;

inline constexpr double kGravity = 9.80665;  ///< standard gravity [m/s^2], 3rd CGPM 1901 (exact)
inline constexpr double kPi = 3.14159265358979323846;
}  // namespace pondtrim
