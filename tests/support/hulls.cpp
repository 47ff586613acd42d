#include "support/hulls.hpp"

#include <algorithm>
#include <cmath>
#include <pondtrim/vec.hpp>

namespace pondtrim::test {
namespace {

double root(double value, double exponent) { return value > 0.0 ? std::pow(value, exponent) : 0.0; }

double suboffBow(double x) {
  const double k = 0.3 * x - 1.0;
  return root(1.126395101 * x * std::pow(k, 4) + 0.442874707 * x * x * std::pow(k, 3) + 1.0 -
                  std::pow(k, 4) * (1.2 * x + 1.0),
              1.0 / 2.1);
}

double suboffAfter(double x) {
  const double h = 0.1175, k0 = 10.0, k1 = 44.6244, xi = (13.979167 - x) / 3.333333;
  return root(h * h + h * k0 * xi * xi + (20 - 20 * h * h - 4 * h * k0 - k1 / 3) * std::pow(xi, 3) +
                  (-45 + 45 * h * h + 6 * h * k0 + k1) * std::pow(xi, 4) +
                  (36 - 36 * h * h - 4 * h * k0 - k1) * std::pow(xi, 5) +
                  (-10 + 10 * h * h + h * k0 + k1 / 3) * std::pow(xi, 6),
              0.5);
}

constexpr double kA = 0.191, kAOff = 0.0165, kB = 0.654, kC = 0.541, kCOff = 0.0368, kD = 0.191,
                 kTheta = 0.436;
constexpr double kForward = kA + kB - kAOff;

}  // namespace

double suboffRadius(double x) {
  if (x < kSuboffBow) return kSuboffMaxRadius * suboffBow(x);
  if (x < kSuboffMiddle) return kSuboffMaxRadius;
  if (x < kSuboffAfter) return kSuboffMaxRadius * suboffAfter(x);
  const double c = 3.2 * x - 44.733333;
  return 0.1175 * kSuboffMaxRadius * root(1.0 - c * c, 0.5);
}

double remusLength() { return kForward + kC - kCOff; }

double remusRadius(double s) {
  if (s < kA - kAOff) {
    const double t = (s + kAOff - kA) / kA;
    return kD / 2 * root(1.0 - t * t, 0.5);
  }
  if (s < kForward) return kD / 2;
  const double e = s - kForward, slope = std::tan(kTheta);
  return kD / 2 - (3 * kD / (2 * kC * kC) - slope / kC) * e * e +
         (kD / (kC * kC * kC) - slope / (kC * kC)) * e * e * e;
}

std::vector<std::pair<double, double>> stations(double (*radius)(double), double x0, double x1, int n) {
  std::vector<std::pair<double, double>> out;
  for (int i = 0; i <= n; ++i) {
    const double x = x0 + (x1 - x0) * (1.0 - std::cos(kPi * i / n)) / 2.0;
    out.emplace_back(x, std::max(0.0, radius(x)));
  }
  return out;
}

}  // namespace pondtrim::test
