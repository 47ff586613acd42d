#pragma once
// Words and lines of a mesh written as text.
#include <optional>
#include <pondtrim/result.hpp>
#include <string>
#include <string_view>

namespace pondtrim::file {

[[nodiscard]] Error meshError(std::string field, std::string was, std::string allowed);

/// A word of a stranger's file for an error message: cut short, and only what can be printed.
[[nodiscard]] std::string shownWord(std::string_view word);

/// One coordinate: error when not finite or over kMostMeshCoordinate.
[[nodiscard]] bool isCoordinate(double value);
extern const char* const kCoordinateAllowed;

/// A decimal number and nothing else, right to a few units in the last place of a double; strtod would be
/// slow in WASM, and there are nine in every triangle.
[[nodiscard]] std::optional<double> quickNumber(std::string_view word);

/// Takes a text apart at blanks. '\\' before the end of a line joins it to the next.
class MeshWords {
 public:
  explicit MeshWords(std::string_view text) : text_(text) {}

  /// The next word, in this or a later line; empty at the end.
  std::string_view word();
  /// The next word in this line; empty at its end.
  std::string_view wordInLine();
  /// Goes to the start of the next line; false at the end of the text.
  bool nextLine();
  [[nodiscard]] std::size_t line() const { return line_; }
  [[nodiscard]] std::size_t position() const { return at_; }

 private:
  void skipBlanks(bool over_lines);
  std::string_view text_;
  std::size_t at_ = 0, line_ = 1;
};

/// Upper and lower case alike.
[[nodiscard]] bool isWord(std::string_view word, std::string_view lower_case);

}  // namespace pondtrim::file
