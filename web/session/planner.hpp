#pragma once
// The trim plan for the boat in hand, worked out in pieces between frames, and only when a panel asks.
#include <memory>
#include <optional>
#include <pondtrim/plan.hpp>
#include <string>
#include <vector>

#include "session/session.hpp"

namespace pondtrim {

class Planner {
 public:
  /// Whether plan or plots are not yet those of the session's boat and wish.
  [[nodiscard]] bool owes(const Session& session) const;
  /// Does the next piece of what is owed: the plan, the polygons, then the curve.
  void work(const Session& session);
  /// Whether the plan, of all this, is the session's.
  [[nodiscard]] bool isFresh(const Session& session) const;

  /// The boat that plan and plots are of.
  [[nodiscard]] const Boat& boat() const { return boat_; }
  [[nodiscard]] const PlanRequest& request() const { return request_; }
  /// Empty: there is none to be had, `fault` says why (no places, no tank...).
  [[nodiscard]] const std::optional<Plan>& plan() const { return plan_; }
  [[nodiscard]] const std::string& fault() const { return fault_; }
  [[nodiscard]] const std::vector<StabilityPoint>& curve() const { return curve_; }
  [[nodiscard]] const std::vector<BalanceDiagram>& diagrams() const { return diagrams_; }
  /// Where the water would lie with the plan in her, at the slider's fill: before it is put in. Empty: there
  /// is no plan of this boat, or nothing in it to do, or she would sink.
  [[nodiscard]] std::optional<Plane> plannedWater(const Session& session);

 private:
  enum class Next { Diagrams, Curve, Nothing };
  void begin(const Session& session);

  Boat boat_;
  PlanRequest request_;
  std::uint64_t revision_ = 0;  ///< of the boat planned for; 0: none
  Next next_ = Next::Nothing;
  std::optional<Plan> plan_;
  std::string fault_;
  std::vector<StabilityPoint> curve_;
  std::vector<BalanceDiagram> diagrams_;
  std::optional<Model> fitted_;  ///< with the plan in
  double planned_at_ = -1.0;     ///< fill that `planned_` is of
  std::optional<Plane> planned_;
};

// ---- Edits of the places ----------------------------------------------------------------------------------

/// The part's amount becomes something a plan may change, in usual steps.
[[nodiscard]] Boat withPlace(const Boat& boat, std::size_t part);
/// A weight becomes one that may slide along a rail, a little to either side of where it is.
[[nodiscard]] Boat withRail(const Boat& boat, std::size_t part);
[[nodiscard]] Boat withoutPlace(const Boat& boat, std::size_t place);
/// A further condition that the plan must put right: the same boat in sea water (in fresh water, when she is
/// planned for the sea), or with a part of another weight in place of the one she has.
[[nodiscard]] Boat withOtherWater(const Boat& boat);
[[nodiscard]] Boat withOtherMass(const Boat& boat, std::size_t part);
[[nodiscard]] Boat withoutFurther(const Boat& boat, std::size_t aim);
/// The part most worth planning a second one for: the heaviest, dry or wet, that is no place; empty: none.
[[nodiscard]] std::optional<std::size_t> partToSwap(const Boat& boat);
/// Index of the place's part, if there is one.
[[nodiscard]] std::optional<std::size_t> partOf(const Boat& boat, const Place& place);
/// Quantity of the place's amount: volume, mass, or length on a rail.
[[nodiscard]] Quantity amountQuantity(const Boat& boat, const Place& place);

}  // namespace pondtrim
