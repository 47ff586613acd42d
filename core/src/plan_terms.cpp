#include "plan_terms.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "moments.hpp"
#include "tangent.hpp"

namespace pondtrim {

namespace {

constexpr double kWaterDensity = 1000;  // for scaling only

const Plane kUnder{Vec3(0, 0, 1), 2 * kReachLimit};

void addCut(Cut& out, const Cut& o, double k) {
  Cut scaled = o;
  scaled *= k;
  out += scaled;
}

/// Sums of a body's cut; a weight on a rail moves with x, so it is the derivative that counts.
Sums unitSums(const PlaceTerms& place, const Plane& plane) {
  Sums unit;
  unit.mass = place.kind == PlaceKind::Slide ? 0.0 : place.mass;
  unit.mass_moment = place.mass_moment;
  if (place.bodies.displacers.empty()) return unit;
  const Cut cut = cutModel(place.bodies, plane), whole = cutModel(place.bodies, kUnder);
  if (place.kind != PlaceKind::Slide) {
    addCut(unit.cut, cut, place.share);
    addCut(unit.whole, whole, place.share);
    return unit;
  }
  unit.cut.moment.x = cut.volume * place.share;
  unit.cut.plane_moment.x = cut.plane_area * place.share;
  unit.cut.plane_second.xy = cut.plane_moment.y * place.share;
  unit.cut.plane_second.xz = cut.plane_moment.z * place.share;
  unit.whole.moment.x = whole.volume * place.share;
  return unit;
}

/// The part with its shape filled, alone.
Model filledBodies(const Model& model, std::size_t part) {
  Model bodies;
  for (Displacer d : model.displacers) {
    if (d.source.owner != Owner::Part || d.source.index != part) continue;
    bodies.displacers.push_back(std::move(d));
  }
  return bodies;
}

/// Boat with every place filled to its shape, so that each has bodies and a centre.
Boat filledBoat(const Boat& boat) {
  Boat full = boat;
  full.places.clear();
  full.aims.further.clear();
  for (const Place& place : boat.places) {
    Part& part = full.parts[partNamed(full, place.part)];
    const PlaceKind kind = kindOf(place, part);
    const double room = roomIn(kind, part);
    if (kind != PlaceKind::Slide) setAmount(kind, part, std::isinf(room) ? 1.0 : room);
  }
  return full;
}

PlaceTerms makePlace(const Boat& boat, const Place& place, const Model& full) {
  PlaceTerms t;
  t.part = partNamed(boat, place.part);
  const Part& part = boat.parts[t.part];
  t.kind = kindOf(place, part);
  t.before = amountIn(t.kind, part);
  t.step = place.step;
  const double pieces = part.mirrored ? 2 : 1, room = t.room = roomIn(t.kind, part);
  t.least = place.rail ? place.rail->from_x : place.least.value_or(0.0);
  t.most = place.rail ? place.rail->to_x : place.most.value_or(room);
  t.mass = pieces * massOfUnit(t.kind, part);
  t.bodies = filledBodies(full, t.part);
  Vec3 centre(0.0);
  for (const Weight& w : full.weights) {
    if (w.source.owner == Owner::Part && w.source.index == t.part) centre += w.position / pieces;
  }
  t.mass_moment = t.kind == PlaceKind::Slide ? Vec3(t.mass, 0, 0) : centre * t.mass;
  t.zero = t.kind == PlaceKind::Slide ? t.before : 0.0;
  t.share = t.kind == PlaceKind::Slide ? 1.0 : std::isinf(room) ? 0.0 : 1 / room;
  t.size = t.kind == PlaceKind::Foam     ? 1 / (kWaterDensity * pieces)
           : t.kind == PlaceKind::Weight ? 1 / pieces
                                         : boat.length / 4;
  return t;
}

/// Weights and displacers of what no place changes; a weight on a rail stays, where it is.
Model withoutPlaces(const Model& model, const std::vector<PlaceTerms>& places) {
  Model base = model;
  const auto changed = [&](const Source& s) {
    return s.owner == Owner::Part && std::any_of(places.begin(), places.end(), [&](const PlaceTerms& p) {
             return p.part == s.index && p.kind != PlaceKind::Slide;
           });
  };
  const auto drop = [&](auto& list) {
    list.erase(std::remove_if(list.begin(), list.end(), [&](const auto& e) { return changed(e.source); }),
               list.end());
  };
  drop(base.weights);
  drop(base.displacers);
  return base;
}

/// Second moment of the waterplane about its own middle, along t.
double planeInertia(const Cut& c, const Vec3& t) {
  const double first = glm::dot(c.plane_moment, t);
  return glm::dot(times(c.plane_second, t), t) - (c.plane_area > 0 ? first * first / c.plane_area : 0.0);
}

}  // namespace

void addScaled(Sums& out, const Sums& o, double k) {
  out.mass += k * o.mass;
  out.mass_moment += o.mass_moment * k;
  addCut(out.cut, o.cut, k);
  addCut(out.whole, o.whole, k);
}

Result<PlanBasis> makeBasis(const Boat& boat) {
  auto model = buildModel(boat);
  if (!model) return fail(model.error());
  auto full = buildModel(filledBoat(boat), &*model);
  if (!full) return fail(full.error());
  PlanBasis basis;
  basis.boat = &boat;
  basis.model = std::move(*model);
  for (const Place& place : boat.places) {
    basis.places.push_back(makePlace(boat, place, *full));
    basis.before.push_back(basis.places.back().before);
  }
  basis.base = withoutPlaces(basis.model, basis.places);
  return basis;
}

Sums ConditionTerms::at(const PlanBasis& basis, const std::vector<double>& amounts) const {
  Sums out = base;
  for (std::size_t i = 0; i < per.size(); ++i) addScaled(out, per[i], amounts[i] - basis.places[i].zero);
  return out;
}

Result<ConditionTerms> makeTerms(const PlanBasis& basis, const WantedCondition& wanted, const Plane& plane,
                                 const ExtraMass& extra) {
  ConditionTerms t;
  t.wanted = wanted;
  t.plane = plane;
  const auto density = waterDensity(wanted.condition.water);
  if (!density) return fail(density.error());
  t.density = *density;
  auto tank = settleTank(basis.model, wanted.condition.tank_fill, plane.up);
  if (!tank) return fail(tank.error());
  t.tank = std::move(*tank);
  for (const Weight& w : basis.base.weights) {
    t.base.mass += w.mass;
    t.base.mass_moment += w.position * w.mass;
  }
  t.base.mass += extra.mass + t.density * t.tank.volume;
  t.base.mass_moment += extra.moment + t.tank.moment * t.density;
  t.base.cut = cutModel(basis.base, plane);
  t.base.whole = cutModel(basis.base, kUnder);
  for (const PlaceTerms& place : basis.places) t.per.push_back(unitSums(place, plane));
  return t;
}

namespace {

double volumeUnder(const PlanBasis& basis, const std::vector<double>& amounts, double level) {
  const Plane plane{Vec3(0, 0, 1), level};
  double v = cutModel(basis.base, plane).volume;
  for (std::size_t i = 0; i < basis.places.size(); ++i) {
    const Sums unit = unitSums(basis.places[i], plane);
    v += unit.cut.volume * (amounts[i] - basis.places[i].zero);
  }
  return v;
}

}  // namespace

double volumeAbove(const PlanBasis& basis, const std::vector<double>& amounts, double level) {
  return volumeUnder(basis, amounts, 2 * kReachLimit) - volumeUnder(basis, amounts, level);
}

double levelShowing(const PlanBasis& basis, const std::vector<double>& amounts, double volume) {
  const double wanted = volumeUnder(basis, amounts, 2 * kReachLimit) - volume;
  double low = -1, high = basis.boat->marks.sail_top.z + 1;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (volumeUnder(basis, amounts, middle) < wanted ? low : high) = middle;
  }
  return (low + high) / 2;
}

