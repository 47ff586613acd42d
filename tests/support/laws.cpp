#include "support/laws.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <exception>

#include "support/boats.hpp"
#include "support/reference.hpp"

namespace pondtrim::test {

Law::Law(LawBoats boats)
    : boats_(boats),
      name_(doctest::getContextOptions()->currentTest->m_name),
      open_exceptions_(std::uncaught_exceptions()) {
  for (const ReferenceRow& row : dataTable("tests/identities/tolerances.csv")) {
    if (row.text("law") == name_) tolerances_[row.text("quantity")] = {row.number("tolerance"), false};
  }
  for (const ReferenceRow& row : dataTable("tests/identities/known_failures.csv")) {
    if (row.text("law") == name_) known_.push_back({row.text("quantity"), row.text("where"), false});
  }
  REQUIRE_MESSAGE(!tolerances_.empty(), "tolerances.csv has no row of this law");
}

Law::~Law() noexcept(false) {
  if (std::uncaught_exceptions() == open_exceptions_) finish();
}

void Law::finish() const {
  for (const auto& row : tolerances_)
    CHECK_MESSAGE(row.second.asked, "no check asked for the tolerance of " << row.first);
  for (const Known& known : known_)
    CHECK_MESSAGE(known.failed, "holds now, take it out of known_failures.csv: " << known.quantity << " of "
                                                                                 << known.where);
  if (boats_ == LawBoats::Own) return;
  static const std::vector<NamedBoat> boats = allBoats();
  for (const NamedBoat& boat : boats)
    CHECK_MESSAGE(held_.count(boat.name) == 1, "not held against " << boat.name);
}

double Law::tolerance(const std::string& quantity) {
  const auto found = tolerances_.find(quantity);
  if (found == tolerances_.end()) FAIL("tolerances.csv has no row of " << quantity);
  found->second.asked = true;
  return found->second.value;
}

void Law::within(const std::string& quantity, double error, double against) {
  const double allowed = tolerance(quantity) * std::abs(against);
  ++checks_;
  held_.insert(where_.substr(0, where_.find(',')));
  const bool holds = std::abs(error) <= allowed;
  const auto known = std::find_if(known_.begin(), known_.end(), [&](const Known& k) {
    return k.quantity == quantity && k.where == where_;
  });
  if (known != known_.end()) {
    known->failed = known->failed || !holds;
    return;
  }
  CHECK_MESSAGE(holds, quantity << " of " << where_ << ": off by " << error << ", allowed " << allowed);
}

void Law::equal(const std::string& quantity, double got, double wanted) {
  within(quantity, got - wanted, wanted);
}

}  // namespace pondtrim::test
