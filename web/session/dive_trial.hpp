#pragma once
// A what-if: changes tried on the boat in hand, to be compared with her as she was, then kept or dropped. All
// of them are one step of undo, so nothing is lost either way.
#include "session/session.hpp"

namespace pondtrim {

class DiveTrial {
 public:
  /// Puts a changed copy of the boat in her place, to what is being tried already.
  void tryOn(Session& session, const Boat& changed);
  /// Whether something is being tried; any other edit, undo or boat ends a trial and keeps what it did.
  [[nodiscard]] bool stands(const Session& session) const { return revision_ == session.revision(); }
  void keep() { revision_ = 0; }
  /// The boat as she was before the trial.
  void drop(Session& session);

 private:
  std::uint64_t revision_ = 0;  ///< of the boat with the changes in; 0: none
  std::uint64_t gesture_ = 0;
};

}  // namespace pondtrim
