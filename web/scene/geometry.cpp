#include "scene/geometry.hpp"

#include "scene/solids.hpp"

namespace pondtrim {
namespace {

constexpr Colour kSkinColour = colour(0x58707c);
constexpr Colour kCylinderColour = colour(0x3a6a94);
constexpr Colour kSelectedColour = colour(0xd81b60);

void addPart(std::vector<Vertex>& out, const Part& part, const Vec3& at, Colour paint) {
  if (const auto* box = std::get_if<BoxShape>(&part.shape)) {
    addBox(out, at, box->size, paint);
  } else if (const auto* c = std::get_if<CylinderShape>(&part.shape)) {
    const Vec3 axis(c->axis == Axis::X, c->axis == Axis::Y, c->axis == Axis::Z);
    addCylinder(out, {at, axis, c->diameter / 2, c->length, c->fore_dome, c->aft_dome}, paint);
  } else if (const auto* s = std::get_if<StripShape>(&part.shape)) {
    addStrip(out,
             {at, s->length, s->aft_breadth / 2, s->aft_height / 2, s->fore_breadth / 2, s->fore_height / 2},
             paint);
  } else {
    addCylinder(out, {at, {1, 0, 0}, 0.006, 1e-4, 0.006, 0.006}, paint);  // a bead for a point
  }
}

}  // namespace

Kind kindOf(const Part& part) {
  switch (part.role) {
    case Role::Foam:
      return Kind::Foam;
    case Role::Lead:
      return Kind::Lead;
    case Role::Dry:
      return Kind::Inside;
    case Role::TrappedAir:
      return Kind::Air;
    case Role::Solid:
      break;
  }
  return Kind::Outside;
}

const char* kindWord(Kind kind) {
  switch (kind) {
    case Kind::Foam:
      return "foam";
    case Kind::Lead:
      return "lead";
    case Kind::Inside:
      return "dry";
    case Kind::Air:
      return "air";
    case Kind::Outside:
      break;
  }
  return "wet";
}

unsigned kindRgb(Kind kind) {
  switch (kind) {
    case Kind::Foam:
      return 0xf5b82e;
    case Kind::Lead:
      return 0x2f3640;
    case Kind::Inside:
      return 0xc4572e;
    case Kind::Air:
      return 0xe8f6ff;
    case Kind::Outside:
      break;
  }
  return 0x7d5ba6;
}

namespace {

/// A place kept for foam or lead with none in it yet.
bool nothingThere(const Part& part) {
  return (part.role == Role::Foam && part.volume == 0.0) || (part.role == Role::Lead && part.mass == 0.0);
}

}  // namespace

BoatGeometry makeGeometry(const Boat& boat, const Model& model, const std::optional<Selection>& selection) {
  BoatGeometry geometry;
  const auto paint = [&](Owner owner, std::size_t i, Colour usual) {
    return selection == Selection{owner, i} ? kSelectedColour : usual;
  };
  for (std::size_t i = 0; i < model.skins.size(); ++i) {
    const SkinBody& body = model.skins[i];
    const Colour usual = paint(Owner::Skin, i, kSkinColour);
    if (std::holds_alternative<PlateForm>(body.skin.form))
      addPlates(geometry.skins, *body.mesh, body.skin.thickness, usual);
    else
      addMesh(geometry.skins, *body.mesh, usual);
  }
  for (std::size_t i = 0; i < boat.cylinders.size(); ++i) {
    const SealedCylinder& c = boat.cylinders[i];
    addCylinder(
        geometry.cylinders,
        {c.position + Vec3(c.length / 2, 0, 0), {1, 0, 0}, c.diameter / 2, c.length, c.fore_dome, c.aft_dome},
        paint(Owner::Cylinder, i, kCylinderColour));
  }
  for (std::size_t i = 0; i < boat.parts.size(); ++i) {
    const Part& part = boat.parts[i];
    const Colour usual = paint(Owner::Part, i, colour(kindRgb(kindOf(part))));
    if (nothingThere(part) && selection != Selection{Owner::Part, i}) continue;
    addPart(geometry.parts, part, part.position, usual);
    if (part.mirrored) addPart(geometry.parts, part, part.position * Vec3(1, -1, 1), usual);
  }
  return geometry;
}

}  // namespace pondtrim
