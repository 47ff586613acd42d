#pragma once
// JSON as a plain tree that forgets nothing: numbers stay text as typed, double keys stay double, and every
// value knows its line. RapidJSON does the reading.
#include <pondtrim/result.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace pondtrim::file::json {

enum class Kind { Null, Boolean, Number, String, List, Object };

struct Member;

struct Value {
  Kind kind = Kind::Null;
  std::string text;             ///< Number: as typed; String: the characters; Boolean: true or false
  std::vector<Value> items;     ///< of a List
  std::vector<Member> members;  ///< of an Object, in the order of the file
  int line = 0;                 ///< 1 for the first; 0 when not read from a file

  [[nodiscard]] const Value* find(std::string_view key) const;
  void add(std::string key, Value value);
};

struct Member {
  std::string key;
  Value value;
};

[[nodiscard]] Value empty(Kind kind);
[[nodiscard]] Value string(std::string_view characters);
[[nodiscard]] Value number(std::string decimal);
[[nodiscard]] Value boolean(bool truth);

/// Error: text over kMaxFileBytes, broken JSON (`field` is "line 7, column 12"), nesting over kMaxNesting.
[[nodiscard]] Result<Value> parse(std::string_view text);

/// Indented text; what fits on a line stays on it.
[[nodiscard]] std::string print(const Value& value);
/// Without one blank that is not in a text.
[[nodiscard]] std::string printCompact(const Value& value);

/// On one line and cut off when long: a value as an error message shows it.
[[nodiscard]] std::string excerpt(const Value& value);

/// "a number", "an object"...
[[nodiscard]] const char* kindWords(Kind kind);

}  // namespace pondtrim::file::json
