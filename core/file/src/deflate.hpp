#pragma once
// Raw deflate streams (RFC 1951) that start from a known text. The wall around zlib, which no other file
// sees.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace pondtrim::file {

/// The shortest of zlib's streams.
[[nodiscard]] std::string deflateRaw(std::string_view text, std::string_view dictionary);

enum class InflateFault { Damaged, TooLarge };
struct Inflated {
  std::string text;
  std::optional<InflateFault> fault;
};
/// Stops with TooLarge as soon as more than `most` bytes come out, having held no more than these. A stream
/// that is cut off, or followed by anything, is damaged.
[[nodiscard]] Inflated inflateRaw(std::string_view stream, std::string_view dictionary, std::size_t most);

/// CRC-32 of ISO-HDLC: that of "123456789" is cbf43926.
[[nodiscard]] std::uint32_t crc32Of(std::string_view bytes);

}  // namespace pondtrim::file
