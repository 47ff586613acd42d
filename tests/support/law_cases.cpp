#include "support/law_cases.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <deque>
#include <sstream>

#include "support/models.hpp"
#include "support/random.hpp"

namespace pondtrim::test {
namespace {

// What the weight moved across is meant to heel her to, to starboard +; where she comes to rest is her
// answer.
constexpr double kHeels[] = {0.0, 12 * kPi / 180, -30 * kPi / 180};

Model hungOver(const Model& model, const Condition& condition, double heel) {
  if (heel == 0.0) return model;
  const Report upright = reportOf(model, condition);
  const double moment = upright.total_mass * upright.gm_transverse * std::sin(heel);
  const double mass = 0.1 * model.mass;
  // y is to port.
  const Vec3 from = upright.centre_of_gravity, to = from - Vec3{0, moment / mass, 0};
  return withWeight(withWeight(model, -mass, from), mass, to);
}

std::vector<LawCase> solveAll() {
  static std::deque<Boat> boats;  // the cases point into these
  static std::deque<Model> models;
  std::vector<LawCase> cases;
  int turn = 0;
  const auto add = [&](const std::string& name, const Condition& condition, const Model& upright) {
    for (int i = 0; i < 3; ++i) {
      if (kEffortDivisor > 1 && i != (turn + turn / 3) % 3) continue;
      const double heel = kHeels[i];
      models.push_back(hungOver(upright, condition, heel));
      const std::string whole = name + (heel == 0.0 ? ""
                                        : heel > 0  ? ", hung to starboard"
                                                    : ", hung to port");
      cases.push_back({whole, &boats.back(), &models.back(), condition, reportOf(models.back(), condition)});
    }
    ++turn;
  };
  for (const NamedBoat& named : allBoats()) {
    boats.push_back(named.boat);
    const Model model = buildModel(named.boat).value();
    for (double share : {0.0, 0.15, 0.5, 0.85, 1.0}) {
      for (const Water& water : {Water{288.15, 0.0}, Water{277.15, 0.0}, Water{293.15, 35.0}}) {
        std::ostringstream name;
        name << named.name << ", fill " << share << ", salinity " << water.salinity << ", "
             << water.temperature << " K";
        add(name.str(), {water, share * model.tank_capacity}, model);
      }
    }
    // Dived and too heavy by a fiftieth, low down: she hangs from nothing.
    const Vec3 low = model.centre_of_gravity - Vec3{0, 0, 0.02};
    add(named.name + ", loaded until she sinks", {Water{288.15, 0.0}, model.tank_capacity},
        withWeight(model, model.whole_volume * 1000 - model.tank_capacity * 1000 - 0.98 * model.mass, low));
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

Boat broughtToTheMiddle(Boat boat) {
  for (Skin& s : boat.skins) s.position.y = 0.0;
  for (SealedCylinder& c : boat.cylinders) c.position.y = 0.0;
  for (Part& p : boat.parts) {
    if (!p.mirrored) p.position.y = 0.0;
  }
  return boat;
}

}  // namespace pondtrim::test
