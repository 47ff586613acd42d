#pragma once
// The numbers typed for a boat that is only described so far, kept by the browser between visits.
#include "session/session.hpp"

namespace pondtrim {

/// Numbers of a boat and of the full-size boat that she may be a model of.
[[nodiscard]] bool keepDescribed(const Session& session);
/// Those of an earlier visit; what was not kept, or cannot be read, stays as it is.
void resumeDescribed(Session& session);

}  // namespace pondtrim
