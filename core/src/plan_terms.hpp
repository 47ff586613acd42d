#pragma once
// What a plan's linear programme is made of: the boat under a plane as a linear function of the amounts at
// its places.
//
// Notation: a_i amount at place i (plan.hpp, PlaceAmount), zero_i the amount at which the base was taken;
//   M, m   mass and its moment;  V, v  displaced volume and its moment;  A, s, P  waterplane area, first and
//   second moments;  W, w  whole displaced volume and its moment, everything under water.
// A part fills its shape evenly, so each of these is base + sum_i per_i (a_i - zero_i), exactly. A weight on
// a rail moves along x: under a level plane its cut moves with it unchanged.
#include <pondtrim/plan.hpp>
#include <string>
#include <vector>

#include "place_amount.hpp"

namespace pondtrim {

/// One place made ready.
struct PlaceTerms {
  std::size_t part = 0;
  PlaceKind kind = PlaceKind::Foam;
  double least = 0, most = 0, step = 0, before = 0;  ///< of the amount
  double room = 0;                                   ///< the most that the shape holds
  double zero = 0;                                   ///< rail: x as it is; else 0
  double size = 1;                                   ///< amount that counts about a kilogram [amount/kg]
  double mass = 0;                                   ///< carried, all pieces, per amount [kg]
  Vec3 mass_moment{0.0};                             ///< per amount
  Model bodies;                                      ///< displacers of all pieces, filled up
  double share = 0;                                  ///< of the filled bodies, per amount (rail: as it is)
};

/// Sums linear in the amounts.
struct Sums {
  double mass = 0;
  Vec3 mass_moment{0.0};
  Cut cut;    ///< under the plane
  Cut whole;  ///< under water altogether
};

/// The boat's base and places, once a plan.
struct PlanBasis {
  const Boat* boat = nullptr;
  Model model;  ///< of the boat as it is
  Model base;   ///< displacers and weights of what no place changes
  std::vector<PlaceTerms> places;
  std::vector<double> before;  ///< amounts
};
[[nodiscard]] Result<PlanBasis> makeBasis(const Boat& boat);

/// A condition seen from a plane: base and what each unit of amount adds. Tank water and changed masses are
/// in the base.
struct ConditionTerms {
  WantedCondition wanted;
  double density = 1000;
  Plane plane;
  double net = 0;  ///< dived by net buoyancy: what is wanted [kg]; else 0
  Sums base;
  std::vector<Sums> per;
  TankWater tank;

  /// At these amounts.
  [[nodiscard]] Sums at(const PlanBasis& basis, const std::vector<double>& amounts) const;
};
/// `extra_mass` at `extra_position`: a part that weighs other than in the file.
struct ExtraMass {
  double mass = 0;
  Vec3 moment{0.0};
};
[[nodiscard]] Result<ConditionTerms> makeTerms(const PlanBasis& basis, const WantedCondition& wanted,
                                               const Plane& plane, const ExtraMass& extra = {});

/// What the boat displaces above a level at these amounts [m^3].
[[nodiscard]] double volumeAbove(const PlanBasis& basis, const std::vector<double>& amounts, double level);
/// The plane, level, above which the boat shows `volume` at these amounts [m].
[[nodiscard]] double levelShowing(const PlanBasis& basis, const std::vector<double>& amounts, double volume);

/// How the boat answers, to first order at the plane, to forces left over: rows are bow draft [m], stern
/// draft [m], trim, heel [rad], sail height above water [m]; columns the residuals of residualsOf.
struct Response {
  double rate[5][3] = {};
};
/// Weight left over [kg], and moments left over that turn the bow down and to port, about the boat's
/// origin [kg.m]: all zero at rest.
struct Residuals {
  double value[3] = {};
};
[[nodiscard]] Residuals residualsOf(const ConditionTerms& terms, const Sums& sums);
[[nodiscard]] Response responseAt(const ConditionTerms& terms, const Sums& sums, const Marks& marks);

/// mass x GM [kg.m] of the condition's plane; `line_y` = first over area of the waterplane across, at which
/// the part that is not linear is taken.
[[nodiscard]] double massGm(const ConditionTerms& terms, const Sums& sums);
/// The same for one unit of an amount: exact but for the shift of the waterplane's middle, linearised at
/// `at`.
[[nodiscard]] double massGmRate(const ConditionTerms& terms, const Sums& unit, const Sums& at);
/// mass x BG with all under water [kg.m] if the mean density is that at which `at` rests at the condition's
/// plane.
[[nodiscard]] double massBg(const ConditionTerms& terms, const Sums& sums, const Sums& at);

/// out += k o
void addScaled(Sums& out, const Sums& o, double k);

}  // namespace pondtrim
