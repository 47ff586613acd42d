#include "session/structure.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "session/edits.hpp"

namespace pondtrim {
namespace {

// A new skin's usual material and sheet; as in presets/materials.json.
Skin usualSkin(const Boat& boat, const char* name) {
  Skin skin;
  skin.name = freeName(boat, name);
  skin.thickness = 0.002;
  skin.density = 1500.0;
  skin.material = "glass-fibre laminate, hand laid";
  return skin;
}

template <typename List>
void eraseAt(List& list, std::size_t index) {
  list.erase(list.begin() + static_cast<std::ptrdiff_t>(index));
}

/// Millimetres without a remainder, as a person would choose.
double wholeMillimetres(double length) { return std::round(length * 1000) / 1000; }

}  // namespace

Boat withNewHull(const Boat& boat) {
  Boat changed = boat;
  Skin skin = usualSkin(boat, "hull");
  SpindleForm form;
  form.length = boat.length;
  form.height = boat.marks.deck_height;
  form.breadth = boat.marks.deck_height;
  form.nose_length = wholeMillimetres(0.2 * boat.length);
  form.tail_length = wholeMillimetres(0.35 * boat.length);
  skin.form = form;
  skin.position = {0, 0, boat.marks.deck_height / 2};
  changed.skins.push_back(skin);
  return changed;
}

Boat withNewSail(const Boat& boat) {
  Boat changed = boat;
  Skin skin = usualSkin(boat, "sail");
  SailForm form;
  form.length = wholeMillimetres(0.15 * boat.length);
  form.breadth = wholeMillimetres(0.04 * boat.length);
  form.height = std::max(0.02, boat.marks.sail_top.z - boat.marks.deck_height);
  skin.form = form;
  skin.position = {boat.marks.sail_top.x, 0, boat.marks.deck_height};
  changed.skins.push_back(skin);
  return changed;
}

Boat withoutSkin(const Boat& boat, std::size_t index) {
  Boat changed = boat;
  eraseAt(changed.skins, index);
  return changed;
}

Boat withNewCylinder(const Boat& boat) {
  Boat changed = boat;
  SealedCylinder cylinder;
  cylinder.name = freeName(boat, "cylinder");
  cylinder.length = wholeMillimetres(0.4 * boat.length);
  cylinder.diameter = wholeMillimetres(0.6 * boat.marks.deck_height);
  cylinder.wall_thickness = wholeMillimetres(std::max(0.002, 0.03 * cylinder.diameter));
  cylinder.cap_thickness = 2 * cylinder.wall_thickness;
  cylinder.position = {wholeMillimetres(0.3 * boat.length), 0, boat.marks.deck_height / 2};
  cylinder.density = 1180.0;  // acrylic, as in presets/materials.json
  cylinder.material = "acrylic";
  changed.cylinders.push_back(cylinder);
  return changed;
}

Boat withoutCylinder(const Boat& boat, std::size_t index) {
  Boat changed = boat;
  if (boat.tank && boat.tank->cylinder == boat.cylinders.at(index).name) changed = withoutTank(boat);
  eraseAt(changed.cylinders, index);
  return changed;
}

Boat withNewTank(const Boat& boat) {
  Boat changed = boat;
  if (boat.cylinders.empty()) return changed;
  const SealedCylinder& home = boat.cylinders.front();
  BallastTank tank;
  tank.cylinder = home.name;
  tank.aft_end = wholeMillimetres(home.position.x + 0.4 * home.length);
  tank.fore_end = wholeMillimetres(home.position.x + 0.6 * home.length);
  changed.tank = tank;
  return changed;
}

Boat withoutTank(const Boat& boat) {
  Boat changed = boat;
  changed.tank.reset();
  changed.ballast.reset();  // it fills nothing any more
  return changed;
}

Boat withNewBulkhead(const Boat& boat) {
  Boat changed = boat;
  if (!changed.tank) return changed;
  std::vector<double>& all = changed.tank->bulkheads;
  std::vector<double> walls = all;
  walls.insert(walls.begin(), changed.tank->aft_end);
  walls.push_back(changed.tank->fore_end);
  std::size_t widest = 0;
  for (std::size_t i = 0; i + 1 < walls.size(); ++i)
    if (walls[i + 1] - walls[i] > walls[widest + 1] - walls[widest] + 1e-9) widest = i;
  all.insert(all.begin() + static_cast<std::ptrdiff_t>(widest), (walls[widest] + walls[widest + 1]) / 2);
  return changed;
}

Boat withoutBulkhead(const Boat& boat, std::size_t index) {
  Boat changed = boat;
  if (changed.tank) eraseAt(changed.tank->bulkheads, index);
  return changed;
}

Boat withName(const Boat& boat, const Selection& what, const std::string& name) {
  Boat changed = boat;
  std::string& own = what.owner == Owner::Skin       ? changed.skins.at(what.index).name
                     : what.owner == Owner::Cylinder ? changed.cylinders.at(what.index).name
                                                     : changed.parts.at(what.index).name;
  const std::string old = std::exchange(own, name);
  const auto follow = [&](std::string& reference) {
    if (reference == old) reference = name;
  };
  if (what.owner == Owner::Cylinder) {
    if (changed.tank) follow(changed.tank->cylinder);
    for (Part& part : changed.parts) follow(part.inside);
  }
  if (what.owner == Owner::Part) {
    for (Place& place : changed.places) follow(place.part);
    for (FurtherAim& aim : changed.aims.further) follow(aim.part);
    for (Reading& reading : changed.log)
      for (Installed& installed : reading.installed) follow(installed.part);
  }
  return changed;
}

}  // namespace pondtrim
