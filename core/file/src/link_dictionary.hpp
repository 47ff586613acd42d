#pragma once
#include <string_view>

namespace pondtrim::file {

/// What links of version 1 take as known: the preset dictionary of their deflate streams (RFC 1951 streams
/// whose window starts with this text). Frozen.
extern const std::string_view kLinkDictionary1;

}  // namespace pondtrim::file
