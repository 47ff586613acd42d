// Changes that may cure a bad dive, each tried on the boat by sweeping again.
#include <algorithm>
#include <cmath>
#include <pondtrim/stability.hpp>

#include "energy.hpp"

namespace pondtrim {

namespace {

constexpr int kMostBulkheads = 3;
constexpr double kLowerings[] = {0.005, 0.010, 0.015, 0.020};  // [m]
constexpr double kShortenings[] = {0.2, 0.35, 0.5};            // shares of the tank's length
constexpr double kLeastShift = 1e-3;                           // moving the tank by less is no change [m]

std::vector<Trouble> troubles(const DiveSweep& sweep) {
  std::vector<Trouble> out;
  for (const Finding& f : sweep.findings) out.push_back(f.trouble);
  return out;
}

bool has(const std::vector<Trouble>& list, Trouble t) {
  return std::find(list.begin(), list.end(), t) != list.end();
}

Result<HelpTried> tryOne(Help help, double amount, Boat boat, const DiveSweep& before, const Water& water) {
  const auto model = buildModel(boat);
  if (!model) return fail(model.error());
  const int steps = static_cast<int>(before.down.size()) - 1;
  const auto after = sweepDive(*model, water, steps, before.limits);
  if (!after) return fail(after.error());
  HelpTried out;
  out.help = help;
  out.amount = amount;
  out.boat = std::move(boat);
  out.remaining = troubles(*after);
  for (const Trouble t : troubles(before)) {
    if (!has(out.remaining, t)) out.cured.push_back(t);
  }
  out.least_gm_transverse = after->least_gm_transverse.gm;
  out.greatest_trim = greatestTrim(*after);
  if (const DiveStep& full = after->down.back(); std::abs(full.heel) < before.limits.heel)
    out.sail_showing = full.sail_showing;
  return out;
}

/// Both ends drawn in; a measured capacity and the bulkheads go along in proportion.
Boat withTankShorter(Boat boat, double by) {
  BallastTank& tank = *boat.tank;
  const double length = tank.fore_end - tank.aft_end, share = 1 - by / length, aft = tank.aft_end;
  tank.aft_end += by / 2;
  tank.fore_end -= by / 2;
  for (double& x : tank.bulkheads) x = tank.aft_end + (x - aft) * share;
  if (tank.capacity) *tank.capacity *= share;
  return boat;
}

Boat withTankMoved(Boat boat, double by) {
  boat.tank->aft_end += by;
  boat.tank->fore_end += by;
  for (double& x : boat.tank->bulkheads) x += by;
  return boat;
}

/// Where the buoyancy that comes in between empty and full has its centre, fore and aft: a tank there floods
/// without changing the trim. Boat level, water free to rise over the hull. [m]
std::optional<double> balanceOfTank(const Model& model, const Water& water) {
  const auto empty = pose(model, {water, 0.0}), full = pose(model, {water, model.tank_capacity});
  if (!empty || !full) return std::nullopt;
  const Vec3 level(0, 0, 1);
  const Cut a = settleDepth(*empty, look(*empty, level, 0.0)).cut;
  const Cut b = settleDepth(*full, look(*full, level, 0.0)).cut;
  const double added = b.volume - a.volume;
  if (!(added > 0)) return std::nullopt;
  return (b.moment.x - a.moment.x) / added + empty->origin.x;
}

/// How far the tank is from that place, as far as the cylinder allows [m, forward +]. Empty: there already.
std::optional<double> shiftToBalance(const Boat& boat, const Model& model, const Water& water) {
  const auto wanted = balanceOfTank(model, water);
  if (!wanted) return std::nullopt;
  const BallastTank& tank = *boat.tank;
  const auto in = std::find_if(boat.cylinders.begin(), boat.cylinders.end(),
                               [&](const SealedCylinder& c) { return c.name == tank.cylinder; });
  const double least = in->position.x + (in->aft_dome > 0 ? 0.0 : in->cap_thickness) - tank.aft_end;
  const double most =
      in->position.x + in->length - (in->fore_dome > 0 ? 0.0 : in->cap_thickness) - tank.fore_end;
  if (least > most) return std::nullopt;
  const double shift = std::clamp(*wanted - (tank.aft_end + tank.fore_end) / 2, least, most);
  if (std::abs(shift) < kLeastShift) return std::nullopt;
  return shift;
}

Boat withLeadLower(Boat boat, double by) {
  for (Part& part : boat.parts) {
    if (part.role == Role::Lead) part.position.z -= by;
  }
  return boat;
}

bool hasLead(const Boat& boat) {
  return std::any_of(boat.parts.begin(), boat.parts.end(),
                     [](const Part& p) { return p.role == Role::Lead; });
}

Boat changed(const Boat& boat, Help help, double amount) {
  switch (help) {
    case Help::Bulkheads:
      return withBulkheads(boat, static_cast<int>(amount));
    case Help::ShorterTank:
      return withTankShorter(boat, amount);
    case Help::TankCentred:
      return withTankMoved(boat, amount);
    case Help::LeadLower:
      return withLeadLower(boat, amount);
    case Help::Together:
      break;
  }
  return boat;
}

int score(const HelpTried& t) {
  return static_cast<int>(t.cured.size()) - static_cast<int>(t.remaining.size());
}

}  // namespace

/// In the order in which they are told, the lesser before the greater.
void HelpSearch::listCandidates(const Model& model) {
  const int had = static_cast<int>(boat_.tank->bulkheads.size());
  for (int n = had + 1; n <= had + kMostBulkheads; ++n)
    candidates_.push_back({Help::Bulkheads, static_cast<double>(n)});
  const double length = boat_.tank->fore_end - boat_.tank->aft_end;
  for (const double share : kShortenings) candidates_.push_back({Help::ShorterTank, share * length});
  if (const auto shift = shiftToBalance(boat_, model, water_))
    candidates_.push_back({Help::TankCentred, *shift});
  for (const double by : kLowerings) {
    if (hasLead(boat_)) candidates_.push_back({Help::LeadLower, by});
  }
}

Result<HelpSearch> HelpSearch::start(const Boat& boat, const DiveSweep& sweep, const Water& water) {
  HelpSearch out;
  if (sweep.findings.empty() || !boat.tank) return out;
  const auto model = buildModel(boat);
  if (!model) return fail(model.error());
  out.boat_ = boat;
  out.sweep_ = sweep;
  out.water_ = water;
  out.listCandidates(*model);
  out.together_done_ = false;
  return out;
}

Result<void> HelpSearch::step() {
  Result<void> ok;
  if (next_ < candidates_.size())
    ok = tryCandidate(candidates_[next_++]);
  else if (!together_done_)
    ok = tryTogether();
  if (!ok) {
    next_ = candidates_.size();
    together_done_ = true;
  }
  return ok;
}

/// Keeps of each help the least amount that cures most.
Result<void> HelpSearch::tryCandidate(const Candidate& c) {
  const bool begun = !helps_.empty() && helps_.back().help == c.help;
  if (begun && helps_.back().remaining.empty()) return {};
  auto tried = tryOne(c.help, c.amount, changed(boat_, c.help, c.amount), sweep_, water_);
  if (!tried) return fail(tried.error());
  if (tried->cured.empty()) return {};
  if (!begun)
    helps_.push_back(std::move(*tried));
  else if (score(*tried) > score(helps_.back()))
    helps_.back() = std::move(*tried);
  return {};
}

/// Where none cures all: all that help somewhat, at once; the lead as low as was tried, if that is needed. A
/// shorter tank is left out: beside bulkheads it costs more than it brings.
Result<void> HelpSearch::tryTogether() {
  together_done_ = true;
  std::optional<HelpTried> best;
  for (const bool lowest : {false, true}) {
    Boat all = boat_;
    int count = 0;
    for (const HelpTried& h : helps_) {
      if (h.remaining.empty()) return {};
      if (h.help == Help::ShorterTank) continue;
      const bool lead = h.help == Help::LeadLower;
      all = changed(all, h.help, lead && lowest ? std::end(kLowerings)[-1] : h.amount);
      ++count;
    }
    if (count < 2) return {};
    auto tried = tryOne(Help::Together, count, std::move(all), sweep_, water_);
    if (!tried) return fail(tried.error());
    if (!best || score(*tried) > score(*best)) best = std::move(*tried);
    if (best->remaining.empty()) break;
  }
  const bool better =
      std::all_of(helps_.begin(), helps_.end(), [&](const HelpTried& h) { return score(*best) > score(h); });
  if (better) helps_.push_back(std::move(*best));
  return {};
}

Result<std::vector<HelpTried>> tryHelps(const Boat& boat, const DiveSweep& sweep, const Water& water) {
  auto search = HelpSearch::start(boat, sweep, water);
  if (!search) return fail(search.error());
  while (!search->done()) {
    if (auto ok = search->step(); !ok) return fail(ok.error());
  }
  return search->helps();
}

}  // namespace pondtrim
