#pragma once
// Before and after: she from the side, with the water as it lies now and as the plan would have it.
#include <pondtrim/plan.hpp>

#include "panels/screen.hpp"

namespace pondtrim {

/// She from the side with her cylinder and her painted line, before there is any water to float in.
void drawProfile(Screen& screen, const Boat& boat, const Model& model);

/// One picture for each condition that the plan puts right, and in words how she lies now and then.
void drawBeforeAfter(const Session& session, Screen& screen, const Plan& plan);

}  // namespace pondtrim
