#pragma once
// Random numbers that are the same on every compiler and C library, and how many of them a build can afford.
#include <cmath>
#include <cstdint>
#include <pondtrim/vec.hpp>
#include <random>

namespace pondtrim::test {

// How much a build can afford: the optimised native one runs everything; sanitizers, unoptimised coverage
// builds and WASM run a part of it. Chosen at compile time so that a run says the same thing every time.
#if defined(__EMSCRIPTEN__)
inline constexpr int kEffortDivisor = 20;
#elif defined(PONDTRIM_UNOPTIMISED) || !defined(NDEBUG)
inline constexpr int kEffortDivisor = 50;
#else
inline constexpr int kEffortDivisor = 1;
#endif

/// `full` in the optimised native build, less elsewhere, at least 1.
constexpr int effort(int full) { return full / kEffortDivisor > 0 ? full / kEffortDivisor : 1; }

/// mt19937_64 is the same everywhere; the standard distributions are not, so these are our own.
class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}

  /// Uniform in [low, high).
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1.0p-53;
  }
  /// Uniform in the logarithm, for sizes.
  double scale(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
  int index(int count) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(count)); }
  bool chance(double p) { return between(0.0, 1.0) < p; }
  Vec3 inBox(const Vec3& low, const Vec3& high) {
    const double x = between(low.x, high.x), y = between(low.y, high.y), z = between(low.z, high.z);
    return {x, y, z};
  }
  /// Uniform on the unit sphere.
  Vec3 direction() {
    const double z = between(-1.0, 1.0), a = between(0.0, 2.0 * kPi), r = std::sqrt(1.0 - z * z);
    return {r * std::cos(a), r * std::sin(a), z};
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace pondtrim::test
