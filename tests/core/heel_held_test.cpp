// A boat held at a heel, draft and trim free: near its rest, far from it, and where there is none.
#include "heel_held.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "support/models.hpp"

using namespace pondtrim;
using doctest::Approx;

namespace {

Problem posed(const Model& model) {
  auto problem = pose(model, {});
  REQUIRE(problem);
  return *problem;
}

/// Long, stable either way, her weight a little aft.
Model sternHeavy() {
  Model model = test::barge(3, 0.5, 0.6, 300, 0.15);
  model.centre_of_gravity.x -= 0.05;
  return model;
}

/// Under entirely, her weight far ahead of her volume.
Model bowHeavyUnder() {
  Model model = test::barge(3, 0.5, 0.6, 1000, 0.2);
  model.centre_of_gravity.x += 0.4;
  return model;
}

}  // namespace

TEST_SUITE("held at a heel") {
  TEST_CASE("however far off the search begins, it ends at the trim of least energy") {
    const Model model = sternHeavy();
    const Problem p = posed(model);
    for (const double heel : {0.0, 0.3, -0.3}) {
      const HeldState near = holdHeel(p, heel, 0.0, 0.0, 0.0);
      REQUIRE(near.trim_state == TrimState::Free);
      CHECK(near.trim > 0.005);
      for (const double start : {-0.8, -0.3, -0.12, 0.12, 0.3, 0.8}) {
        const HeldState far = holdHeel(p, heel, start, 0.0, 0.0);
        CAPTURE(start);
        CHECK(far.trim_state == TrimState::Free);
        CHECK(far.heel == heel);
        CHECK(far.trim == Approx(near.trim).epsilon(1e-9));
        CHECK(far.state.depth == Approx(near.state.depth).epsilon(1e-9));
        CHECK(far.state.energy == Approx(near.state.energy).epsilon(1e-12));
      }
      for (const double aside : {-1e-3, 1e-3})
        CHECK(settleDepth(p, look(p, Attitude{near.trim + aside, heel}.up(), near.state.depth)).energy >
              near.state.energy);
    }
  }

  TEST_CASE("one that would go over bow or stern is balanced on the trim between") {
    // Hardly longer than broad, and top-heavy: no trim near level holds her.
    const Model model = test::barge(0.3, 0.25, 0.6, 15, 0.45);
    const Problem p = posed(model);
    for (const double start : {0.0, 0.02, -0.1}) {
      const HeldState held = holdHeel(p, 0.0, start, 0.0, 0.0);
      CAPTURE(start);
      CHECK(held.trim_state == TrimState::Balanced);
      CHECK(std::abs(held.trim) < 1e-6);
      CHECK(gmLongitudinal(p, held.state) < 0);
    }
  }

  TEST_CASE("where no trim nearby is any better, she is held as she was") {
    const Model model = bowHeavyUnder();
    const Problem p = posed(model);
    REQUIRE_FALSE(p.afloat);
    const HeldState held = holdHeel(p, 0.0, 0.1, 0.1, 0.0);
    CHECK(held.trim_state == TrimState::Held);
    CHECK(held.trim == 0.1);
    // Beyond its reach from 0.1, the trim at which she hangs: G under B.
    const double hangs = -std::atan2(0.4, 0.1);
    const HeldState there = holdHeel(p, 0.0, hangs + 0.2, hangs, 0.0);
    CHECK(there.trim_state == TrimState::Free);
    CHECK(there.trim == Approx(hangs).epsilon(1e-9));
  }
}
