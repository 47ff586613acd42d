#pragma once
// The Io of boat_fields.hpp that reads: takes one object's members by key and checks their kind. The first
// fault wins; what no field asked for is unknown.
#include <optional>
#include <pondtrim/file/boat_file.hpp>
#include <span>
#include <string>
#include <string_view>
#include <variant>

#include "json_tree.hpp"

namespace pondtrim::file {

/// Shared by the readers of one file.
struct ReadState {
  std::optional<Error> error;
  std::vector<UnknownPart> unknown;
  const std::vector<Part>* parts = nullptr;  ///< of the boat, once they have been read
};

class FieldReader {
 public:
  /// `owner`, `siblings`: as in UnknownPart, for the named thing of a list that this object is or lies in.
  FieldReader(ReadState& state, const json::Value& object, std::string path, std::string owner = {},
              std::size_t siblings = 0);

  void number(std::string_view field, double& value);
  void numberOr(double standard, std::string_view field, double& value);
  void optional(std::string_view field, std::optional<double>& value);
  void vector(std::string_view field, Vec3& value);
  void numbers(std::string_view field, std::vector<double>& values);
  void text(std::string_view field, std::string& value);
  void requiredText(std::string_view field, std::string& value);
  void packed(std::string_view field, std::shared_ptr<const PackedMesh>& value);
  void flag(std::string_view field, bool& value) { flagOr(false, field, value); }
  void flagOr(bool standard, std::string_view field, bool& value);
  void measured(std::string_view field, double standard_spread, std::optional<Measured>& value);
  void amount(const std::string& part, double& value);
  void knowParts(const std::vector<Part>& parts) { state_.parts = &parts; }
  void version(std::string_view key, int newest);

  template <class Enum>
  void word(std::string_view field, std::span<const char* const> words, Enum& value) {
    if (const auto index = wordIndex(field, words, true)) value = static_cast<Enum>(*index);
  }
  template <class Enum>
  void wordOr(Enum standard, std::string_view field, std::span<const char* const> words, Enum& value) {
    const auto index = wordIndex(field, words, false);
    value = index ? static_cast<Enum>(*index) : standard;
  }

  template <class... Forms>
  void variant(std::string_view field, std::span<const char* const> words, std::variant<Forms...>& value) {
    const auto index = wordIndex(field, words, true);
    if (!index) return;
    const std::variant<Forms...> all[] = {Forms{}...};
    value = all[*index];
    std::visit([this](auto& form) { fields(*this, form); }, value);
  }

  template <class T>
  void object(std::string_view field, T& value) {
    if (const json::Value* member = need(field, json::Kind::Object)) readObject(*member, field, value);
  }
  template <class T>
  void objectOr(std::string_view field, T& value) {
    value = T{};
    keptObject(field, value);
  }
  /// Left out: the value stays what it is.
  template <class T>
  void keptObject(std::string_view field, T& value) {
    if (const json::Value* member = take(field, json::Kind::Object)) readObject(*member, field, value);
  }
  template <class T>
  void optionalObject(std::string_view field, std::optional<T>& value) {
    value.reset();
    if (const json::Value* member = take(field, json::Kind::Object))
      readObject(*member, field, value.emplace());
  }
  template <class T>
  void list(std::string_view field, std::vector<T>& values) {
    optionalList(T{}, field, values);
  }
  template <class T>
  void optionalList(const T& start, std::string_view field, std::vector<T>& values) {
    values.clear();
    const json::Value* member = takeList(field);
    if (!member) return;
    for (std::size_t i = 0; i < member->items.size() && !state_.error; ++i) {
      const std::string path = pathOf(field) + "[" + std::to_string(i) + "]";
      const json::Value& item = member->items[i];
      if (!checkKind(item, path, json::Kind::Object)) return;
      // In a list within a list the outer thing is the owner: it is what moves.
      FieldReader reader(state_, item, path, siblings_ > 0 ? owner_ : nameOf(item),
                         siblings_ > 0 ? siblings_ : member->items.size());
      fields(reader, values.emplace_back(start));
      reader.finish();
    }
  }

  template <class T>
  void optionalList(std::string_view field, std::vector<T>& values) {
    list(field, values);
  }
  void reject(Error error) { refuse(std::move(error)); }

  /// Call when every field has been asked for: keeps what is left as unknown, refuses slips of the unit.
  void finish();

 private:
  template <class T>
  void readObject(const json::Value& member, std::string_view field, T& value) {
    FieldReader reader(state_, member, pathOf(field), owner_, siblings_);
    fields(reader, value);
    reader.finish();
  }

  [[nodiscard]] static std::string nameOf(const json::Value& object);
  [[nodiscard]] std::string pathOf(std::string_view key) const;
  std::string measure(std::string_view field);  ///< the field's key; notes that the field has a unit
  const json::Value* take(std::string_view key, json::Kind kind);
  const json::Value* need(std::string_view key, json::Kind kind);
  const json::Value* takeList(std::string_view key);
  bool checkKind(const json::Value& value, const std::string& path, json::Kind kind);
  bool readNumber(const json::Value& value, const std::string& path, std::string_view field, double& out);
  std::optional<std::size_t> wordIndex(std::string_view field, std::span<const char* const> words,
                                       bool needed);
  void refuseDoubles();
  void refuseUnitSlip(const std::string& key, const json::Value& value);
  void refuse(Error error);

  ReadState& state_;
  const json::Value& object_;
  std::string path_, owner_;
  std::size_t siblings_;
  std::vector<std::string> asked_;     ///< keys that fields have asked for
  std::vector<std::string> measured_;  ///< fields that are numbers
};

}  // namespace pondtrim::file
