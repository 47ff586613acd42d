#pragma once
// Private parts of the dive sweep: one step, and what went wrong.
#include <pondtrim/stability.hpp>

#include "energy.hpp"

namespace pondtrim {

/// The step's numbers for a rest position.
DiveStep describeStep(const Problem& p, const Equilibrium& rest);

/// Judges the steps (findings only), solving again with frozen water where something is wrong.
std::vector<Finding> judge(const Model& model, const Water& water, const DiveSweep& sweep);

}  // namespace pondtrim
