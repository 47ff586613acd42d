// The LP layer (core/src/milp.hpp) against GLPK's glpsol (Debian package glpk-utils): the same generated
// problems, the same best cost to 1e-6, the same verdict when there is none.
#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <milp.hpp>
#include <random>
#include <sstream>
#include <string>

namespace {

using namespace pondtrim;
using Random = std::mt19937_64;

double uniform(Random& random, double from, double to) {
  return from + (to - from) * double(random() >> 11) * 0x1.0p-53;
}
int whole(Random& random, int from, int to) { return from + int(random() % std::uint64_t(to - from + 1)); }

/// A problem of the shape a trim plan has: bounded amounts, a few dense equalities, floors; sometimes whole
/// pieces, sometimes without a solution, sometimes without a limit.
Milp generate(Random& random) {
  Milp m;
  const int columns = whole(random, 2, 40), equalities = whole(random, 0, 6),
            floors = whole(random, equalities == 0 ? 1 : 0, 4);  // glpsol refuses a problem without rows
  const bool pieces = whole(random, 0, 2) == 0;
  std::vector<double> known;
  for (int i = 0; i < columns; ++i) {
    const double most = uniform(random, 0.2, 5);
    const bool is_whole = pieces && whole(random, 0, 2) > 0;
    known.push_back(is_whole ? std::floor(uniform(random, 0, most)) : uniform(random, 0, most));
    const bool open = whole(random, 0, 9) == 0;
    m.addColumn(
        {whole(random, 0, 9) == 0 ? -most : 0.0, open ? kNoLimit : most, uniform(random, -0.3, 1), is_whole});
  }
  const auto add = [&](bool equal) {
    MilpRow row;
    double sum = 0;
    for (std::size_t i = 0; i < m.columns.size(); ++i) {
      const double f = uniform(random, -1, 1);
      row.terms.push_back({i, f});
      sum += f * known[i];
    }
    const double off = whole(random, 0, 11) == 0 ? uniform(random, 0, 30) : 0.0;  // may make it infeasible
    row.least = sum + off;
    // Whole pieces cannot meet a dense equality by chance: give it a width.
    row.most = equal ? row.least + (pieces ? 0.05 : 0.0) : whole(random, 0, 1) ? kNoLimit : row.least + 1;
    m.rows.push_back(row);
  };
  for (int i = 0; i < equalities; ++i) add(true);
  for (int i = 0; i < floors; ++i) add(false);
  return m;
}

/// The largest amount by which the answer breaks a row or a bound.
double fault(const Milp& m, const std::vector<double>& x) {
  double worst = 0;
  for (std::size_t i = 0; i < x.size(); ++i)
    worst = std::max({worst, m.columns[i].least - x[i], x[i] - m.columns[i].most});
  for (const MilpRow& row : m.rows) {
    double sum = 0;
    for (const MilpTerm& t : row.terms) sum += t.factor * x[t.column];
    worst = std::max({worst, row.least - sum, sum - row.most});
  }
  return worst;
}

std::string number(double v) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), "%.17g", v);
  return text.data();
}

void writeTerms(std::ostream& out, const std::vector<MilpTerm>& terms) {
  for (const MilpTerm& t : terms)
    out << (t.factor < 0 ? " - " : " + ") << number(std::abs(t.factor)) << " x" << t.column << "\n";
}

/// CPLEX LP text, glpsol's --lp.
std::string lpText(const Milp& m) {
  std::ostringstream out;
  out << "Minimize\n cost:\n";
  std::vector<MilpTerm> costs;
  for (std::size_t i = 0; i < m.columns.size(); ++i) costs.push_back({i, m.columns[i].cost});
  writeTerms(out, costs);
  out << "Subject To\n";
  int n = 0;
  for (const MilpRow& row : m.rows) {
    const auto side = [&](const char* sign, double v) {
      out << " r" << n++ << ":\n";
      writeTerms(out, row.terms);
      out << " " << sign << " " << number(v) << "\n";
    };
    if (row.least == row.most) {
      side("=", row.least);
      continue;
    }
    if (std::isfinite(row.least)) side(">=", row.least);
    if (std::isfinite(row.most)) side("<=", row.most);
  }
  out << "Bounds\n";
  for (std::size_t i = 0; i < m.columns.size(); ++i) {
    const MilpColumn& c = m.columns[i];
    // glpsol wants whole bounds of whole columns.
    const double least = c.whole ? std::ceil(c.least) : c.least, most = c.whole ? std::floor(c.most) : c.most;
    out << " " << number(least) << " <= x" << i << " <= " << (std::isinf(most) ? "+inf" : number(most))
        << "\n";
  }
  out << "Generals\n";
  for (std::size_t i = 0; i < m.columns.size(); ++i) {
    if (m.columns[i].whole) out << " x" << i << "\n";
  }
  out << "End\n";
  return out.str();
}

