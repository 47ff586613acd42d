// What one cut, one equilibrium and one edit cost, natively and, built with Emscripten, under Node. Cuts are
// also given as a ratio to a floor of the same run: a plain loop over flat triangles that adds up volume and
// moment and clips nothing. Processor time, the least of several; every result goes into a sum that is
// printed.
// usage: kernels_bench [cuts | planes]   (cuts of meshes and closed forms only; or, not measured, what the
// cuts of the solid of 20k triangles are, for peers.mjs)
#include <cmath>
#include <cstdio>
#include <glm/geometric.hpp>
#include <pondtrim/model.hpp>
#include <pondtrim/plan.hpp>
#include <pondtrim/report.hpp>
#include <pondtrim/stability.hpp>
#include <random>
#include <string_view>

#include "bench/bench.hpp"

using namespace pondtrim;
using namespace pondtrim::bench;

namespace {

double used = 0;

void use(const Cut& c) {
  used += c.volume + c.moment.x + c.plane_area + c.plane_moment.y + c.plane_second.xy;
}

/// Microseconds for one call: in each measurement as many as take some 30 ms, as the clock is coarse.
template <class Work>
double microseconds(Work work) {
  int calls = 1;
  const auto run = [&](int n) {
    for (int i = 0; i < n; ++i) work(i);
  };
  for (; calls < 1 << 24; calls *= 4)
    if (leastMilliseconds(1, [&] { run(calls); }) > 8) break;
  return 1000 * leastMilliseconds(5, [&] { run(calls); }) / calls;
}

/// A torpedo a metre long, closed: about so many triangles.
Mesh torpedo(int triangles) {
  const int sides = int(std::lround(std::sqrt(triangles / 2.0)));
  return ringMesh(sides, sides, [](double t, double angle) {
    const double r = 0.05 * std::pow(std::max(0.0, 4 * t * (1 - t)), 0.25);
    return Vec3(t, r * std::sin(angle), r * std::cos(angle));
  });
}

struct Flat {
  Vec3 a, b, c;
};
std::vector<Flat> flattened(const Mesh& mesh) {
  std::vector<Flat> out;
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3)
    out.push_back({mesh.vertices[mesh.triangles[i]], mesh.vertices[mesh.triangles[i + 1]],
                   mesh.vertices[mesh.triangles[i + 2]]});
  return out;
}

/// The floor: all of the mesh, no plane.
Cut unclipped(const std::vector<Flat>& triangles) {
  Cut out;
  for (const Flat& t : triangles) {
    const double v = glm::dot(t.a, glm::cross(t.b, t.c)) / 6;
    out.volume += v;
    out.moment += (t.a + t.b + t.c) * (v / 4);
  }
  return out;
}

std::vector<Plane> somePlanes() {
  std::mt19937 random(20261129);
  std::uniform_real_distribution<double> of(-1, 1);
  std::vector<Plane> out;
  for (int i = 0; i < 64; ++i)
    out.push_back({glm::normalize(Vec3(0.1 * of(random), 0.3 * of(random), 1)), 0.03 * of(random)});
  return out;
}

