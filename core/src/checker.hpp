#pragma once
// What the checks of a boat share: the first fault wins.
#include <cmath>
#include <optional>
#include <pondtrim/boat.hpp>
#include <string>

#include "faults.hpp"

namespace pondtrim {

inline constexpr double kLongest = 10;         // [m]
inline constexpr double kThinnest = 1e-5;      // [m]
inline constexpr double kHeaviest = 2000;      // [kg]
inline constexpr double kLargest = 10;         // [m^3]
inline constexpr double kSmallestTank = 1e-6;  // [m^3]
inline constexpr double kDensest = 25000;      // [kg/m^3], above any metal
inline constexpr double kSlack = 1e-9;         // rounding of typed numbers, relative

/// Remembers the first fault; later checks are skipped.
class Checker {
 public:
  void range(const std::string& field, double v, double least, double most) {
    if (!error_) error_ = outside(field, v, least, most);
  }
  void range(const std::string& field, const std::optional<double>& v, double least, double most) {
    if (v) range(field, *v, least, most);
  }
  void length(const std::string& field, double v) { range(field, v, kThinnest, kLongest); }
  void place(const std::string& field, const Vec3& v) {
    range(field + ".x", v.x, -kLongest, kLongest);
    range(field + ".y", v.y, -kLongest, kLongest);
    range(field + ".z", v.z, -kLongest, kLongest);
  }
  void weight(const std::string& field, const std::optional<double>& mass,
              const std::optional<double>& density) {
    range(field + ".mass", mass, 0, kHeaviest);
    range(field + ".density", density, 0, kDensest);
    if (!mass && !density)
      fault(field + ".mass", "missing", "a mass or a density", "", field + " has neither mass nor density");
  }
  void name(const std::string& field, const std::string& text) {
    if (text.empty()) fault(field, "empty", "a name", "", field + " is empty, it needs a name");
    if (text.size() > 200)
      fault(field, std::to_string(text.size()) + " bytes", "at most 200 bytes", "",
            field + " is too long, allowed is at most 200 bytes");
  }
  void fault(const std::string& field, const std::string& was, const std::string& allowed,
             const std::string& other, const std::string& message) {
    if (!error_) error_ = Error{field, was, allowed, other, message};
  }
  /// `v` must not be more than `limit`, which stands in `other`.
  void atMost(const std::string& field, double v, const std::string& other, double limit) {
    if (v <= limit + kSlack * std::abs(limit)) return;
    fault(field, numberText(v), "at most " + numberText(limit), other,
          field + " is " + numberText(v) + ", but " + other + " allows at most " + numberText(limit));
  }
  void atLeast(const std::string& field, double v, const std::string& other, double limit) {
    if (v >= limit - kSlack * std::abs(limit)) return;
    fault(field, numberText(v), "at least " + numberText(limit), other,
          field + " is " + numberText(v) + ", but " + other + " asks for at least " + numberText(limit));
  }
  [[nodiscard]] Result<void> result() const {
    if (error_) return fail(*error_);
    return {};
  }
  [[nodiscard]] bool good() const { return !error_; }

 private:
  std::optional<Error> error_;
};

inline std::string item(const char* list, std::size_t i) {
  return std::string(list) + "[" + std::to_string(i) + "]";
}

/// "cylinders": finds by name; sets `at` to its index.
const SealedCylinder* findCylinder(const Boat& boat, const std::string& name, std::size_t* at);

/// Of a boat with a tank in a cylinder that is there: what the bore holds between the tank's ends, and the
/// largest capacity that a measurement may claim [m^3].
double boreBetweenEnds(const Boat& boat);
double largestTankCapacity(const Boat& boat);

/// The ballast system (ballast_check.cpp).
void checkBallast(Checker& c, const Boat& boat);

/// Log and correction (log_check.cpp), the rest of the boat being good.
void checkLog(Checker& c, const Boat& boat);

}  // namespace pondtrim
