#pragma once
// A report as JSON text, keys with unit suffixes.
#include <pondtrim/boat.hpp>
#include <pondtrim/report.hpp>
#include <string>

namespace pondtrim::file {

/// "floats", "floats awash" or "sinks".
[[nodiscard]] const char* outcomeWord(Outcome outcome);

/// Values that have no meaning in the outcome are absent. Numbers have ten significant digits.
[[nodiscard]] std::string reportJson(const Boat& boat, const Model& model, const Condition& condition,
                                     const Report& report);

}  // namespace pondtrim::file
