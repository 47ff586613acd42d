#pragma once
// Linear programmes with whole-number columns: least cost subject to rows and bounds. A thin, value-only wall
// around the solver library, which milp.cpp alone knows. Scale the problem so that its numbers lie within a
// few powers of ten of 1: rows hold to about 1e-9.
#include <cstddef>
#include <limits>
#include <vector>

namespace pondtrim {

inline constexpr double kNoLimit = std::numeric_limits<double>::infinity();

struct MilpColumn {
  double least = 0.0, most = kNoLimit;  ///< either may be infinite
  double cost = 0.0;
  bool whole = false;
};

struct MilpTerm {
  std::size_t column;
  double factor;
};

struct MilpRow {
  double least = -kNoLimit, most = kNoLimit;
  std::vector<MilpTerm> terms;
};

struct Milp {
  std::vector<MilpColumn> columns;
  std::vector<MilpRow> rows;

  std::size_t addColumn(const MilpColumn& column) {
    columns.push_back(column);
    return columns.size() - 1;
  }
};

enum class MilpStatus {
  Best,        ///< proved
  Good,        ///< whole numbers found, search ended at its limit before the proof
  Infeasible,  ///< proved: no values satisfy the rows and bounds
  Unbounded,
  GaveUp,  ///< limit reached with nothing found, or numerical trouble
};

struct MilpAnswer {
  MilpStatus status = MilpStatus::GaveUp;
  double cost = 0.0;
  std::vector<double> values;  ///< of the columns; only with Best and Good

  [[nodiscard]] bool solved() const { return status == MilpStatus::Best || status == MilpStatus::Good; }
};

/// Never runs on: the search for whole numbers ends after `most_nodes` branches (a count, not a clock, so
/// that the same problem has the same answer everywhere).
[[nodiscard]] MilpAnswer solveMilp(const Milp& problem, int most_nodes = 2000);

}  // namespace pondtrim
