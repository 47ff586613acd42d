#include <algorithm>
#include <cmath>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/error_terms.hpp>
#include <pondtrim/file/offsets_csv.hpp>
#include <set>

#include "csv_table.hpp"
#include "decimal.hpp"

namespace pondtrim::file {
namespace {

constexpr std::size_t kMostRows = 200;
constexpr const char* kHalfBreadth = "half-breadth";

Error tableError(std::string field, std::string was, std::string allowed) {
  Error e{std::move(field), std::move(was), std::move(allowed), "", ""};
  e.message = sentence(e);
  return e;
}

std::string trimmed(const std::string& text) {
  const auto from = text.find_first_not_of(" \t"), to = text.find_last_not_of(" \t");
  return from == std::string::npos ? "" : text.substr(from, to - from + 1);
}

/// What each column is.
struct Heads {
  Unit unit;
  std::size_t x = 0;
  std::optional<std::size_t> keel, deck, half_breadth;
  struct Waterline {
    std::size_t column;
    double height;
  };
  std::vector<Waterline> waterlines;  ///< rising
};

Result<Heads> headsOf(const CsvTable& table, const UnitSet& units) {
  Heads heads{units.length, 0, {}, {}, {}, {}};
  const CsvRow& row = table.rows.front();
  bool x_there = false;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const std::string head = trimmed(row[i]);
    if (head != "x" && head != "x_mm" && head != "x_in") continue;
    if (head != "x") heads.unit = head == "x_mm" ? kMillimetre : kInch;
    heads.x = i;
    x_there = true;
  }
  if (!x_there)
    return fail(tableError("row 1", "no column x",
                           "heads such as x_mm, keel, deck and then the heights of the waterlines"));
  for (std::size_t i = 0; i < row.size(); ++i) {
    const std::string head = trimmed(row[i]);
    if (i == heads.x || head.empty()) continue;
    const auto height = csvNumber(head, table, heads.unit);
    if (head == "keel")
      heads.keel = i;
    else if (head == "deck")
      heads.deck = i;
    else if (head == kHalfBreadth)
      heads.half_breadth = i;
    else if (height)
      heads.waterlines.push_back({i, *height});
    else
      return fail(tableError("row 1, column " + std::to_string(i + 1), "\"" + head + "\"",
                             "x, keel, deck, half-breadth or the height of a waterline"));
  }
  std::sort(heads.waterlines.begin(), heads.waterlines.end(),
            [](const auto& a, const auto& b) { return a.height < b.height; });
  if (heads.waterlines.empty() && !heads.half_breadth)
    return fail(tableError("row 1", "no waterlines",
                           "after x, keel and deck the heights of the waterlines, or half-breadth"));
  return heads;
}

class StationReader {
 public:
  StationReader(const CsvTable& table, const Heads& heads, std::size_t row)
      : table_(table), heads_(heads), row_(row) {}

  Result<OffsetStation> read() {
    const auto x = cell(heads_.x), keel = cell(heads_.keel), deck = cell(heads_.deck);
    if (!x) refuse("x", "empty", "the place of the station");
    station_.at_x = x.value_or(0);
    if (keel) add(0, *keel);
    if (heads_.half_breadth && keel && deck && *keel < *deck)
      addEllipse(*keel, *deck, cell(heads_.half_breadth).value_or(0));
    for (const auto& w : heads_.waterlines) addWaterline(w, keel, deck);
    if (deck && deck != keel) add(0, *deck);
    if (deck && keel && *deck < *keel) refuse("deck", text(*deck), "not under the keel at " + text(*keel));
    dropStems();
    if (station_.heights.empty()) refuse("", "nothing but x", "keel and deck, or half breadths");
    if (error_) return fail(*error_);
    return station_;
  }

