#include "plan_state.hpp"

namespace pondtrim {

namespace {

WantedCondition wantedTank(const PlanBasis& basis, bool full) {
  WantedCondition w;
  w.name = full ? "tank full" : "tank empty";
  w.condition = {basis.boat->water, full ? basis.model.tank_capacity : 0.0};
  w.dived = full;
  return w;
}

/// What a further condition's part weighs more than in the file.
ExtraMass extraMass(const PlanBasis& basis, const FurtherAim& aim) {
  ExtraMass extra;
  if (aim.part.empty()) return extra;
  const std::size_t part = partNamed(*basis.boat, aim.part);
  for (const Weight& w : basis.model.weights) {
    if (w.source.owner != Owner::Part || w.source.index != part) continue;
    extra.mass += aim.mass - w.mass;
    extra.moment += w.position * (aim.mass - w.mass);
  }
  return extra;
}

Boat installed(const PlanBasis& basis, const std::vector<double>& amounts) {
  Boat boat = *basis.boat;
  for (std::size_t i = 0; i < amounts.size(); ++i)
    setAmount(basis.places[i].kind, boat.parts[basis.places[i].part], amounts[i]);
  boat.places.clear();  // relaxed amounts lie beyond the limits
  return boat;
}

bool samePlane(const Plane& a, const Plane& b) { return a.up == b.up && a.level == b.level; }

}  // namespace

std::vector<std::optional<Plane>> restPlanes(const PlanBasis& basis, const std::vector<double>& amounts) {
  std::vector<std::optional<Plane>> planes;
  for (const FurtherAim& aim : basis.boat->aims.further) {
    Boat boat = installed(basis, amounts);
    if (!aim.part.empty()) boat.parts[partNamed(boat, aim.part)].mass = aim.mass;
    std::optional<Plane> plane;
    if (const auto model = buildModel(boat, &basis.model)) {
      const auto rest = findEquilibrium(
          *model, {aim.water.value_or(boat.water), aim.tank_full ? model->tank_capacity : 0.0});
      // Beyond half a right angle from level the marks say nothing.
      if (rest && rest->outcome != Outcome::Sinks && rest->plane.up.z > 0.7) plane = rest->plane;
    }
    planes.push_back(plane);
  }
  return planes;
}

Result<PlanState> makeState(const PlanBasis& basis, const std::vector<double>& at,
                            const std::vector<std::optional<Plane>>& planes, PlanState previous) {
  const Boat& boat = *basis.boat;
  const auto level = [](double z) { return Plane{Vec3(0, 0, 1), z}; };
  double dived = boat.marks.sail_top.z - boat.aims.sail_showing;
  if (boat.aims.net_buoyancy) {
    const auto density = waterDensity(boat.water);
    if (!density) return fail(density.error());
    dived = levelShowing(basis, at, *boat.aims.net_buoyancy / *density);
  }
  PlanState state{at, {}};
  const auto add = [&](const WantedCondition& wanted, const Plane& plane,
                       const ExtraMass& extra) -> Result<void> {
    const std::size_t k = state.conditions.size();
    if (k < previous.conditions.size() && samePlane(previous.conditions[k].plane, plane)) {
      state.conditions.push_back(std::move(previous.conditions[k]));
      state.conditions.back().wanted = wanted;
      return {};
    }
    auto terms = makeTerms(basis, wanted, plane, extra);
    if (!terms) return fail(terms.error());
    state.conditions.push_back(std::move(*terms));
    return {};
  };
  if (auto ok = add(wantedTank(basis, false), level(boat.marks.line_height), {}); !ok)
    return fail(ok.error());
  WantedCondition full = wantedTank(basis, true);
  if (!boat.aims.net_buoyancy) full.sail_showing = boat.aims.sail_showing;
  if (auto ok = add(full, level(dived), {}); !ok) return fail(ok.error());
  for (std::size_t i = 0; i < boat.aims.further.size(); ++i) {
    const FurtherAim& aim = boat.aims.further[i];
    WantedCondition wanted = wantedTank(basis, aim.tank_full);
    wanted.name = aim.name;
    if (aim.water) wanted.condition.water = *aim.water;
    wanted.mark_tolerance = aim.mark_tolerance;
    wanted.angle_tolerance = aim.trim_tolerance;
    wanted.mass_tolerance = 0;
    if (aim.tank_full) wanted.sail_showing = boat.marks.sail_top.z - dived;
    const Plane start = level(aim.tank_full ? dived : boat.marks.line_height);
    const Plane plane = i < planes.size() && planes[i] ? *planes[i] : start;
    if (auto ok = add(wanted, plane, extraMass(basis, aim)); !ok) return fail(ok.error());
  }
  return state;
}

}  // namespace pondtrim
