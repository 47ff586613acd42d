#include "field_writer.hpp"

#include <algorithm>

#include "decimal.hpp"
#include "field_names.hpp"

namespace pondtrim::file {

using json::Kind;
using json::Value;

void FieldWriter::number(std::string_view field, double value) {
  object_.add(fileKey(field), json::number(decimalFromSi(value, fileUnit(field))));
}

void FieldWriter::vector(std::string_view field, const Vec3& value) {
  numbers(field, {value.x, value.y, value.z});
}

void FieldWriter::numbers(std::string_view field, const std::vector<double>& values) {
  if (values.empty()) return;
  Value list = json::empty(Kind::List);
  for (const double value : values) list.items.push_back(json::number(decimalFromSi(value, fileUnit(field))));
  object_.add(fileKey(field), std::move(list));
}

void FieldWriter::requiredText(std::string_view field, const std::string& value) {
  object_.add(std::string(field), json::string(value));
}

void FieldWriter::flagOr(bool standard, std::string_view field, bool value) {
  if (value != standard) object_.add(std::string(field), json::boolean(value));
}

void FieldWriter::measured(std::string_view field, double standard_spread,
                           const std::optional<Measured>& value) {
  if (!value) return;
  number(field, value->value);
  numberOr(standard_spread, std::string(field) + "_spread", value->spread);
}

void FieldWriter::amount(const std::string& part, double value) {
  const bool foam = std::any_of(parts_->begin(), parts_->end(),
                                [&](const Part& p) { return p.name == part && p.role == Role::Foam; });
  number(foam ? "volume" : "mass", value);
}

void FieldWriter::version(std::string_view field, int newest) {
  object_.add(std::string(field), json::number(std::to_string(newest)));
}

Value FieldWriter::finish() {
  const auto [first, last] = extras_.equal_range(path_);
  for (auto extra = first; extra != last; ++extra) {
    const auto& [key, value] = extra->second;
    if (!object_.find(key)) object_.add(key, value);
  }
  return std::move(object_);
}

std::string FieldWriter::pathOf(std::string_view key) const {
  return path_ + (path_.empty() ? "" : ".") + std::string(key);
}

}  // namespace pondtrim::file
