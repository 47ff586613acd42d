#pragma once
// Numbers as the person sees and types them. The conversions themselves are core/file/units.hpp's.
#include <optional>
#include <pondtrim/file/units.hpp>
#include <string>
#include <string_view>

namespace pondtrim {

using file::Quantity;
using file::UnitSet;

/// "12.5", without unit. `decimals` < 0: as many as make sense for the unit. Uses a true minus sign.
[[nodiscard]] std::string numberText(double si, Quantity quantity, const UnitSet& units, int decimals = -1);

/// "12.5 mm"; degrees without the space.
[[nodiscard]] std::string valueText(double si, Quantity quantity, const UnitSet& units, int decimals = -1);

/// SI value of what was typed ("12,5" and "12.5" alike), or nothing when it is no number.
[[nodiscard]] std::optional<double> typedValue(std::string_view typed, Quantity quantity,
                                               const UnitSet& units);

/// What a nudge button adds, in SI: 1 mm, 5 g, 5 mL...
[[nodiscard]] double nudgeStep(Quantity quantity, const UnitSet& units);

}  // namespace pondtrim
