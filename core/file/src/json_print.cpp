#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include "json_tree.hpp"

namespace pondtrim::file::json {
namespace {

constexpr std::size_t kLineWidth = 110;
constexpr std::size_t kExcerptWidth = 60;

std::string quoted(std::string_view characters) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer<rapidjson::StringBuffer> writer(buffer);
  writer.String(characters.data(), static_cast<rapidjson::SizeType>(characters.size()));
  return {buffer.GetString(), buffer.GetSize()};
}

/// What stands between the parts of a list or an object, and after a key.
struct Between {
  const char* parts;
  const char* key;
};
constexpr Between kReadable{", ", ": "}, kTight{",", ":"};

std::string onOneLine(const Value& value, const Between& between = kReadable) {
  switch (value.kind) {
    case Kind::Null:
      return "null";
    case Kind::Boolean:
    case Kind::Number:
      return value.text;
    case Kind::String:
      return quoted(value.text);
    case Kind::List: {
      std::string text = "[";
      for (const Value& item : value.items)
        text += (text.size() > 1 ? between.parts : "") + onOneLine(item, between);
      return text + "]";
    }
    case Kind::Object: {
      std::string text = "{";
      for (const auto& [key, member] : value.members)
        text +=
            (text.size() > 1 ? between.parts : "") + quoted(key) + between.key + onOneLine(member, between);
      return text + "}";
    }
  }
  return "null";
}

/// `used`: characters that stand before and after the value on its line.
void printTo(std::string& out, const Value& value, std::size_t indent, std::size_t used) {
  const std::string line = onOneLine(value);
  const bool has_parts = !value.items.empty() || !value.members.empty();
  if (!has_parts || (indent > 0 && used + line.size() <= kLineWidth)) {
    out += line;
    return;
  }
  const bool list = value.kind == Kind::List;
  const std::string margin(indent + 2, ' ');
  out += list ? "[" : "{";
  const char* comma = "\n";
  for (const Value& item : value.items) {
    out += comma;
    out += margin;
    printTo(out, item, indent + 2, margin.size() + 1);
    comma = ",\n";
  }
  for (const auto& [key, member] : value.members) {
    const std::string start = quoted(key) + ": ";
    out += comma;
    out += margin;
    out += start;
    printTo(out, member, indent + 2, margin.size() + start.size() + 1);
    comma = ",\n";
  }
  out += "\n" + std::string(indent, ' ') + (list ? "]" : "}");
}

}  // namespace

const Value* Value::find(std::string_view key) const {
  for (const auto& [name, member] : members)
    if (name == key) return &member;
  return nullptr;
}

void Value::add(std::string key, Value value) { members.push_back({std::move(key), std::move(value)}); }

Value empty(Kind kind) {
  Value value;
  value.kind = kind;
  return value;
}
Value string(std::string_view characters) {
  Value value = empty(Kind::String);
  value.text = characters;
  return value;
}
Value number(std::string decimal) {
  Value value = empty(Kind::Number);
  value.text = std::move(decimal);
  return value;
}
Value boolean(bool truth) {
  Value value = empty(Kind::Boolean);
  value.text = truth ? "true" : "false";
  return value;
}

std::string print(const Value& value) {
  std::string out;
  printTo(out, value, 0, 0);
  return out + "\n";
}

std::string printCompact(const Value& value) { return onOneLine(value, kTight); }

std::string excerpt(const Value& value) {
  if (value.kind == Kind::Object) return "an object";
  std::string text = onOneLine(value);
  if (text.size() <= kExcerptWidth) return text;
  std::size_t end = kExcerptWidth;
  while ((text[end] & 0xC0) == 0x80) --end;  // never in the middle of a UTF-8 character
  return text.substr(0, end) + "...";
}

const char* kindWords(Kind kind) {
  switch (kind) {
    case Kind::Null:
      return "null";
    case Kind::Boolean:
      return "true or false";
    case Kind::Number:
      return "a number";
    case Kind::String:
      return "a text in quotation marks";
    case Kind::List:
      return "a list [ ]";
    case Kind::Object:
      return "an object { }";
  }
  return "";
}

}  // namespace pondtrim::file::json
