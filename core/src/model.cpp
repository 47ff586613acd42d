#include <cmath>
#include <pondtrim/model.hpp>

#include "faults.hpp"
#include "moments.hpp"
#include "skin_mesh.hpp"

namespace pondtrim {

namespace {

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

const Plane kAllUnder{Vec3(0, 0, 1), 1e6};  // deeper than any boat: see the size limits in boat_check.cpp

Vec3 direction(Axis axis) {
  return {axis == Axis::X ? 1.0 : 0.0, axis == Axis::Y ? 1.0 : 0.0, axis == Axis::Z ? 1.0 : 0.0};
}

Cut cutGeometry(const Displacer& d, const Plane& plane) {
  return std::visit(Overloaded{[&](const CylinderSolid& g) { return cutCylinder(g, plane); },
                               [&](const StripSolid& g) { return cutStrip(g, plane); },
                               [&](const CutMesh& g) { return g.cut(plane); }},
                    d.geometry);
}

void addDisplacer(Model& model, Displacer d) {
  d.whole = cutGeometry(d, kAllUnder);
  d.whole *= d.fill;
  model.displacers.push_back(std::move(d));
}

SkinBody makeSkin(const Skin& skin, const Model* previous) {
  if (previous != nullptr) {
    for (const SkinBody& known : previous->skins) {
      const Skin& k = known.skin;
      if (k.form == skin.form && k.position == skin.position && k.thickness == skin.thickness) {
        return {skin, known.mesh, known.cut};
      }
    }
  }
  auto mesh = std::make_shared<const Mesh>(meshSkin(skin));
  // A little thicker, so that area x thickness is the form's and not that of facets which cut its corners: of
  // a large hull that is some grams, and dived, with only the sail at the surface, a millimetre.
  CutMesh cut =
      isSolid(skin.form) ? CutMesh::solid(*mesh) : CutMesh::skin(*mesh, skin.thickness * facetFactor(skin));
  return {skin, std::move(mesh), std::move(cut)};
}

void addSkin(Model& model, SkinBody body, std::size_t i) {
  const Source source{Owner::Skin, i, false};
  const Cut& whole = body.cut.whole();
  const double mass = body.skin.mass ? *body.skin.mass : *body.skin.density * whole.volume;
  model.weights.push_back({source, mass, whole.moment / whole.volume});
  addDisplacer(model, {source, body.cut, 1.0, {}});
  model.skins.push_back(std::move(body));
}

CylinderSolid outside(const SealedCylinder& c) {
  return {c.position + Vec3(c.length / 2, 0, 0),
          Vec3(1, 0, 0),
          c.diameter / 2,
          c.length,
          c.fore_dome,
          c.aft_dome};
}

/// Clear space inside: walls and caps (or dome shells) off.
CylinderSolid bore(const SealedCylinder& c) {
  const double aft = c.aft_dome > 0 ? 0.0 : c.cap_thickness, fore = c.fore_dome > 0 ? 0.0 : c.cap_thickness;
  CylinderSolid out = outside(c);
  out.centre.x += (aft - fore) / 2;
  out.length -= aft + fore;
  out.radius -= c.wall_thickness;
  if (out.fore_dome > 0) out.fore_dome -= c.cap_thickness;
  if (out.aft_dome > 0) out.aft_dome -= c.cap_thickness;
  return out;
}

void addCylinder(Model& model, const SealedCylinder& c, std::size_t i) {
  const Source source{Owner::Cylinder, i, false};
  const Cut out = cutCylinder(outside(c), kAllUnder), in = cutCylinder(bore(c), kAllUnder);
  const double shell = out.volume - in.volume;
  const double mass = c.mass ? *c.mass : *c.density * shell;
  model.weights.push_back({source, mass, (out.moment - in.moment) / shell});
  addDisplacer(model, {source, outside(c), 1.0, {}});
}

using Geometry = std::variant<CylinderSolid, StripSolid, CutMesh>;

std::optional<Geometry> geometryOf(const Part& part, const Vec3& at) {
  return std::visit(
      Overloaded{
          [&](const BoxShape& s) -> std::optional<Geometry> {
            return StripSolid{at, s.size.x, s.size.y / 2, s.size.z / 2, s.size.y / 2, s.size.z / 2};
          },
          [&](const CylinderShape& s) -> std::optional<Geometry> {
            return CylinderSolid{at, direction(s.axis), s.diameter / 2, s.length, s.fore_dome, s.aft_dome};
          },
          [&](const StripShape& s) -> std::optional<Geometry> {
            return StripSolid{
                at, s.length, s.aft_breadth / 2, s.aft_height / 2, s.fore_breadth / 2, s.fore_height / 2};
          },
          [](const PointShape&) -> std::optional<Geometry> { return std::nullopt; }},
      part.shape);
}

/// One piece of a part, at `at`. Rules for mass and volume: boat.hpp, Part.
void addPiece(Model& model, const Part& part, const Source& source, const Vec3& at) {
  std::optional<Geometry> geometry = geometryOf(part, at);
  Displacer d{source, CylinderSolid{}, 1.0, {}};
  Cut whole;
  if (geometry) {
    d.geometry = std::move(*geometry);
    whole = cutGeometry(d, kAllUnder);
  }
  const Vec3 centre = geometry ? whole.moment / whole.volume : at;
  const double volume = displacedVolume(part).value_or(whole.volume);
  const double mass = part.role == Role::TrappedAir ? 0.0 : part.mass ? *part.mass : *part.density * volume;
  if (mass > 0) model.weights.push_back({source, mass, centre});
  if (!geometry || part.role == Role::Dry || volume <= 0) return;
  d.fill = volume / whole.volume;
  addDisplacer(model, std::move(d));
}

void addPart(Model& model, const Part& part, std::size_t i) {
  addPiece(model, part, {Owner::Part, i, false}, part.position);
  if (part.mirrored) addPiece(model, part, {Owner::Part, i, true}, part.position * Vec3(1, -1, 1));
}

void addTank(Model& model, const Boat& boat) {
  const BallastTank& tank = *boat.tank;
  const SealedCylinder* in = nullptr;
  for (const SealedCylinder& c : boat.cylinders) {
    if (c.name == tank.cylinder) in = &c;
  }
  std::vector<double> ends{tank.aft_end};
  ends.insert(ends.end(), tank.bulkheads.begin(), tank.bulkheads.end());
  ends.push_back(tank.fore_end);
  const double radius = in->diameter / 2 - in->wall_thickness;
  const double geometric = kPi * radius * radius * (tank.fore_end - tank.aft_end);
  const double scale = tank.capacity ? *tank.capacity / geometric : 1.0;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    const double length = ends[i + 1] - ends[i];
    TankCell cell;
    cell.bore = {Vec3((ends[i] + ends[i + 1]) / 2, in->position.y, in->position.z),
                 Vec3(1, 0, 0),
                 radius,
                 length,
                 0,
                 0};
    cell.scale = scale;
    cell.capacity = scale * kPi * radius * radius * length;
    model.tank_capacity += cell.capacity;
    model.tank_cells.push_back(cell);
  }
}

/// Volume above the painted line, as four boxes (fore and aft, port and starboard) between line and deck
/// whose fill, positive or negative, gives the wanted volume and moments.
void addUpperVolume(Model& model, const Correction& c) {
  const Marks& m = model.marks;
  const double length = m.bow_x - m.stern_x, height = std::max(m.deck_height - m.line_height, 0.01 * length);
  const double breadth = 0.05 * length;  // of each box: any will do, it sets only the fills
  const Vec3 middle((m.bow_x + m.stern_x) / 2, 0, m.line_height + height / 2);
  for (const double fore : {-1.0, 1.0}) {
    for (const double port : {-1.0, 1.0}) {
      const double volume = c.upper_volume / 4 + fore * c.upper_x / length + port * c.upper_y / (2 * breadth);
      const StripSolid box{middle + Vec3(fore * length / 4, port * breadth / 2, 0),
                           length / 2,
                           breadth / 2,
                           height / 2,
                           breadth / 2,
                           height / 2};
      addDisplacer(model, {{Owner::Correction, 0, false}, box, volume / (length / 2 * breadth * height), {}});
    }
  }
}

void addCorrection(Model& model, const Correction& c) {
  const Vec3 p = correctionPoint(model.marks);
  // A kilogram taken from the point and put beside it makes any moment, also with no mass.
  model.weights.push_back({{Owner::Correction, 0, false}, c.mass - 1, p});
  model.weights.push_back({{Owner::Correction, 0, false}, 1, p + c.mass_moment});
  addUpperVolume(model, c);
  for (TankCell& cell : model.tank_cells) {
    cell.scale *= c.tank_factor;
    cell.capacity *= c.tank_factor;
  }
  model.tank_capacity *= c.tank_factor;
}

Error emptyBoat(const char* field, const char* what) {
  Error e;
  e.field = field;
  e.was = "0";
  e.allowed = "more than 0";
  e.message = std::string("the boat has no ") + what + ": nothing to float";
  return e;
}

Result<void> addUp(Model& model) {
  model.mass = 0;
  Vec3 moment(0.0);
  for (const Weight& w : model.weights) {
    model.mass += w.mass;
    moment += w.position * w.mass;
  }
  Cut whole;
  for (const Displacer& d : model.displacers) whole += d.whole;
  model.whole_volume = whole.volume;
  if (!(model.mass > 0)) return fail(emptyBoat("parts", "mass"));
  if (!(whole.volume > 0)) return fail(emptyBoat("parts", "displacement"));
  model.centre_of_gravity = moment / model.mass;
  model.whole_centroid = whole.moment / whole.volume;
  return {};
}

}  // namespace

