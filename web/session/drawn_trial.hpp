#pragma once
// How a boat would float with all the triangles of a drawing, beside how she floats with those that she
// keeps.
#include <optional>
#include <pondtrim/boat.hpp>
#include <pondtrim/hydrostatics.hpp>
#include <pondtrim/report.hpp>
#include <string>

#include "session/quantities.hpp"

namespace pondtrim {

/// Worked out in steps between frames.
class DrawnTrial {
 public:
  /// `before`: the boat for which it is done; `kept`: the same with fewer triangles in her skin `skin`;
  /// `drawn`: all of them, in the boat frame.
  DrawnTrial(Boat before, Boat kept, std::size_t skin, Mesh drawn);

  [[nodiscard]] bool isOf(const Boat& boat) const { return boat == before_; }
  [[nodiscard]] bool owes() const { return maker_.has_value(); }
  /// The next step. Error: as buildModel and evaluate.
  Result<void> work();
  [[nodiscard]] double share() const { return maker_ ? maker_->share() : 1; }
  [[nodiscard]] std::size_t triangles() const { return triangles_; }

  // ---- Once nothing is owed: tank empty.
  [[nodiscard]] const Report& withAll() const { return with_all_; }
  [[nodiscard]] const Report& withKept() const { return with_kept_; }

 private:
  Boat before_, kept_;
  std::size_t skin_, triangles_;
  std::optional<CutMeshMaker> maker_;
  Report with_all_, with_kept_;
};

/// "With all 999,000 triangles she floats ..."
[[nodiscard]] std::string trialSentence(const DrawnTrial& trial, const UnitSet& units);

}  // namespace pondtrim
