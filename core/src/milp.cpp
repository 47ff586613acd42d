#include "milp.hpp"

#include <lp_lib.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <memory>

namespace pondtrim {

namespace {

struct DeleteLp {
  void operator()(lprec* lp) const { delete_lp(lp); }
};
using Lp = std::unique_ptr<lprec, DeleteLp>;

double bound(lprec* lp, double v) {
  if (std::isinf(v)) return v > 0 ? get_infinite(lp) : -get_infinite(lp);
  return v;
}

struct Sparse {
  std::vector<int> columns;  ///< the solver counts them from 1
  std::vector<double> factors;
};

Sparse sparse(const MilpRow& row) {
  Sparse out;
  for (const MilpTerm& t : row.terms) {
    out.columns.push_back(int(t.column) + 1);
    out.factors.push_back(t.factor);
  }
  return out;
}

bool addRow(lprec* lp, const MilpRow& row) {
  auto [columns, factors] = sparse(row);
  const bool equal = row.least == row.most;
  const bool below = std::isinf(row.least);
  const int kind = equal ? EQ : below ? LE : GE;
  const double side = equal || !below ? row.least : row.most;
  if (!add_constraintex(lp, int(columns.size()), factors.data(), columns.data(), kind, bound(lp, side)))
    return false;
  return equal || below || std::isinf(row.most) || set_rh_range(lp, get_Nrows(lp), row.most - row.least);
}

/// The solver's branching goes wrong at a whole column whose bounds are not: it would take 3.9 for a whole
/// number.
MilpColumn withWholeBounds(MilpColumn c) {
  constexpr double kSlack = 1e-9;
  if (!c.whole) return c;
  c.least = std::ceil(c.least - kSlack);
  c.most = std::floor(c.most + kSlack);
  return c;
}

Lp build(const Milp& problem) {
  Lp lp(make_lp(0, int(problem.columns.size())));
  if (!lp) return lp;
  set_verbose(lp.get(), 0);
  set_minim(lp.get());
  set_add_rowmode(lp.get(), TRUE);
  MilpRow costs;
  for (std::size_t i = 0; i < problem.columns.size(); ++i)
    costs.terms.push_back({i, problem.columns[i].cost});
  auto [columns, factors] = sparse(costs);
  bool good = set_obj_fnex(lp.get(), int(columns.size()), factors.data(), columns.data());
  for (const MilpRow& row : problem.rows) good = good && addRow(lp.get(), row);
  set_add_rowmode(lp.get(), FALSE);
  for (std::size_t i = 0; i < problem.columns.size(); ++i) {
    const MilpColumn c = withWholeBounds(problem.columns[i]);
    good = good && set_bounds(lp.get(), int(i) + 1, bound(lp.get(), c.least), bound(lp.get(), c.most));
    if (c.whole) set_int(lp.get(), int(i) + 1, TRUE);
  }
  return good ? std::move(lp) : Lp();
}

/// The solver asks at each pivot whether to go on. It can go round in circles, on problems of many equal
/// corners; an honest programme of this size takes a few hundred pivots, and a branch a few dozen.
struct Budget {
  int nodes_left;
  long pivots_left;
};
constexpr long kPivots = 10000, kPivotsPerNode = 100;

int __WINAPI countNode(lprec*, void* handle, int) {
  --static_cast<Budget*>(handle)->nodes_left;
  return -1;  // the solver's own choice of column
}
int __WINAPI spent(lprec*, void* handle) {
  Budget& budget = *static_cast<Budget*>(handle);
  return budget.nodes_left < 0 || --budget.pivots_left < 0 ? TRUE : FALSE;
}

MilpStatus statusOf(int result) {
  switch (result) {
    case OPTIMAL:
    case PRESOLVED:
      return MilpStatus::Best;
    case SUBOPTIMAL:
      return MilpStatus::Good;
    case INFEASIBLE:
      return MilpStatus::Infeasible;
    case UNBOUNDED:
      return MilpStatus::Unbounded;
    default:
      return MilpStatus::GaveUp;
  }
}

enum class Manner { Usual, Careful };

MilpAnswer solveOnce(const Milp& problem, int most_nodes, Manner manner) {
  MilpAnswer answer;
  const Lp lp = build(problem);
  if (!lp) return answer;
  const bool whole = std::any_of(problem.columns.begin(), problem.columns.end(),
                                 [](const MilpColumn& c) { return c.whole; });
  Budget budget{most_nodes, kPivots + (whole ? kPivotsPerNode * most_nodes : 0)};
  put_bb_nodefunc(lp.get(), countNode, &budget);
  put_abortfunc(lp.get(), spent, &budget);
  constexpr int kUsual = SCALE_GEOMETRIC + SCALE_EQUILIBRATE + SCALE_INTEGERS + SCALE_DYNUPDATE;
  set_scaling(lp.get(), manner == Manner::Usual ? kUsual : int(SCALE_EXTREME));
  if (manner == Manner::Careful) set_anti_degen(lp.get(), ANTIDEGEN_FIXEDVARS | ANTIDEGEN_STALLING);
  set_epsint(lp.get(), 1e-7);
  set_mip_gap(lp.get(), TRUE, 1e-9);
  set_mip_gap(lp.get(), FALSE, 1e-9);
  const int result = solve(lp.get());
  answer.status = statusOf(result);
  if (result == USERABORT && get_solutioncount(lp.get()) > 0) answer.status = MilpStatus::Good;
  if (!answer.solved()) return answer;
  // The solver's infinity is 1e30: a cost near it is one that falls without end.
  if (std::abs(get_objective(lp.get())) > 1e15) return {MilpStatus::Unbounded, 0.0, {}};
  answer.cost = get_objective(lp.get());
  answer.values.resize(problem.columns.size());
  get_variables(lp.get(), answer.values.data());
  for (std::size_t i = 0; i < answer.values.size(); ++i) {
    if (problem.columns[i].whole) answer.values[i] = std::round(answer.values[i]);
  }
  return answer;
}

}  // namespace

MilpAnswer solveMilp(const Milp& problem, int most_nodes) {
  for (const MilpColumn& column : problem.columns) {
    const MilpColumn c = withWholeBounds(column);
    assert(!std::isnan(c.least) && !std::isnan(c.most) && std::isfinite(c.cost));
    if (c.least > c.most) return {MilpStatus::Infeasible, 0.0, {}};
  }
  MilpAnswer answer = solveOnce(problem, most_nodes, Manner::Usual);
  // Numerical trouble is rare and hangs on the scaling; circles, on equal corners.
  if (answer.status == MilpStatus::GaveUp) answer = solveOnce(problem, most_nodes, Manner::Careful);
  return answer;
}

}  // namespace pondtrim
