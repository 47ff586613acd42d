#include "deflate.hpp"

#include <zlib.h>

#include <algorithm>
#include <array>
#include <cassert>

namespace pondtrim::file {
namespace {

constexpr int kRawWindow = -15;  // 32 KiB, no header
constexpr int kMostMemory = 9;
constexpr std::size_t kPiece = 16384;

// zlib takes what it reads through pointers to changeable bytes, but does not change them.
Bytef* bytesOf(std::string_view text) { return reinterpret_cast<Bytef*>(const_cast<char*>(text.data())); }

std::string deflateAtLevel(std::string_view text, std::string_view dictionary, int level) {
  z_stream stream{};
  [[maybe_unused]] int result =
      deflateInit2(&stream, level, Z_DEFLATED, kRawWindow, kMostMemory, Z_DEFAULT_STRATEGY);
  assert(result == Z_OK);
  deflateSetDictionary(&stream, bytesOf(dictionary), static_cast<uInt>(dictionary.size()));
  std::string out(deflateBound(&stream, static_cast<uLong>(text.size())), '\0');
  stream.next_in = bytesOf(text);
  stream.avail_in = static_cast<uInt>(text.size());
  stream.next_out = bytesOf(out);
  stream.avail_out = static_cast<uInt>(out.size());
  result = deflate(&stream, Z_FINISH);
  assert(result == Z_STREAM_END);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

}  // namespace

std::string deflateRaw(std::string_view text, std::string_view dictionary) {
  std::string shortest = deflateAtLevel(text, dictionary, 9);
  for (const int level : {6, 8}) {
    std::string other = deflateAtLevel(text, dictionary, level);
    if (other.size() < shortest.size()) shortest = std::move(other);
  }
  return shortest;
}

Inflated inflateRaw(std::string_view stream_bytes, std::string_view dictionary, std::size_t most) {
  Inflated inflated;
  z_stream stream{};
  if (inflateInit2(&stream, kRawWindow) != Z_OK) return {{}, InflateFault::Damaged};
  inflateSetDictionary(&stream, bytesOf(dictionary), static_cast<uInt>(dictionary.size()));
  stream.next_in = bytesOf(stream_bytes);
  stream.avail_in = static_cast<uInt>(stream_bytes.size());
  std::array<char, kPiece> piece{};
  int result = Z_OK;
  while (result == Z_OK && !inflated.fault) {
    stream.next_out = reinterpret_cast<Bytef*>(piece.data());
    stream.avail_out = static_cast<uInt>(piece.size());
    result = inflate(&stream, Z_NO_FLUSH);
    const std::size_t made = piece.size() - stream.avail_out;
    if (inflated.text.size() + made > most) inflated.fault = InflateFault::TooLarge;
    inflated.text.append(piece.data(), std::min(made, most - inflated.text.size()));
  }
  const bool whole = result == Z_STREAM_END && stream.avail_in == 0;
  if (!whole && !inflated.fault) inflated.fault = InflateFault::Damaged;
  inflateEnd(&stream);
  return inflated;
}

std::uint32_t crc32Of(std::string_view bytes) {
  return static_cast<std::uint32_t>(crc32(0, bytesOf(bytes), static_cast<uInt>(bytes.size())));
}

}  // namespace pondtrim::file
