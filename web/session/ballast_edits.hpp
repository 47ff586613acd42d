#pragma once
// Edits of the ballast system: each takes a boat and gives a changed copy; the core says whether that is a
// boat.
#include <pondtrim/boat.hpp>
#include <pondtrim/model.hpp>

namespace pondtrim {

/// As in BallastKind.
enum class BallastChoice { SealedTankPump, VentedTankPump, Piston, Gas };

[[nodiscard]] std::optional<BallastChoice> ballastChoice(const Boat& boat);

/// The boat with a system of that kind, its pump, battery and air as before where both kinds have them, the
/// rest invented of usual size for the tank. Unchanged without a tank or when it is that kind already.
[[nodiscard]] Boat withBallastKind(const Boat& boat, const Model& model, BallastChoice choice);
[[nodiscard]] Boat withoutBallast(Boat boat);

/// A battery that suits the rated voltage.
[[nodiscard]] Boat withBattery(Boat boat);
[[nodiscard]] Boat withoutBattery(Boat boat);

[[nodiscard]] Boat withCylinderMaterial(Boat boat, std::size_t cylinder, const std::string& material);

}  // namespace pondtrim
