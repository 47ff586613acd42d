#pragma once
// RFC 4180 with the separators that spreadsheets of different countries write.
#include <cstddef>
#include <optional>
#include <pondtrim/file/units.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace pondtrim::file {

using CsvRow = std::vector<std::string>;

struct CsvTable {
  char separator = ',';
  std::vector<CsvRow> rows;  ///< the head is the first; blank lines are left out
  std::vector<int> lines;    ///< of each row
};

/// Nothing when a quotation mark is not closed or there are more than `most_rows` rows.
[[nodiscard]] std::optional<CsvTable> parseCsv(std::string_view text, std::size_t most_rows);

/// A cell as a number in SI; with another separator than a comma, a decimal comma is understood. Nothing when
/// it is not a number and nothing else.
[[nodiscard]] std::optional<double> csvNumber(std::string cell, const CsvTable& table, const Unit& unit);

[[nodiscard]] std::string csvCell(std::string_view text);

}  // namespace pondtrim::file
