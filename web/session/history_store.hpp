#pragma once
// The way back, kept across visits: each step is written once, and an index says which are in use.
#include <cstdint>
#include <set>

#include "session/session.hpp"

namespace pondtrim {

class HistoryStore {
 public:
  /// Gives a fresh session the history of the last visit, as far as it can be read.
  void restore(Session& session);
  /// Writes what is new and forgets what is no more. False when the page could not keep it.
  bool keep(const Session& session);

 private:
  std::set<std::uint64_t> written_;
};

}  // namespace pondtrim
