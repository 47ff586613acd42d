#pragma once
// What the Ios of boat_fields.hpp that take from a boat have in common: forms of a field that differ only for
// one that reads a file.
#include <optional>
#include <pondtrim/result.hpp>
#include <span>
#include <string_view>
#include <variant>

namespace pondtrim::file {

/// `Io`, the class that derives from this one, has number, requiredText and object.
template <class Io>
class BoatVisitor {
 public:
  void optional(std::string_view field, const std::optional<double>& value) {
    if (value) self().number(field, *value);
  }
  template <class Enum>
  void word(std::string_view field, std::span<const char* const> words, Enum value) {
    self().requiredText(field, words[static_cast<std::size_t>(value)]);
  }
  template <class... Forms>
  void variant(std::string_view field, std::span<const char* const> words, std::variant<Forms...>& value) {
    self().requiredText(field, words[value.index()]);
    std::visit([this](auto& form) { fields(self(), form); }, value);
  }
  template <class T>
  void keptObject(std::string_view field, T& value) {
    self().object(field, value);
  }
  template <class T>
  void objectOr(std::string_view field, T& value) {
    self().object(field, value);
  }
  void reject(const Error&) {}  // what is in hand is a boat

 private:
  friend Io;
  BoatVisitor() = default;
  Io& self() { return static_cast<Io&>(*this); }
};

}  // namespace pondtrim::file
