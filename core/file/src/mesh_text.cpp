#include "mesh_text.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <pondtrim/file/error_terms.hpp>
#include <pondtrim/file/mesh_file.hpp>

namespace pondtrim::file {
namespace {

bool isBlank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\v' || c == '\f'; }
bool isDigit(char c) { return c >= '0' && c <= '9'; }

/// 10^n by squaring; infinite when too large.
double powerOfTen(unsigned long n) {
  double out = 1;
  for (double square = 10; n > 0; n /= 2, square *= square)
    if (n % 2 == 1) out *= square;
  return out;
}

}  // namespace

const char* const kCoordinateAllowed = "a number from -1e9 to 1e9";

Error meshError(std::string field, std::string was, std::string allowed) {
  Error e{std::move(field), std::move(was), std::move(allowed), "", ""};
  e.message = sentence(e);
  return e;
}

std::string shownWord(std::string_view word) {
  constexpr std::size_t kLongest = 24;
  std::string out = "\"";
  for (const char c : word.substr(0, kLongest)) out += c >= ' ' && c <= '~' ? c : '?';
  return out + (word.size() > kLongest ? "...\"" : "\"");
}

bool isCoordinate(double value) { return std::abs(value) <= kMostMeshCoordinate; }  // not a number is not

std::optional<double> quickNumber(std::string_view w) {
  std::size_t at = 0;
  const auto peek = [&] { return at < w.size() ? w[at] : '\0'; };
  const bool negative = peek() == '-';
  if (negative || peek() == '+') ++at;
  constexpr std::uint64_t kFull = 1'000'000'000'000'000'000;  // another digit still fits
  std::uint64_t digits = 0;
  long exponent = 0;
  bool any = false;
  for (bool point = false; isDigit(peek()) || (peek() == '.' && !point); ++at) {
    if (peek() == '.') {
      point = true;
      continue;
    }
    any = true;
    const bool room = digits < kFull;
    if (room) digits = 10 * digits + std::uint64_t(peek() - '0');
    exponent += (room ? 0 : 1) - (point ? 1 : 0);
  }
  if (!any) return std::nullopt;
  if (peek() == 'e' || peek() == 'E') {
    ++at;
    const bool down = peek() == '-';
    if (down || peek() == '+') ++at;
    if (!isDigit(peek())) return std::nullopt;
    long given = 0;
    for (; isDigit(peek()); ++at) given = std::min(10 * given + (peek() - '0'), 100'000L);
    exponent += down ? -given : given;
  }
  if (at != w.size()) return std::nullopt;
  if (digits == 0) return 0.0;
  double value = double(digits);
  if (exponent < -300) value /= 1e300, exponent += 300;
  const double power = powerOfTen(static_cast<unsigned long>(std::abs(exponent)));
  value = exponent < 0 ? value / power : value * power;
  return negative ? -value : value;
}

void MeshWords::skipBlanks(bool over_lines) {
  for (; at_ < text_.size(); ++at_) {
    const char c = text_[at_];
    const bool joined = c == '\\' && text_.substr(at_ + 1, 2).find('\n') != std::string_view::npos;
    if (joined) {
      at_ = text_.find('\n', at_);
      ++line_;
    } else if (c == '\n' && over_lines) {
      ++line_;
    } else if (!isBlank(c)) {
      return;
    }
  }
}

std::string_view MeshWords::wordInLine() {
  skipBlanks(false);
  const std::size_t from = at_;
  while (at_ < text_.size() && !isBlank(text_[at_]) && text_[at_] != '\n') ++at_;
  return text_.substr(from, at_ - from);
}

std::string_view MeshWords::word() {
  skipBlanks(true);
  return wordInLine();
}

bool MeshWords::nextLine() {
  at_ = std::min(text_.find('\n', at_), text_.size());
  if (at_ < text_.size()) ++at_, ++line_;
  return at_ < text_.size();
}

bool isWord(std::string_view word, std::string_view lower_case) {
  if (word.size() != lower_case.size()) return false;
  for (std::size_t i = 0; i < word.size(); ++i)
    if ((word[i] >= 'A' && word[i] <= 'Z' ? word[i] + ('a' - 'A') : word[i]) != lower_case[i]) return false;
  return true;
}

}  // namespace pondtrim::file
