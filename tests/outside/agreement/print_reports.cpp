// Prints every number of many reports, for compare.mjs to hold the native build against the WASM build:
// print_reports BOAT-FILE... Each boat as it is and 30 times with its weights and places moved at random.
#include <cstdio>
#include <fstream>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/report.hpp>
#include <random>
#include <sstream>

namespace {

using namespace pondtrim;
using Random = std::mt19937_64;  // the same numbers on every platform; distributions would not be

double uniform(Random& random, double from, double to) {
  return from + (to - from) * static_cast<double>(random() >> 11) * 0x1.0p-53;
}

Boat moved(Boat boat, Random& random) {
  for (Part& part : boat.parts) {
    if (part.mass && part.role != Role::TrappedAir) *part.mass *= uniform(random, 0.7, 1.0);
    if (part.role == Role::Dry) continue;  // must stay in the bore
    part.position += Vec3{uniform(random, -0.03, 0.03), uniform(random, -0.005, 0.005), 0};
  }
  return boat;
}

void print(const char* name, double value) { std::printf("%s %.17g\n", name, value); }

void print(const char* name, const Vec3& v) {
  for (int i = 0; i < 3; ++i) print(name, v[i]);
}

void print(const char* name, const std::optional<MarkReading>& mark) {
  if (!mark) return;
  print(name, mark->draft);
  print(name, mark->line_above_water);
}

void printReport(const Report& r) {
  print("up", r.rest.plane.up);
  print("level", r.rest.plane.level);
  print("trim", r.rest.attitude.trim);
  print("heel", r.rest.attitude.heel);
  print("volume", r.rest.cut.volume);
  print("moment", r.rest.cut.moment);
  print("area", r.rest.cut.plane_area);
  print("mass", r.total_mass);
  print("G", r.centre_of_gravity);
  print("gm", r.gm_transverse);
  print("gml", r.gm_longitudinal);
  print("free surface", r.free_surface_rise_transverse);
  print("bow", r.bow);
  print("stern", r.stern);
}

bool printBoat(const Boat& boat, const std::string& title) {
  const auto model = buildModel(boat);
  if (!model) {
    std::printf("# %s: %s\n", title.c_str(), model.error().message.c_str());
    return true;  // moved out of its range: the same in both builds, or the lines differ
  }
  for (const double share : {0.0, 0.3, 0.8, 1.0}) {
    for (const double salinity : {0.0, 35.0}) {
      Condition condition{boat.water, share * model->tank_capacity};
      condition.water.salinity = salinity;
      const auto report = evaluate(*model, condition);
      if (!report) return false;
      std::printf("# %s, %.0f %% full, salinity %.0f\n", title.c_str(), 100 * share, salinity);
      print("length", model->length);
      printReport(*report);
    }
  }
  return true;
}

}  // namespace

int main(int count, char** words) {
  Random random(20260501);
  for (int i = 1; i < count; ++i) {
    std::ifstream in(words[i]);
    std::stringstream text;
    text << in.rdbuf();
    const auto document = file::readBoatFile(text.str());
    if (!document || !printBoat(document->boat, document->boat.name)) {
      std::fprintf(stderr, "%s cannot be solved\n", words[i]);
      return 1;
    }
    for (int k = 1; k <= 30; ++k) {
      if (!printBoat(moved(document->boat, random), document->boat.name + ", moved " + std::to_string(k)))
        return 1;
    }
  }
  return count > 1 ? 0 : 2;
}
