#pragma once
// RFC 4648 section 5, without padding.
#include <optional>
#include <string>
#include <string_view>

namespace pondtrim::file {

[[nodiscard]] std::string toBase64Url(std::string_view bytes);

/// Nothing when a character is not of the alphabet, the length is impossible, or bits beyond the last byte
/// are set.
[[nodiscard]] std::optional<std::string> fromBase64Url(std::string_view text);

}  // namespace pondtrim::file
