#pragma once
// Edits of the boat's structure: skins, sealed cylinders, the tank and its bulkheads. Each takes a boat and
// gives a changed copy with usual sizes; the core says whether that is a boat.
#include <pondtrim/boat.hpp>
#include <string>

#include "session/session.hpp"

namespace pondtrim {

enum class NewSkin { Spindle, Suboff, Myring, Offsets, Casing, Sail, Keel, Planes, Skeg };
[[nodiscard]] Boat withNewSkin(const Boat& boat, NewSkin piece);
/// A hull piece made another kind of hull as long, broad and high; a table of offsets is that very hull.
[[nodiscard]] Boat withHullForm(const Boat& boat, std::size_t index, NewSkin kind);
/// One measure of a hull piece, its other proportions kept: aft end and lowest line stay where they are.
/// `Line` is the height of the boat's painted line.
enum class HullNumber { Length, Beam, Height, Line };
[[nodiscard]] Boat withHullNumber(const Boat& boat, std::size_t skin, HullNumber number, double value);
[[nodiscard]] Boat withOffsets(const Boat& boat, std::size_t index, OffsetsForm table);
/// Its openings go with it.
[[nodiscard]] Boat withoutSkin(const Boat& boat, std::size_t index);

/// In the top of the skin, amidships.
[[nodiscard]] Boat withNewOpening(const Boat& boat, std::size_t skin);
[[nodiscard]] Boat withoutOpening(const Boat& boat, std::size_t index);

[[nodiscard]] Boat withNewCylinder(const Boat& boat);
/// The tank in it goes with it. What is inside stays in the boat, so the core refuses the change until those
/// weights have gone or moved.
[[nodiscard]] Boat withoutCylinder(const Boat& boat, std::size_t index);

/// The middle fifth of the first cylinder. Unchanged when there is none.
[[nodiscard]] Boat withNewTank(const Boat& boat);
[[nodiscard]] Boat withoutTank(const Boat& boat);
/// In the middle of the longest cell of the tank.
[[nodiscard]] Boat withNewBulkhead(const Boat& boat);
[[nodiscard]] Boat withoutBulkhead(const Boat& boat, std::size_t index);

/// The skin, cylinder or part under another name, wherever the boat speaks of it.
[[nodiscard]] Boat withName(const Boat& boat, const Selection& what, const std::string& name);

}  // namespace pondtrim