Vec3 correctionPoint(const Marks& marks) { return {(marks.bow_x + marks.stern_x) / 2, 0, marks.line_height}; }

std::optional<double> displacedVolume(const Part& part) {
  if (part.volume) return part.volume;
  if (part.role == Role::Lead && part.mass && part.density) return *part.mass / *part.density;
  return std::nullopt;
}

double shapeVolume(const Part& part) {
  const std::optional<Geometry> geometry = geometryOf(part, Vec3(0.0));
  if (!geometry) return 0;
  Displacer d{{}, *geometry, 1.0, {}};
  return cutGeometry(d, kAllUnder).volume;
}

Result<Model> buildModel(const Boat& boat, const Model* previous) {
  if (auto ok = checkBoat(boat); !ok) return fail(ok.error());
  Model model;
  model.marks = boat.marks;
  model.length = boat.length;
  for (std::size_t i = 0; i < boat.skins.size(); ++i) addSkin(model, makeSkin(boat.skins[i], previous), i);
  for (std::size_t i = 0; i < boat.cylinders.size(); ++i) addCylinder(model, boat.cylinders[i], i);
  for (std::size_t i = 0; i < boat.parts.size(); ++i) addPart(model, boat.parts[i], i);
  if (boat.tank) addTank(model, boat);
  if (boat.correction) addCorrection(model, *boat.correction);
  if (auto ok = addUp(model); !ok) return fail(ok.error());
  return model;
}

