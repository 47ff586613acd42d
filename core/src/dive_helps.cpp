// Changes that may cure a bad dive, each tried on the boat by sweeping again.
#include <algorithm>
#include <cmath>
#include <pondtrim/stability.hpp>

#include "energy.hpp"

namespace pondtrim {

namespace {

constexpr int kMostBulkheads = 3;
constexpr double kLowerings[] = {0.005, 0.010, 0.015, 0.020};  // [m]
constexpr double kLeastShift = 1e-3;                           // moving the tank by less is no change [m]

std::vector<Trouble> troubles(const DiveSweep& sweep) {
  std::vector<Trouble> out;
  for (const Finding& f : sweep.findings) out.push_back(f.trouble);
  return out;
}

bool has(const std::vector<Trouble>& list, Trouble t) {
  return std::find(list.begin(), list.end(), t) != list.end();
}

double greatestTrim(const DiveSweep& sweep) {
  double out = 0;
  for (const auto* way : {&sweep.down, &sweep.up}) {
    for (const DiveStep& s : *way) out = std::max(out, std::abs(s.trim));
  }
  return out;
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
  return out;
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

/// The tank moved towards that place as far as the cylinder allows. Empty: there already.
std::optional<std::pair<Boat, double>> withTankCentred(const Boat& boat, const Model& model,
                                                       const Water& water) {
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
  Boat out = boat;
  out.tank->aft_end += shift;
  out.tank->fore_end += shift;
  for (double& x : out.tank->bulkheads) x += shift;
  return std::pair{std::move(out), shift};
}

Boat withLeadLower(Boat boat, double by) {
  for (Part& part : boat.parts) {
    if (part.role == Role::Lead) part.position.z -= by;
  }
  return boat;
}

/// Keeps the first of those tried that cures most.
class Best {
 public:
  Result<void> consider(Result<HelpTried> tried) {
    if (!tried) return fail(tried.error());
    if (tried->cured.empty()) return {};
    if (!best_ || score(*tried) > score(*best_)) best_ = std::move(*tried);
    return {};
  }
  std::optional<HelpTried> take() { return std::move(best_); }

 private:
  static int score(const HelpTried& t) {
    return static_cast<int>(t.cured.size()) - static_cast<int>(t.remaining.size());
  }
  std::optional<HelpTried> best_;
};

bool hasLead(const Boat& boat) {
  return std::any_of(boat.parts.begin(), boat.parts.end(),
                     [](const Part& p) { return p.role == Role::Lead; });
}

}  // namespace

Result<std::vector<HelpTried>> tryHelps(const Boat& boat, const DiveSweep& sweep, const Water& water) {
  std::vector<HelpTried> out;
  if (sweep.findings.empty() || !boat.tank) return out;
  const auto model = buildModel(boat);
  if (!model) return fail(model.error());
  const auto keep = [&](Best& best) {
    if (auto tried = best.take()) out.push_back(std::move(*tried));
  };
  Best bulkheads, centred, lead;
  const int had = static_cast<int>(boat.tank->bulkheads.size());
  for (int n = had + 1; n <= had + kMostBulkheads; ++n) {
    if (auto ok = bulkheads.consider(tryOne(Help::Bulkheads, n, withBulkheads(boat, n), sweep, water)); !ok)
      return fail(ok.error());
  }
  keep(bulkheads);
  if (auto moved = withTankCentred(boat, *model, water)) {
    if (auto ok = centred.consider(tryOne(Help::TankCentred, moved->second, moved->first, sweep, water)); !ok)
      return fail(ok.error());
  }
  keep(centred);
  for (const double by : kLowerings) {
    if (!hasLead(boat)) break;
    if (auto ok = lead.consider(tryOne(Help::LeadLower, by, withLeadLower(boat, by), sweep, water)); !ok)
      return fail(ok.error());
  }
  keep(lead);
  return out;
}

}  // namespace pondtrim
