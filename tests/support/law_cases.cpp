#include "support/law_cases.hpp"

#include <doctest/doctest.h>

#include <deque>
#include <sstream>

#include "support/models.hpp"

namespace pondtrim::test {
namespace {

std::vector<LawCase> solveAll() {
  static std::deque<Boat> boats;  // the cases point into these
  static std::deque<Model> models;
  std::vector<LawCase> cases;
  for (const NamedBoat& named : allBoats()) {
    boats.push_back(named.boat);
    models.push_back(buildModel(boats.back()).value());
    for (double share : {0.0, 0.15, 0.5, 0.85, 1.0}) {
      for (const Water& water : {Water{288.15, 0.0}, Water{277.15, 0.0}, Water{293.15, 35.0}}) {
        const Condition condition{water, share * models.back().tank_capacity};
        std::ostringstream name;
        name << named.name << ", fill " << share << ", salinity " << water.salinity << ", "
             << water.temperature << " K";
        cases.push_back(
            {name.str(), &boats.back(), &models.back(), condition, reportOf(models.back(), condition)});
      }
    }
  }
  return cases;
}

}  // namespace

const std::vector<LawCase>& lawCases() {
  static const std::vector<LawCase> cases = solveAll();
  return cases;
}

Model withWeight(const Model& model, double mass, const Vec3& position) {
  Model m = model;
  m.weights.push_back({{}, mass, position});
  sumUp(m);
  return m;
}

}  // namespace pondtrim::test