/// A line for each plane: up, level, and volume, moment, area, its first moment and its second (xx yy zz xy
/// xz yz).
void printCuts() {
  const CutMesh solid = CutMesh::solid(torpedo(20'000));
  for (const Plane& p : somePlanes()) {
    const Cut c = solid.cut(p);
    const Vec3 m = c.moment, a = c.plane_moment;
    const Sym3& s = c.plane_second;
    for (const double x : {p.up.x, p.up.y, p.up.z, p.level, c.volume, m.x, m.y, m.z, c.plane_area, a.x, a.y,
                           a.z, s.xx, s.yy, s.zz, s.xy, s.xz, s.yz})
      std::printf("%.17g ", x);
    std::printf("\n");
  }
}

void cuts() {
  const std::vector<Plane> planes = somePlanes();
  const auto plane = [&](int i) { return planes[std::size_t(i) % planes.size()]; };
  double tree_20k = 0;
  for (const int count : {2'000, 20'000, 200'000}) {
    const Mesh mesh = torpedo(count);
    const std::vector<Flat> flat = flattened(mesh);
    const CutMesh solid = CutMesh::solid(mesh), skin = CutMesh::skin(mesh, 0.002);
    const double floor = microseconds([&](int) { use(unclipped(flat)); });
    const double as_solid = microseconds([&](int i) { use(solid.cut(plane(i))); });
    const double as_skin = microseconds([&](int i) { use(skin.cut(plane(i))); });
    const double tree = microseconds([&](int) { use(CutMesh::solid(mesh).whole()); });
    if (count == 20'000) tree_20k = as_solid;
    std::printf(
        "mesh of %6zu triangles: floor %9.2f us, cut as solid %8.2f us (%.3f of it), as skin %8.2f us "
        "(%.3f); "
        "tree %9.0f us\n",
        flat.size(), floor, as_solid, as_solid / floor, as_skin, as_skin / floor, tree);
    if (count == 200'000) std::printf("cut of the 200k over that of the 20k: %.2f\n", as_solid / tree_20k);
  }
  const CylinderSolid cylinder{Vec3(0.5, 0, 0), Vec3(1, 0, 0), 0.04, 0.4, 0, 0};
  CylinderSolid domed = cylinder;
  domed.fore_dome = domed.aft_dome = 0.02;
  const StripSolid box{Vec3(0.5, 0, 0), 0.1, 0.05, 0.04, 0.05, 0.04};
  std::printf("closed forms: cylinder %.0f ns, with domes %.0f ns, box %.0f ns\n",
              1000 * microseconds([&](int i) { use(cutCylinder(cylinder, plane(i))); }),
              1000 * microseconds([&](int i) { use(cutCylinder(domed, plane(i))); }),
              1000 * microseconds([&](int i) { use(cutStrip(box, plane(i))); }));
}

struct Solved {
  double steps = 0, time = 0;
};

/// Newton steps and microseconds, the mean over fills from empty to full. `solve` gets the condition and
/// where she lies with a fortieth more or less in the tank.
template <class Solve>
Solved overFills(const Model& model, Solve solve) {
  constexpr int kFills = 21;
  Solved out;
  for (int i = 0; i < kFills; ++i) {
    const Condition condition{{}, model.tank_capacity * i / (kFills - 1)};
    const double other = condition.tank_fill + (i > 0 ? -1 : 1) * model.tank_capacity / 40;
    const Plane beside = findEquilibrium(model, {condition.water, other}).value_or(Equilibrium{}).plane;
    int steps = 0;
    out.time += microseconds([&](int) {
                  const Equilibrium rest = solve(condition, beside).value_or(Equilibrium{});
                  steps = rest.iterations;
                  used += rest.plane.level;
                }) /
                kFills;
    out.steps += double(steps) / kFills;
  }
  return out;
}

void tell(const char* what, const Model& model) {
  const Solved cold =
      overFills(model, [&](const Condition& c, const Plane&) { return findEquilibrium(model, c); });
  const Solved warm = overFills(
      model, [&](const Condition& c, const Plane& beside) { return findEquilibriumNear(model, c, beside); });
  std::printf("equilibrium, %-30s: cold %.1f steps, %7.1f us; warm %.1f steps, %7.1f us\n", what, cold.steps,
              cold.time, warm.steps, warm.time);
}

void equilibria(const Boat& boat, const Model& model) {
  tell("skins as their forms, 30 parts", model);
  for (const int count : {2'000, 20'000, 200'000}) {
    Mesh mesh = torpedo(count);
    for (Vec3& v : mesh.vertices) v = v * Vec3(0.98, 1.06, 1.06) + boat.skins.front().position;
    Model fine = model;
    refineSkin(fine, 0, CutMesh::skin(mesh, boat.skins.front().thickness));
    tell((std::to_string(count) + " triangles").c_str(), fine);
  }
}

void oneEdit(const Boat& boat, const Model& model) {
  double whole = 0;
  const auto step = [&](const char* what, auto work) {
    const double time = microseconds(work);
    whole += time;
    std::printf("  %-44s %9.1f us\n", what, time);
  };
  std::printf("one edit and all that any page shows of it:\n");
  Boat edited = boat;
  step("boat checked and made ready, skins kept", [&](int i) {
    *edited.parts.back().mass = 0.010 + 1e-6 * (i % 100);
    used += buildModel(edited, &model)->mass;
  });
  const Condition empty{boat.water, 0}, full{boat.water, model.tank_capacity};
  const Plane floats = findEquilibrium(model, empty)->plane, hangs = findEquilibrium(model, full)->plane;
  step("report empty, with sensitivities",
       [&](int) { used += evaluateNear(model, empty, floats)->total_mass; });
  step("report full, with sensitivities", [&](int) { used += evaluateNear(model, full, hangs)->total_mass; });
  step("dive of 41 fills, down and up",
       [&](int) { used += sweepDive(model, boat.water, 40)->least_gm_transverse.gm; });
  step("righting levers, 37 heels a side",
       [&](int) { used += rightingCurve(model, empty, 37)->gm_transverse; });
  const Boat places = boatWithPlaces(40);
  step("plan of 40 places, any amount", [&](int) { used += makePlan(places, {})->found ? 1 : 0; });
  std::printf("  %-44s %9.1f us\n", "sum", whole);
}

int solverAndEdit() {
  Boat boat = boatWithPlaces(30);
  for (Part& part : boat.parts)
    (part.role == Role::Lead ? part.mass : part.volume) = part.role == Role::Lead ? 0.050 : 1e-5;
  const auto model = buildModel(boat);
  if (!model) return std::fprintf(stderr, "%s\n", model.error().message.c_str()), 1;
  equilibria(boat, *model);
  oneEdit(boat, *model);
  return 0;
}

}  // namespace

int main(int count, char** arguments) {
  const std::string_view only = count > 1 ? arguments[1] : "";
  if (only == "planes") return printCuts(), 0;
  cuts();
  const int failed = only == "cuts" ? 0 : solverAndEdit();
  std::printf("(sum of all results: %g)\n", used);
  return failed;
}
