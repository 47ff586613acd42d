#include "log_filter.hpp"

#include <algorithm>
#include <cmath>

#include "amounts.hpp"
#include "moments.hpp"

namespace pondtrim {

namespace {

// How well a change is made at the bench, as standard deviations: foam cut to 5 % at worst (3 %), lead
// weighed to 1 g at worst (0.6 g), added where its place is, and that is off by 3 mm as in the priors; a
// slide along a rail is measured to 1 mm. Common practice, no source.
constexpr double kCutFraction = 0.03, kWeighed = 0.0006, kPlaced = 0.003, kSlid = 0.001;

/// A body's displacement below and above the painted line, moments about the correction's point.
struct Split {
  double lower = 0, upper = 0;
  Vec3 lower_moment{0.0}, upper_moment{0.0};
};

Cut cutAlone(const Displacer& d, const Plane& plane) {
  Model alone;
  alone.displacers.push_back(d);
  return cutModel(alone, plane);
}

Split splitAtLine(const Displacer& d, const Marks& marks) {
  const Vec3 p = correctionPoint(marks);
  const Cut low = cutAlone(d, {Vec3(0, 0, 1), marks.line_height});
  Split out;
  out.lower = low.volume;
  out.upper = d.whole.volume - low.volume;
  out.lower_moment = low.moment - p * out.lower;
  out.upper_moment = d.whole.moment - low.moment - p * out.upper;
  return out;
}

/// More displacement below the line is felt as less weight; above it, as upper volume.
Unknowns displacementEffect(const Split& s, double density) {
  Unknowns e = Unknowns::Zero();
  e(kMass) = -density * s.lower;
  e(kMassX) = -density * s.lower_moment.x;
  e(kMassY) = -density * s.lower_moment.y;
  e(kMassZ) = -density * s.lower_moment.z;
  e(kUpperVolume) = s.upper;
  e(kUpperX) = s.upper_moment.x;
  e(kUpperY) = s.upper_moment.y;
  return e;
}

/// The same body moved by `shift`.
Unknowns moveEffect(const Split& s, double density, const Vec3& shift) {
  Split moved;
  moved.lower_moment = shift * s.lower;
  moved.upper_moment = shift * s.upper;
  return displacementEffect(moved, density);
}

Unknowns massEffect(double mass, const Vec3& moment) {
  Unknowns e = Unknowns::Zero();
  e(kMass) = mass;
  e(kMassX) = moment.x;
  e(kMassY) = moment.y;
  e(kMassZ) = moment.z;
  return e;
}

bool sameThing(const Source& a, const Source& b) { return a.owner == b.owner && a.index == b.index; }

constexpr Vec3 kAxes[3]{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};

/// Mirrored pieces stand side by side in the model and share the error of their mass, not of their place.
void addWeightCauses(std::vector<Cause>& out, const Model& model, const Priors& priors) {
  const Vec3 p = correctionPoint(model.marks);
  for (std::size_t i = 0; i < model.weights.size();) {
    const Weight& first = model.weights[i];
    const double spread = std::hypot(priors.mass_fraction * first.mass, priors.mass);
    Cause mass{CauseGuess::Weights, Unknowns::Zero(), 0};
    for (; i < model.weights.size() && sameThing(model.weights[i].source, first.source); ++i) {
      const Weight& w = model.weights[i];
      if (w.source.owner == Owner::Correction) continue;
      mass.effect += massEffect(spread, (w.position - p) * spread);
      mass.spread += spread;
      for (const Vec3& axis : kAxes) {
        out.push_back({CauseGuess::Weights, massEffect(0, axis * (w.mass * priors.place)), 0});
      }
    }
    out.push_back(mass);
  }
}

struct Shaky {
  CauseGuess::Kind kind;
  double fraction;
};
Shaky shakinessOf(const Displacer& d, const Boat& boat, const Priors& priors) {
  if (d.source.owner == Owner::Skin) return {CauseGuess::Skin, priors.skin_fraction};
  if (d.source.owner == Owner::Cylinder) return {CauseGuess::Cylinder, priors.cylinder_fraction};
  if (d.source.owner == Owner::Correction) return {CauseGuess::Solids, 0.0};
  const Role role = boat.parts[d.source.index].role;
  if (role == Role::Foam) return {CauseGuess::Foam, priors.foam_fraction};
  if (role == Role::TrappedAir) return {CauseGuess::TrappedAir, 0.3};
  return {CauseGuess::Solids, priors.solid_fraction};
}

void addDisplacementCauses(std::vector<Cause>& out, const Boat& boat, const Model& model, double density,
                           const Priors& priors) {
  // All skins share one error (thickness of the same laminate), likewise all foam (the same saw).
  Cause skin{CauseGuess::Skin, Unknowns::Zero(), priors.skin_fraction};
  Cause foam{CauseGuess::Foam, Unknowns::Zero(), priors.foam_fraction};
  for (const Displacer& d : model.displacers) {
    const Split split = splitAtLine(d, model.marks);
    const Shaky shaky = shakinessOf(d, boat, priors);
    const Unknowns effect = displacementEffect(split, density) * shaky.fraction;
    if (shaky.kind == CauseGuess::Skin) {
      skin.effect += effect;
    } else if (shaky.kind == CauseGuess::Foam) {
      foam.effect += effect;
      for (const Vec3& axis : kAxes)
        out.push_back({CauseGuess::Foam, moveEffect(split, density, axis * priors.place), 0});
    } else if (shaky.fraction > 0) {
      out.push_back({shaky.kind, effect, shaky.fraction});
    }
  }
  out.push_back(skin);
  out.push_back(foam);
}

/// Air caught high in the bow, and a thing nobody wrote down, anywhere along the boat.
void addSurprises(std::vector<Cause>& out, const Model& model, const Priors& priors) {
  const Vec3 p = correctionPoint(model.marks);
  Cause air{CauseGuess::TrappedAir, Unknowns::Zero(), priors.air_fraction * model.whole_volume};
  air.effect(kUpperVolume) = air.spread;
  air.effect(kUpperX) = air.spread * (model.marks.bow_x - p.x);
  out.push_back(air);
  const double f = priors.forgotten, along = model.length / std::sqrt(12.0);
  out.push_back({CauseGuess::Forgotten, massEffect(f, Vec3(0.0)), f});
  out.push_back({CauseGuess::Forgotten, massEffect(0, Vec3(f * along, 0, 0)), 0});
  out.push_back({CauseGuess::Forgotten, massEffect(0, Vec3(0, 0.02 * f, 0)), 0});
}

const Installed* installedAs(const std::vector<Installed>& list, const std::string& part) {
  for (const Installed& i : list) {
    if (i.part == part) return &i;
  }
  return nullptr;
}

double amountIn(const std::vector<Installed>& list, const Part& part) {
  const Installed* i = installedAs(list, part.name);
  return i ? i->amount : amountOf(part);
}

double stationIn(const std::vector<Installed>& list, const Part& part) {
  const Installed* i = installedAs(list, part.name);
  return i ? i->at_x.value_or(part.position.x) : part.position.x;
}

const Place* placeOf(const Boat& boat, const Part& part) {
  for (const Place& p : boat.places) {
    if (p.part == part.name) return &p;
  }
  return nullptr;
}

/// A boat of nothing but this piece.
Result<Model> pieceModel(const Boat& boat, Part piece, double amount) {
  setAmount(piece, amount);
  Boat alone;
  alone.name = "piece";
  alone.length = boat.length;
  alone.marks = boat.marks;
  alone.cylinders = boat.cylinders;
  alone.parts = {std::move(piece)};
  auto model = buildModel(alone);
  if (!model) return model;
  const auto other = [](const auto& thing) { return thing.source.owner != Owner::Part; };
  std::erase_if(model->displacers, other);
  std::erase_if(model->weights, other);
  return model;
}

}  // namespace

std::vector<Cause> priorCauses(const Boat& boat, const Model& model, double density, const Priors& priors) {
  std::vector<Cause> out;
  addWeightCauses(out, model, priors);
  addDisplacementCauses(out, boat, model, density, priors);
  addSurprises(out, model, priors);
  Cause tank{CauseGuess::Tank, Unknowns::Zero(), priors.tank_fraction};
  if (model.tank_capacity > 0) tank.effect(kTank) = priors.tank_fraction;
  out.push_back(tank);
  return out;
}

Discrepancy::Discrepancy(const Boat& boat, const Model& model, double density, const Priors& priors)
    : model_(model), density_(density) {
  for (const Displacer& d : model.displacers) {
    const Shaky shaky = shakinessOf(d, boat, priors);
    if (shaky.fraction <= 0) continue;
    const Split split = splitAtLine(d, model.marks);
    if (std::abs(split.upper) < 1e-9) continue;  // below the line: felt as weight, and rightly so
    bodies_.push_back({&d, shaky.kind, shaky.fraction, displacementEffect(split, density) * shaky.fraction});
  }
  air_ = priors.air_fraction * model.whole_volume;
}

Eigen::Matrix3d Discrepancy::on(const Plane& plane, const BalanceRows& rows) const {
  const Vec3 o = correctionPoint(model_.marks);
  const Tangent t = tangentAt(plane.up);
  const auto felt = [&](double volume, const Vec3& moment) -> Eigen::Vector3d {
    return Eigen::Vector3d(volume, -glm::dot(moment, t.trim), -glm::dot(moment, t.heel)) * density_;
  };
  Eigen::Matrix3d out = Eigen::Matrix3d::Zero();
  const auto add = [&](const Eigen::Vector3d& e) { out += e * e.transpose(); };
  Eigen::Vector3d skin = Eigen::Vector3d::Zero(), foam = Eigen::Vector3d::Zero();
  for (const Body& b : bodies_) {
    const Cut cut = shifted(cutAlone(*b.displacer, plane), -o);
    const Eigen::Vector3d e = felt(cut.volume, cut.moment) * b.fraction - rows * b.effect;
    if (b.kind == CauseGuess::Skin) {
      skin += e;
    } else if (b.kind == CauseGuess::Foam) {
      foam += e;
    } else {
      add(e);
    }
  }
  add(skin);
  add(foam);
  // Air sits under the deck at the bow.
  const Marks& m = model_.marks;
  const Vec3 at = Vec3(m.bow_x, 0, (m.line_height + m.deck_height) / 2) - o;
  const double depth = plane.level - glm::dot(plane.up, at + o),
               half = std::max((m.deck_height - m.line_height) / 2, 1e-3),
               wet = std::clamp(0.5 + 0.5 * depth / half, 0.0, 1.0);
  Unknowns air = Unknowns::Zero();
  air(kUpperVolume) = air_;
  air(kUpperX) = air_ * at.x;
  add(felt(air_ * wet, at * (air_ * wet)) - rows * air);
  return out;
}

UnknownCovariance changeSpread(const Boat& boat, const std::vector<Installed>& from,
                               const std::vector<Installed>& to, double density) {
  UnknownCovariance out = UnknownCovariance::Zero();
  const auto add = [&](const Unknowns& e) { out += e * e.transpose(); };
  for (const Part& part : boat.parts) {
    if (stationIn(from, part) != stationIn(to, part)) add(slideEffect(boat, part, kSlid, density));
    const double change = std::abs(amountIn(to, part) - amountIn(from, part));
    if (change == 0) continue;
    const auto model = pieceModel(boat, part, change);
    if (!model) continue;  // weightless and without volume: nothing to get wrong
    const double wrong = part.role == Role::Foam ? kCutFraction : kWeighed / change;
    const Vec3 p = correctionPoint(boat.marks);
    for (const Displacer& d : model->displacers) {
      const Split split = splitAtLine(d, boat.marks);
      add(displacementEffect(split, density) * wrong);
      for (const Vec3& axis : kAxes) add(moveEffect(split, density, axis * kPlaced));
    }
    for (const Weight& w : model->weights) {
      add(massEffect(w.mass * wrong, (w.position - p) * (w.mass * wrong)));
      for (const Vec3& axis : kAxes) add(massEffect(0, axis * (w.mass * kPlaced)));
    }
  }
  return out;
}

Unknowns amountEffect(const Boat& boat, const Part& part, double amount, double density) {
  Unknowns out = Unknowns::Zero();
  const auto model = pieceModel(boat, part, amount);
  if (!model) return out;
  const Vec3 p = correctionPoint(boat.marks);
  for (const Displacer& d : model->displacers) out += displacementEffect(splitAtLine(d, boat.marks), density);
  for (const Weight& w : model->weights) out += massEffect(w.mass, (w.position - p) * w.mass);
  return out;
}

Unknowns slideEffect(const Boat& boat, const Part& part, double along, double density) {
  Unknowns out = Unknowns::Zero();
  const auto model = pieceModel(boat, part, amountOf(part));
  if (!model) return out;
  const Vec3 shift(along, 0, 0);
  for (const Displacer& d : model->displacers) out += moveEffect(splitAtLine(d, boat.marks), density, shift);
  for (const Weight& w : model->weights) out += massEffect(0, shift * w.mass);
  return out;
}

Unknowns meanOf(const Estimate& estimate) {
  Unknowns out;
  for (unsigned i = 0; i < kUnknowns; ++i) out(i) = estimate.mean[i];
  return out;
}

Correction asCorrection(const Unknowns& b) {
  Correction c;
  c.mass = b(kMass);
  c.mass_moment = {b(kMassX), b(kMassY), b(kMassZ)};
  c.upper_volume = b(kUpperVolume);
  c.upper_x = b(kUpperX);
  c.upper_y = b(kUpperY);
  c.tank_factor = 1 + b(kTank);
  return c;
}

namespace {

BalanceRows rowsWith(const TankWater& tank, const Model& model, double density, bool full,
                     const Plane& plane) {
  const Vec3 o = correctionPoint(model.marks);
  const Tangent t = tangentAt(plane.up);
  BalanceRows rows = BalanceRows::Zero();
  const auto turning = [&](Unknown k, const Vec3& moment) {
    rows(1, k) = glm::dot(moment, t.trim);
    rows(2, k) = glm::dot(moment, t.heel);
  };
  rows(0, kMass) = -1;
  turning(kMassX, kAxes[0]);
  turning(kMassY, kAxes[1]);
  turning(kMassZ, kAxes[2]);
  for (const Unknown k : {kUpperVolume, kUpperX, kUpperY}) {
    Unknowns unit = Unknowns::Zero();
    unit(k) = 1;
    Model boxes;
    boxes.marks = model.marks;
    installCorrection(boxes, asCorrection(unit));
    const Cut cut = shifted(cutModel(boxes, plane), -o);
    rows(0, k) = density * cut.volume;
    turning(k, cut.moment * -density);
  }
  if (full && tank.volume > 0) {
    rows(0, kTank) = -density * tank.volume;
    turning(kTank, (tank.moment - o * tank.volume) * density);
  }
  return rows;
}

}  // namespace

BalanceRows balanceRows(const Model& model, double density, double fill, bool full, const Plane& plane) {
  return rowsWith(*settleTank(model, fill, plane.up), model, density, full, plane);
}

Balance balanceOn(const Model& model, double density, double fill, bool full, const Plane& plane) {
  const Vec3 o = correctionPoint(model.marks);
  Problem p{};
  p.model = &model;
  p.density = density;
  p.fill = fill;
  p.mass = model.mass + density * fill;
  p.origin = o;
  p.mass_moment = (model.centre_of_gravity - o) * model.mass;
  p.scale = 1;
  p.afloat = true;
  const State s = look(p, plane.up, plane.level - glm::dot(plane.up, o));
  const Tangent t = tangentAt(plane.up);
  return {gradient(p, s, t), rowsWith(s.tank, model, density, full, plane), stiffness(p, s, t)};
}

std::vector<Installed> installedIn(const Boat& boat) {
  std::vector<Installed> out;
  for (const Part& part : boat.parts) {
    const Place* place = placeOf(boat, part);
    if (!place && !isFoamOrLead(part)) continue;
    out.push_back({part.name, amountOf(part)});
    if (place && place->rail) out.back().at_x = part.position.x;
  }
  return out;
}

Boat withAmountsNoted(Boat boat) {
  const std::vector<Installed> now = installedIn(boat);
  for (Reading& r : boat.log) {
    for (const Installed& i : now) {
      if (!installedAs(r.installed, i.part)) r.installed.push_back(i);
    }
  }
  return boat;
}

Boat withInstalled(Boat boat, const std::vector<Installed>& installed) {
  for (Part& part : boat.parts) {
    const Installed* then = installedAs(installed, part.name);
    if (!then) continue;
    setAmount(part, then->amount);
    part.position.x = then->at_x.value_or(part.position.x);
  }
  return boat;
}

}  // namespace pondtrim
