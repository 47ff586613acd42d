#pragma once
// Hulls with published equations, as radius over station.
#include <vector>

namespace pondtrim::test {

/// DARPA SUBOFF bare hull: radius [ft] at x [ft] from the nose.
/// Groves, Huang and Chang 1989, DTRC/SHD-1298-01, Table 1, p. 4.
double suboffRadius(double x);
inline constexpr double kSuboffLength = 14.291667, kSuboffMaxRadius = 5.0 / 6.0;
inline constexpr double kSuboffBow = 3.333333, kSuboffMiddle = 10.645833, kSuboffAfter = 13.979167;

/// REMUS hull, a Myring body: radius [m] at s [m] from the nose.
/// Myring 1976, Aeronautical Quarterly 27, 186-194; Prestero 2001, eqs. 2.1-2.3 and Table 2.1.
double remusRadius(double s);
double remusLength();

/// (x, radius) from x0 to x1 in n steps, closer together at both ends, where hulls are round.
std::vector<std::pair<double, double>> stations(double (*radius)(double), double x0, double x1, int n);

}  // namespace pondtrim::test
