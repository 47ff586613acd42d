// The wall around the solver: small problems whose answers are known by hand. Many more, against another
// solver: tests/outside/glpsol.
#include <doctest/doctest.h>

#include <cmath>
#include <milp.hpp>
#include <string>

using namespace pondtrim;

namespace {

/// Most of 3x + 5y with x <= 4, 2y <= 12, 3x + 2y <= 18 is 36 at (2, 6): the first example of Hillier and
/// Lieberman, Introduction to Operations Research (from memory; checked by hand: both last limits hold as
/// equalities there).
Milp workshop() {
  Milp m;
  m.columns = {{0, 4, -3, false}, {0, kNoLimit, -5, false}};
  m.rows = {{-kNoLimit, 12, {{1, 2.0}}}, {-kNoLimit, 18, {{0, 3.0}, {1, 2.0}}}};
  return m;
}

}  // namespace

TEST_CASE("a linear programme is solved to its corner") {
  const MilpAnswer a = solveMilp(workshop());
  REQUIRE(a.status == MilpStatus::Best);
  CHECK(a.cost == doctest::Approx(-36).epsilon(1e-12));
  CHECK(a.values[0] == doctest::Approx(2).epsilon(1e-12));
  CHECK(a.values[1] == doctest::Approx(6).epsilon(1e-12));
}

TEST_CASE("whole columns are whole, also when their bounds are not") {
  // Most of x + y with 2x + 2y <= 7.8 and x, y <= 3.9: 3.9 in fractions, 3 in whole numbers.
  Milp m;
  m.columns = {{0.2, 3.9, -1, true}, {-0.7, 3.9, -1, true}};
  m.rows = {{-kNoLimit, 7.8, {{0, 2.0}, {1, 2.0}}}};
  const MilpAnswer a = solveMilp(m);
  REQUIRE(a.status == MilpStatus::Best);
  CHECK(a.cost == doctest::Approx(-3));
  for (const double v : a.values) CHECK(v == std::round(v));
  CHECK(a.values[0] >= 1);
}

TEST_CASE("what cannot be and what has no end are told apart") {
  Milp m = workshop();
  m.rows.push_back({20, kNoLimit, {{0, 1.0}, {1, 1.0}}});
  CHECK(solveMilp(m).status == MilpStatus::Infeasible);
  m = workshop();
  m.rows.clear();
  CHECK(solveMilp(m).status == MilpStatus::Unbounded);
  m = workshop();
  m.columns[0].least = 5;  // above its most
  CHECK(solveMilp(m).status == MilpStatus::Infeasible);
}

TEST_CASE("ranged rows and free columns hold both ways") {
  for (const double cost : {1.0, -1.0}) {
    Milp m;
    m.columns = {{-kNoLimit, kNoLimit, cost, false}};
    m.rows = {{-2.5, 3.5, {{0, 1.0}}}};
    const MilpAnswer a = solveMilp(m);
    REQUIRE(a.status == MilpStatus::Best);
    CHECK(a.values[0] == doctest::Approx(cost > 0 ? -2.5 : 3.5));
  }
}

TEST_CASE("a search cut short says so") {
  // A market split problem (Cornuejols and Dawande 1999): equalities with two-digit factors, hard for
  // branching.
  Milp m;
  unsigned random = 12345;
  const auto next = [&] { return double((random = random * 1664525u + 1013904223u) >> 16 & 127); };
  for (int i = 0; i < 30; ++i) m.addColumn({0, 1, 0, true});
  for (int r = 0; r < 4; ++r) {
    MilpRow row;
    double sum = 0;
    for (std::size_t i = 0; i < 30; ++i) {
      row.terms.push_back({i, next()});
      sum += row.terms.back().factor;
    }
    row.least = row.most = std::floor(sum / 2);
    m.rows.push_back(row);
  }
  const MilpStatus status = solveMilp(m, 50).status;
  CHECK((status == MilpStatus::GaveUp || status == MilpStatus::Good));
}
