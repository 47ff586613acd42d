#pragma once
// Rest with the heel held and draft and trim free.
#include <pondtrim/stability.hpp>

#include "energy.hpp"

namespace pondtrim {

struct HeldState {
  State state;
  double heel = 0.0, trim = 0.0;
  TrimState trim_state = TrimState::Free;
};

/// The trim of least energy near `trim`, at most 60 degrees from `rest_trim` and short of standing on end; if
/// she would run past that, the balance nearest to `trim`; if there is none either, `trim` itself.
/// `depth` [m] is where the search for the draft starts.
HeldState holdHeel(const Problem& p, double heel, double trim, double rest_trim, double depth);

/// The derivative of the energy over the heel, trim following [kg m].
double turningOverHeel(const HeldState& held);

/// GM = curvature of the energy over heel (or trim), draft following, over the mass [m].
double gmTransverse(const Problem& p, const State& s);
double gmLongitudinal(const Problem& p, const State& s);
double gmTransverse(const Equilibrium& rest);
double gmLongitudinal(const Equilibrium& rest);

}  // namespace pondtrim
