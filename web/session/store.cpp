#include "session/store.hpp"

#include "browser/browser.hpp"
#include "session/presets.hpp"

namespace pondtrim {
namespace {
constexpr const char* kBoatKey = "boat";
constexpr const char* kSetAsideKey = "boat-set-aside";

Result<Session> firstPreset() {
  auto document = preset(0);
  if (!document) return fail(document.error());
  return Session::start(std::move(*document));
}
}  // namespace

Result<Session> resumeSession() {
  const auto kept = browser::recall(kBoatKey);
  if (!kept) return firstPreset();
  std::string why;
  if (auto document = file::readBoatFile(*kept)) {
    auto session = Session::start(std::move(*document));
    if (session) return session;
    why = session.error().message;
  } else {
    why = document.error().message;
  }
  const bool set_aside = browser::keep(kSetAsideKey, *kept);
  auto session = firstPreset();
  if (session)
    session->say("The boat kept in this browser could not be read (" + why + "). " +
                 (set_aside ? "It was set aside; save it from the Boat page." : "It is still kept."));
  return session;
}

std::optional<std::string> setAsideText() { return browser::recall(kSetAsideKey); }

bool keepBoat(const Session& session) {
  return browser::keep(kBoatKey, file::writeBoatFile(session.document()));
}

}  // namespace pondtrim
