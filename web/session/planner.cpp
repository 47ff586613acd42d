#include "session/planner.hpp"

#include <algorithm>

namespace pondtrim {

namespace {
bool same(const PlanRequest& a, const PlanRequest& b) {
  return a.goal == b.goal && a.whole_pieces == b.whole_pieces && a.lead_budget == b.lead_budget;
}
}  // namespace

bool Planner::isFresh(const Session& session) const {
  return revision_ == session.revision() && same(request_, session.planWish());
}

bool Planner::owes(const Session& session) const { return !isFresh(session) || next_ != Next::Nothing; }

void Planner::begin(const Session& session) {
  revision_ = session.revision();
  request_ = session.planWish();
  boat_ = session.boat();
  plan_.reset();
  fault_.clear();
  fitted_.reset();
  planned_at_ = -1.0;
  next_ = Next::Nothing;
  if (auto plan = makePlan(boat_, request_)) {
    plan_ = std::move(*plan);
    if (plan_->found && !plan_->changes.empty())
      if (auto model = buildModel(installPlan(boat_, *plan_))) fitted_ = std::move(*model);
    next_ = Next::Diagrams;
  } else {
    fault_ = session.inWords(plan.error());
    curve_.clear();
    diagrams_.clear();
  }
}

void Planner::work(const Session& session) {
  if (!isFresh(session)) return begin(session);
  if (next_ == Next::Diagrams) {
    diagrams_.clear();
    if (auto diagrams = balanceDiagrams(boat_)) diagrams_ = std::move(*diagrams);
    next_ = Next::Curve;
  } else if (next_ == Next::Curve) {
    curve_.clear();
    PlanRequest free = request_;  // the curve is for choosing; pieces are for doing
    free.whole_pieces = false;
    if (plan_->found)
      if (auto curve = stabilityCurve(boat_, free)) curve_ = std::move(*curve);
    next_ = Next::Nothing;
  }
}

std::optional<Plane> Planner::plannedWater(const Session& session) {
  if (!fitted_ || !isFresh(session)) return std::nullopt;
  const double fill = session.fillShare() * fitted_->tank_capacity;
  if (fill == planned_at_) return planned_;
  planned_at_ = fill;
  planned_.reset();
  const auto rest = findEquilibrium(*fitted_, {boat_.water, fill});
  if (rest && rest->outcome != Outcome::Sinks) planned_ = rest->plane;
  return planned_;
}

std::optional<std::size_t> partOf(const Boat& boat, const Place& place) {
  for (std::size_t i = 0; i < boat.parts.size(); ++i)
    if (boat.parts[i].name == place.part) return i;
  return std::nullopt;
}

Quantity amountQuantity(const Boat& boat, const Place& place) {
  if (place.rail) return Quantity::Length;
  const auto part = partOf(boat, place);
  return part && boat.parts[*part].role == Role::Foam ? Quantity::Volume : Quantity::Mass;
}

Boat withPlace(const Boat& boat, std::size_t part) {
  Boat changed = boat;
  Place place;
  place.part = boat.parts.at(part).name;
  // Common practice, no source: foam is cut to 5 mL, lead to 5 g.
  place.step = boat.parts[part].role == Role::Foam ? 5e-6 : 0.005;
  if (boat.parts[part].role == Role::Dry) place.most = 2 * boat.parts[part].mass.value_or(0.1);
  changed.places.push_back(place);
  return changed;
}

Boat withRail(const Boat& boat, std::size_t part) {
  constexpr double kReach = 0.02, kStep = 0.001;  // [m]; common practice, no source
  Boat changed = boat;
  Place place;
  place.part = boat.parts.at(part).name;
  const double x = boat.parts[part].position.x;
  place.rail = Rail{x - kReach, x + kReach};
  place.step = kStep;
  changed.places.push_back(place);
  return changed;
}

Boat withoutPlace(const Boat& boat, std::size_t place) {
  Boat changed = boat;
  changed.places.erase(changed.places.begin() + static_cast<std::ptrdiff_t>(place));
  return changed;
}

namespace {
/// "sea water", or "sea water 2" when that name is taken.
void addFurther(Boat& boat, FurtherAim aim) {
  const std::string name = aim.name;
  const auto taken = [&] {
    return std::any_of(boat.aims.further.begin(), boat.aims.further.end(),
                       [&](const FurtherAim& other) { return other.name == aim.name; });
  };
  for (int n = 2; taken(); ++n) aim.name = name + " " + std::to_string(n);
  boat.aims.further.push_back(std::move(aim));
}
}  // namespace

Boat withOtherWater(const Boat& boat) {
  constexpr double kSeaSalinity = 35.0;  // g/kg, the usual round figure for the open sea
  Boat changed = boat;
  FurtherAim aim;
  const bool fresh = boat.water.salinity == 0.0;
  aim.name = fresh ? "sea water" : "fresh water";
  aim.water = Water{boat.water.temperature, fresh ? kSeaSalinity : 0.0};
  aim.mark_tolerance = 0.01;  // the sea lifts a boat by some millimetres, whatever the trim
  addFurther(changed, std::move(aim));
  return changed;
}

Boat withOtherMass(const Boat& boat, std::size_t part) {
  Boat changed = boat;
  FurtherAim aim;
  aim.name = "other " + boat.parts.at(part).name;
  aim.part = boat.parts[part].name;
  aim.mass = boat.parts[part].mass.value_or(0.0);
  addFurther(changed, std::move(aim));
  return changed;
}

Boat withoutFurther(const Boat& boat, std::size_t aim) {
  Boat changed = boat;
  changed.aims.further.erase(changed.aims.further.begin() + static_cast<std::ptrdiff_t>(aim));
  return changed;
}

std::optional<std::size_t> partToSwap(const Boat& boat) {
  std::optional<std::size_t> heaviest;
  for (std::size_t i = 0; i < boat.parts.size(); ++i) {
    const Part& part = boat.parts[i];
    const bool place = std::any_of(boat.places.begin(), boat.places.end(),
                                   [&](const Place& p) { return p.part == part.name; });
    const bool item =
        part.role == Role::Dry || part.role == Role::Solid;  // a battery may sit outside the cylinder
    if (!item || !part.mass || place) continue;
    if (!heaviest || *part.mass > *boat.parts[*heaviest].mass) heaviest = i;
  }
  return heaviest;
}

}  // namespace pondtrim