struct Verdict {
  MilpStatus status = MilpStatus::GaveUp;
  double cost = 0;
};

/// Reads glpsol's machine-readable solution (-w): its line "s bas|mip ROWS COLUMNS ... STATUS COST".
Verdict readSolution(const std::string& path) {
  Verdict v;
  std::ifstream in(path);
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("s ", 0) != 0) continue;
    std::istringstream words(line.substr(2));
    std::string kind, primal, dual;
    int rows = 0, columns = 0;
    words >> kind >> rows >> columns >> primal;
    if (kind == "bas") words >> dual;
    words >> v.cost;
    const bool best = kind == "mip" ? primal == "o" : primal == "f" && dual == "f";
    if (best) v.status = MilpStatus::Best;
    if (primal == "n") v.status = MilpStatus::Infeasible;
    if (kind == "bas" && primal == "f" && dual == "n") v.status = MilpStatus::Unbounded;
  }
  return v;
}

Verdict askGlpsol(const std::string& folder, const Milp& m) {
  const std::string lp = folder + "/problem.lp", solution = folder + "/solution.txt",
                    log = folder + "/log.txt";
  std::ofstream(lp) << lpText(m);
  std::remove(solution.c_str());
  const std::string command =
      "glpsol --nopresol --tmlim 20 --mipgap 1e-9 --lp " + lp + " -w " + solution + " > " + log + " 2>&1";
  if (std::system(command.c_str()) != 0) return {};
  Verdict v = readSolution(solution);
  // What the presolver or the root finds is only told in words.
  std::ifstream in(log);
  const std::string text((std::istreambuf_iterator<char>(in)), {});
  const auto says = [&](const char* words) { return text.find(words) != std::string::npos; };
  if (says("PROBLEM HAS NO PRIMAL FEASIBLE SOLUTION") || says("LP HAS NO PRIMAL FEASIBLE SOLUTION") ||
      says("PROBLEM HAS NO INTEGER FEASIBLE SOLUTION"))
    v.status = MilpStatus::Infeasible;
  if (says("PROBLEM HAS UNBOUNDED SOLUTION") || says("LP HAS UNBOUNDED PRIMAL SOLUTION") ||
      says("LP RELAXATION HAS NO DUAL FEASIBLE SOLUTION") || says("HAS NO DUAL FEASIBLE SOLUTION"))
    v.status = MilpStatus::Unbounded;
  return v;
}

}  // namespace

int main(int argc, char** argv) {
  constexpr int kProblems = 300;
  constexpr double kTolerance = 1e-6;
  if (argc != 2) return 2;
  const std::string folder = argv[1];
  mkdir(folder.c_str(), 0777);
  Random random(20240611);
  int same = 0, different = 0, unanswered = 0;  // glpsol 5.0 stops at an assertion of its own now and then
  std::array<int, 5> seen{};
  for (int i = 0; i < kProblems; ++i) {
    const Milp m = generate(random);
    const MilpAnswer ours = solveMilp(m, 200000);
    const Verdict theirs = askGlpsol(folder, m);
    if (theirs.status == MilpStatus::GaveUp) {
      ++unanswered;
      continue;
    }
    ++seen[std::size_t(ours.status)];
    const double broken = ours.solved() ? fault(m, ours.values) : 0.0;
    const bool agree = broken < kTolerance && ours.status == theirs.status &&
                       (ours.status != MilpStatus::Best ||
                        std::abs(ours.cost - theirs.cost) <= kTolerance * (1 + std::abs(theirs.cost)));
    agree ? ++same : ++different;
    if (agree) continue;
    std::printf("problem %d: ours status %d cost %.12g, glpsol status %d cost %.12g, a row broken by %.3g\n",
                i, int(ours.status), ours.cost, int(theirs.status), theirs.cost, broken);
    std::ofstream(folder + "/differs" + std::to_string(i) + ".lp") << lpText(m);
  }
  std::printf("best %d, good %d, infeasible %d, unbounded %d, gave up %d\n", seen[0], seen[1], seen[2],
              seen[3], seen[4]);
  std::printf("[doctest] test cases: %d | %d passed | %d failed\n", kProblems - unanswered, same, different);
  if (unanswered > 3) std::printf("glpsol had no answer to %d\n", unanswered);
  // The problems must have had all the answers there are.
  const bool varied = seen[0] > 150 && seen[2] > 5 && seen[3] > 5;
  if (!varied) std::printf("the generated problems are too much alike\n");
  return different == 0 && varied && unanswered <= 3 ? 0 : 1;
}
