// What the theory demands of every rest position, for every boat, fill and water.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <cmath>
#include <glm/geometric.hpp>

#include "support/compare.hpp"
#include "support/energy.hpp"
#include "support/law_cases.hpp"
#include "support/models.hpp"
#include "support/random.hpp"

using namespace pondtrim;
using namespace pondtrim::test;

namespace {

// The promise of the solver (issue text): residuals of 1e-9 of the displacement.
constexpr double kResidual = 1e-9;

template <class Law>
int forEachCase(Law law) {
  int count = 0;
  for (const LawCase& c : lawCases()) {
    CAPTURE(c.name);
    law(c);
    ++count;
  }
  return count;
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
    int floating = 0, full = 0;
    forEachCase([&](const LawCase& c) {
      if (c.report.rest.outcome == Outcome::Floats) ++floating;
      if (c.condition.tank_fill == c.model->tank_capacity) ++full;
    });
    CHECK(floating > 10);
    CHECK(full >= 3 * 3);
    CHECK(lawCases().size() >= 3 * 15);
  }

  TEST_CASE("weight equals buoyancy") {
    forEachCase([](const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      double mass = e.density * e.tank.volume;
      for (const Weight& w : c.model->weights) mass += w.mass;
      const double displaced =
          e.density * (afloat(c) ? cutModel(*c.model, e.plane).volume : c.model->whole_volume);
      if (afloat(c)) CHECK(std::abs(mass - displaced) < kResidual * mass);
      if (!afloat(c)) CHECK(e.missing_buoyancy == doctest::Approx(mass - displaced).epsilon(1e-9));
      CHECK(e.mass == doctest::Approx(mass).epsilon(1e-12));
      CHECK(e.force_residual < kResidual);
    });
  }

  TEST_CASE("G and B stand on one vertical") {
    forEachCase([](const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      const Energy energy = energyOf(c);
      const auto g = energy.gradient(e.plane.up, energy.depthOf(e.plane), turnsAt(e.attitude));
      CHECK(std::hypot(g[1], g[2]) < kResidual * e.mass * c.model->length);
      CHECK(e.moment_residual < kResidual);
      if (!afloat(c)) return;
      const Vec3 gb = c.report.centre_of_buoyancy - c.report.centre_of_gravity;
      CHECK(glm::length(gb - e.plane.up * glm::dot(gb, e.plane.up)) < 2 * kResidual * c.model->length);
    });
  }

  TEST_CASE("the attitude and the water's plane are one thing") {
    forEachCase([](const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      CHECK(glm::length(e.attitude.up() - e.plane.up) < 1e-14);
      CHECK(glm::length(Attitude::of(e.plane.up).up() - e.plane.up) < 1e-14);
      CHECK(glm::length(e.plane.up) == doctest::Approx(1.0).epsilon(1e-14));
    });
  }

  TEST_CASE("the gradient of the energy is what its finite differences say") {
    forEachCase([](const LawCase& c) {
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
      // h^2 times a third derivative, and rounding of 1e-16 / h: 1e-9 of m L at worst.
      CHECK(std::abs(d0 - g[0]) < 1e-7 * e.mass);
      CHECK(std::abs(d1 - g[1]) < 1e-8 * unit);
      CHECK(std::abs(d2 - g[2]) < 1e-8 * unit);
    });
  }