Residuals residualsOf(const ConditionTerms& terms, const Sums& s) {
  const Tangent t = tangentAt(terms.plane.up);
  const Vec3 turning = s.mass_moment - s.cut.moment * terms.density;
  return {{s.mass - terms.density * s.cut.volume, glm::dot(turning, t.trim), glm::dot(turning, t.heel)}};
}

// Depth c and up u answer to the residuals r = (F, T_trim, T_heel) so that they vanish. With t_j the
// directions of trim and heel, G = m - rho v and Q the tank's loss of stiffness:
//   F   = rho (A dc - s.du),  T_j = rho s.t_j dc + sum_i [ (u.G) delta_ij - rho t_j.(P - Q... ) t_i ] d_i
// where the tank's water runs to the low side: -rho P + rho Q.
Response responseAt(const ConditionTerms& terms, const Sums& s, const Marks& marks) {
  const Tangent t = tangentAt(terms.plane.up);
  const Vec3 dirs[2] = {t.trim, t.heel};
  const double rho = terms.density;
  const Cut& c = s.cut;
  const double up_g = glm::dot(terms.plane.up, s.mass_moment - c.moment * rho);
  Eigen::Matrix3d k;
  k(0, 0) = rho * c.plane_area;
  for (int j = 0; j < 2; ++j) {
    k(0, j + 1) = -rho * glm::dot(c.plane_moment, dirs[j]);
    k(j + 1, 0) = rho * glm::dot(c.plane_moment, dirs[j]);
    for (int i = 0; i < 2; ++i) {
      const Vec3 loss = times(terms.tank.stiffness_loss, dirs[i]);
      k(j + 1, i + 1) = (i == j ? up_g : 0.0) - rho * glm::dot(times(c.plane_second, dirs[i]), dirs[j]) +
                        rho * glm::dot(loss, dirs[j]);
    }
  }
  const Eigen::Matrix3d inverse = Eigen::FullPivLU<Eigen::Matrix3d>(k).inverse();
  const Vec3& u = terms.plane.up;
  const auto draft = [&](double x, const Eigen::Vector3d& d) {
    const double z = (terms.plane.level - u.x * x) / u.z;
    const Vec3 turn = t.trim * d(1) + t.heel * d(2);
    return (d(0) - glm::dot(turn, Vec3(x, 0, z))) / u.z;
  };
  Response out;
  for (int r = 0; r < 3; ++r) {
    const Eigen::Vector3d d = inverse.col(r);
    const Vec3 turn = t.trim * d(1) + t.heel * d(2);
    out.rate[0][r] = draft(marks.bow_x, d);
    out.rate[1][r] = draft(marks.stern_x, d);
    out.rate[2][r] = d(1);
    out.rate[3][r] = d(2);
    out.rate[4][r] = glm::dot(turn, marks.sail_top) - d(0);
  }
  return out;
}

