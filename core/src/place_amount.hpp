#pragma once
// What a place (boat.hpp, Place) says of its part: how much is in it, how much it holds.
#include <limits>
#include <pondtrim/model.hpp>

namespace pondtrim {

enum class PlaceKind { Foam, Weight, Slide };

/// Index of the part with that name; Boat::parts.size() when there is none.
[[nodiscard]] std::size_t partNamed(const Boat& boat, const std::string& name);

[[nodiscard]] PlaceKind kindOf(const Place& place, const Part& part);
/// Foam: volume of one piece [m^3]; weight: its mass [kg]; on a rail: its x [m].
[[nodiscard]] double amountIn(PlaceKind kind, const Part& part);
void setAmount(PlaceKind kind, Part& part, double amount);  ///< as amounts.hpp; or x on a rail
/// The most that the shape holds; infinite when the shape sets no limit.
[[nodiscard]] double roomIn(PlaceKind kind, const Part& part);
/// Mass of a unit of the amount, of one piece; on a rail: of the piece.
[[nodiscard]] double massOfUnit(PlaceKind kind, const Part& part);

/// The first fault of the boat's places; part of checkBoat, after the parts themselves are sound.
[[nodiscard]] Result<void> checkPlaces(const Boat& boat);

}  // namespace pondtrim
