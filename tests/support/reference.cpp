#include "support/reference.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>

namespace pondtrim::test {
namespace {

/// A cell with a comma in it stands in quotation marks.
std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      cells.emplace_back();
    else
      cells.back() += c;
  }
  return cells;
}

}  // namespace

const std::string& ReferenceRow::text(const std::string& column) const {
  const auto found = cells_.find(column);
  if (found == cells_.end()) FAIL("no column " << column);
  return found->second;
}

double ReferenceRow::number(const std::string& column) const {
  const std::string& cell = text(column);
  char* end = nullptr;
  const double value = std::strtod(cell.c_str(), &end);
  if (cell.empty() || *end != '\0') FAIL("not a number in column " << column << ": " << cell);
  return value;
}

std::vector<ReferenceRow> dataTable(const std::string& path_in_checkout) {
  const std::string path = std::string(PONDTRIM_SOURCE_DIR) + "/" + path_in_checkout;
  std::ifstream in(path);
  if (!in) FAIL("cannot open " << path);
  std::vector<std::string> columns;
  std::vector<ReferenceRow> rows;
  bool has_source = false;
  for (std::string line; std::getline(in, line);) {
    if (line.empty()) continue;
    if (line[0] == '#') {
      has_source = true;
    } else if (columns.empty()) {
      columns = split(line);
    } else {
      const std::vector<std::string> cells = split(line);
      if (cells.size() != columns.size()) FAIL(path << ": wrong number of cells in: " << line);
      std::map<std::string, std::string> row;
      for (std::size_t i = 0; i < cells.size(); ++i) row[columns[i]] = cells[i];
      rows.emplace_back(row);
    }
  }
  if (!has_source) FAIL(path << " says nowhere what it holds");
  return rows;
}

std::vector<ReferenceRow> referenceTable(const std::string& name) {
  std::vector<ReferenceRow> rows = dataTable("tests/reference/" + name + ".csv");
  if (rows.empty()) FAIL(name << " holds no rows");
  return rows;
}

}  // namespace pondtrim::test
