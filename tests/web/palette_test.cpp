// Words are readable by day and by night: contrast as the Web Content Accessibility Guidelines 2.1 reckon it
// (W3C, definitions of "relative luminance" and "contrast ratio"; 7:1 is success criterion 1.4.6).
#include "widgets/palette.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace pondtrim;
using namespace pondtrim::theme;

namespace {

double luminance(Colour c) {
  const auto part = [&](unsigned shift) {
    const double v = (c >> shift & 255u) / 255.0;
    return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(0) + 0.7152 * part(8) + 0.0722 * part(16);
}

double contrast(Colour a, Colour b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

}  // namespace

TEST_CASE("every ink stands 7:1 off every ground that it is put on, by day and by night") {
  CHECK(contrast(colour(0x000000), colour(0xffffff)) == doctest::Approx(21));
  for (const bool night : {false, true}) {
    CAPTURE(night);
    chooseColours(night);
    for (const Colour ground : {kPaper, kDock, kPlate, kKey}) {
      CHECK(contrast(kInk, ground) >= 7);
      CHECK(contrast(kQuietInk, ground) >= 7);
    }
    CHECK(contrast(kInk, kKeyDown) >= 7);
    CHECK(contrast(kPlate, kAccent) >= 7);  // words on the key in use
    CHECK(contrast(kWarning, kPaper) >= 7);
    CHECK(contrast(kWarning, kWarningGround) >= 7);
    CHECK(contrast(kAccent, kTrack) >= 3);  // a slider's thumb on its track: 1.4.11
  }
  chooseColours(false);
}
