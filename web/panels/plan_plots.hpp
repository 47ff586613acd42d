#pragma once
// Diagrams of the plan: the equilibrium polygon of each condition, and carried weight against stability.
#include "session/session.hpp"

namespace pondtrim {

struct Screen;

void drawPlanPlots(const Session& session, Screen& screen);

}  // namespace pondtrim
