#pragma once
// Links as QR codes (ISO/IEC 18004) that a phone's camera can read from another phone's screen.
#include <string>
#include <string_view>
#include <vector>

namespace pondtrim {

/// The largest code shown: 117 modules across, which a phone's camera still reads from a phone's screen.
/// Common practice, no source.
inline constexpr int kLargestQrVersion = 25;
/// What such a code holds at its weakest level of error correction (ISO/IEC 18004, byte mode of 25-L).
inline constexpr std::size_t kQrCapacity = 1273;

/// What one of several codes holds of a fragment, beside the page's address and the part's own head.
[[nodiscard]] inline std::size_t codeRoom(std::string_view page_address) {
  const std::size_t used = page_address.size() + 32;
  return used < kQrCapacity ? kQrCapacity - used : 0;
}

struct QrPicture {
  int version = 1;
  char level = 'L';        ///< of error correction: L, M, Q or H
  int size = 21;           ///< modules across, without the quiet zone
  std::vector<bool> dark;  ///< size x size, top row first
  [[nodiscard]] bool at(int x, int y) const {
    const auto row = static_cast<std::size_t>(y), width = static_cast<std::size_t>(size);
    return dark[row * width + static_cast<std::size_t>(x)];
  }
};

/// Short texts get more error correction: the strongest level that keeps the code at a size that is read at
/// once. `text`: at most kQrCapacity bytes.
[[nodiscard]] QrPicture qrPicture(std::string_view text);

/// The links that together carry `fragment` (file/link.hpp), each short enough for a code. Empty: too long
/// for codes.
[[nodiscard]] std::vector<std::string> linksForCodes(std::string_view page_address,
                                                     const std::string& fragment);

}  // namespace pondtrim
