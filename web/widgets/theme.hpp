#pragma once
// Sizes, fonts and Dear ImGui's style; the colours are in palette.hpp.
#include <imgui.h>

#include "widgets/palette.hpp"

namespace pondtrim::theme {

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