 private:
  [[nodiscard]] std::string text(double si) const { return decimalFromSi(si, heads_.unit); }
  void add(double half_breadth, double height) {
    station_.half_breadths.push_back(half_breadth);
    station_.heights.push_back(height);
  }
  void refuse(const std::string& column, std::string was, std::string allowed) {
    if (error_) return;
    error_ = tableError("row " + std::to_string(table_.lines[row_]) + (column.empty() ? "" : ", " + column),
                        std::move(was), std::move(allowed));
  }
  std::optional<double> cell(std::optional<std::size_t> column) {
    const CsvRow& row = table_.rows[row_];
    if (!column || *column >= row.size()) return std::nullopt;
    const std::string content = trimmed(row[*column]);
    if (content.empty() || content == "-") return std::nullopt;
    const auto number = csvNumber(content, table_, heads_.unit);
    if (!number) refuse(trimmed(table_.rows.front()[*column]), "\"" + content + "\"", "a number or nothing");
    return number;
  }
  void addWaterline(const Heads::Waterline& w, const std::optional<double>& keel,
                    const std::optional<double>& deck) {
    const auto half_breadth = cell(w.column);
    if (!half_breadth) return;
    const std::string at = "waterline " + text(w.height);
    if (*half_breadth < 0) refuse(at, text(*half_breadth), "0 or more: the half breadth of the port side");
    if (*half_breadth > 0 && keel && w.height < *keel)
      refuse(at, text(*half_breadth), "nothing: the keel of this station is higher, at " + text(*keel));
    if (*half_breadth > 0 && deck && w.height > *deck)
      refuse(at, text(*half_breadth), "nothing: the deck of this station is lower, at " + text(*deck));
    const bool outside = (keel && w.height <= *keel) || (deck && w.height >= *deck);
    if (*half_breadth > 0 || !outside) add(*half_breadth, w.height);
  }
  /// Eight points between keel and deck.
  void addEllipse(double keel, double deck, double half_breadth) {
    constexpr int kParts = 9;
    for (int i = 1; i < kParts; ++i) {
      const double a = kPi * i / kParts;
      add(half_breadth * std::sin(a), (keel + deck) / 2 - (deck - keel) / 2 * std::cos(a));
    }
  }
  /// Of points on the centreline in a row at either end, the one next to the hull stays.
  void dropStems() {
    auto& y = station_.half_breadths;
    auto& z = station_.heights;
    while (y.size() > 1 && y[0] == 0 && y[1] == 0) y.erase(y.begin()), z.erase(z.begin());
    while (y.size() > 1 && y.back() == 0 && y[y.size() - 2] == 0) y.pop_back(), z.pop_back();
  }

  const CsvTable& table_;
  const Heads& heads_;
  std::size_t row_;
  OffsetStation station_;
  std::optional<Error> error_;
};

}  // namespace

std::string writeOffsetsCsv(const OffsetsForm& form, const UnitSet& units) {
  std::set<double> waterlines;
  const auto ends = [](const OffsetStation& s, std::size_t k) {
    return s.half_breadths[k] == 0 && (k == 0 || k + 1 == s.heights.size());
  };
  for (const OffsetStation& s : form.stations)
    for (std::size_t k = 0; k < s.heights.size(); ++k)
      if (!ends(s, k)) waterlines.insert(s.heights[k]);
  const auto number = [&](double si) { return decimalFromSi(si, units.length); };
  std::string out = std::string("x_") + units.length.suffix + ",keel,deck";
  for (const double z : waterlines) out += "," + number(z);
  out += "\r\n";
  for (const OffsetStation& s : form.stations) {
    const bool keel = s.half_breadths.front() == 0, deck = s.half_breadths.back() == 0;
    out += number(s.at_x) + "," + (keel ? number(s.heights.front()) : "") + "," +
           (deck ? number(s.heights.back()) : "");
    for (const double z : waterlines) {
      out += ",";
      for (std::size_t k = 0; k < s.heights.size(); ++k) {
        if (s.heights[k] != z || ends(s, k)) continue;
        out += number(s.half_breadths[k]);
        break;
      }
    }
    out += "\r\n";
  }
  return out;
}

Result<OffsetsForm> readOffsetsCsv(std::string_view text, const UnitSet& units) {
  const auto table = text.size() > kMaxFileBytes ? std::nullopt : parseCsv(text, kMostRows);
  if (!table)
    return fail(tableError("table", "too long, or a quotation mark that is not closed",
                           "a table of at most " + std::to_string(kMostRows) + " rows"));
  if (table->rows.empty())
    return fail(tableError("table", "empty", "a row of heads, then a row for each station"));
  const auto heads = headsOf(*table, units);
  if (!heads) return fail(heads.error());
  OffsetsForm form;
  for (std::size_t i = 1; i < table->rows.size(); ++i) {
    auto station = StationReader(*table, *heads, i).read();
    if (!station) return fail(station.error());
    form.stations.push_back(std::move(*station));
  }
  std::stable_sort(form.stations.begin(), form.stations.end(),
                   [](const auto& a, const auto& b) { return a.at_x < b.at_x; });
  return form;
}

}  // namespace pondtrim::file
