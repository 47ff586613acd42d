#pragma once
// Colours and sizes of the daylight theme: dark ink on pale grounds, at least 7:1.
#include <imgui.h>

#include "scene/geometry.hpp"

namespace pondtrim::theme {

constexpr Colour kInk = colour(0x10222e);
constexpr Colour kQuietInk = colour(0x33454f);  // 9:1 on kPaper
constexpr Colour kPaper = colour(0xf4f7f9);
constexpr Colour kDock = colour(0xe3ebf0);
constexpr Colour kPlate = colour(0xffffff);
constexpr Colour kKey = colour(0xdde6ec);
constexpr Colour kKeyDown = colour(0xbccdd8);
constexpr Colour kAccent = colour(0x0b4a75);  // white on it: 9:1
constexpr Colour kAccentDown = colour(0x07344f);
constexpr Colour kTrack = colour(0xc3d0d9);
constexpr Colour kWater = colour(0x4f9fc4);
constexpr Colour kHull = colour(0x9db0ba);
constexpr Colour kLine = colour(0xc1121f);
constexpr Colour kWarning = colour(0x8a1020);
constexpr Colour kWarningGround = colour(0xfde9ea);

constexpr float kTouch = 46;       // CSS px, least height and width of anything to tap
constexpr float kTextSize = 17;    // CSS px
constexpr float kNumberSize = 27;  // CSS px

struct Fonts {
  ImFont* text = nullptr;
  ImFont* bold = nullptr;
  ImFont* number = nullptr;
};

/// Style and font atlas for a pixel ratio. The renderer must renew its font texture afterwards.
[[nodiscard]] Fonts apply(float ratio);

}  // namespace pondtrim::theme
