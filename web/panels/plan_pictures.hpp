#pragma once
// Before and after: she from the side, with the water as it lies now and as the plan would have it.
#include <pondtrim/plan.hpp>

#include "panels/screen.hpp"

namespace pondtrim {

/// One picture for each condition that the plan puts right, and in words how she lies now and then.
void drawBeforeAfter(const Session& session, Screen& screen, const Plan& plan);

}  // namespace pondtrim
