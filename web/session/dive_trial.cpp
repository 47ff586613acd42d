#include "session/dive_trial.hpp"

namespace pondtrim {

void DiveTrial::tryOn(Session& session, const Boat& changed) {
  constexpr std::uint64_t kApart = std::uint64_t{1} << 62U;  // from the gestures of fingers
  if (!stands(session)) gesture_ = kApart + session.revision();
  const std::uint64_t before = session.revision();
  if (!session.edit(changed, gesture_) || session.revision() == before) return;
  revision_ = session.revision();
  const auto& was = session.past().back().solved;
  if (was && was->document.boat == session.boat()) drop(session);  // all taken back one by one
}

void DiveTrial::drop(Session& session) {
  if (!stands(session)) return;
  session.undo();
  revision_ = 0;
}

}  // namespace pondtrim
