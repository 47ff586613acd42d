#include "session/planner.hpp"

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
  next_ = Next::Nothing;
  if (auto plan = makePlan(boat_, request_)) {
    plan_ = std::move(*plan);
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

Boat withoutPlace(const Boat& boat, std::size_t place) {
  Boat changed = boat;
  changed.places.erase(changed.places.begin() + static_cast<std::ptrdiff_t>(place));
  return changed;
}

}  // namespace pondtrim
