#pragma once
// What the browser keeps between visits: the boat in hand.
#include <pondtrim/file/boat_file.hpp>
#include <string>
#include <vector>

#include "session/session.hpp"

namespace pondtrim {

/// The boat kept by the last visit, or the first preset. A kept text that cannot be read is set aside (under
/// another key, nothing is lost) and the session's notice says so.
[[nodiscard]] Result<Session> resumeSession();

/// The kept texts that visits could not read, as they were, oldest first.
[[nodiscard]] std::vector<std::string> setAsideTexts();

/// What was chosen about the app in earlier visits; the usual for what was not, or cannot be read.
[[nodiscard]] Preferences recallPreferences();
bool keepPreferences(const Preferences& preferences);

/// False when the page could not keep it.
[[nodiscard]] bool keepBoat(const Session& session);
/// How deep she is to go, for the next visit.
[[nodiscard]] bool keepDepth(const Session& session);

}  // namespace pondtrim
