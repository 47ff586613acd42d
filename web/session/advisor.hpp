#pragma once
// What the pond log says of the boat in hand: worked out between frames, when a panel asks.
#include <optional>
#include <pondtrim/file/correct_json.hpp>
#include <string>

#include "session/session.hpp"

namespace pondtrim {

class Advisor {
 public:
  [[nodiscard]] bool owes(const Session& session) const { return revision_ != session.revision(); }
  void work(const Session& session);

  /// Of the boat that was last worked out; empty: `fault` says why.
  [[nodiscard]] const std::optional<file::CorrectAnswer>& answer() const { return answer_; }
  [[nodiscard]] const std::string& fault() const { return fault_; }

 private:
  std::uint64_t revision_ = 0;
  std::optional<file::CorrectAnswer> answer_;
  std::string fault_;
};

}  // namespace pondtrim
