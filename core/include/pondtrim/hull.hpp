#pragma once
// What a builder asks of the hull: what it holds, how a table of offsets was faired, what the skin should
// weigh, where the painted line runs round it, and where air stays. SI, boat frame unless said otherwise.
#include <pondtrim/boat.hpp>
#include <pondtrim/hydrostatics.hpp>
#include <pondtrim/model.hpp>
#include <vector>

namespace pondtrim {

/// The corners of a form that is a hull, closed all round (spindle, SUBOFF, Myring, offsets, mesh), in its
/// own frame; all 0 of any other.
struct HullBox {
  Vec3 low{0.0}, high{0.0};
};
[[nodiscard]] HullBox hullBox(const SkinForm& form);
/// Its length, breadth and height.
[[nodiscard]] Vec3 hullSize(const SkinForm& form);

/// The same hull as a table of offsets: `stations` and as many points at each.
[[nodiscard]] OffsetsForm offsetsOf(const SkinForm& hull, std::size_t stations, std::size_t points);

/// Area of the section at x, from the aft end to the fore end. Empty: not a hull.
struct SectionArea {
  double x = 0.0, area = 0.0;
};
[[nodiscard]] std::vector<SectionArea> sectionalAreas(const Skin& hull, std::size_t count);

/// The room inside a skin; an open foot counts as closed. 0 of a plate or a solid.
struct Room {
  double volume = 0.0;
  Vec3 centroid{0.0};
};
[[nodiscard]] Room roomInside(const Skin& skin);

/// How far a table of offsets says what hull is meant. A number of the table is doubted when the hull faired
/// without its station passes farthest from it.
struct Fairing {
  double volume = 0.0;
  /// What leaving out half of the stations (the odd or the even ones, whichever changes more) and, at each,
  /// half of the points changes of the volume, together, a quarter more: the factor of safety 1.25 of
  /// Roache's grid convergence index for three grids (Journal of Fluids Engineering 116, 1994; from memory),
  /// with his order taken as 1, as where a stem ends square. A corner that the table does not show cannot be
  /// told.
  double volume_spread = 0.0;
  double typical = 0.0;  ///< root mean square of the distances of points from the hull faired without them
  double farthest = 0.0;
  std::size_t station = 0, point = 0;  ///< of the farthest
};
[[nodiscard]] Fairing fairingOf(const OffsetsForm& form);

/// What a skin weighs by its area, thickness and density, beside what the scale said.
struct SkinMass {
  double area = 0.0;               ///< [m^2]
  double volume = 0.0;             ///< area x thickness [m^3]
  std::optional<double> reckoned;  ///< volume x density [kg]
  std::optional<double> weighed;
};
[[nodiscard]] SkinMass skinMass(const SkinBody& body);

/// Where the painted line crosses a station: half breadth there, and the way along the skin from the keel and
/// from the top of the hull.
struct LinePoint {
  double x = 0.0, half_breadth = 0.0, from_keel = 0.0, from_deck = 0.0;
};
/// Round the longest hull piece, at whole multiples of `step` [m]. Empty: no hull, or the line misses it.
[[nodiscard]] std::vector<LinePoint> paintedLine(const Boat& boat, double step);

/// Air that stays under water in a skin above the highest point at which it could leave: one of its openings,
/// or the foot of a sail or casing.
struct AirPocket {
  std::size_t skin = 0;  ///< in Boat::skins
  double volume = 0.0;   ///< less what parts and cylinders take up there; as at the surface, not squeezed
  Vec3 highest{0.0};     ///< where a vent would let it out
};
/// With the boat at rest in `water`. Skins that are closed all round and have no opening listed are left out,
/// as nothing is known of them; so is air of less than half a millilitre.
[[nodiscard]] std::vector<AirPocket> trappedAir(const Boat& boat, const Model& model, const Plane& water);

}  // namespace pondtrim
