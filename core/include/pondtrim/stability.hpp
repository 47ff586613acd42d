#pragma once
// Stability: the righting lever to any heel, the whole way down and up, and how finely she must be metered.
#include <optional>
#include <pondtrim/equilibrium.hpp>
#include <vector>

namespace pondtrim {

// ---- Righting lever ---------------------------------------------------------------------------------------

/// How the trim behaves while the boat is held at a heel.
enum class TrimState {
  Free,      ///< the least energy over trim: what she would do
  Balanced,  ///< the moments balance, but left alone she would go on over bow or stern
  Held,      ///< no balance near the trim of the point before, which is kept
};

/// One point of the curve. The heel is held, draft and trim are free.
struct RightingPoint {
  double heel = 0.0;            ///< [rad], to starboard +
  double righting_lever = 0.0;  ///< GZ [m], + turns her back towards upright; its integral is work / weight
  double trim = 0.0;            ///< [rad], bow up +
  double level = 0.0;           ///< of the water, as Plane::level [m]; under entirely: no meaning
  double energy = 0.0;          ///< work done against the water since upright [J]
  TrimState trim_state = TrimState::Free;
};

/// The curve from upright to bottom up, to one side.
struct RightingSide {
  std::vector<RightingPoint> points;
  double greatest_lever = 0.0;  ///< [m]
  double greatest_at = 0.0;     ///< its heel [rad], signed
  /// Where she comes to rest on this side: GZ turns from negative to positive [rad, signed]. Upright: 0.
  /// Empty: nowhere on this side.
  std::optional<double> rest_heel;
  /// Heel beyond which she goes on over (GZ turns negative again) [rad, signed]; pi: she always comes back.
  /// Empty when she never rights on this side.
  std::optional<double> range;
};

struct RightingCurve {
  RightingSide starboard, port;
  bool lopsided = false;       ///< the sides differ; else port mirrors starboard
  double gm_transverse = 0.0;  ///< upright, trim free, free surface in [m]; the slope of GZ at heel 0
  /// GM below 0: the heel at which she lolls [rad, > 0]; a lopsided boat lolls to its rest_heel.
  std::optional<double> angle_of_loll;
};

/// GZ against heel 0 to 180 degrees to either side, `points` a side, for one condition, afloat or fully
/// under, tank water level in the world. Error: as findEquilibrium; "points" below 3 or above 2000.
[[nodiscard]] Result<RightingCurve> rightingCurve(const Model& model, const Condition& condition, int points);

// ---- The way down and up ----------------------------------------------------------------------------------

/// What counts as going wrong.
struct DiveLimits {
  double trim = 10 * kPi / 180;    ///< more trim than this is a fault [rad]
  double on_end = 45 * kPi / 180;  ///< more than this is standing on bow or stern [rad]
  double heel = 10 * kPi / 180;    ///< [rad]
};

/// The boat at rest at one fill. Lengths [m], angles [rad]. Marks and sail are empty when fully under.
struct DiveStep {
  double tank_fill = 0.0;  ///< [m^3]
  Outcome outcome = Outcome::Floats;
  Plane plane;  ///< warm start for findEquilibriumNear
  std::optional<double> draft_bow, draft_stern;
  std::optional<double> sail_showing;
  double trim = 0.0, heel = 0.0;
  /// GM upright (heel held at 0 where she would loll, so that it can be negative), free surface in.
  double gm_transverse = 0.0;
  double gm_longitudinal = 0.0;  ///< at the rest trim
  /// GM for trim with the boat held level: below 0 she cannot lie level, whatever the balance.
  double gm_longitudinal_level = 0.0;
  double free_surface_transverse = 0.0;          ///< virtual rise of G, upright [m]
  double free_surface_longitudinal_level = 0.0;  ///< the same for trim, level [m]
  double net_buoyancy_submerged = 0.0;           ///< all under water: displaced mass - mass [kg]
  double upright_lever = 0.0;  ///< GZ held upright, 0 unless something is off the centreline [m]
};

/// Where going down and coming up differ.
struct DiveGap {
  double from_fill = 0.0, to_fill = 0.0;  ///< [m^3]
  double trim = 0.0, heel = 0.0;          ///< greatest differences [rad]
};

enum class Trouble {
  /// GM 0 or less: she lies over to one side. Also where she could stand, but still lies over from before.
  RollsOver,
  Heels,        ///< GM positive, but weight off the centreline hangs her to one side by more than the limit
  Pitches,      ///< trim beyond the limit
  StandsOnEnd,  ///< trim beyond `on_end`
  Sinks,        ///< heavier than the water she can push aside
};

/// One thing that goes wrong, over all the fills where it does.
struct Finding {
  Trouble trouble = Trouble::Pitches;
  double from_fill = 0.0, to_fill = 0.0;  ///< [m^3]
  double worst_fill = 0.0;
  double worst = 0.0;  ///< there: GM [m]; heel or trim [rad]; missing buoyancy [kg]
  bool going_down = false, coming_up = false;
  /// The same fill with the tank water frozen where it lies when she is level: GM, heel or trim.
  double worst_frozen = 0.0;
  /// Frozen water would cure it: the water runs to one end (or side) of the part-full tank.
  bool water_runs = false;
};

struct LeastGm {
  double gm = 0.0;    ///< [m]
  double fill = 0.0;  ///< [m^3]
};

struct DiveSweep {
  std::vector<DiveStep> down, up;  ///< the same fills in both, from empty to full
  std::vector<DiveGap> gaps;       ///< empty: down and up are the same
  LeastGm least_gm_transverse;     ///< over both ways, between the steps too
  LeastGm least_gm_longitudinal_level;
  std::vector<Finding> findings;  ///< empty: nothing goes wrong
  DiveLimits limits;
};

/// Rest at `steps` + 1 fills, down (empty to full) and up (full to empty), each step followed on from those
/// before it. Error: "tank" missing; "steps" below 2 or above 2000; "water.*".
[[nodiscard]] Result<DiveSweep> sweepDive(const Model& model, const Water& water, int steps,
                                          const DiveLimits& limits = {});

/// The boat with `n` bulkheads evenly spaced in its tank (n + 1 cells); those it had are taken out.
/// Without a tank: unchanged.
[[nodiscard]] Boat withBulkheads(Boat boat, int n);

/// The greatest magnitude on either way [rad].
[[nodiscard]] double greatestTrim(const DiveSweep& sweep);

enum class Help {
  Bulkheads,    ///< `amount`: how many
  ShorterTank,  ///< both ends drawn in by the same; `amount`: by how much it is shorter [m]
  TankCentred,  ///< the tank moved along the cylinder; `amount`: by how much [m], forward +
  LeadLower,    ///< all lead lowered; `amount`: by how much [m]
  Together,     ///< those before it in the list, but for the shorter tank; `amount`: how many
};

/// A change tried on the boat: the sweep done again with it.
struct HelpTried {
  Help help = Help::Bulkheads;
  double amount = 0.0;
  Boat boat;                       ///< with the change in
  std::vector<Trouble> cured;      ///< findings of the first sweep that are gone
  std::vector<Trouble> remaining;  ///< what still goes wrong, or newly does
  double least_gm_transverse = 0.0;
  double greatest_trim = 0.0;          ///< magnitude over the sweep [rad]
  std::optional<double> sail_showing;  ///< tank full [m]; empty: under, or lying over
};

/// Tries, for a sweep with findings, up to 3 bulkheads more, the tank up to half shorter, the tank centred on
/// the fore-and-aft balance and the lead lowered by up to 20 mm, and keeps of each the least that cures most;
/// those that cure nothing are left out. Where none cures all, all of them at once. Error: as sweepDive.
[[nodiscard]] Result<std::vector<HelpTried>> tryHelps(const Boat& boat, const DiveSweep& sweep,
                                                      const Water& water);

/// The same, one sweep a step, for who must not wait.
class HelpSearch {
 public:
  /// Error: as buildModel.
  [[nodiscard]] static Result<HelpSearch> start(const Boat& boat, const DiveSweep& sweep, const Water& water);
  [[nodiscard]] bool done() const { return next_ >= candidates_.size() && together_done_; }
  /// Error: as sweepDive; then it is done.
  Result<void> step();
  [[nodiscard]] const std::vector<HelpTried>& helps() const { return helps_; }

