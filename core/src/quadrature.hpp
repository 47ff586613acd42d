#pragma once
// Definite integrals of smooth functions by adaptive Gauss-Legendre quadrature.
#include <cmath>

namespace pondtrim {

/// Five-point Gauss-Legendre rule, exact for polynomials up to degree 9 (Abramowitz and Stegun 1964, table
/// 25.4).
template <class F>
double gauss5(const F& f, double a, double b) {
  constexpr double kNear = 0.5384693101056831, kFar = 0.9061798459386640;
  constexpr double kMiddleWeight = 128.0 / 225.0, kNearWeight = 0.4786286704993665,
                   kFarWeight = 0.2369268850561891;
  const double m = (a + b) / 2, h = (b - a) / 2;
  return h * (kMiddleWeight * f(m) + kNearWeight * (f(m - h * kNear) + f(m + h * kNear)) +
              kFarWeight * (f(m - h * kFar) + f(m + h * kFar)));
}

/// Halves the interval until halves and whole agree within `tolerance` (absolute), at most `depth` times.
template <class F>
double integrate(const F& f, double a, double b, double tolerance, int depth = 30) {
  const double whole = gauss5(f, a, b), m = (a + b) / 2;
  const double halves = gauss5(f, a, m) + gauss5(f, m, b);
  if (depth == 0 || std::abs(whole - halves) <= tolerance) return halves;
  return integrate(f, a, m, tolerance / 2, depth - 1) + integrate(f, m, b, tolerance / 2, depth - 1);
}

}  // namespace pondtrim
