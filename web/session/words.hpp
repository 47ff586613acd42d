#pragma once
// How the boat lies, in a builder's words. No physics: reads reports, writes text.
#include <string>
#include <string_view>

#include "session/session.hpp"

namespace pondtrim {

/// "4 mm low", "2 mm high", "on her line": the painted line at a mark against the water.
struct MarkWords {
  std::string number;  ///< "4", without unit and sign; empty where the mark cannot be read
  std::string word;    ///< "low", "high", "on line"
  int side = 0;        ///< +1 line above the water (high), -1 below (low), 0 on it
};
[[nodiscard]] MarkWords markWords(const std::optional<MarkReading>& mark, const UnitSet& units);

/// One sentence for both conditions: "Floats 4 mm low at the bow, 2 mm high at the stern, upright; dived she
/// shows 38 mm of sail, 0.6° bow down."
[[nodiscard]] std::string liesSentence(const Session& session);

/// "1.2° bow up", "level" (trim); "2.0° to port", "upright" (heel).
[[nodiscard]] std::string trimWords(double trim_angle, const UnitSet& units);
[[nodiscard]] std::string heelWords(double heel_angle, const UnitSet& units);

/// "main cylinder: diameter" for "cylinders[0].diameter": a field path of core's errors, as people say it.
[[nodiscard]] std::string fieldWords(const Boat& boat, std::string_view path);

/// The third number: sail out, or what is missing.
struct SailWords {
  std::string number, unit, word;
};
[[nodiscard]] SailWords sailWords(const Report& report, const UnitSet& units);

}  // namespace pondtrim
