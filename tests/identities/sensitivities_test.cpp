// What the report says of small changes is what happens when the change is made and the boat solved again.
#include <doctest/doctest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <sstream>

#include "support/law_cases.hpp"
#include "support/laws.hpp"
#include "support/models.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

// A millionth of the weight each way.
constexpr double kSmall = 1e-6;

// Afloat within the reach of its rulers, waterplane and all; heeled boats answer with heel too.
bool readable(const LawCase& c) {
  return c.report.rest.outcome != Outcome::Sinks && c.report.bow_effect.has_value() &&
         c.report.waterplane_area > 0.002;
}

Report with(const LawCase& c, double mass, const Vec3& position) {
  return reportOf(withWeight(*c.model, mass, position), c.condition);
}

// A weight on the centreline at the height of the water there, where its height does not matter.
Vec3 atWater(const LawCase& c, double x) {
  const Plane& p = c.report.rest.plane;
  return {x, 0.0, (p.level - p.up.x * x) / p.up.z};
}

void shiftForward(Law& law, const LawCase& c) {
  const Report& r = c.report;
  const double w = kSmall * r.total_mass, d = 0.1 * c.model->length;
  const auto shiftedBy = [&](double distance) {
    Model m = *c.model;
    const Vec3 from = atWater(c, r.lcf.value());
    // Along the water's surface, so that no height changes.
    const Vec3 along = glm::normalize(Vec3{r.rest.plane.up.z, 0, -r.rest.plane.up.x});
    m.weights.push_back({{}, -w, from});
    m.weights.push_back({{}, w, from + along * distance});
    sumUp(m);
    return reportOf(m, c.condition).rest.attitude.trim;
  };
  const double fd = (shiftedBy(d) - shiftedBy(-d)) / (2 * d * w * kGravity);
  law.equal("trim", fd, -1 / r.moment_to_change_trim);
}

// Weights put in and taken out low in the boat, so that she stays upright.
void loadUntilSunk(Law& law, const Model& model, const Condition& condition) {
  const double rho = waterDensity(condition.water).value();
  const double spare = rho * (model.whole_volume - condition.tank_fill) - model.mass;
  const Vec3 place{model.centre_of_gravity.x, 0, 0.0};
  double volume = -1.0, draft = -1.0;
  int floated = 0, sank = 0;
  for (double share : {-0.3, 0.0, 0.2, 0.5, 0.8, 0.95, 0.999, 1.001, 1.05, 1.5}) {
    CAPTURE(share);
    const Equilibrium e = rest(withWeight(model, share * spare, place), condition);
    CHECK((e.outcome == Outcome::Sinks) == (share > 1.0));
    if (share < 1.0) {
      CHECK(e.cut.volume > volume);
      volume = e.cut.volume;
      const double deep = e.plane.level - glm::dot(e.plane.up, place);  // where the weight lies
      CHECK(deep > draft);
      draft = deep;
      CHECK(e.missing_buoyancy == 0.0);
      ++floated;
    } else {
      law.equal("missing buoyancy", e.missing_buoyancy, (share - 1.0) * spare);
      ++sank;
    }
  }
  CHECK(floated == 7);
  CHECK(sank == 3);
}

}  // namespace

