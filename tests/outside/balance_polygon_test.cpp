// The equilibrium polygon: cumulative weight against cumulative moment. The diagram is standard in submarine
// design texts (Burcher and Rydill, Concepts in Submarine Design; Arentzen and Mandel 1960, Naval
// Architectural Aspects of Submarine Design, Trans. SNAME 68; both from memory). Numbers by hand from three
// tanks.
#include <doctest/doctest.h>

#include <pondtrim/plan.hpp>
#include <support/random.hpp>

using namespace pondtrim;

namespace {

// 0.20 kg at +0.35 m, 0.30 kg at +0.02 m, 0.20 kg at -0.32 m.
const std::vector<Supply> kTanks{
    {"bow", 0.20, 0.20 * 0.35}, {"middle", 0.30, 0.30 * 0.02}, {"stern", 0.20, 0.20 * -0.32}};

void checkLine(const std::vector<BalancePoint>& line, const std::vector<BalancePoint>& expected) {
  REQUIRE(line.size() == expected.size());
  for (std::size_t i = 0; i < line.size(); ++i) {
    CHECK(std::abs(line[i].weight - expected[i].weight) < 1e-9);
    CHECK(std::abs(line[i].moment - expected[i].moment) < 1e-9);
  }
}

}  // namespace

TEST_CASE("three tanks filled from the bow, then from the stern (B6)") {
  const BalancePolygon polygon = balancePolygon(kTanks);
  checkLine(polygon.bow_first, {{0, 0}, {0.20, 0.0700}, {0.50, 0.0760}, {0.70, 0.0120}});
  checkLine(polygon.stern_first, {{0, 0}, {0.20, -0.0640}, {0.50, -0.0580}, {0.70, 0.0120}});
  CHECK(polygon.contains({0.35, 0.0}));
  CHECK(polygon.contains({0.20, 0.0700}));
  CHECK(!polygon.contains({0.20, 0.0701}));
  CHECK(!polygon.contains({0.35, -0.07}));
  CHECK(!polygon.contains({0.71, 0.012}));
  CHECK(!polygon.contains({-0.01, 0.0}));
}

TEST_CASE("whatever shares of the supplies are in, the point lies inside; order and foam do not matter") {
  test::Random random(5);
  for (int round = 0; round < test::effort(500); ++round) {
    std::vector<Supply> supplies;
    for (int i = 0; i < 8; ++i) {
      const double weight = random.between(-1, 1);
      supplies.push_back({"", weight, weight * random.between(-0.5, 0.5)});
    }
    const BalancePolygon polygon = balancePolygon(supplies, {0.3, -0.1});
    BalancePoint p{0.3, -0.1};
    for (const Supply& s : supplies) {
      const double share = random.chance(0.3) ? 0 : random.chance(0.3) ? 1 : random.between(0, 1);
      p.weight += share * s.weight;
      p.moment += share * s.moment;
    }
    CHECK(polygon.contains(p));
    CHECK(!polygon.contains({p.weight, p.moment + 10}));
  }
}
