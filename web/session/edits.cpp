#include "session/edits.hpp"

#include <algorithm>
#include <pondtrim/estimate.hpp>
#include <pondtrim/model.hpp>

namespace pondtrim {
namespace {

bool nameUsed(const Boat& boat, const std::string& name) {
  const auto has = [&](const auto& list) {
    return std::any_of(list.begin(), list.end(), [&](const auto& item) { return item.name == name; });
  };
  return has(boat.skins) || has(boat.cylinders) || has(boat.parts);
}

// Usual pieces a builder starts from; every number can be changed afterwards. Densities as in
// presets/materials.json: extruded polystyrene foam, lead.
Part usualPart(Role role) {
  Part part;
  part.role = role;
  switch (role) {
    case Role::Foam:
      part.name = "foam";
      part.shape = BoxShape{{0.08, 0.04, 0.02}};
      part.density = 33.0;
      break;
    case Role::Lead:
      part.name = "lead";
      part.shape = BoxShape{{0.06, 0.02, 0.006}};
      part.mass = 0.05;
      part.density = 11340.0;
      break;
    case Role::Dry:
      part.name = "weight inside";
      part.shape = BoxShape{{0.06, 0.03, 0.02}};
      part.mass = 0.05;
      break;
    case Role::TrappedAir:
      part.name = "trapped air";
      part.shape = BoxShape{{0.04, 0.02, 0.01}};
      break;
    case Role::Solid:
      part.name = "weight outside";
      part.shape = BoxShape{{0.05, 0.03, 0.02}};
      part.mass = 0.05;
      break;
  }
  return part;
}

/// The shape stretched along x (length) or z (height).
Shape stretched(Shape shape, double along_x, double along_z) {
  if (auto* box = std::get_if<BoxShape>(&shape)) {
    box->size.x *= along_x;
    box->size.z *= along_z;
  } else if (auto* strip = std::get_if<StripShape>(&shape)) {
    strip->length *= along_x;
    strip->aft_height *= along_z;
    strip->fore_height *= along_z;
  } else if (auto* cylinder = std::get_if<CylinderShape>(&shape)) {
    cylinder->length *= along_x * along_z;
    cylinder->fore_dome *= along_x * along_z;
    cylinder->aft_dome *= along_x * along_z;
  }
  return shape;
}

}  // namespace

std::string freeName(const Boat& boat, const std::string& wanted) {
  std::string name = wanted;
  for (int n = 2; nameUsed(boat, name); ++n) name = wanted + " " + std::to_string(n);
  return name;
}

Vec3 shapeSize(const Shape& shape) {
  if (const auto* box = std::get_if<BoxShape>(&shape)) return box->size;
  if (const auto* strip = std::get_if<StripShape>(&shape))
    return {strip->length, std::max(strip->aft_breadth, strip->fore_breadth),
            std::max(strip->aft_height, strip->fore_height)};
  if (const auto* cylinder = std::get_if<CylinderShape>(&shape)) {
    const double d = cylinder->diameter;
    const double l = cylinder->length + cylinder->fore_dome + cylinder->aft_dome;
    switch (cylinder->axis) {
      case Axis::X:
        return {l, d, d};
      case Axis::Y:
        return {d, l, d};
      case Axis::Z:
        return {d, d, l};
    }
  }
  return Vec3(0.02);
}

Boat withVolume(const Boat& boat, std::size_t index, double volume) {
  Boat changed = boat;
  Part& part = changed.parts.at(index);
  const double now = part.volume ? *part.volume : shapeVolume(part);
  const bool holder = std::any_of(boat.places.begin(), boat.places.end(),
                                  [&](const Place& place) { return place.part == part.name; });
  // A place's shape is the room that there is; any other part's shape is the piece itself.
  if (now > 0 && volume > 0 && !(holder && part.volume && volume <= shapeVolume(part)))
    part.shape = stretched(part.shape, volume / now, 1.0);
  if (part.volume) part.volume = volume;
  return changed;
}

Boat withMass(const Boat& boat, std::size_t index, double mass) {
  Boat changed = boat;
  Part& part = changed.parts.at(index);
  part.mass = mass;
  if (isEstimate(part)) part.material.clear();  // somebody has weighed it
  const double room = shapeVolume(part);
  if (part.role == Role::Lead && part.density && room > 0 && mass / *part.density > room)
    part.shape = stretched(part.shape, 1.0, 1.0001 * mass / *part.density / room);
  return changed;
}

Boat withNewPart(const Boat& boat, Role role) {
  Boat changed = boat;
  Part part = usualPart(role);
  part.name = freeName(boat, part.name);
  const bool low = role == Role::Lead;
  part.position = {boat.length / 2, 0, low ? 0.1 * boat.marks.deck_height : 0.5 * boat.marks.deck_height};
  if (role == Role::Dry) {
    if (boat.cylinders.empty()) {
      part.role = Role::Solid;
    } else {
      part.inside = boat.cylinders.front().name;
      const SealedCylinder& cylinder = boat.cylinders.front();
      part.position = cylinder.position + Vec3(cylinder.length / 2, 0, -cylinder.diameter / 4);
    }
  }
  changed.parts.push_back(part);
  return changed;
}

Boat withTrialWeight(const Boat& boat, const Vec3& at, std::size_t& index) {
  constexpr const char* kName = "trial weight";
  Boat changed = boat;
  auto there = std::find_if(changed.parts.begin(), changed.parts.end(),
                            [&](const Part& part) { return part.name == kName && part.role == Role::Solid; });
  if (there == changed.parts.end()) {
    Part part = usualPart(Role::Solid);
    part.name = freeName(boat, kName);
    part.shape = PointShape{};
    there = changed.parts.insert(changed.parts.end(), part);
  }
  there->position = at;
  index = static_cast<std::size_t>(there - changed.parts.begin());
  return changed;
}

Boat withCopyOfPart(const Boat& boat, std::size_t index) {
  Boat changed = boat;
  Part copy = boat.parts.at(index);
  copy.name = freeName(boat, copy.name);
  copy.position.x += shapeSize(copy.shape).x;
  changed.parts.push_back(copy);
  return changed;
}

Boat withoutPart(const Boat& boat, std::size_t index) {
  Boat changed = boat;
  const std::string name = boat.parts.at(index).name;
  changed.parts.erase(changed.parts.begin() + static_cast<std::ptrdiff_t>(index));
  changed.places.erase(std::remove_if(changed.places.begin(), changed.places.end(),
                                      [&](const Place& place) { return place.part == name; }),
                       changed.places.end());
  return changed;
}

Boat withShape(const Boat& boat, std::size_t index, const Shape& like) {
  Boat changed = boat;
  Part& part = changed.parts.at(index);
  const Vec3 size = shapeSize(part.shape);
  if (std::holds_alternative<BoxShape>(like)) part.shape = BoxShape{size};
  if (std::holds_alternative<StripShape>(like))
    part.shape = StripShape{size.x, size.y, size.z, size.y, size.z};
  if (std::holds_alternative<CylinderShape>(like))
    part.shape = CylinderShape{Axis::X, std::min(size.y, size.z), size.x, 0.0, 0.0};
  if (std::holds_alternative<PointShape>(like)) part.shape = PointShape{};
  return changed;
}

}  // namespace pondtrim
