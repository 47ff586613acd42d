#pragma once
// From a field's name to its key in the file.
#include <pondtrim/file/units.hpp>
#include <string>
#include <string_view>

namespace pondtrim::file {

/// The file's unit for a field; Number when it has none.
[[nodiscard]] inline Unit fileUnit(std::string_view field) {
  return unitFor(quantityOf(field).value_or(Quantity::Number), kMetricUnits);
}

/// "length" -> "length_mm"
[[nodiscard]] inline std::string fileKey(std::string_view field) {
  const Unit unit = fileUnit(field);
  return std::string(field) + (*unit.suffix ? "_" : "") + unit.suffix;
}

}  // namespace pondtrim::file
