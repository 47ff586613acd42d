// What the theory demands of every rest position, for every boat, fill and water.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>

#include "support/compare.hpp"
#include "support/energy.hpp"
#include "support/law_cases.hpp"
#include "support/laws.hpp"
#include "support/models.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

// Runs check(law, case) over the whole grid.
template <class Check>
void forEachCase(Check check) {
  Law law;
  for (const LawCase& c : lawCases()) {
    CAPTURE(c.name);
    law.at(c.name);
    check(law, c);
  }
}

bool afloat(const LawCase& c) { return c.report.rest.outcome != Outcome::Sinks; }

Energy energyOf(const LawCase& c) { return {*c.model, c.condition, !afloat(c)}; }

Eigen::Matrix3d stiffnessOf(const Equilibrium& e) {
  Eigen::Matrix3d k;
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) k(i, j) = e.stiffness[i][j];
  }
  return k;
}

// Angular stiffness with the depth free to follow.
Eigen::Matrix2d freeStiffness(const LawCase& c) {
  const Eigen::Matrix3d k = stiffnessOf(c.report.rest);
  Eigen::Matrix2d out = k.bottomRightCorner<2, 2>();
  if (afloat(c)) out -= k.bottomLeftCorner<2, 1>() * k.topRightCorner<1, 2>() / k(0, 0);
  return out;
}

}  // namespace

