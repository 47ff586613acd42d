#pragma once
// What the benchmarks share: an invented boat with many places, and a clock of the processor's time.
#include <algorithm>
#include <ctime>
#include <pondtrim/boat.hpp>
#include <pondtrim/hydrostatics.hpp>
#include <string>
#include <vector>

#ifdef __EMSCRIPTEN__
#include <emscripten.h>
#endif

namespace pondtrim::bench {

/// A closed body of `rings` rows of `sides` corners between two ends; `corner(t, angle)`: where each lies, t
/// from 0 to 1 along x, the angle from z towards y, and all of one point at the ends.
template <class Corner>
Mesh ringMesh(int rings, int sides, const Corner& corner) {
  Mesh mesh;
  for (int i = 0; i <= rings; ++i)
    for (int k = 0; k < sides; ++k) mesh.vertices.push_back(corner(double(i) / rings, 2 * kPi * k / sides));
  const auto at = [&](int i, int k) { return std::uint32_t(i * sides + k % sides); };
  for (int i = 0; i < rings; ++i)
    for (int k = 0; k < sides; ++k) {
      if (i + 1 < rings)
        mesh.triangles.insert(mesh.triangles.end(), {at(i, k), at(i + 1, k), at(i + 1, k + 1)});
      if (i > 0) mesh.triangles.insert(mesh.triangles.end(), {at(i, k), at(i + 1, k + 1), at(i, k + 1)});
    }
  return mesh;
}

/// A metre-long boat with two rows of foam and keel lead from end to end: 40 places, invented.
inline Boat boatWithPlaces(int count) {
  Boat boat;
  boat.name = "bench";
  Skin hull;
  hull.name = "hull";
  hull.form = SpindleForm{0.98, 0.106, 0.106, 0.17, 0.38, 2, 2, 2, 1, 0, 0, 2};
  hull.position = {0.02, 0, 0.053};
  hull.mass = 0.86;
  Skin sail;
  sail.name = "sail";
  sail.form = SailForm{0.15, 0.034, 0.075, 0.9, 0, 0.35};
  sail.position = {0.62, 0, 0.104};
  sail.thickness = 0.0015;
  sail.mass = 0.055;
  boat.skins = {hull, sail};
  SealedCylinder tube;
  tube.name = "tube";
  tube.position = {0.34, 0, 0.05};
  tube.length = 0.42;
  tube.diameter = 0.08;
  tube.mass = 1.1;
  boat.cylinders = {tube};
  boat.tank = BallastTank{"tube", 0.5, 0.61, std::nullopt, {}};
  boat.marks = {0.9, 0.2, 0.078, 0.106, Vec3(0.62, 0, 0.179)};
  boat.aims.least_gm = boat.aims.least_bg = 0.002;
  for (int i = 0; i < count; ++i) {
    const double x = 0.2 + 0.65 * (i / 3) / (count / 3.0);
    const bool lead = i % 3 == 2;
    Part part;
    part.name = "place " + std::to_string(i);
    part.role = lead ? Role::Lead : Role::Foam;
    part.shape = BoxShape{lead ? Vec3(0.04, 0.024, 0.005) : Vec3(0.04, 0.05, 0.02)};
    part.position = {x,
                     i % 9 == 2   ? 0.01
                     : i % 9 == 5 ? -0.01
                                  : 0.0,
                     lead         ? 0.006
                     : i % 3 == 0 ? 0.05
                                  : 0.09};
    part.density = lead ? 11340 : 33;
    (lead ? part.mass : part.volume) = 0.0;
    boat.parts.push_back(part);
    boat.places.push_back({part.name, std::nullopt, std::nullopt, lead ? 0.005 : 1e-5, std::nullopt});
  }
  return boat;
}

/// Processor time, so that others at work on the machine count as little as can be [ms].
inline double processorTime() {
#ifdef __EMSCRIPTEN__
  return EM_ASM_DOUBLE({ return process.cpuUsage().user / 1e3; });
#else
  return 1e3 * double(std::clock()) / CLOCKS_PER_SEC;
#endif
}

template <class Work>
double leastMilliseconds(int runs, Work work) {
  std::vector<double> times;
  for (int i = 0; i < runs; ++i) {
    const double start = processorTime();
    work();
    times.push_back(processorTime() - start);
  }
  return *std::min_element(times.begin(), times.end());
}

}  // namespace pondtrim::bench
