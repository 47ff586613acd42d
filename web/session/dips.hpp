#pragma once
// Readings of the pond log as the screen handles them: which numbers a reading has, edits, words.
#include <pondtrim/file/correct_json.hpp>
#include <pondtrim/report.hpp>
#include <string>
#include <vector>

#include "session/quantities.hpp"
#include "session/session.hpp"

namespace pondtrim {

/// A number that can be read at the pond.
enum class Dip { Bow, Stern, Sail, Trim, Heel, Pull, BowPull, SternPull };
inline constexpr std::size_t kDips = 8;

struct DipKind {
  const char* field;  ///< of the core's errors
  const char* label;
  Quantity quantity;
  double spread;  ///< when none is given [SI]
  std::optional<Measured> Reading::*member;
  bool negative;
};
[[nodiscard]] const DipKind& dipKind(Dip dip);

/// A dip and the reading that it belongs to as one number, for a row on a panel.
[[nodiscard]] constexpr std::size_t dipIndex(std::size_t reading, Dip dip) {
  return reading * kDips + static_cast<std::size_t>(dip);
}
[[nodiscard]] std::optional<double> dipAt(const Boat& boat, std::size_t dip_index);
/// Keeps a spread that was given. The two hooks come and go together.
[[nodiscard]] Boat withDip(const Boat& boat, std::size_t dip_index, std::optional<double> value);

[[nodiscard]] Boat withReading(const Boat& boat, TankState tank, const std::string& date);
[[nodiscard]] Boat withoutReading(const Boat& boat, std::size_t index);
/// The tank as it was; an amount goes with "measured" alone.
[[nodiscard]] Boat withTankState(const Boat& boat, std::size_t index, TankState tank, double capacity);

/// Share of the tank that was full at a reading.
[[nodiscard]] double fillOf(const Reading& reading, double capacity);

/// Lead laid on her, below the sail unless its place was given.
[[nodiscard]] Boat withLaidLead(const Boat& boat, std::size_t index, double mass);

/// How much of the sail should show with the tank full, by her aims [m].
[[nodiscard]] double sailWanted(const Session& session);

/// Where a number that has not been read begins when it is stepped: on the line, level, the sail as wanted.
/// Not what is expected: one tap would then enter the log's own guess as if a ruler had said it.
[[nodiscard]] double firstDip(Dip dip, const Session& session);

/// What the reading should have shown by this report; empty where it has no such thing.
[[nodiscard]] std::optional<double> expectedDip(Dip dip, const Report& report);

/// "3.0 mm high": the painted line at a mark, as the screen says it everywhere.
[[nodiscard]] std::string dipWords(Dip dip, double value, const UnitSet& units);
/// "Tank empty: bow 3.0 mm high, heel 0.5° to port"
[[nodiscard]] std::string readingLine(const Reading& reading, const UnitSet& units);

/// The boat with those of the next changes that were done, and the correction. `done` beside
/// `answer.next.changes`; a change that was not done leaves its part as it was.
[[nodiscard]] Boat withChangesDone(const Boat& boat, const file::CorrectAnswer& answer,
                                   const std::vector<bool>& done);

/// How far off the aims each dip was that is in use.
struct DipError {
  std::size_t reading = 0;
  std::optional<double> bow, stern;  ///< line above the water [m]
  std::optional<double> sail;        ///< more showing than wanted [m]
  std::optional<double> trim;        ///< dived [rad]
};
/// `sail_wanted`: sailWanted.
[[nodiscard]] std::vector<DipError> dipErrors(const Boat& boat, double sail_wanted);

}  // namespace pondtrim
