#pragma once
// The Io of boat_fields.hpp that writes: builds the JSON tree, and puts the unknown parts of the file back in
// their places.
#include <map>
#include <optional>
#include <pondtrim/boat.hpp>
#include <span>
#include <string>
#include <string_view>

#include "boat_visitor.hpp"
#include "json_tree.hpp"
#include "packed_text.hpp"

namespace pondtrim::file {

class FieldWriter : public BoatVisitor<FieldWriter> {
 public:
  /// Unknown members by the path of the object they belong in, in the file to be written.
  using Extras = std::multimap<std::string, std::pair<std::string, json::Value>>;

  FieldWriter(const Extras& extras, std::string path, const std::vector<Part>* parts = nullptr)
      : extras_(extras), path_(std::move(path)), parts_(parts) {}

  void number(std::string_view field, double value);
  void numberOr(double standard, std::string_view field, double value) {
    if (value != standard) number(field, value);
  }
  void vector(std::string_view field, const Vec3& value);
  void numbers(std::string_view field, const std::vector<double>& values);
  void requiredText(std::string_view field, const std::string& value);
  void packed(std::string_view field, const std::shared_ptr<const PackedMesh>& value) {
    if (value) requiredText(field, packedText(*value));
  }
  void text(std::string_view field, const std::string& value) {
    if (!value.empty()) requiredText(field, value);
  }
  void flag(std::string_view field, bool value) { flagOr(false, field, value); }
  void flagOr(bool standard, std::string_view field, bool value);
  void measured(std::string_view field, double standard_spread, const std::optional<Measured>& value);
  void amount(const std::string& part, double value);
  void knowParts(const std::vector<Part>& parts) { parts_ = &parts; }
  void version(std::string_view field, int newest);

  template <class Enum>
  void wordOr(Enum standard, std::string_view field, std::span<const char* const> words, Enum value) {
    if (value != standard) this->word(field, words, value);
  }

  template <class T>
  void object(std::string_view field, T& value) {
    FieldWriter writer(extras_, pathOf(field), parts_);
    fields(writer, value);
    object_.add(std::string(field), writer.finish());
  }
  template <class T>
  void optionalObject(std::string_view field, std::optional<T>& value) {
    if (value) object(field, *value);
  }
  template <class T>
  void list(std::string_view field, std::vector<T>& values) {
    json::Value items = json::empty(json::Kind::List);
    for (T& value : values) {
      FieldWriter writer(extras_, pathOf(field) + "[" + std::to_string(items.items.size()) + "]", parts_);
      fields(writer, value);
      items.items.push_back(writer.finish());
    }
    object_.add(std::string(field), std::move(items));
  }

  template <class T>
  void optionalList(std::string_view field, std::vector<T>& values) {
    if (!values.empty()) list(field, values);
  }
  template <class T>
  void optionalList(const T&, std::string_view field, std::vector<T>& values) {
    if (!values.empty()) list(field, values);
  }

  /// The object, with the unknown parts that belong right in it.
  [[nodiscard]] json::Value finish();

 private:
  [[nodiscard]] std::string pathOf(std::string_view key) const;

  const Extras& extras_;
  std::string path_;
  const std::vector<Part>* parts_;  ///< of the boat, once they have been written
  json::Value object_ = json::empty(json::Kind::Object);
};

}  // namespace pondtrim::file
