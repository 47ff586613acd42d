#include "session/qr_codes.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <pondtrim/file/link.hpp>

extern "C" {
#include <qrcodegen.h>
}

namespace pondtrim {
namespace {

struct Level {
  qrcodegen_Ecc ecc;
  std::size_t comfortable;  ///< bytes that it holds in version 15 (20 for M), ISO/IEC 18004
};
constexpr Level kLevels[] = {{qrcodegen_Ecc_HIGH, 220},
                             {qrcodegen_Ecc_QUARTILE, 292},
                             {qrcodegen_Ecc_MEDIUM, 666},
                             {qrcodegen_Ecc_LOW, kQrCapacity}};

using Code = std::array<std::uint8_t, qrcodegen_BUFFER_LEN_FOR_VERSION(kLargestQrVersion)>;

/// The level that the code itself names: the last two bits of its format information, beside the lower left
/// finder pattern (ISO/IEC 18004, section on format information), under that section's mask 10.
char levelOf(const Code& code) {
  const int size = qrcodegen_getSize(code.data());
  const bool first = !qrcodegen_getModule(code.data(), 8, size - 1);
  const bool second = qrcodegen_getModule(code.data(), 8, size - 2);
  return "MLHQ"[2 * first + second];
}

}  // namespace

QrPicture qrPicture(std::string_view text) {
  assert(text.size() <= kQrCapacity && "linksForCodes splits longer ones");
  const auto* level = std::find_if(std::begin(kLevels), std::end(kLevels),
                                   [&](const Level& l) { return text.size() <= l.comfortable; });
  Code code, bytes{};  // the encoder works in the bytes, too
  std::copy(text.begin(), text.end(), bytes.begin());
  [[maybe_unused]] const bool fits =
      qrcodegen_encodeBinary(bytes.data(), text.size(), code.data(), level->ecc, 1, kLargestQrVersion,
                             qrcodegen_Mask_AUTO, true);  // raises the level where the size stays
  assert(fits);
  const int size = qrcodegen_getSize(code.data());
  QrPicture picture{(size - 17) / 4, levelOf(code), size, {}};
  const auto width = static_cast<std::size_t>(size);
  picture.dark.reserve(width * width);
  for (int y = 0; y < size; ++y)
    for (int x = 0; x < size; ++x) picture.dark.push_back(qrcodegen_getModule(code.data(), x, y));
  return picture;
}

std::vector<std::string> linksForCodes(std::string_view page_address, const std::string& fragment) {
  const std::string start = std::string(page_address) + "#";
  constexpr std::size_t kLeastRoom = 100;  // splitFragment's
  if (start.size() + kLeastRoom > kQrCapacity) return {};
  std::vector<std::string> links = file::splitFragment(fragment, kQrCapacity - start.size());
  for (std::string& link : links) link.insert(0, start);
  return links;
}

}  // namespace pondtrim
