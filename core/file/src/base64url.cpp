#include "base64url.hpp"

#include <cstdint>

namespace pondtrim::file {
namespace {

constexpr std::string_view kAlphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

}  // namespace

std::string toBase64Url(std::string_view bytes) {
  std::string text;
  text.reserve((4 * bytes.size() + 2) / 3);
  std::uint32_t bits = 0;
  int waiting = 0;
  for (const char byte : bytes) {
    bits = (bits << 8) | static_cast<unsigned char>(byte);
    for (waiting += 8; waiting >= 6; waiting -= 6) text += kAlphabet[(bits >> (waiting - 6)) & 63];
  }
  if (waiting > 0) text += kAlphabet[(bits << (6 - waiting)) & 63];
  return text;
}

std::optional<std::string> fromBase64Url(std::string_view text) {
  if (text.size() % 4 == 1) return std::nullopt;
  std::string bytes;
  bytes.reserve(3 * text.size() / 4);
  std::uint32_t bits = 0;
  int waiting = 0;
  for (const char c : text) {
    const std::size_t value = kAlphabet.find(c);
    if (value == std::string_view::npos) return std::nullopt;
    bits = (bits << 6) | static_cast<std::uint32_t>(value);
    waiting += 6;
    if (waiting < 8) continue;
    waiting -= 8;
    bytes += static_cast<char>((bits >> waiting) & 255);
  }
  if ((bits & ((1u << waiting) - 1)) != 0) return std::nullopt;
  return bytes;
}

}  // namespace pondtrim::file