TEST_SUITE("laws of the rest position") {
  TEST_CASE("the grid holds boats that float and boats that are full of water") {
    int floating = 0, full = 0, sunk = 0, to_port = 0, to_starboard = 0;
    for (const LawCase& c : lawCases()) {
      if (c.report.rest.outcome == Outcome::Floats) ++floating;
      if (c.report.rest.outcome == Outcome::Sinks) ++sunk;
      if (c.condition.tank_fill == c.model->tank_capacity) ++full;
      const double heel = degrees(c.report.rest.attitude.heel);
      if (heel < -10) ++to_port;
      if (heel > 5) ++to_starboard;
    }
    // Presets and two boats more, five fills, three waters, three heels of which some builds take one.
    const int wanted = 8 * 15 * (kEffortDivisor > 1 ? 1 : 3);
    CHECK(static_cast<int>(lawCases().size()) >= wanted);
    CHECK(floating > wanted / 4);
    CHECK(full >= wanted / 5);
    CHECK(sunk >= 8);
    CHECK(to_port > wanted / 4);
    CHECK(to_starboard > wanted / 4);
  }

  TEST_CASE("weight equals buoyancy") {
    forEachCase([](Law& law, const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      double mass = e.density * e.tank.volume;
      for (const Weight& w : c.model->weights) mass += w.mass;
      const double displaced =
          e.density * (afloat(c) ? cutModel(*c.model, e.plane).volume : c.model->whole_volume);
      if (afloat(c)) law.within("buoyancy", mass - displaced, mass);
      if (!afloat(c)) law.equal("missing buoyancy", e.missing_buoyancy, mass - displaced);
      law.equal("mass", e.mass, mass);
      law.within("residual that the solver states", e.force_residual);
    });
  }

  TEST_CASE("G and B stand on one vertical") {
    forEachCase([](Law& law, const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      const Energy energy = energyOf(c);
      const auto g = energy.gradient(e.plane.up, energy.depthOf(e.plane), turnsAt(e.attitude));
      law.within("moment", std::hypot(g[1], g[2]), e.mass * c.model->length);
      law.within("residual that the solver states", e.moment_residual);
      if (!afloat(c)) return;
      const Vec3 gb = c.report.centre_of_buoyancy - c.report.centre_of_gravity;
      law.within("B beside G", glm::length(gb - e.plane.up * glm::dot(gb, e.plane.up)), c.model->length);
    });
  }

  TEST_CASE("the attitude and the water's plane are one thing") {
    forEachCase([](Law& law, const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      law.within("vertical", glm::length(e.attitude.up() - e.plane.up));
      law.within("vertical", glm::length(Attitude::of(e.plane.up).up() - e.plane.up));
      law.equal("length of the vertical", glm::length(e.plane.up), 1.0);
    });
  }

  TEST_CASE("the gradient of the energy is what its finite differences say") {
    forEachCase([](Law& law, const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      const Energy energy = energyOf(c);
      // A little off the rest position, where the gradient is not zero.
      const Turns at = turnsAt(e.attitude);
      const Vec3 up = turned(e.plane.up, at, 0.02, 0.03);
      const Turns t = turnsAt(Attitude::of(up));
      const double depth = energy.depthOf(e.plane) + 0.001, h = 1e-5, unit = e.mass * c.model->length;
      const auto g = energy.gradient(up, depth, t);
      const double d0 = (energy.at(up, depth + h) - energy.at(up, depth - h)) / (2 * h);
      const double d1 =
          (energy.at(turned(up, t, h, 0), depth) - energy.at(turned(up, t, -h, 0), depth)) / (2 * h);
      const double d2 =
          (energy.at(turned(up, t, 0, h), depth) - energy.at(turned(up, t, 0, -h), depth)) / (2 * h);
      law.within("over depth", d0 - g[0], e.mass);
      law.within("over trim", d1 - g[1], unit);
      law.within("over heel", d2 - g[2], unit);
    });
  }

  TEST_CASE("the stiffness is what finite differences of force and moment say") {
    forEachCase([](Law& law, const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      const Energy energy = energyOf(c);
      const Turns t = turnsAt(e.attitude);
      const double depth = energy.depthOf(e.plane), h = 1e-6;
      const Vec3& up = e.plane.up;
      const Eigen::Matrix3d k = stiffnessOf(e);
      const auto column = [&](int i, const std::array<double, 3>& hi, const std::array<double, 3>& lo) {
        for (int j = 0; j < 3; ++j) {
          const double size = std::sqrt(std::max(k(i, i), 1e-3) * std::max(k(j, j), 1e-3));
          const double fd = (hi[static_cast<std::size_t>(j)] - lo[static_cast<std::size_t>(j)]) / (2 * h);
          CAPTURE(i);
          CAPTURE(j);
          law.within("difference", fd - k(i, j), size);
        }
      };
      column(0, energy.gradient(up, depth + h, t), energy.gradient(up, depth - h, t));
      // The direction of turning turns along with `up`.
      const auto pitched = [&](double a) {
        const Turns there{t.trim * std::cos(a) - up * std::sin(a), t.heel};
        return energy.gradient(turned(up, t, a, 0), depth, there);
      };
      const auto rolled = [&](double a) {
        const Turns there{t.trim, t.heel * std::cos(a) - up * std::sin(a)};
        return energy.gradient(turned(up, t, 0, a), depth, there);
      };
      column(1, pitched(h), pitched(-h));
      column(2, rolled(h), rolled(-h));
    });
  }

  TEST_CASE("no way down from the rest position: the stiffness has no negative eigenvalue") {
    forEachCase([](Law& law, const LawCase& c) {
      const Eigen::Matrix3d k = stiffnessOf(c.report.rest);
      law.within("symmetry", (k - k.transpose()).cwiseAbs().maxCoeff(), k.cwiseAbs().maxCoeff());
      Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> eigen(freeStiffness(c));
      law.within("least eigenvalue below 0", std::min(eigen.eigenvalues()(0), 0.0),
                 c.report.rest.mass * c.model->length);
      if (afloat(c)) CHECK(k(0, 0) > 0.0);
      if (!afloat(c)) CHECK(k.row(0).cwiseAbs().maxCoeff() == 0.0);
    });
  }

  TEST_CASE("no way down from the rest position: every small move costs energy") {
    Random random(9101);
    forEachCase([&](Law& law, const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      const Energy energy = energyOf(c);
      const Turns t = turnsAt(e.attitude);
      const double depth = energy.depthOf(e.plane), least = energy.at(e.plane.up, depth);
      for (int k = 0; k < 30; ++k) {
        const double size = random.scale(1e-5, 1e-2), a = random.between(0, 2 * kPi);
        const Vec3 up = turned(e.plane.up, t, size * std::cos(a), size * std::sin(a));
        const double there = energy.at(up, depth + size * random.between(-0.1, 0.1));
        law.within("energy below that of rest", std::min(there - least, 0.0), e.mass * c.model->length);
      }
    });
  }

  TEST_CASE("GM is the stiffness over the weight, in roll and in pitch") {
    forEachCase([](Law& law, const LawCase& c) {
      const Eigen::Matrix2d k = freeStiffness(c);
      const double m = c.report.rest.mass, scale = std::abs(k(0, 0)) + std::abs(k(1, 1));
      law.within("GM along", m * c.report.gm_longitudinal - k(0, 0), scale);
      law.within("GM across", m * c.report.gm_transverse - k(1, 1), scale);
      law.equal("moment to change trim", c.report.moment_to_change_trim,
                m * kGravity * c.report.gm_longitudinal);
    });
  }

  TEST_CASE("BM is the waterplane's inertia over the volume, GM what is left of KM") {
    forEachCase([](Law& law, const LawCase& c) {
      const Report& r = c.report;
      if (!r.bm_transverse) return;
      const Turns t = turnsAt(r.rest.attitude);
      const Cut cut = cutModel(*c.model, r.rest.plane);
      const Sym3 own = centralSecond(cut);
      law.equal("BM", r.bm_transverse.value(), product(own, t.heel, t.heel) / cut.volume);
      law.equal("BM", r.bm_longitudinal.value(), product(own, t.trim, t.trim) / cut.volume);
      law.within("centre of flotation", r.lcf.value() - cut.plane_moment.x / cut.plane_area, c.model->length);
      const double bg = glm::dot(r.rest.plane.up, r.centre_of_buoyancy - r.centre_of_gravity);
      law.within("KM", r.gm_transverse - (r.bm_transverse.value() + bg - r.free_surface_rise_transverse),
                 c.model->length);
      law.within("KM",
                 r.gm_longitudinal - (r.bm_longitudinal.value() + bg - r.free_surface_rise_longitudinal),
                 c.model->length + r.bm_longitudinal.value());
    });
  }

  TEST_CASE("water frozen where it stands gives back just what its free surface took") {
    forEachCase([](Law& law, const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      if (!afloat(c) || e.tank.volume <= 0) return;
      const Model frozen = withWeight(*c.model, e.density * e.tank.volume, e.tank.moment / e.tank.volume);
      const Equilibrium f = findEquilibriumNear(frozen, {c.condition.water, 0.0}, e.plane).value();
      law.within("angle", glm::length(f.plane.up - e.plane.up));
      law.within("level", f.plane.level - e.plane.level, c.model->length);
      const Turns t = turnsAt(e.attitude);
      const Eigen::Matrix3d gained = stiffnessOf(f) - stiffnessOf(e);
      const double size = stiffnessOf(e).bottomRightCorner<2, 2>().cwiseAbs().maxCoeff();
      const auto taken = [&](const Vec3& a, const Vec3& b) {
        return e.density * product(e.tank.stiffness_loss, a, b);
      };
      law.within("stiffness", gained(1, 1) - taken(t.trim, t.trim), size);
      law.within("stiffness", gained(2, 2) - taken(t.heel, t.heel), size);
      law.within("stiffness", gained(1, 2) - taken(t.trim, t.heel), size);
      CHECK(gained(1, 1) >= -1e-6 * size);
      CHECK(gained(2, 2) >= -1e-6 * size);
    });
  }

  TEST_CASE("the report's volumes and masses add up") {
    forEachCase([](Law& law, const LawCase& c) {
      const Report& r = c.report;
      double whole = 0.0;
      for (const Displacer& d : c.model->displacers) whole += d.whole.volume;
      law.equal("volumes", c.model->whole_volume, whole);
      law.equal("masses", r.total_mass, r.carry_mass + r.tank_water_mass);
      law.within("tank water", r.tank_water_mass - r.rest.density * c.condition.tank_fill, r.total_mass);
      law.equal("masses", r.displaced_mass, r.rest.density * r.displaced_volume);
      law.within("volumes", r.reserve_buoyancy_volume - (whole - r.displaced_volume), whole);
      law.within("net buoyancy", r.net_buoyancy_submerged - (r.rest.density * whole - r.total_mass),
                 r.total_mass);
      if (afloat(c)) {
        // What she has to spare under water is what shows above it now.
        law.within("net buoyancy", r.net_buoyancy_submerged - r.rest.density * r.reserve_buoyancy_volume,
                   r.total_mass);
      }
    });
  }

  TEST_CASE("marks, line and sail are read off the water's plane") {
    forEachCase([](Law& law, const LawCase& c) {
      const Report& r = c.report;
      const Plane& p = r.rest.plane;
      const Marks& m = c.boat->marks;
      if (r.bow) {
        for (const auto& [mark, x] : {std::pair{*r.bow, m.bow_x}, std::pair{*r.stern, m.stern_x}}) {
          // The point of the mark's ruler that lies in the water's surface.
          law.within("marks", glm::dot(p.up, Vec3{x, 0, mark.draft}) - p.level);
          law.within("marks", mark.draft + mark.line_above_water - m.line_height);
        }
        const double trim = (r.bow->draft - r.stern->draft) / (m.bow_x - m.stern_x);
        // Bow up: less draft forward. Heeled, the ruler along z stands at an angle to the water.
        law.within("trim", trim + std::tan(r.rest.attitude.trim) / std::cos(r.rest.attitude.heel));
      }
      if (afloat(c)) law.within("marks", r.sail_showing - (glm::dot(p.up, m.sail_top) - p.level));
    });
  }

  TEST_CASE("the same rest position is found from plane and attitudes nearby") {
    Random random(9102);
    forEachCase([&](Law& law, const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      if (!afloat(c)) return;
      const Turns t = turnsAt(e.attitude);
      for (int k = 0; k < 3; ++k) {
        const Vec3 up = turned(e.plane.up, t, random.between(-0.02, 0.02), random.between(-0.02, 0.02));
        const Plane start{up, e.plane.level + random.between(-0.003, 0.003)};
        const Equilibrium again = findEquilibriumNear(*c.model, c.condition, start).value();
        law.within("angle", glm::length(again.plane.up - e.plane.up));
        law.within("level", again.plane.level - e.plane.level, c.model->length);
      }
    });
  }
}
