// Tank water: in each cell the level plane that holds exactly the fill volume.
#include <algorithm>
#include <cmath>
#include <pondtrim/model.hpp>

#include "faults.hpp"
#include "moments.hpp"

namespace pondtrim {

namespace {

struct Settled {
  Cut cut;  ///< geometric, not scaled
  double level = 0;
};

/// Level at which `bore` holds `volume`: Newton on a monotone function, kept inside a shrinking bracket.
Settled settle(const CylinderSolid& bore, double volume, const Vec3& up) {
  const double along = std::abs(glm::dot(up, bore.axis));
  const double reach = along * bore.length / 2 + std::sqrt(std::max(0.0, 1 - along * along)) * bore.radius;
  const double whole = kPi * bore.radius * bore.radius * bore.length;
  const double middle = glm::dot(up, bore.centre);
  double lo = middle - reach, hi = middle + reach;
  Settled out;
  out.level = lo + (hi - lo) * volume / whole;
  // 60 halvings exhaust a double; Newton needs about five steps.
  for (int i = 0; i < 60; ++i) {
    out.cut = cutCylinder(bore, {up, out.level});
    const double excess = out.cut.volume - volume;
    if (std::abs(excess) <= 1e-14 * whole) break;
    (excess > 0 ? hi : lo) = out.level;
    double next = out.cut.plane_area > 0 ? out.level - excess / out.cut.plane_area : lo;
    if (!(next > lo && next < hi)) next = (lo + hi) / 2;
    if (next == out.level) break;
    out.level = next;
  }
  return out;
}

Settled fullOrEmpty(const CylinderSolid& bore, bool full, const Vec3& up) {
  const double reach = bore.length + bore.radius;
  Settled out;
  out.level = glm::dot(up, bore.centre) + (full ? reach : -reach);
  out.cut = cutCylinder(bore, {up, out.level});
  return out;
}

}  // namespace

Result<TankWater> settleTank(const Model& model, double fill, const Vec3& up) {
  // A fill typed in mL may exceed the capacity by a rounding.
  const double slack = 1e-9 * model.tank_capacity;
  if (auto e = outside("tank_fill", fill, 0, model.tank_capacity + slack)) return fail(*e);
  TankWater out;
  for (const TankCell& cell : model.tank_cells) {
    const double share = std::min(1.0, fill / model.tank_capacity);
    const bool slack_water = share > 0 && share < 1;
    const double whole = cell.capacity / cell.scale;
    const Settled s =
        slack_water ? settle(cell.bore, share * whole, up) : fullOrEmpty(cell.bore, share > 0, up);
    out.levels.push_back(s.level);
    out.volume += cell.scale * s.cut.volume;
    out.moment += s.cut.moment * cell.scale;
    if (slack_water && s.cut.plane_area > 0) {
      addScaled(out.stiffness_loss, s.cut.plane_second, cell.scale);
      addOuter(out.stiffness_loss, s.cut.plane_moment, -cell.scale / s.cut.plane_area);
    }
  }
  return out;
}

}  // namespace pondtrim
