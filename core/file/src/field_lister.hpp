#pragma once
// The Io of boat_fields.hpp that lists: every number and word of a boat with the thing it belongs to.
#include <optional>
#include <pondtrim/boat.hpp>
#include <pondtrim/file/units.hpp>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "boat_fields.hpp"
#include "boat_visitor.hpp"
#include "packed_text.hpp"

namespace pondtrim::file {

struct Listed {
  std::string thing;  ///< empty: the boat herself
  std::string field;  ///< path below the thing; "" for the entry that says that the thing is there
  std::optional<double> number;
  std::string text;
};

class FieldLister : public BoatVisitor<FieldLister> {
 public:
  FieldLister(std::vector<Listed>& out, std::string thing, std::string prefix)
      : out_(out), thing_(std::move(thing)), prefix_(std::move(prefix)) {}

  void number(std::string_view field, double value) { out_.push_back({thing_, pathOf(field), value, {}}); }
  void numberOr(double, std::string_view field, double value) { number(field, value); }
  void vector(std::string_view field, const Vec3& value) {
    const std::string name(field);
    number(name + ".x", value.x);
    number(name + ".y", value.y);
    number(name + ".z", value.z);
  }
  void numbers(std::string_view field, const std::vector<double>& values) {
    for (std::size_t i = 0; i < values.size(); ++i)
      number(std::string(field) + "." + std::to_string(i + 1), values[i]);
  }
  void requiredText(std::string_view field, const std::string& value) {
    if (field != kNameField) text(field, value);
  }
  void text(std::string_view field, const std::string& value) {
    if (!value.empty()) out_.push_back({thing_, pathOf(field), std::nullopt, value});
  }
  void packed(std::string_view field, const std::shared_ptr<const PackedMesh>& value) {
    if (value) text(field, packedTitle(*value));
  }
  void flag(std::string_view field, bool value) { text(field, value ? "yes" : "no"); }
  void flagOr(bool, std::string_view field, bool value) { flag(field, value); }
  void measured(std::string_view, double, const std::optional<Measured>&) {
  }  // of readings, which are not listed
  void amount(const std::string&, double) {}
  void knowParts(const std::vector<Part>&) {}

  template <class Enum>
  void wordOr(Enum, std::string_view field, std::span<const char* const> words, Enum value) {
    word(field, words, value);
  }
  template <class T>
  void object(std::string_view field, T& value) {
    FieldLister lister(out_, thing_, pathOf(field) + ".");
    fields(lister, value);
  }
  template <class T>
  void optionalObject(std::string_view field, std::optional<T>& value) {
    if (!value) return;
    out_.push_back({std::string(field), "", std::nullopt, {}});
    FieldLister lister(out_, std::string(field), "");
    fields(lister, *value);
  }
  template <class T>
  void list(std::string_view, std::vector<T>& values) {
    for (T& value : values) {
      const std::string thing = nameOf(value, static_cast<std::size_t>(&value - values.data()));
      out_.push_back({thing, "", std::nullopt, {}});
      FieldLister lister(out_, thing, "");
      fields(lister, value);
    }
  }
  template <class T>
  void optionalList(std::string_view field, std::vector<T>& values) {
    if constexpr (!std::is_same_v<T, Installed>) list(field, values);
  }
  template <class T>
  void optionalList(const T&, std::string_view field, std::vector<T>& values) {
    if constexpr (std::is_same_v<T, Reading>)
      number("readings", static_cast<double>(values.size()));
    else
      optionalList(field, values);
  }

 private:
  static constexpr std::string_view kNameField = "name";

  [[nodiscard]] std::string pathOf(std::string_view field) const { return prefix_ + std::string(field); }
  template <class T>
  std::string nameOf(const T& value, std::size_t index) const {
    if constexpr (std::is_same_v<T, PlaceRecord>)
      return value.part + " as a place";
    else if constexpr (std::is_same_v<T, OffsetStation>)
      return thing_ + ", station " + std::to_string(index + 1);
    else
      return value.name;
  }

  std::vector<Listed>& out_;
  std::string thing_, prefix_;
};

}  // namespace pondtrim::file
