// Any boat that is accepted yields finite numbers or a named outcome, at three fills of its tank.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/report.hpp>

namespace {

using namespace pondtrim;

bool finite(const Vec3& v) { return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z); }

bool finite(const Report& r) {
  const double numbers[] = {r.sail_showing,
                            r.displaced_volume,
                            r.displaced_mass,
                            r.total_mass,
                            r.carry_mass,
                            r.reserve_buoyancy_volume,
                            r.rest.attitude.trim,
                            r.rest.attitude.heel,
                            r.waterplane_area,
                            r.gm_transverse,
                            r.gm_longitudinal,
                            r.bg_submerged,
                            r.net_buoyancy_submerged,
                            r.mass_per_immersion};
  for (const double number : numbers)
    if (!std::isfinite(number)) return false;
  if (r.bow && !std::isfinite(r.bow->draft)) return false;
  if (r.stern && !std::isfinite(r.stern->draft)) return false;
  return finite(r.centre_of_buoyancy) && finite(r.centre_of_gravity);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto read = file::readBoatFile({reinterpret_cast<const char*>(data), size});
  if (!read || read->boat.skins.size() > 3) return 0;
  const auto model = buildModel(read->boat);
  if (!model) return model.error().message.empty() ? std::abort(), 0 : 0;
  for (const double share : {0.0, 0.4, 1.0}) {
    const auto report = evaluate(*model, {read->boat.water, share * model->tank_capacity});
    if (!report) {
      if (report.error().message.empty()) std::abort();
      continue;
    }
    if (report->rest.outcome == Outcome::Sinks) continue;
    if (!finite(*report)) std::abort();
  }
  return 0;
}
