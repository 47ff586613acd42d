// A hull of a million triangles from an STL to the water: what each step costs, and what thinning it changes.
// Run by hand. mesh_bench BOAT-FILE [SECTIONS]
#include <sys/resource.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <glm/common.hpp>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/mesh_file.hpp>
#include <pondtrim/hull.hpp>
#include <pondtrim/hull_mesh.hpp>
#include <pondtrim/report.hpp>
#include <pondtrim/thin_mesh.hpp>
#include <sstream>

#include "bench/bench.hpp"
#include "support/mesh_files.hpp"

namespace {

using namespace pondtrim;

class Clock {
 public:
  explicit Clock(std::string what) : what_(std::move(what)) {}
  ~Clock() { std::printf("%-44s %8.3f s, %5ld MiB at most so far\n", what_.c_str(), seconds(), memory()); }
  Clock(const Clock&) = delete;
  Clock& operator=(const Clock&) = delete;

 private:
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - from_).count();
  }
  static long memory() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss / 1024;
  }
  std::string what_;
  std::chrono::steady_clock::time_point from_ = std::chrono::steady_clock::now();
};

/// A hull along x in millimetres, as long and high as the box: round, with weld beads all over it.
Mesh fineHull(const Vec3& size, int rings) {
  return bench::ringMesh(rings, rings / 2, [&](double t, double angle) {
    const double r = std::sqrt(std::max(0.0, 4 * t * (1 - t))),
                 bead = r > 0.1 ? 1 + 0.002 * std::sin(60 * t * kPi) * std::cos(9 * angle) : 1;
    return Vec3(1000 * size.x * t, 500 * size.y * r * bead * std::sin(angle),
                500 * size.z * r * bead * std::cos(angle));
  });
}

void told(const char* what, const Result<Report>& report) {
  if (!report) return (void)std::printf("%s: %s\n", what, report.error().message.c_str());
  const auto mark = [](const std::optional<MarkReading>& m) { return m ? 1000 * m->draft : NAN; };
  std::printf("%s: drafts at bow %.4f mm, stern %.4f mm\n", what, mark(report->bow), mark(report->stern));
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) return 2;
  std::ifstream in(words[1]);
  std::stringstream text;
  text << in.rdbuf();
  auto document = file::readBoatFile(text.str());
  if (!document) return 1;
  Boat boat = document->boat;
  std::size_t hull = 0;
  while (hull + 1 < boat.skins.size() && hullSize(boat.skins[hull].form).x < 0.5 * boat.length) ++hull;
  const HullBox box = hullBox(boat.skins[hull].form);
  const Vec3 place = boat.skins[hull].position + Vec3(box.low.x, 0, box.low.z);  // as a mesh has it

  std::string binary, as_text;
  {
    const Mesh drawn = fineHull(box.high - box.low, count > 2 ? std::atoi(words[2]) : 1000);
    std::printf("%zu triangles\n", drawn.triangles.size() / 3);
    binary = test::binaryStl(drawn);
    as_text = test::textStl(drawn);
  }
  {
    const Clock clock("read text STL");
    if (!file::readMeshFile(as_text)) return 1;
  }
  std::string().swap(as_text);
  Result<file::MeshFile> read = [&] {
    const Clock clock("read binary STL");
    return file::readMeshFile(binary);
  }();
  if (!read) return 1;
  const MendedMesh mended = [&] {
    const Clock clock("weld and mend");
    MeshMender mender(std::move(read->mesh));
    while (mender.step()) {
    }
    return mender.take();
  }();
  std::printf("closed: %d, volume %.6f mL\n", int(mended.found.closed), mended.found.volume / 1000);
  for (const std::size_t most : {40'000u, 20'000u, 5'000u}) {
    ThinnedMesh thin;
    {
      const Clock clock("thin to " + std::to_string(most));
      thin = thinMesh(mended.mesh, most);
    }
    std::printf("  %zu left: within %.3f mm, area %+.4f %%, volume %+.4f %%\n",
                thin.mesh.triangles.size() / 3, thin.farthest, 100 * thin.area_change,
                100 * thin.volume_change);
    auto form = packMesh(thin.mesh, {});
    if (!form) return 1;
    Vec3 low(1e300), high(-1e300);
    for (const Vec3& v : thin.mesh.vertices) low = glm::min(low, v), high = glm::max(high, v);
    boat.skins[hull].form = *form;
    boat.skins[hull].position =
        place + Vec3(low.x, 0, low.z) / 1000.0 + Vec3(0, 0, (box.high.z - box.low.z) / 2);
    auto model = buildModel(boat);
    if (!model) return 1;
    told("  in the water", evaluate(*model, {}));
    if (most != 20'000u) continue;
    // The same boat with all of the million in her.
    Mesh fine = mended.mesh;
    for (Vec3& v : fine.vertices) v = v / 1000.0 + place + Vec3(0, 0, (box.high.z - box.low.z) / 2);
    {
      const Clock clock("tree of stored sums");
      refineSkin(*model, hull, CutMesh::skin(fine, boat.skins[hull].thickness));
    }
    Result<Report> report = [&] {
      const Clock clock("first equilibrium with all triangles");
      return evaluate(*model, {});
    }();
    told("  all in the water", report);
  }
  return 0;
}
