#pragma once
// Trim plan: how much foam and lead at which place puts the surfaced and the dived trim right at once.
//
// At a wanted waterplane, weight and buoyancy are linear in the amounts at the boat's places (boat.hpp,
// Place), so both conditions are equalities of one linear programme, with floors on GM and BG and limits at
// each place. A plan is proved by solving the real equilibrium with it installed. Units SI, signs as in
// equilibrium.hpp.
#include <pondtrim/boat.hpp>
#include <pondtrim/report.hpp>
#include <span>
#include <vector>

namespace pondtrim {

enum class Goal {
  LeastWeight,    ///< least mass at the places together
  FewestChanges,  ///< fewest places touched, then least mass
  MostStability,  ///< the smaller of GM (tank empty) and BG (tank full) as large as can be
};

struct PlanRequest {
  Goal goal = Goal::LeastWeight;
  bool whole_pieces = false;  ///< changes come in each place's step (a place without a step stays free)
  std::optional<double> lead_budget;  ///< most lead and dry weight at the places together [kg]
};

// ---- The answer -------------------------------------------------------------------------------------------

/// Amount at a place, of one piece: foam [m^3], lead or dry weight [kg], on a rail the x of its centre [m].
struct PlaceAmount {
  std::size_t place = 0;  ///< in Boat::places
  double before = 0.0, after = 0.0;
};

enum class Work { TakeOut, PutIn, Move };

/// One thing to do. A plan lists them in working order: take out, then move and put in weights, then foam.
struct Change {
  std::size_t place = 0;
  Work work = Work::PutIn;
  double amount = 0.0;  ///< of one piece, positive [m^3 or kg]; Move: the way along x, forward + [m]
  /// Whole pieces: not in the place's steps, no number of which leads to within its limits.
  bool off_step = false;
};

/// A condition that the plan puts right.
struct WantedCondition {
  std::string name;  ///< "tank empty", "tank full", or that of the further aim
  Condition condition;
  bool dived = false;
  /// Dived: what the sail is to show; empty: Aims::net_buoyancy counts. A further condition's, where that
  /// counts: what shows with it in the boat's own water [m].
  std::optional<double> sail_showing;
  double mark_tolerance = 0.001, angle_tolerance = 0.00175;  ///< [m], [rad]: about 1 mm and 0.1 degrees
  /// Dived, of the buoyancy that shows [kg]; of a further condition the marks alone.
  double mass_tolerance = 0.001;
};

/// A condition solved, with the plan installed or as she is, against what is wanted.
struct Proof {
  WantedCondition wanted;
  Report report;
  std::optional<double> bow_off, stern_off;  ///< water above (+) or below (-) the painted line; not dived [m]
  std::optional<double> sail_off;            ///< dived: sail showing, more (+) or less (-) than wanted [m]
  std::optional<double> net_off;             ///< dived: net buoyancy, more (+) or less than wanted [kg]
  double trim_off = 0.0, heel_off = 0.0;     ///< [rad]
  bool holds = false;                        ///< all within the tolerances
};

/// What moves, to first order, when any one changed piece is 10 % off: the largest of each, and its place.
struct Effect {
  double size = 0.0;
  std::size_t place = 0;
};
struct Sensitivity {
  Effect bow, stern;              ///< tank empty [m]
  Effect surfaced_heel;           ///< [rad]
  Effect dived_trim, dived_heel;  ///< [rad]
  Effect dived_net;               ///< [kg]
};

enum class LimitKind {
  PlaceMost,
  PlaceLeast,    ///< `index` in Boat::places; [m^3], [kg] or [m] as PlaceAmount
  TankCapacity,  ///< [m^3]
  LeastGm,
  LeastBg,     ///< [m]
  LeadBudget,  ///< [kg]
  WeightBalance,
  TrimBalance,
  HeelBalance,  ///< `index` in Plan::proofs' order; [kg], [kg.m], [kg.m]; limit 0
  FurtherAim,   ///< `index` in Aims::further: its tolerances, of which [1]: 1.0
};

/// A limit that stands in the way. Weight balance: + means that weight is missing (she is too light); trim
/// balance: + too much weight forward; heel balance: + too much weight to port.
struct Limit {
  LimitKind kind = LimitKind::PlaceMost;
  std::size_t index = 0;
  double limit = 0.0;              ///< as it stands
  std::optional<double> would_do;  ///< what it would have to be; empty: changing it alone does not help
};

/// Why there is no plan.
struct Blame {
  std::vector<Limit> conflict;  ///< cannot all hold, but any one less could: none to spare
  /// With each of these changed to `would_do` there is a plan: to what this boat can say, if that will do.
  std::vector<Limit> remedy;
};

/// Capacities between which the tank could lie, its centre where it is, with all else as allowed [m^3].
struct TankRange {
  double smallest = 0.0;
  std::optional<double> largest;  ///< empty: no upper end
};

struct Plan {
  bool found = false;
  std::vector<PlaceAmount> amounts;  ///< of every place
  std::vector<Change> changes;
  double carry_mass_before = 0.0, carry_mass_after = 0.0;
  double gm = 0.0, bg = 0.0;   ///< tank empty; tank full, all under water [m]
  std::vector<Proof> proofs;   ///< tank empty, tank full, then Aims::further
  std::vector<Proof> present;  ///< the same with the boat as she is
  Sensitivity sensitivity;
  /// False: these do, but better may exist. Whole pieces, true: proved by branch and bound that none is
  /// better by what a builder would cut again for (a twentieth of 1 mm squared, or its like).
  bool best = true;
  Blame blame;  ///< when not found
  std::optional<TankRange> tank;
};

/// Computes, proves and explains. "No plan fits" is an answer (found false, blame), not an Error.
/// Error: as checkBoat; no places ("places"); no tank ("tank"); a sail_showing or net_buoyancy that puts the
/// dived water below the painted line ("aims.sail_showing"); a lead budget below 0 ("lead_budget").
[[nodiscard]] Result<Plan> makePlan(const Boat& boat, const PlanRequest& request = {});

/// The boat with the plan's amounts at its places.
[[nodiscard]] Boat installPlan(const Boat& boat, const Plan& plan);

// ---- Diagrams ---------------------------------------------------------------------------------------------

/// Least mass of the boat out of the water [kg] for each least stability [m], from the floors up to the most
/// that can be had.
struct StabilityPoint {
  double stability = 0.0;  ///< the smaller of GM and BG is at least this
  double gm = 0.0, bg = 0.0;
  double carry_mass = 0.0;
};
/// Error: as makePlan. Empty when there is no plan.
[[nodiscard]] Result<std::vector<StabilityPoint>> stabilityCurve(const Boat& boat,
                                                                 const PlanRequest& request = {},
                                                                 int points = 9);

/// What one place (or tank) can add to the boat: weight less the water it displaces [kg], and its moment
/// [kg.m].
struct Supply {
  std::string name;
  double weight = 0.0, moment = 0.0;
};
struct BalancePoint {
  double weight = 0.0, moment = 0.0;
};
/// The equilibrium polygon: cumulative weight against cumulative moment, the supplies taken in from bow to
/// stern (moment per weight falling), then again from stern to bow. The two lines enclose all that the
/// supplies can give together. Standard in submarine design texts (Burcher and Rydill; Arentzen and Mandel
/// 1960).
struct BalancePolygon {
  std::vector<BalancePoint> bow_first, stern_first;  ///< both from the least weight to the most
  [[nodiscard]] bool contains(const BalancePoint& p, double slack = 1e-9) const;
};
/// `least`: what is there when nothing is supplied. Supplies of negative weight (foam) are turned about: the
/// lines start where all of them are in.
[[nodiscard]] BalancePolygon balancePolygon(std::span<const Supply> supplies, const BalancePoint& least = {});

/// The polygon of one condition, and the point that would balance it.
struct BalanceDiagram {
  std::string condition;
  BalancePolygon polygon;
  BalancePoint needed, present;
  bool inside = false;
};
/// Of the tank-empty and the tank-full condition, moments about the boat's origin taken off at mid-length.
/// Error: as makePlan.
[[nodiscard]] Result<std::vector<BalanceDiagram>> balanceDiagrams(const Boat& boat);

// ---- Places for a boat that has none
// ------------------------------------------------------------------------

/// The boat with sensible places added: foam at bow, midships and stern below and above the painted line,
/// lead at keel stations and a pair to either side; inside the hull skin, clear of the sealed cylinders,
/// empty. Parts that are foam or lead already become places. Names do not clash. Unchanged when nothing fits.
[[nodiscard]] Boat proposePlaces(const Boat& boat);

}  // namespace pondtrim
