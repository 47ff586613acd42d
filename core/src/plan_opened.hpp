#pragma once
// No plan: the programme with some of its limits opened, and its floors as high as they can be.
#include "plan_programme.hpp"

namespace pondtrim {

[[nodiscard]] bool isBalance(const ProgrammeLimit& limit);
/// Of GM or BG.
[[nodiscard]] bool isFloor(const ProgrammeLimit& limit);
/// A further aim has several rows and is one limit: its tolerances.
template <typename AnyLimit>
[[nodiscard]] bool sameAim(const AnyLimit& a, const AnyLimit& b) {
  return a.kind == LimitKind::FurtherAim && b.kind == a.kind && b.index == a.index;
}

/// Feasibility alone, with whole numbers free.
[[nodiscard]] Milp bare(const Programme& p);
void open(Milp& m, const ProgrammeLimit& limit);
/// The tank's capacity cannot fall below nothing.
void keepTankReal(Milp& m, const Programme& p);

/// The bound, in SI, that stands now (the one on the side of `would_do`, when that is known).
[[nodiscard]] double standing(const Programme& p, const ProgrammeLimit& limit,
                              std::optional<double> would_do);
/// Of an aim's rows the one that needs the widest tolerances counts.
[[nodiscard]] std::vector<Limit> oneForEachAim(const std::vector<Limit>& limits);

/// The row of a floor (as in the programme), asking for another height [m].
[[nodiscard]] MilpRow rowAtHeight(const Programme& p, const ProgrammeLimit& l, double height);

/// GM and BG that can be had.
struct Heights {
  std::vector<double> floors;  ///< in the order of the programme's limits [m]
  std::vector<double> values;  ///< of the columns there
};
/// The highest that this floor could be asked to be, the rest of `m` as it stands; empty: none would do.
[[nodiscard]] std::optional<Heights> highestFloor(const Milp& m, const Programme& p,
                                                  const ProgrammeLimit& floor);
/// All floors, each at most what it asks: all of it; or one of them less, the one that has to fall by less;
/// or each at most as high as all can be, and then each as high as that lets it. Empty: even floors at
/// `least` [m] would not do.
[[nodiscard]] std::optional<Heights> highestFloors(const Milp& m, const Programme& p, double least);

}  // namespace pondtrim
