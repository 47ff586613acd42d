#pragma once
// Errors of the core name fields without units and give numbers in SI. These functions say the same in the
// words and units of the person who made the mistake.
#include <pondtrim/file/units.hpp>
#include <pondtrim/result.hpp>
#include <string>
#include <string_view>

namespace pondtrim::file {

/// "parts[2].position.x" -> "parts[2].position_mm[0]": the path as the boat file spells it.
[[nodiscard]] std::string filePath(std::string_view field_path);

/// "field is was; allowed: allowed (see other_field)."
[[nodiscard]] std::string sentence(const Error& error);

/// The error as the boat file spells it: paths with unit suffixes, numbers in the file's units.
[[nodiscard]] Error inFileTerms(const Error& error);

/// The error for a screen: paths untouched, the numbers in the chosen units with their symbols.
[[nodiscard]] Error inUnits(const Error& error, const UnitSet& units);

}  // namespace pondtrim::file
