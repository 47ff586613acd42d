#include "session/qr_codes.hpp"

#include <algorithm>
#include <cassert>
#include <pondtrim/file/link.hpp>
#include <qrcodegen.hpp>

namespace pondtrim {
namespace {

using qrcodegen::QrCode;

struct Level {
  QrCode::Ecc ecc;
  char letter;
  std::size_t comfortable;  ///< bytes that it holds in version 15 (20 for M), ISO/IEC 18004
};
constexpr Level kLevels[] = {{QrCode::Ecc::HIGH, 'H', 220},
                             {QrCode::Ecc::QUARTILE, 'Q', 292},
                             {QrCode::Ecc::MEDIUM, 'M', 666},
                             {QrCode::Ecc::LOW, 'L', kQrCapacity}};

char letterOf(QrCode::Ecc ecc) {
  const auto* level =
      std::find_if(std::begin(kLevels), std::end(kLevels), [&](const Level& l) { return l.ecc == ecc; });
  return level->letter;
}

}  // namespace

QrPicture qrPicture(std::string_view text) {
  assert(text.size() <= kQrCapacity && "linksForCodes splits longer ones");
  const auto* level = std::find_if(std::begin(kLevels), std::end(kLevels),
                                   [&](const Level& l) { return text.size() <= l.comfortable; });
  const std::vector<std::uint8_t> bytes(text.begin(), text.end());
  const QrCode code = QrCode::encodeSegments({qrcodegen::QrSegment::makeBytes(bytes)}, level->ecc, 1,
                                             kLargestQrVersion);  // raises the level where the size stays
  QrPicture picture{code.getVersion(), letterOf(code.getErrorCorrectionLevel()), code.getSize(), {}};
  const auto width = static_cast<std::size_t>(picture.size);
  picture.dark.reserve(width * width);
  for (int y = 0; y < picture.size; ++y)
    for (int x = 0; x < picture.size; ++x) picture.dark.push_back(code.getModule(x, y));
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
