#pragma once
// From what the ruler says at the pond to a corrected boat.
//
// A boat in the water is never quite the boat in the file. Readings can see only how force and moments
// balance in each condition, so that is what is corrected first: a weight that was not in the file (and its
// place), and volume above the painted line that was not in the file (and its place). Which *cause* is behind
// it (a mass, the skin, trapped air) is named only as a guess.
#include <array>
#include <optional>
#include <pondtrim/boat.hpp>
#include <pondtrim/report.hpp>
#include <string>
#include <vector>

namespace pondtrim {

/// Order of the unknowns in means and covariances.
enum Unknown : unsigned {
  kMass,   ///< [kg]
  kMassX,  ///< moments of the missing weight about the boat's centre of gravity [kg m]
  kMassY,
  kMassZ,
  kUpperVolume,  ///< above the painted line [m^3]
  kUpperX,       ///< its moments about correctionPoint() [m^4]
  kUpperY,
  kTank,  ///< tank capacity, as a fraction of the file's
  kUnknowns
};
using UnknownVector = std::array<double, kUnknowns>;
using UnknownMatrix = std::array<UnknownVector, kUnknowns>;

/// How well things are known before the first dip, as standard deviations. Common practice, no source.
struct Priors {
  double mass_fraction = 0.02, mass = 0.003;  ///< of each weight: fraction and [kg], added in quadrature
  double place = 0.003;                       ///< of each weight and foam block, each axis [m]
  double skin_fraction = 0.06, cylinder_fraction = 0.006, solid_fraction = 0.02;  ///< of displaced volume
  double foam_fraction = 0.03, tank_fraction = 0.02;
  double air_fraction = 0.003;  ///< air trapped high in the bow, of the displaced volume
  double forgotten = 0.012;     ///< something not in the file at all, anywhere in the boat [kg]
};

/// A cause that would explain the correction, given the priors: a guess.
struct CauseGuess {
  enum Kind { Weights, Skin, Cylinder, Solids, Foam, Tank, TrappedAir, Forgotten } kind;
  double change = 0.0;  ///< as a fraction (Skin, Cylinder, Solids, Foam, Tank), [m^3] (TrappedAir) or [kg]
  double spread = 0.0;
};

/// A measured value that no attitude near the fitted one explains; or one that only a boat quite unlike the
/// file's explains (Unlikely: believed when it is read twice alike).
struct Doubt {
  enum Kind { Contradicts, Unlikely };
  std::size_t reading = 0;
  std::string field;  ///< "bow", "stern", "heel", "trim", "sail_showing", "pull", "bow_pull", "stern_pull"
  double measured = 0.0, fitted = 0.0;  ///< SI
  double spreads = 0.0;                 ///< how many of its own spreads they lie apart
  Kind kind = Contradicts;              ///< Unlikely: `fitted` is what the file's boat gives
};

struct Estimate {
  UnknownVector mean{};
  UnknownMatrix covariance{};
  std::vector<Doubt> doubts;
  std::vector<CauseGuess> guesses;
  std::size_t values_used = 0;  ///< measured numbers that went in
  bool height_seen = false;     ///< the height of G is better known than before (an inclining reading)
  /// By how much the priors had to be widened for the readings to be believed: 1, or she differs from her
  /// file by more than builders usually err.
  double widened = 1.0;
};

/// What the readings in boat.log say of the boat as it is now (boat.correction is ignored). Bayesian,
/// readings in their order: each is compared with the true equilibrium of the boat as it was then, linearised
/// there and iterated (iterated extended Kalman filter, Bell and Cathey 1993, IEEE Trans. Autom. Control 38,
/// 294-297); between readings the spread grows by how well the applied changes were cut, weighed and placed.
/// `previous`: as in buildModel, here and below.
/// Error: the boat's faults, readings out of range among them ("log[2].heel").
[[nodiscard]] Result<Estimate> estimateCorrection(const Boat& boat, const Priors& priors = {},
                                                  const Model* previous = nullptr);

/// The boat with its correction installed, for float, plan and everything else.
[[nodiscard]] Boat withCorrection(const Boat& boat, const Estimate& estimate);

/// Amounts of all foam and lead, as a reading keeps them.
[[nodiscard]] std::vector<Installed> installedIn(const Boat& boat);

/// Every reading of the log with the amount of each foam and lead that it does not name: that of today. To be
/// done before a change is applied, so that old readings keep to the boat they were taken of.
[[nodiscard]] Boat withAmountsNoted(Boat boat);

/// What must hold to be done.
struct Tolerance {
  double mark = 0.003;      ///< each mark, surfaced [m]
  double heel = 0.0174533;  ///< surfaced and dived [rad]
  double net = 0.015;       ///< dived net buoyancy against the aim [kg]
  double trim = 0.0174533;  ///< dived [rad]
};

/// One predicted number with its spread (one standard deviation) and how far it may be off.
struct Predicted {
  double value = 0.0, aim = 0.0, spread = 0.0, tolerance = 0.0;
};

/// A number that done asks for, tank empty and tank full.
enum class PondNumber { Bow, Stern, Heel, Sail, DivedTrim, DivedHeel };
inline constexpr PondNumber kPondNumbers[] = {PondNumber::Bow,  PondNumber::Stern,     PondNumber::Heel,
                                              PondNumber::Sail, PondNumber::DivedTrim, PondNumber::DivedHeel};

/// Where the boat stands, as well as the log can tell.
struct Outlook {
  Predicted bow, stern, heel;                    ///< surfaced; marks as line above water
  Predicted dived_net, dived_trim, dived_heel;   ///< net buoyancy with the sail as wanted [kg]
  double sail_showing = 0.0, sail_spread = 0.0;  ///< dived [m]
  /// Tank empty, trim free [m]; the aim is the floor boat.aims.least_gm, the tolerance how far it lies above
  /// it.
  Predicted gm;
  bool sinks = false, dived_sinks = false;                     ///< tank empty, tank full; then nothing shows
  double probability = 0.0;                                    ///< that all of them are within tolerance
  double surfaced_probability = 0.0, dived_probability = 0.0;  ///< that those of one condition are
  double misfit = 0.0;  ///< expected sum of squares of all of them over their tolerances
  bool surfaced_known = false, dived_known = false;  ///< read at some time
  bool surfaced_read = false, dived_read = false;    ///< since the last change
  /// All three numbers of the condition were read since then, and of each what counts (the middle one, of two
  /// the worse) lies within its limit and one spread of the reading. A dip in which she hung on a scale
  /// counts as read and never confirms; one with lead laid on or a weight moved to one side is of another
  /// boat.
  bool surfaced_confirmed = false, dived_confirmed = false;
  /// Numbers not read since then; and those read once or twice of which what counts lies beyond its limit, or
  /// nearer to it than to the aim and by less than its own spread: they should be read again.
  std::vector<PondNumber> unread, close;
  /// A condition has since then only readings that hardly can be true: to be read again before any cut, tank
  /// empty or full.
  bool reread_empty = false, reread_full = false;
  /// With the tank full she was read since then with lead laid on only: to be read as she is.
  bool read_unladen = false;
  bool doubtful = false;  ///< since then a condition has only readings that cannot be true
  bool done = false;      ///< both confirmed since the last change, nothing doubtful, probability high enough
  /// The one further reading that would take away most of what is not known, and the share it would take.
  /// What is not known: the six numbers over their tolerances, and GM over how far it is from its floor.
  enum class Reading {
    SurfacedMarks,
    SurfacedHeel,
    DivedSail,
    DivedTrim,
    DivedHeel,
    Inclining
  } best_reading{};
  double best_gain = 0.0;
};
[[nodiscard]] Result<Outlook> predict(const Boat& boat, const Estimate& estimate,
                                      const Tolerance& tolerance = {}, const Model* previous = nullptr);

/// One place's change, in whole steps.
struct PondChange {
  std::string part;
  double before = 0.0, after = 0.0;  ///< volume [m^3], mass [kg], or x [m] on a rail
  bool slides = false;
};
struct NextChange {
  std::vector<PondChange> changes;  ///< none: nothing that can be cut would help; read again
  Boat boat;                        ///< with the changes in
  Outlook after;                    ///< what the next dip should show, the cutting's own spread in it
};
/// The change at boat.places that brings both conditions right, with few places touched and the spread that
/// cutting adds in mind: whole steps by search on the linear answer, checked and redone on the true
/// equilibrium. A boat with little to spare is kept from sinking before her net buoyancy is within its
/// tolerance. Room to mend a later heel of either sign needs no rule: in moment it is what all off-centre
/// places together could still give, of which a mended heel takes the same whichever place mends it. Error:
/// no places, a place that names no part, or the boat's own faults.
[[nodiscard]] Result<NextChange> nextChange(const Boat& boat, const Estimate& estimate,
                                            const Tolerance& tolerance = {}, const Model* previous = nullptr);

/// What to do next, to be done after the fewest dips.
enum class PondStep { ReadEmpty, ReadFull, Change, Done };
[[nodiscard]] PondStep nextStep(const Outlook& now, const NextChange& next);
/// Whether nextStep looks at the change at all; if not, none need be sought.
[[nodiscard]] bool changeMatters(const Outlook& now);

/// A place of boat.places where one step turns the dived trim by more than its tolerance, as in short boats:
/// it wants finer steps, or a sliding weight instead.
struct CoarseStep {
  std::string part;
  double step = 0.0;  ///< foam [m^3], lead [kg], along a rail [m]
  double turn = 0.0;  ///< of the dived trim [rad], 0 or more
  bool slides = false;
};
[[nodiscard]] Result<std::vector<CoarseStep>> coarseSteps(const Boat& boat, const Estimate& estimate,
                                                          const Tolerance& tolerance = {},
                                                          const Model* previous = nullptr);

}  // namespace pondtrim
