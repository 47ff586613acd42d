#pragma once
// JSON objects of computed numbers: each key gets its unit's suffix.
#include <optional>
#include <pondtrim/file/units.hpp>
#include <string>

#include "decimal.hpp"
#include "json_tree.hpp"

namespace pondtrim::file {

inline constexpr int kReportDigits = 10;

class ReportObject {
 public:
  void put(std::string name, double si, const Unit& unit) {
    if (*unit.suffix) name += std::string("_") + unit.suffix;
    object_.add(std::move(name), json::number(roundedDecimal(fromSi(si, unit), kReportDigits)));
  }
  void put(std::string name, const std::optional<double>& si, const Unit& unit) {
    if (si) put(std::move(name), *si, unit);
  }
  void put(std::string name, json::Value value) { object_.add(std::move(name), std::move(value)); }
  void put(std::string name, ReportObject inner) { put(std::move(name), std::move(inner.object_)); }
  json::Value take() { return std::move(object_); }

 private:
  json::Value object_ = json::empty(json::Kind::Object);
};

inline json::Value asJson(json::Value value) { return value; }
inline json::Value asJson(ReportObject object) { return object.take(); }

/// `make` gives the object or value of one item.
template <class List, class Make>
json::Value listOf(const List& list, const Make& make) {
  json::Value out = json::empty(json::Kind::List);
  for (const auto& item : list) out.items.push_back(asJson(make(item)));
  return out;
}

}  // namespace pondtrim::file