void installCorrection(Model& model, const Correction& correction) {
  addCorrection(model, correction);
  // The boat had mass and displacement before, and a correction is small: nothing to report.
  (void)addUp(model);
}

void refineSkin(Model& model, std::size_t skin, CutMesh cut) {
  const auto isHers = [&](const Source& s) { return s.owner == Owner::Skin && s.index == skin; };
  SkinBody& body = model.skins[skin];
  const Cut whole = cut.whole();
  for (Weight& w : model.weights) {
    if (!isHers(w.source)) continue;
    w.position = whole.moment / whole.volume;
    if (!body.skin.mass) w.mass = *body.skin.density * whole.volume;
  }
  for (Displacer& d : model.displacers) {
    if (!isHers(d.source)) continue;
    d.geometry = cut;
    d.whole = whole;
  }
  body.cut = std::move(cut);
  (void)addUp(model);  // as above
}

Cut cutDisplacer(const Displacer& body, const Plane& plane) {
  Cut cut = cutGeometry(body, plane);
  if (body.fill != 1.0) cut *= body.fill;
  return cut;
}

Cut cutModel(const Model& model, const Plane& plane) {
  Cut out;
  for (const Displacer& d : model.displacers) out += cutDisplacer(d, plane);
  return out;
}

}  // namespace pondtrim
