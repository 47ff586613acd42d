#include <rapidjson/memorystream.h>
#include <rapidjson/reader.h>

#include <algorithm>
#include <cstdint>
#include <pondtrim/file/boat_file.hpp>

#include "json_tree.hpp"

namespace pondtrim::file::json {
namespace {

using rapidjson::SizeType;

/// Counts lines as the parser moves on, so that no place has to be searched for afterwards.
class LineCounter {
 public:
  LineCounter(std::string_view text, const rapidjson::MemoryStream& stream) : text_(text), stream_(stream) {}
  int line() {
    const std::size_t here = stream_.Tell();
    for (; at_ < here; ++at_)
      if (text_[at_] == '\n') ++line_;
    return line_;
  }

 private:
  std::string_view text_;
  const rapidjson::MemoryStream& stream_;
  std::size_t at_ = 0;
  int line_ = 1;
};

/// Puts the parser's events together to a tree.
class Builder {
 public:
  Builder(std::string_view text, const rapidjson::MemoryStream& stream) : lines_(text, stream) {}

  // NOLINTBEGIN(readability-identifier-naming): the names that RapidJSON calls.
  bool Null() { return put(empty(Kind::Null)); }
  bool Bool(bool b) { return put(boolean(b)); }
  bool RawNumber(const char* s, SizeType n, bool) { return put(number(std::string(s, n))); }
  bool String(const char* s, SizeType n, bool) { return isText({s, n}) && put(string({s, n})); }
  bool Key(const char* s, SizeType n, bool) {
    open_.back().key.assign(s, n);
    return isText({s, n});
  }
  bool StartObject() { return open(Kind::Object); }
  bool StartArray() { return open(Kind::List); }
  bool EndObject(SizeType) { return close(); }
  bool EndArray(SizeType) { return close(); }
  // Numbers come as text (kParseNumbersAsStringsFlag); these are never called.
  bool Int(int) { return false; }
  bool Uint(unsigned) { return false; }
  bool Int64(std::int64_t) { return false; }
  bool Uint64(std::uint64_t) { return false; }
  bool Double(double) { return false; }
  // NOLINTEND(readability-identifier-naming)

  Value take() { return std::move(root_); }
  /// A text held the second half of a \u pair alone, which RapidJSON lets pass and UTF-8 cannot write.
  [[nodiscard]] bool metHalfPair() const { return half_pair_; }

 private:
  struct Open {
    Value value;
    std::string key;  ///< of the member that comes next
  };

  bool open(Kind kind) {
    if (open_.size() >= static_cast<std::size_t>(kMaxNesting)) return false;
    open_.push_back({empty(kind), {}});
    open_.back().value.line = lines_.line();
    return true;
  }
  bool close() {
    Value done = std::move(open_.back().value);
    open_.pop_back();
    place(std::move(done));
    return true;
  }
  bool isText(std::string_view characters) {
    for (std::size_t i = 0; i + 1 < characters.size(); ++i)
      if (characters[i] == '\xED' && static_cast<unsigned char>(characters[i + 1]) >= 0xA0) half_pair_ = true;
    return !half_pair_;
  }
  bool put(Value value) {
    value.line = lines_.line();
    place(std::move(value));
    return true;
  }
  void place(Value value) {
    if (open_.empty()) {
      root_ = std::move(value);
    } else if (open_.back().value.kind == Kind::List) {
      open_.back().value.items.push_back(std::move(value));
    } else {
      open_.back().value.add(std::move(open_.back().key), std::move(value));
    }
  }