TEST_SUITE("laws of small changes") {
  TEST_CASE("the effect of 10 g at any place on each mark is what re-solved boats show") {
    Law law;
    for (const LawCase& c : lawCases()) {
      if (!readable(c)) continue;
      CAPTURE(c.name);
      law.at(c.name);
      for (double x : {0.1, 0.5, 0.85}) {
        CAPTURE(x);
        const double w = kSmall * c.report.total_mass, place = x * c.model->length;
        const Report more = with(c, w, atWater(c, place)), less = with(c, -w, atWater(c, place));
        const auto compare = [&](const MarkEffect& effect, double hi, double lo) {
          const double fd = (hi - lo) / (2 * w), got = effect.at_origin + effect.per_metre * place;
          const double size = std::abs(effect.at_origin) + std::abs(effect.per_metre) * c.model->length;
          law.within("draft", fd - got, size);
        };
        compare(*c.report.bow_effect, more.bow->draft, less.bow->draft);
        compare(*c.report.stern_effect, more.stern->draft, less.stern->draft);
      }
    }
    CHECK(law.checks() >= 60);
  }

  TEST_CASE("reciprocity: a weight at the bow does to the stern what one at the stern does to the bow") {
    Law law;
    for (const LawCase& c : lawCases()) {
      if (!readable(c)) continue;
      CAPTURE(c.name);
      law.at(c.name);
      const Marks& m = c.boat->marks;
      const MarkEffect& bow = *c.report.bow_effect;
      const MarkEffect& stern = *c.report.stern_effect;
      const double size = std::abs(bow.at_origin + bow.per_metre * m.bow_x);
      const double a = stern.at_origin + stern.per_metre * m.bow_x,
                   b = bow.at_origin + bow.per_metre * m.stern_x;
      law.within("effect", a - b, size);
    }
    CHECK(law.checks() >= 10);
  }

  TEST_CASE("a weight over the centre of flotation sinks her evenly by the grams per millimetre") {
    Law law;
    for (const LawCase& c : lawCases()) {
      if (!readable(c)) continue;
      CAPTURE(c.name);
      law.at(c.name);
      const Report& r = c.report;
      const double w = kSmall * r.total_mass;
      // In the surface; off the centreline when she hangs over.
      const Vec3 flotation = r.rest.cut.plane_moment / r.rest.cut.plane_area;
      const Report more = with(c, w, flotation), less = with(c, -w, flotation);
      const auto depth = [&](const Report& s) {
        return s.rest.plane.level - glm::dot(s.rest.plane.up, flotation);
      };
      law.equal("immersion", (depth(more) - depth(less)) / (2 * w), 1 / r.mass_per_immersion);
      law.equal("mass per immersion", r.mass_per_immersion, r.rest.density * r.waterplane_area);
      CHECK(more.displaced_volume > r.displaced_volume);
      CHECK(less.displaced_volume < r.displaced_volume);
    }
    CHECK(law.checks() >= 20);
  }

  TEST_CASE("a weight shifted forward trims her by its moment over the moment to change trim") {
    Law law;
    for (const NamedBoat& named : allBoats()) {
      // Upright: one that hangs over answers with heel too.
      const Model model = buildModel(broughtToTheMiddle(named.boat)).value();
      for (double filled : {0.0, 0.5, 0.85}) {
        for (const Water& water : {Water{288.15, 0.0}, Water{293.15, 35.0}}) {
          std::ostringstream name;
          name << named.name << ", fill " << filled << ", salinity " << water.salinity;
          CAPTURE(name.str());
          law.at(name.str());
          const Condition condition{water, filled * model.tank_capacity};
          const LawCase c{name.str(), &named.boat, &model, condition, reportOf(model, condition)};
          if (readable(c) && std::abs(c.report.rest.attitude.heel) < 1e-4) shiftForward(law, c);
        }
      }
    }
    CHECK(law.checks() >= 20);
  }

  TEST_CASE("more weight always means more draft, until she sinks by just what is too much") {
    Law law;
    for (const NamedBoat& named : allBoats()) {
      const Model model = buildModel(named.boat).value();
      for (double filled : {0.0, 0.5, 1.0}) {
        for (const Water& water : {Water{288.15, 0.0}, Water{293.15, 35.0}}) {
          std::ostringstream name;
          name << named.name << ", fill " << filled << ", salinity " << water.salinity;
          CAPTURE(name.str());
          law.at(name.str());
          loadUntilSunk(law, model, {water, filled * model.tank_capacity});
        }
      }
    }
  }

  TEST_CASE("Archimedes: in water as dense as she is with all she holds, she neither floats nor sinks") {
    constexpr double kMean = 1010;  // [kg/m^3], between pond and sea
    Law law;
    for (const NamedBoat& named : allBoats()) {
      const Model model = buildModel(named.boat).value();
      for (double filled : {0.0, 0.5, 1.0}) {
        std::ostringstream name;
        name << named.name << ", fill " << filled;
        CAPTURE(name.str());
        law.at(name.str());
        // Tank water is as dense as what she floats in: her own part must be so too.
        const double fill = filled * model.tank_capacity, own = model.whole_volume - fill;
        const Model m = withWeight(model, kMean * own - model.mass, {model.centre_of_gravity.x, 0, 0.0});
        for (double more : {-1e-2, -1e-4, 1e-4, 1e-2}) {
          CAPTURE(more);
          const Condition condition{waterOfDensity(kMean * (1 + more)), fill};
          const Report r = reportOf(m, condition);
          const double spare = (r.rest.density - kMean) * own;
          law.within("net buoyancy", r.net_buoyancy_submerged - spare, r.total_mass);
          CHECK((r.rest.outcome == Outcome::Sinks) == (more < 0));
          if (more < 0) law.within("missing", r.rest.missing_buoyancy + spare, r.total_mass);
          if (more > 0)
            law.within("reserve", r.rest.density * r.reserve_buoyancy_volume - spare, r.total_mass);
        }
      }
    }
  }
}
