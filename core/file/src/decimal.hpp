#pragma once
// Decimal text to SI and back without loss. Multiplying a double by 1000 and dividing it again does not give
// every double back; moving the decimal point in the text does.
#include <optional>
#include <pondtrim/file/units.hpp>
#include <string>
#include <string_view>

namespace pondtrim::file {

/// The SI value of a JSON number in that unit; nothing when it is too large for a double.
[[nodiscard]] std::optional<double> siFromDecimal(std::string_view number, const Unit& unit);

/// The shortest decimal in that unit from which siFromDecimal makes the very same double. `si` is finite. In
/// units that are no power of ten (degrees, mAh) that holds for what is a double in the unit itself, as all
/// that was typed or read is; others come back within a rounding.
[[nodiscard]] std::string decimalFromSi(double si, const Unit& unit);

/// `value` with so many significant digits, without trailing zeros.
[[nodiscard]] std::string roundedDecimal(double value, int significant_digits);

}  // namespace pondtrim::file
