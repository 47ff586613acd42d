// Where the water is wanted on a flooded boat.
#include <pondtrim/report.hpp>

namespace pondtrim {

double wantedSail(const Model& model, double density, const Aims& aims) {
  if (!aims.net_buoyancy) return aims.sail_showing;
  const double under = model.whole_volume - *aims.net_buoyancy / density, top = model.marks.sail_top.z;
  double low = model.marks.line_height, high = top + 1;
  for (int i = 0; i < 50; ++i) {  // to far less than a micrometre
    const double middle = (low + high) / 2;
    (cutModel(model, {Vec3(0, 0, 1), middle}).volume < under ? low : high) = middle;
  }
  return top - (low + high) / 2;
}

}  // namespace pondtrim
