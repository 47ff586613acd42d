#pragma once
// The grid that the laws are held against: every boat x fills x waters x heels.
#include <pondtrim/report.hpp>
#include <string>
#include <vector>

#include "support/boats.hpp"

namespace pondtrim::test {

struct LawCase {
  std::string name;
  const Boat* boat = nullptr;
  const Model* model = nullptr;
  Condition condition;
  Report report;
};

/// Solved once: upright as she is built, and hung over to either side by a weight moved across. Builds that
/// cannot afford all (random.hpp) take each fill and water at one of the heels. Fails the test when one
/// cannot be.
const std::vector<LawCase>& lawCases();

/// The boat with a weight added (negative: taken away) at a point; displaces nothing.
Model withWeight(const Model& model, double mass, const Vec3& position);
/// Everything that has no twin on the other side put onto the centreline.
Boat broughtToTheMiddle(Boat boat);

}  // namespace pondtrim::test