 private:
  struct Candidate {
    Help help = Help::Bulkheads;
    double amount = 0.0;
  };
  HelpSearch() = default;
  void listCandidates(const Model& model);
  Result<void> tryCandidate(const Candidate& candidate);
  Result<void> tryTogether();

  Boat boat_;
  DiveSweep sweep_;
  Water water_;
  std::vector<Candidate> candidates_;
  std::size_t next_ = 0;
  bool together_done_ = true;
  std::vector<HelpTried> helps_;
};

// ---- Hover ------------------------------------------------------------------------------------------------

/// How she answers to a little tank water around a wanted height of the sail.
struct HoverAnswer {
  /// As asked for, or what a full tank leaves if that is more; negative: the sail top under, a scope may show
  /// [m].
  double sail_showing = 0.0;
  double tank_fill = 0.0;          ///< at which she hangs there [m^3]
  double mass_per_length = 0.0;    ///< weight that sinks her by a length [kg/m]
  double volume_per_length = 0.0;  ///< tank water that does [m^3/m]
  double band = 0.0;               ///< [m]
  /// Tank water between the upper and the lower edge of the band: meter finer than this to stay in it [m^3].
  double metering = 0.0;
};

/// A good builder holds about 6 mm (common practice, no source).
inline constexpr double kHoverBand = 0.006;

/// Empty: no fill holds the sail at that height (she jumps or sinks past it, floats lower, or has no tank).
/// Error: as sweepDive without "steps"; "band" not above 0.
[[nodiscard]] Result<std::optional<HoverAnswer>> hoverAt(const Model& model, const Water& water,
                                                         double sail_showing, double band = kHoverBand);

/// Of a scope where none is given (common practice, no source) [m].
inline constexpr double kScopeDiameter = 0.006;
/// What a scope or mast of that diameter gives for each length that comes out of the water [kg/m].
[[nodiscard]] double massPerLengthOfScope(double diameter, double density);

}  // namespace pondtrim
