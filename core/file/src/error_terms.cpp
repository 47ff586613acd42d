#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <pondtrim/file/error_terms.hpp>

#include "decimal.hpp"
#include "field_names.hpp"

namespace pondtrim::file {
namespace {

bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isWord(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

/// Length of the number that starts at text[at] and stands alone (not "m3", not "parts[2]"); 0 if none does.
std::size_t numberLength(const std::string& text, std::size_t at) {
  if (at > 0 && (isWord(text[at - 1]) || text[at - 1] == '.' || text[at - 1] == '[')) return 0;
  if (!isDigit(text[text[at] == '-' ? at + 1 : at])) return 0;
  char* end = nullptr;
  std::strtod(text.c_str() + at, &end);
  auto length = static_cast<std::size_t>(end - text.c_str()) - at;
  if (text[at + length - 1] == '.') --length;  // the full stop of a sentence
  return isWord(text[at + length]) ? 0 : length;
}

const char* siSymbol(Quantity quantity) {
  switch (quantity) {
    case Quantity::Length:
    case Quantity::Depth:
      return " m";
    case Quantity::Volume:
      return " m^3";
    case Quantity::Mass:
      return " kg";
    case Quantity::Density:
      return " kg/m^3";
    case Quantity::Temperature:
      return " K";
    default:
      return "";
  }
}

/// In the file's unit a number may be too large for a double that is none in SI.
std::string inUnit(double si, const Unit& unit) {
  const double value = fromSi(si, unit);
  if (std::isfinite(value)) return roundedDecimal(value, 12);
  return value < 0 ? "below -1.7e308" : "over 1.7e308";
}

/// Says each SI number in the text in `unit`; an SI symbol behind it makes way for the unit's own.
std::string convertNumbers(const std::string& text, const Unit& unit, bool with_symbol) {
  const std::string_view symbol = siSymbol(unit.quantity);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = numberLength(text, at);
    if (length == 0) {
      out += text[at++];
      continue;
    }
    const double si = std::strtod(text.c_str() + at, nullptr);
    out += inUnit(si, unit);
    if (with_symbol && *unit.symbol) out += std::string(" ") + unit.symbol;
    at += length;
    if (!symbol.empty() && text.compare(at, symbol.size(), symbol) == 0) at += symbol.size();
  }
  return out;
}

/// The numbers of an error about a list as a whole are counts, not lengths.
bool isWholeList(const std::string& field) {
  constexpr std::string_view kList = "bulkheads";
  return field.size() >= kList.size() && field.compare(field.size() - kList.size(), kList.size(), kList) == 0;
}

Error convert(const Error& error, const UnitSet& units, bool file_paths) {
  Error e = error;
  if (file_paths) {
    e.field = filePath(error.field);
    e.other_field = filePath(error.other_field);
  }
  if (error.was.empty() || error.allowed.empty()) return e;
  if (const auto quantity = quantityOf(error.field); quantity && !isWholeList(error.field)) {
    const Unit unit = unitFor(*quantity, units);
    e.was = convertNumbers(error.was, unit, !file_paths);
    e.allowed = convertNumbers(error.allowed, unit, !file_paths);
  }
  e.message = sentence(e);
  return e;
}

/// "position" + ".x" -> "position_mm[0]", "bulkheads[1]" -> "bulkheads_mm[1]"
std::string fileName(std::string_view name) {
  const std::size_t index = std::min(name.find('['), name.size());
  return fileKey(name.substr(0, index)) + std::string(name.substr(index));
}

}  // namespace

std::string sentence(const Error& e) {
  std::string text = e.field + " is " + e.was + "; allowed: " + e.allowed;
  if (!e.other_field.empty()) text += " (see " + e.other_field + ")";
  return text + ".";
}

std::string filePath(std::string_view field_path) {
  std::string out;
  while (!field_path.empty()) {
    const std::size_t dot = std::min(field_path.find('.'), field_path.size());
    const std::string_view name = field_path.substr(0, dot);
    field_path.remove_prefix(std::min(dot + 1, field_path.size()));
    if (!out.empty() && name.size() == 1 && name[0] >= 'x' && name[0] <= 'z') {
      out += "[" + std::to_string(name[0] - 'x') + "]";
    } else {
      out += (out.empty() ? "" : ".") + fileName(name);
    }
  }
  return out;
}

Error inFileTerms(const Error& error) { return convert(error, kMetricUnits, true); }

Error inUnits(const Error& error, const UnitSet& units) { return convert(error, units, false); }

}  // namespace pondtrim::file
