#pragma once
// Colours of the screen: by day dark ink on pale grounds, by night pale ink on dark ones; words at least 7:1
// in both.
#include "scene/geometry.hpp"

namespace pondtrim::theme {

// Those in use; `chooseColours` sets them.
extern Colour kInk, kQuietInk, kPaper, kDock, kPlate, kKey, kKeyDown, kAccent, kAccentDown, kTrack, kWater,
    kHull, kLine, kWarning, kWarningGround;
extern Colour kShade;  ///< laid over the picture, clear by day

void chooseColours(bool night);

/// The colour, as much of it as `alpha` of 255.
[[nodiscard]] constexpr Colour faded(Colour colour, unsigned alpha) {
  return (colour & 0x00ffffffu) | (alpha << 24);
}

}  // namespace pondtrim::theme
