#pragma once
// RFC 4180 with the separators that spreadsheets of different countries write.
#include <cstddef>
#include <optional>
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

[[nodiscard]] std::string csvCell(std::string_view text);

}  // namespace pondtrim::file