  LineCounter lines_;
  std::vector<Open> open_;
  Value root_;
  bool half_pair_ = false;
};

std::string expectedWords(rapidjson::ParseErrorCode code) {
  switch (code) {
    case rapidjson::kParseErrorDocumentEmpty:
      return "a boat file, which starts with {";
    case rapidjson::kParseErrorDocumentRootNotSingular:
      return "the end of the file";
    case rapidjson::kParseErrorValueInvalid:
      return "a value: a number, a text in quotation marks, true, false, null, a list [ ] or an object { }";
    case rapidjson::kParseErrorObjectMissName:
      return "a key in quotation marks";
    case rapidjson::kParseErrorObjectMissColon:
      return "a colon after the key";
    case rapidjson::kParseErrorObjectMissCommaOrCurlyBracket:
      return "a comma or } after the value";
    case rapidjson::kParseErrorArrayMissCommaOrSquareBracket:
      return "a comma or ] after the value";
    case rapidjson::kParseErrorStringUnicodeEscapeInvalidHex:
      return "four hexadecimal digits after \\u";
    case rapidjson::kParseErrorStringUnicodeSurrogateInvalid:
      return "a complete pair of \\u surrogates";
    case rapidjson::kParseErrorStringEscapeInvalid:
      return "one of \" \\ / b f n r t u after the backslash";
    case rapidjson::kParseErrorStringMissQuotationMark:
      return "a quotation mark at the end of the text";
    case rapidjson::kParseErrorStringInvalidEncoding:
      return "text in UTF-8, without control characters";
    case rapidjson::kParseErrorNumberTooBig:
      return "a number below 1e308";
    case rapidjson::kParseErrorNumberMissFraction:
      return "a digit after the decimal point";
    case rapidjson::kParseErrorNumberMissExponent:
      return "a digit in the exponent";
    case rapidjson::kParseErrorTermination:
      return "at most " + std::to_string(kMaxNesting) + " lists and objects within each other";
    default:
      return "JSON";
  }
}

std::string seenAt(std::string_view text, std::size_t offset) {
  if (offset >= text.size()) return "the end of the file";
  const std::string_view rest = text.substr(offset, 20);
  const std::string_view word = rest.substr(0, rest.find_first_of(" \t\r\n,:[]{}", 1));
  std::string shown;
  for (const char c : word) shown += static_cast<unsigned char>(c) < 0x20 || c & 0x80 ? '?' : c;
  return shown;
}

Error syntaxError(std::string_view text, const rapidjson::ParseResult& result) {
  const std::size_t offset = std::min(result.Offset(), text.size());
  int line = 1, column = 1;
  for (const char c : text.substr(0, offset)) {
    if (c == '\n') {
      ++line, column = 1;
    } else if ((c & 0xC0) != 0x80) {  // not the middle of a UTF-8 character
      ++column;
    }
  }
  Error e;
  e.field = "line " + std::to_string(line) + ", column " + std::to_string(column);
  e.was = seenAt(text, offset);
  e.allowed = expectedWords(result.Code());
  e.message = e.field + ": expected " + e.allowed + ", but found " + e.was + ".";
  return e;
}

/// How much more is not said: a reader may have stopped there.
Error tooLarge() {
  Error e;
  e.field = "file";
  e.was = "more than " + std::to_string(kMaxFileBytes) + " bytes";
  e.allowed = "at most " + std::to_string(kMaxFileBytes) + " bytes";
  e.message = "The file has " + e.was + "; " + e.allowed + " are allowed.";
  return e;
}

}  // namespace

Result<Value> parse(std::string_view text) {
  if (text.size() > kMaxFileBytes) return fail(tooLarge());
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);  // byte order mark of some editors
  constexpr unsigned kFlags = rapidjson::kParseValidateEncodingFlag | rapidjson::kParseIterativeFlag |
                              rapidjson::kParseNumbersAsStringsFlag;
  rapidjson::MemoryStream stream(text.data(), text.size());
  Builder builder(text, stream);
  rapidjson::Reader reader;
  const auto result = reader.Parse<kFlags>(stream, builder);
  if (builder.metHalfPair())
    return fail(syntaxError(text, {rapidjson::kParseErrorStringUnicodeSurrogateInvalid, result.Offset()}));
  if (result.IsError()) return fail(syntaxError(text, result));
  if (stream.Tell() != text.size())  // RapidJSON takes a zero byte for the end
    return fail(syntaxError(text, {rapidjson::kParseErrorDocumentRootNotSingular, stream.Tell()}));
  return builder.take();
}

}  // namespace pondtrim::file::json