double massGm(const ConditionTerms& terms, const Sums& s) {
  const Tangent t = tangentAt(terms.plane.up);
  const double inertia =
      planeInertia(s.cut, t.heel) - glm::dot(times(terms.tank.stiffness_loss, t.heel), t.heel);
  return terms.density * inertia + glm::dot(terms.plane.up, s.cut.moment * terms.density - s.mass_moment);
}

double massGmRate(const ConditionTerms& terms, const Sums& unit, const Sums& at) {
  const Tangent t = tangentAt(terms.plane.up);
  // d(s^2/A) = 2 y ds - y^2 dA with y = s/A.
  const double y = at.cut.plane_area > 0 ? glm::dot(at.cut.plane_moment, t.heel) / at.cut.plane_area : 0.0;
  const double inertia = glm::dot(times(unit.cut.plane_second, t.heel), t.heel) -
                         2 * y * glm::dot(unit.cut.plane_moment, t.heel) + y * y * unit.cut.plane_area;
  return terms.density * inertia +
         glm::dot(terms.plane.up, unit.cut.moment * terms.density - unit.mass_moment);
}

double massBg(const ConditionTerms& terms, const Sums& s, const Sums& at) {
  // At rest mass = density x volume under water, of which all but a trace of the sail is in both.
  const double mean_density = terms.density * at.cut.volume / at.whole.volume;
  return mean_density * s.whole.moment.z - s.mass_moment.z;
}

}  // namespace pondtrim
