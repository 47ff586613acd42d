#pragma once
// A law's tolerances and known failures are data: tests/identities/tolerances.csv and known_failures.csv.
#include <map>
#include <set>
#include <string>
#include <vector>

namespace pondtrim::test {

/// The boats that a law is held against: every one (boats.hpp), or others that the check makes itself.
enum class LawBoats { Every, Own };

/// The law of the running test case, whose name it has in both tables. Fails the test for a quantity that has
/// no tolerance, a tolerance that no check asked for, a boat that it was not held against, and a known
/// failure that did not fail.
class Law {
 public:
  explicit Law(LawBoats boats = LawBoats::Every);
  ~Law() noexcept(false);
  Law(const Law&) = delete;
  Law& operator=(const Law&) = delete;

  /// The boat, by its name (with what stands behind a comma), and condition that the next checks are about,
  /// as known_failures.csv names them.
  void at(std::string where) { where_ = std::move(where); }
  /// |error| is at most the quantity's tolerance times what it is measured against.
  void within(const std::string& quantity, double error, double against = 1.0);
  /// The same, of the value itself.
  void equal(const std::string& quantity, double got, double wanted);
  [[nodiscard]] double tolerance(const std::string& quantity);
  [[nodiscard]] int checks() const { return checks_; }

 private:
  struct Tolerance {
    double value = 0.0;
    bool asked = false;
  };
  struct Known {
    std::string quantity, where;
    bool failed = false;
  };
  void finish() const;

  LawBoats boats_;
  std::string name_, where_;
  std::set<std::string> held_;  ///< names of the boats
  std::map<std::string, Tolerance> tolerances_;
  std::vector<Known> known_;
  int checks_ = 0, open_exceptions_ = 0;
};

}  // namespace pondtrim::test
