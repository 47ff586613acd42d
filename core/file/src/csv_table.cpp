#include "csv_table.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

#include "decimal.hpp"

namespace pondtrim::file {
namespace {

char separatorOf(std::string_view text) {
  const std::string_view head = text.substr(0, text.find_first_of("\r\n"));
  char best = ',';
  std::ptrdiff_t most = 0;
  for (const char candidate : {',', ';', '\t'}) {
    const std::ptrdiff_t count = std::count(head.begin(), head.end(), candidate);
    if (count > most) most = count, best = candidate;
  }
  return best;
}

class Parser {
 public:
  Parser(std::string_view text, std::size_t most_rows) : text_(text), most_rows_(most_rows) {
    table_.separator = separatorOf(text);
  }

  std::optional<CsvTable> parse() {
    for (; at_ < text_.size(); ++at_)
      if (quoted_ ? !inQuotes() : !outside()) return std::nullopt;
    if (quoted_ || !endRow()) return std::nullopt;
    return std::move(table_);
  }

 private:
  bool inQuotes() {
    const char c = text_[at_];
    if (c == '\n') ++line_;
    if (c != '"') {
      cell_ += c;
    } else if (at_ + 1 < text_.size() && text_[at_ + 1] == '"') {
      cell_ += c;
      ++at_;
    } else {
      quoted_ = false;
    }
    return true;
  }
  bool outside() {
    const char c = text_[at_];
    if (c == '"' && cell_.empty()) {
      quoted_ = true;
    } else if (c == table_.separator) {
      row_.push_back(std::exchange(cell_, {}));
    } else if (c == '\n') {
      const bool ended = endRow();
      ++line_;
      row_line_ = line_;
      return ended;
    } else if (c != '\r') {
      cell_ += c;
    }
    return true;
  }
  bool endRow() {
    row_.push_back(std::exchange(cell_, {}));
    const bool blank = std::all_of(row_.begin(), row_.end(), [](const std::string& s) { return s.empty(); });
    CsvRow row = std::exchange(row_, {});
    if (blank) return true;
    table_.rows.push_back(std::move(row));
    table_.lines.push_back(row_line_);
    return table_.rows.size() <= most_rows_;
  }

  std::string_view text_;
  std::size_t most_rows_, at_ = 0;
  bool quoted_ = false;
  int line_ = 1, row_line_ = 1;
  std::string cell_;
  CsvRow row_;
  CsvTable table_;
};

}  // namespace

std::optional<CsvTable> parseCsv(std::string_view text, std::size_t most_rows) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  return Parser(text, most_rows).parse();
}

std::optional<double> csvNumber(std::string cell, const CsvTable& table, const Unit& unit) {
  if (table.separator != ',') std::replace(cell.begin(), cell.end(), ',', '.');
  const bool plain = cell.find_first_not_of("0123456789+-.eE") == std::string::npos;
  char* end = nullptr;
  (void)std::strtod(cell.c_str(), &end);
  if (!plain || cell.empty() || *end != '\0') return std::nullopt;
  return siFromDecimal(cell, unit);
}

std::string csvCell(std::string_view text) {
  if (text.find_first_of(",;\t\"\r\n") == std::string_view::npos) return std::string(text);
  std::string cell = "\"";
  for (const char c : text) {
    if (c == '"') cell += c;
    cell += c;
  }
  return cell + "\"";
}

}  // namespace pondtrim::file
