#include "faults.hpp"

#include <cmath>
#include <cstdio>

namespace pondtrim {

std::string numberText(double v) {
  char text[32];
  std::snprintf(text, sizeof text, "%.9g", v);
  return text;
}

std::optional<Error> outside(const std::string& field, double v, double least, double most) {
  if (std::isfinite(v) && v >= least && v <= most) return std::nullopt;
  Error e;
  e.field = field;
  e.was = numberText(v);
  e.allowed = numberText(least) + " to " + numberText(most);
  e.message = field + " is " + e.was + ", allowed is " + e.allowed;
  return e;
}

}  // namespace pondtrim
