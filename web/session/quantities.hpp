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

/// Lengths in inches as a rule reads: "3 5/16", "5/16", "3". To the nearest sixteenth.
[[nodiscard]] std::string sixteenthsText(double inches);

/// What was typed with some sixteenths of an inch added to its fraction: "3" and 4 give "3 1/4". Unchanged
/// when it holds a decimal point.
[[nodiscard]] std::string withSixteenths(const std::string& typed, int sixteenths);

/// SI value of what was typed ("12,5" and "12.5" alike, "3 5/16"), or nothing when it is no number.
[[nodiscard]] std::optional<double> typedValue(std::string_view typed, Quantity quantity,
                                               const UnitSet& units);

/// What a nudge button adds, in SI: 1 mm, 5 g, 5 mL, 1/16 in...
[[nodiscard]] double nudgeStep(Quantity quantity, const UnitSet& units);

/// `step` [SI] as people would choose it in their units: a length in inches becomes half, a quarter...
[[nodiscard]] double stockStep(double step, Quantity quantity, const UnitSet& units);

/// Lengths read at the pond, in whole millimetres, hundredths of an inch or sixteenths.
[[nodiscard]] inline int readingDecimals(const UnitSet& units) { return units.metric() ? 0 : 2; }

}  // namespace pondtrim
