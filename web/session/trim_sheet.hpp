#pragma once
// The trim sheet of the boat in hand: the core's, with her plan and a drawing.
#include <pondtrim/file/trim_sheet.hpp>
#include <string>

#include "session/session.hpp"

namespace pondtrim {

/// Numbers in the session's units; with the plan when she has places and a tank.
[[nodiscard]] file::TrimSheet trimSheet(const Session& session);

/// Opens it on the page: as HTML for print and screen readers, and as text to copy.
void showTrimSheet(const Session& session);

/// The drawing on it: an SVG side view of the boat lying level, with the water as it stands with the tank
/// empty and full.
[[nodiscard]] std::string sideDrawing(const Session& session);

}  // namespace pondtrim
