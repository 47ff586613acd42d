#pragma once
// Published tables: CSV files in tests/reference, whose first lines (beginning with #) name the source.
#include <map>
#include <string>
#include <vector>

namespace pondtrim::test {

class ReferenceRow {
 public:
  explicit ReferenceRow(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
  /// Both fail the test when the column is missing or is no number.
  [[nodiscard]] const std::string& text(const std::string& column) const;
  [[nodiscard]] double number(const std::string& column) const;

 private:
  std::map<std::string, std::string> cells_;
};

/// The rows of a CSV file of the checkout whose first lines, beginning with #, say what it holds; none may be
/// there. Fails the test when the file is missing or says nothing.
std::vector<ReferenceRow> dataTable(const std::string& path_in_checkout);

/// The rows of tests/reference/<name>.csv. Fails the test when the file is missing, has no source line or no
/// rows. "known" must say where a row comes from: R (read in the source), D (derived from it), M (memory).
std::vector<ReferenceRow> referenceTable(const std::string& name);

}  // namespace pondtrim::test
