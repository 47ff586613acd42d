#pragma once
// What the browser keeps between visits: the boat in hand.
#include <optional>
#include <pondtrim/file/boat_file.hpp>
#include <string>

#include "session/session.hpp"

namespace pondtrim {

/// The boat kept by the last visit, or the first preset. A kept text that cannot be read is set aside (under
/// another key, nothing is lost) and the session's notice says so.
[[nodiscard]] Result<Session> resumeSession();

/// The kept text that a visit could not read, as it was; empty: none.
[[nodiscard]] std::optional<std::string> setAsideText();

/// False when the page could not keep it.
[[nodiscard]] bool keepBoat(const Session& session);

}  // namespace pondtrim
