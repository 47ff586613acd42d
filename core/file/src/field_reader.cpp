#include "field_reader.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <pondtrim/file/error_terms.hpp>

#include "decimal.hpp"
#include "field_names.hpp"
#include "packed_text.hpp"

namespace pondtrim::file {
namespace {

using json::Kind;
using json::Value;

// Endings that a person may put behind a field's name instead of ours.
constexpr std::array kUnitEndings{
    "",           "_mm",       "_cm",      "_m",         "_in",        "_inch",      "_ft",
    "_g",         "_kg",       "_oz",      "_lb",        "_mL",        "_ml",        "_cc",
    "_L",         "_l",        "_cm3",     "_m3",        "_fl_oz",     "_degC",      "_C",
    "_c",         "_K",        "_F",       "_psu",       "_ppt",       "_g_L",       "_g_cm3",
    "_kg_per_m3", "_g_per_kg", "_kg_m3",   "_g_per_cm3", "_V",         "_mV",        "_A",
    "_mA",        "_Ah",       "_mAh",     "_bar",       "_mbar",      "_kPa",       "_MPa",
    "_GPa",       "_Pa",       "_psi",     "_N",         "_L_per_min", "_l_per_min", "_mL_per_min",
    "_mL_per_s",  "_mm_per_s", "_percent", "_deg",       "_rad",       "_g_mm",      "_mL_mm"};

/// Would the text be a number without its quotation marks?
bool startsLikeNumber(std::string_view text) {
  const std::size_t at = !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0;
  return at < text.size() && text[at] >= '0' && text[at] <= '9';
}

std::string kindHint(const Value& value, Kind kind) {
  if (kind != Kind::Number || value.kind != Kind::String || !startsLikeNumber(value.text)) return "";
  return "Write the number without quotation marks and without a unit: the key's ending is its unit.";
}

std::string joined(std::span<const char* const> words) {
  std::string text = "one of";
  for (const char* word : words) text += std::string(text.size() > 6 ? ", \"" : " \"") + word + "\"";
  return text;
}

std::string lineWords(const Value& value) {
  return value.line > 0 ? " (line " + std::to_string(value.line) + ")" : "";
}

Error wrongValue(const std::string& path, const Value& value, const std::string& allowed,
                 const std::string& hint = {}) {
  Error e;
  e.field = path;
  e.was = json::excerpt(value);
  e.allowed = allowed;
  e.message = path + lineWords(value) + " is " + e.was + "; allowed: " + allowed + "." +
              (hint.empty() ? "" : " ") + hint;
  return e;
}

Error missingValue(const std::string& path, const std::string& allowed, const Value& object) {
  Error e;
  e.field = path;
  e.was = "missing";
  e.allowed = allowed;
  e.message = path + " is missing" +
              (object.line > 1 ? " in the object of line " + std::to_string(object.line) : "") +
              "; allowed: " + allowed + ".";
  return e;
}

}  // namespace

FieldReader::FieldReader(ReadState& state, const Value& object, std::string path, std::string owner,
                         std::size_t siblings)
    : state_(state), object_(object), path_(std::move(path)), owner_(std::move(owner)), siblings_(siblings) {
  refuseDoubles();
}

void FieldReader::number(std::string_view field, double& value) {
  if (const Value* member = need(measure(field), Kind::Number))
    readNumber(*member, pathOf(fileKey(field)), field, value);
}

void FieldReader::numberOr(double standard, std::string_view field, double& value) {
  value = standard;
  if (const Value* member = take(measure(field), Kind::Number))
    readNumber(*member, pathOf(fileKey(field)), field, value);
}

void FieldReader::optional(std::string_view field, std::optional<double>& value) {
  value.reset();
  double given = 0.0;
  const Value* member = take(measure(field), Kind::Number);
  if (member && readNumber(*member, pathOf(fileKey(field)), field, given)) value = given;
}

void FieldReader::vector(std::string_view field, Vec3& value) {
  const std::string key = measure(field);
  const Value* member = need(key, Kind::List);
  if (!member) return;
  if (member->items.size() != 3) return refuse(wrongValue(pathOf(key), *member, "three numbers [x, y, z]"));
  for (int i = 0; i < 3; ++i)
    readNumber(member->items[static_cast<std::size_t>(i)], pathOf(key) + "[" + std::to_string(i) + "]", field,
               value[i]);
}

void FieldReader::numbers(std::string_view field, std::vector<double>& values) {
  values.clear();
  const std::string key = measure(field);
  const Value* member = takeList(key);
  if (!member) return;
  for (std::size_t i = 0; i < member->items.size(); ++i)
    readNumber(member->items[i], pathOf(key) + "[" + std::to_string(i) + "]", field, values.emplace_back());
}

void FieldReader::text(std::string_view field, std::string& value) {
  const Value* member = take(field, Kind::String);
  value = member ? member->text : "";
}

void FieldReader::requiredText(std::string_view field, std::string& value) {
  if (const Value* member = need(field, Kind::String)) value = member->text;
}

void FieldReader::packed(std::string_view field, std::shared_ptr<const PackedMesh>& value) {
  const Value* member = need(field, Kind::String);
  if (!member) return;
  auto read = packedFromText(member->text);
  if (read) {
    value = std::move(*read);
    return;
  }
  Error error = std::move(read.error());
  error.field = pathOf(field);
  error.message = sentence(error);
  refuse(std::move(error));
}

void FieldReader::flagOr(bool standard, std::string_view field, bool& value) {
  const Value* member = take(field, Kind::Boolean);
  value = member ? member->text == "true" : standard;
}

void FieldReader::measured(std::string_view field, double standard_spread, std::optional<Measured>& value) {
  value.reset();
  std::optional<double> read, spread;
  const std::string spread_field = std::string(field) + "_spread", spread_key = fileKey(spread_field);
  optional(field, read);
  optional(spread_field, spread);
  if (read) {
    value = Measured{*read, spread.value_or(standard_spread)};
  } else if (const Value* alone = object_.find(spread_key); alone && !state_.error) {
    refuse(wrongValue(pathOf(spread_key), *alone, "a spread only beside " + fileKey(field)));
  }
}

void FieldReader::amount(const std::string& part, double& value) {
  const Part* known = nullptr;
  for (const Part& p : *state_.parts)
    if (p.name == part) known = &p;
  std::optional<double> volume, mass;
  optional("volume", volume);
  optional("mass", mass);
  const bool foam = known ? known->role == Role::Foam : volume.has_value();
  const std::string needed = fileKey(foam ? "volume" : "mass"), other = fileKey(foam ? "mass" : "volume");
  if (state_.error) return;
  if (const Value* wrong = object_.find(other))
    return refuse(wrongValue(pathOf(other), *wrong, "the key " + needed + " for this part"));
  if (!(foam ? volume : mass)) return refuse(missingValue(pathOf(needed), "a number", object_));
  value = foam ? *volume : *mass;
}

void FieldReader::version(std::string_view key, int newest) {
  const Value* member = take(key, Kind::Number);
  if (state_.error) return;
  if (!member) {
    Error e = missingValue(std::string(key), std::to_string(newest), object_);
    e.message = "This is not a Pondtrim boat file: the key " + std::string(key) + " is missing.";
    return refuse(e);
  }
  const double given = siFromDecimal(member->text, kNumber).value_or(-1.0);
  if (given >= 1.0 && given <= newest && given == std::floor(given)) return;
  Error e = wrongValue(std::string(key), *member, newest == 1 ? "1" : "1 to " + std::to_string(newest));
  if (given > newest)
    e.message = "This file was written by a newer Pondtrim: its version is " + e.was +
                ", this one reads versions up to " + std::to_string(newest) +
                ". Get the newest Pondtrim to open it.";
  refuse(e);
}

void FieldReader::finish() {
  for (const auto& [key, value] : object_.members) {
    if (state_.error) return;
    if (std::find(asked_.begin(), asked_.end(), key) != asked_.end()) continue;
    refuseUnitSlip(key, value);
    std::string text = json::print(value);
    text.pop_back();  // the end of the line
    state_.unknown.push_back({path_, key, std::move(text), owner_, siblings_});
  }
}

std::string FieldReader::nameOf(const Value& object) {
  const Value* name = object.find("name");
  if (!name) name = object.find("date");  // of a reading
  return name && name->kind == Kind::String ? name->text : "";
}

std::string FieldReader::measure(std::string_view field) {
  measured_.emplace_back(field);
  return fileKey(field);
}

std::string FieldReader::pathOf(std::string_view key) const {
  return path_ + (path_.empty() ? "" : ".") + std::string(key);
}

const Value* FieldReader::take(std::string_view key, Kind kind) {
  asked_.emplace_back(key);
  if (state_.error) return nullptr;
  const Value* member = object_.find(key);
  return member && checkKind(*member, pathOf(key), kind) ? member : nullptr;
}

const Value* FieldReader::need(std::string_view key, Kind kind) {
  const Value* member = take(key, kind);
  if (member || state_.error) return member;
  for (const auto& [other, value] : object_.members) refuseUnitSlip(other, value);
  if (!state_.error) refuse(missingValue(pathOf(key), json::kindWords(kind), object_));
  return nullptr;
}

const Value* FieldReader::takeList(std::string_view key) {
  const Value* member = take(key, Kind::List);
  if (!member || member->items.size() <= kMaxEntries) return member;
  Error e = wrongValue(pathOf(key), *member, "at most " + std::to_string(kMaxEntries) + " entries");
  e.was = std::to_string(member->items.size()) + " entries";
  e.message = e.field + " has " + e.was + "; allowed: " + e.allowed + ".";
  refuse(e);
  return nullptr;
}

bool FieldReader::checkKind(const Value& value, const std::string& path, Kind kind) {
  if (value.kind == kind) return true;
  refuse(wrongValue(path, value, json::kindWords(kind), kindHint(value, kind)));
  return false;
}

bool FieldReader::readNumber(const Value& value, const std::string& path, std::string_view field,
                             double& out) {
  if (state_.error || !checkKind(value, path, Kind::Number)) return false;
  if (const auto si = siFromDecimal(value.text, fileUnit(field))) {
    out = *si;
    return true;
  }
  refuse(wrongValue(path, value, "a number below 1e308"));
  return false;
}

std::optional<std::size_t> FieldReader::wordIndex(std::string_view field, std::span<const char* const> words,
                                                  bool needed) {
  const Value* member = take(field, Kind::String);
  if (state_.error) return std::nullopt;
  if (member) {
    for (std::size_t i = 0; i < words.size(); ++i)
      if (member->text == words[i]) return i;
    refuse(wrongValue(pathOf(field), *member, joined(words)));
  } else if (needed) {
    refuse(missingValue(pathOf(field), joined(words), object_));
  }
  return std::nullopt;
}

void FieldReader::refuseDoubles() {
  std::vector<const json::Member*> sorted;
  for (const auto& member : object_.members) sorted.push_back(&member);
  std::stable_sort(sorted.begin(), sorted.end(), [](auto a, auto b) { return a->key < b->key; });
  for (std::size_t i = 1; i < sorted.size(); ++i) {
    const auto& [key, first] = *sorted[i - 1];
    const Value& second = sorted[i]->value;
    if (key != sorted[i]->key) continue;
    Error e = wrongValue(pathOf(key), second, "each key once");
    e.other_field = pathOf(key) + lineWords(first);
    e.message = pathOf(key) + " stands twice: " + json::excerpt(first) + lineWords(first) + " and " +
                json::excerpt(second) + lineWords(second) + ". Keep one.";
    return refuse(e);
  }
}

/// A number under length_cm would silently stay out of the sums: say what the key must be.
void FieldReader::refuseUnitSlip(const std::string& key, const Value& value) {
  for (const std::string& field : measured_) {
    if (key.compare(0, field.size(), field) != 0 || key == fileKey(field)) continue;
    const std::string ending = key.substr(field.size());
    if (std::find(kUnitEndings.begin(), kUnitEndings.end(), ending) == kUnitEndings.end()) continue;
    Error e = wrongValue(pathOf(key), value, "the key " + fileKey(field));
    e.message = pathOf(key) + lineWords(value) + ": this value belongs under the key " + fileKey(field) +
                ", in the unit of that key.";
    return refuse(e);
  }
}

void FieldReader::refuse(Error error) {
  if (!state_.error) state_.error = std::move(error);
}

}  // namespace pondtrim::file