  TEST_CASE("the stiffness is what finite differences of force and moment say") {
    forEachCase([](const LawCase& c) {
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
          // Central differences: rounding leaves 1e-9, a facet's edge at the waterline up to 1e-5.
          CHECK(std::abs(fd - k(i, j)) < 1e-4 * size);
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
    forEachCase([](const LawCase& c) {
      const Eigen::Matrix3d k = stiffnessOf(c.report.rest);
      CHECK((k - k.transpose()).cwiseAbs().maxCoeff() <= 1e-12 * k.cwiseAbs().maxCoeff());
      Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> eigen(freeStiffness(c));
      CHECK(eigen.eigenvalues()(0) > -1e-9 * c.report.rest.mass * c.model->length);
      if (afloat(c)) CHECK(k(0, 0) > 0.0);
      if (!afloat(c)) CHECK(k.row(0).cwiseAbs().maxCoeff() == 0.0);
    });
  }

  TEST_CASE("no way down from the rest position: every small move costs energy") {
    Random random(9101);
    forEachCase([&](const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      const Energy energy = energyOf(c);
      const Turns t = turnsAt(e.attitude);
      const double depth = energy.depthOf(e.plane), least = energy.at(e.plane.up, depth);
      for (int k = 0; k < 30; ++k) {
        const double size = random.scale(1e-5, 1e-2), a = random.between(0, 2 * kPi);
        const Vec3 up = turned(e.plane.up, t, size * std::cos(a), size * std::sin(a));
        const double there = energy.at(up, depth + size * random.between(-0.1, 0.1));
        CHECK(there >= least - 1e-14 * e.mass * c.model->length);
      }
    });
  }

  TEST_CASE("GM is the stiffness over the weight, in roll and in pitch") {
    forEachCase([](const LawCase& c) {
      const Eigen::Matrix2d k = freeStiffness(c);
      const double m = c.report.rest.mass, scale = std::abs(k(0, 0)) + std::abs(k(1, 1));
      CHECK(std::abs(m * c.report.gm_longitudinal - k(0, 0)) < 1e-8 * scale);
      CHECK(std::abs(m * c.report.gm_transverse - k(1, 1)) < 1e-8 * scale);
      CHECK(c.report.moment_to_change_trim == doctest::Approx(m * kGravity * c.report.gm_longitudinal));
    });
  }

  TEST_CASE("BM is the waterplane's inertia over the volume, GM what is left of KM") {
    forEachCase([](const LawCase& c) {
      const Report& r = c.report;
      if (!r.bm_transverse) return;
      const Turns t = turnsAt(r.rest.attitude);
      const Cut cut = cutModel(*c.model, r.rest.plane);
      const Sym3 own = centralSecond(cut);
      CHECK(r.bm_transverse.value() ==
            doctest::Approx(product(own, t.heel, t.heel) / cut.volume).epsilon(1e-9));
      CHECK(r.bm_longitudinal.value() ==
            doctest::Approx(product(own, t.trim, t.trim) / cut.volume).epsilon(1e-9));
      CHECK(r.lcf.value() == doctest::Approx(cut.plane_moment.x / cut.plane_area).epsilon(1e-12));
      const double bg = glm::dot(r.rest.plane.up, r.centre_of_buoyancy - r.centre_of_gravity);
      CHECK(std::abs(r.gm_transverse - (r.bm_transverse.value() + bg - r.free_surface_rise_transverse)) <
            1e-12);
      CHECK(std::abs(r.gm_longitudinal -
                     (r.bm_longitudinal.value() + bg - r.free_surface_rise_longitudinal)) < 1e-12);
    });
  }

  TEST_CASE("the report's volumes and masses add up") {
    forEachCase([](const LawCase& c) {
      const Report& r = c.report;
      double whole = 0.0;
      for (const Displacer& d : c.model->displacers) whole += d.whole.volume;
      CHECK(c.model->whole_volume == doctest::Approx(whole).epsilon(1e-12));
      CHECK(r.total_mass == doctest::Approx(r.carry_mass + r.tank_water_mass).epsilon(1e-12));
      CHECK(r.tank_water_mass == doctest::Approx(r.rest.density * c.condition.tank_fill).epsilon(1e-9));
      CHECK(r.displaced_mass == doctest::Approx(r.rest.density * r.displaced_volume).epsilon(1e-12));
      CHECK(std::abs(r.reserve_buoyancy_volume - (whole - r.displaced_volume)) < 1e-12 * whole + 1e-15);
      CHECK(std::abs(r.net_buoyancy_submerged - (r.rest.density * whole - r.total_mass)) <
            1e-9 * r.total_mass);
      if (afloat(c)) {
        // What she has to spare under water is what shows above it now.
        CHECK(std::abs(r.net_buoyancy_submerged - r.rest.density * r.reserve_buoyancy_volume) <
              3 * kResidual * r.total_mass);
      }
    });
  }

  TEST_CASE("marks, line and sail are read off the water's plane") {
    forEachCase([](const LawCase& c) {
      const Report& r = c.report;
      const Plane& p = r.rest.plane;
      const Marks& m = c.boat->marks;
      if (r.bow) {
        for (const auto& [mark, x] : {std::pair{*r.bow, m.bow_x}, std::pair{*r.stern, m.stern_x}}) {
          // The point of the mark's ruler that lies in the water's surface.
          CHECK(std::abs(glm::dot(p.up, Vec3{x, 0, mark.draft}) - p.level) < 1e-12);
          CHECK(std::abs(mark.draft + mark.line_above_water - m.line_height) < 1e-12);
        }
        const double trim = (r.bow->draft - r.stern->draft) / (m.bow_x - m.stern_x);
        // Bow up: less draft forward. Heeled, the ruler along z stands at an angle to the water.
        CHECK(std::abs(trim + std::tan(r.rest.attitude.trim) / std::cos(r.rest.attitude.heel)) < 1e-9);
      }
      if (afloat(c)) CHECK(std::abs(r.sail_showing - (glm::dot(p.up, m.sail_top) - p.level)) < 1e-12);
    });
  }

  TEST_CASE("the same rest position is found from plane and attitudes nearby") {
    Random random(9102);
    forEachCase([&](const LawCase& c) {
      const Equilibrium& e = c.report.rest;
      if (!afloat(c)) return;
      const Turns t = turnsAt(e.attitude);
      for (int k = 0; k < 3; ++k) {
        const Vec3 up = turned(e.plane.up, t, random.between(-0.02, 0.02), random.between(-0.02, 0.02));
        const Plane start{up, e.plane.level + random.between(-0.003, 0.003)};
        const Equilibrium again = findEquilibriumNear(*c.model, c.condition, start).value();
        // Angle errors are residual over stiffness: GM is millimetres, so 1e-9 of the length is 1e-6 rad.
        CHECK(glm::length(again.plane.up - e.plane.up) < 2e-6);
        CHECK(std::abs(again.plane.level - e.plane.level) < 1e-6 * c.model->length);
      }
    });
  }
}
