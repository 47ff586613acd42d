#pragma once
// Edits that touch more than one number: each takes a boat and gives a changed copy.
#include <pondtrim/boat.hpp>
#include <string>

namespace pondtrim {

/// A name not yet used in the boat: "lead", "lead 2", "lead 3"...
[[nodiscard]] std::string freeName(const Boat& boat, const std::string& wanted);

/// A new part of usual size and material for its role, at mid-length on the centreline; it becomes the last
/// of `parts`.
[[nodiscard]] Boat withNewPart(const Boat& boat, Role role);
/// A weight to try at a place: a new one of 50 g, or the one that is there moved. `index`: which part it is.
[[nodiscard]] Boat withTrialWeight(const Boat& boat, const Vec3& at, std::size_t& index);
[[nodiscard]] Boat withCopyOfPart(const Boat& boat, std::size_t index);
/// The place for a plan goes with its part.
[[nodiscard]] Boat withoutPart(const Boat& boat, std::size_t index);
/// The part given another shape about as large as the old one.
[[nodiscard]] Boat withShape(const Boat& boat, std::size_t index, const Shape& like);

/// The part given that displaced volume [m^3]: its shape grows or shrinks in length with it.
[[nodiscard]] Boat withVolume(const Boat& boat, std::size_t index, double volume);
/// The part given that mass [kg]. A lead piece grows in height when its shape has become too small for it.
[[nodiscard]] Boat withMass(const Boat& boat, std::size_t index, double mass);

/// Bounding size of a shape along x, y, z [m].
[[nodiscard]] Vec3 shapeSize(const Shape& shape);

}  // namespace pondtrim
