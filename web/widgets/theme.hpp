#pragma once
// Sizes, fonts and Dear ImGui's style; the colours are in palette.hpp.
#include <imgui.h>

#include "widgets/palette.hpp"

namespace pondtrim::theme {

constexpr float kTouch = 46;       // CSS px, least height and width of anything to tap
constexpr float kTextSize = 17;    // CSS px
constexpr float kNumberSize = 27;  // CSS px
constexpr float kMostNumberScale = 1.5f;

struct Fonts {
  ImFont* text = nullptr;
  ImFont* bold = nullptr;
  ImFont* number = nullptr;
};

/// Style and letters for a pixel ratio, and letters so many times their usual size (1 to 2; numbers, large as
/// they are, grow by half at most). The renderer must renew its texture of letters afterwards.
[[nodiscard]] Fonts apply(float ratio, float text_scale);

}  // namespace pondtrim::theme
