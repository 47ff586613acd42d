#include "session/structure.hpp"

#include <algorithm>
#include <cmath>
#include <pondtrim/hull.hpp>
#include <utility>

#include "session/edits.hpp"

namespace pondtrim {
namespace {

// A new skin's usual material and sheet; as in presets/materials.json.
Skin usualSkin(const Boat& boat, const char* name, const SkinForm& form, const Vec3& position) {
  Skin skin;
  skin.name = freeName(boat, name);
  skin.form = form;
  skin.position = position;
  skin.thickness = 0.002;
  skin.density = 1500.0;
  skin.material = "glass-fibre laminate, hand laid";
  return skin;
}

template <typename List>
void eraseAt(List& list, std::size_t index) {
  list.erase(list.begin() + static_cast<std::ptrdiff_t>(index));
}

/// Millimetres without a remainder, at least one, as a person would choose.
double wholeMillimetres(double length) { return std::max(1.0, std::round(length * 1000)) / 1000; }

SailForm newSail(const Boat& boat) {
  SailForm form;
  form.length = wholeMillimetres(0.15 * boat.length);
  form.breadth = wholeMillimetres(0.04 * boat.length);
  form.height = std::max(0.02, boat.marks.sail_top.z - boat.marks.deck_height);
  return form;
}

PlateForm newPlate(const Boat& boat, double span) {
  PlateForm form;
  form.length = wholeMillimetres(0.07 * boat.length);
  form.tip_length = wholeMillimetres(0.045 * boat.length);
  form.span = wholeMillimetres(span);
  return form;
}

/// Numbers to a tenth of a millimetre, as on a lines plan.
OffsetsForm tableOf(const SkinForm& hull) {
  constexpr std::size_t kStations = 15, kPoints = 13;
  OffsetsForm table = offsetsOf(hull, kStations, kPoints);
  const auto round = [](double& v) { v = std::round(v * 1e4) / 1e4; };
  for (OffsetStation& s : table.stations) {
    round(s.at_x);
    std::for_each(s.heights.begin(), s.heights.end(), round);
    std::for_each(s.half_breadths.begin(), s.half_breadths.end(), round);
  }
  return table;
}

/// A hull of the kind, with usual ends.
SkinForm hullForm(NewSkin kind, double length, double breadth, double height) {
  const double nose = wholeMillimetres(0.2 * length), tail = wholeMillimetres(0.35 * length);
  if (kind == NewSkin::Suboff) {
    const SuboffForm standard;  // of a hull one metre long
    return SuboffForm{length, height, standard.nose_length * length, standard.tail_length * length};
  }
  if (kind == NewSkin::Myring) {
    const double angle = std::min(0.35, std::atan(1.4 * height / tail));
    return MyringForm{height, nose, length - nose - tail, tail, 0, 0, 2, angle};
  }
  const SpindleForm spindle{length, breadth, height, nose, tail};
  if (kind == NewSkin::Offsets) return tableOf(spindle);
  return spindle;
}

Skin newSkin(const Boat& boat, NewSkin piece) {
  const double length = boat.length, deck = boat.marks.deck_height;
  switch (piece) {
    case NewSkin::Spindle:
    case NewSkin::Suboff:
    case NewSkin::Myring:
    case NewSkin::Offsets:
      return usualSkin(boat, "hull", hullForm(piece, length, deck, deck), {0, 0, deck / 2});
    case NewSkin::Casing: {
      const CasingForm form{wholeMillimetres(0.6 * length), wholeMillimetres(0.35 * deck),
                            wholeMillimetres(0.12 * deck), wholeMillimetres(0.1 * length),
                            wholeMillimetres(0.15 * length)};
      return usualSkin(boat, "casing", form,
                       {wholeMillimetres(0.2 * length), 0, wholeMillimetres(0.96 * deck)});
    }
    case NewSkin::Sail:
      return usualSkin(boat, "sail", newSail(boat), {boat.marks.sail_top.x, 0, deck});
    case NewSkin::Keel: {  // a bar as thick as it is high
      const double bar = wholeMillimetres(0.08 * deck);
      const double along = wholeMillimetres(0.4 * length);
      Skin keel = usualSkin(boat, "keel", PlateForm{along, along, bar, 0, -kPi / 2, false},
                            {wholeMillimetres(0.5 * length), 0, bar});
      keel.thickness = bar;
      return keel;
    }
    case NewSkin::Planes: {
      PlateForm form = newPlate(boat, 0.5 * deck);
      form.mirrored = true;
      return usualSkin(boat, "planes", form,
                       {wholeMillimetres(0.08 * length), wholeMillimetres(0.15 * deck), deck / 2});
    }
    case NewSkin::Skeg:
      break;
  }
  PlateForm form = newPlate(boat, 0.4 * deck);
  form.slant = -kPi / 2;
  return usualSkin(boat, "skeg", form, {wholeMillimetres(0.1 * length), 0, wholeMillimetres(0.4 * deck)});
}

}  // namespace

Boat withNewSkin(const Boat& boat, NewSkin piece) {
  Boat changed = boat;
  changed.skins.push_back(newSkin(boat, piece));
  return changed;
}

Boat withHullForm(const Boat& boat, std::size_t index, NewSkin kind) {
  Boat changed = boat;
  Skin& skin = changed.skins.at(index);
  if (kind == NewSkin::Offsets) {
    skin.form = tableOf(skin.form);
    return changed;
  }
  const HullBox box = hullBox(skin.form);
  const Vec3 size = box.high - box.low;
  skin.position += Vec3(box.low.x, 0, (box.low.z + box.high.z) / 2);  // a table has an origin of its own
  skin.form = hullForm(kind, size.x, size.y, size.z);
  return changed;
}

namespace {

void scale(SpindleForm& f, const Vec3& k) {
  for (double* v : {&f.length, &f.nose_length, &f.tail_length}) *v *= k.x;
  f.breadth *= k.y;
  f.height *= k.z;
}
// Round hulls: whichever of beam and height is asked for is the diameter.
void scale(SuboffForm& f, const Vec3& k) {
  for (double* v : {&f.length, &f.nose_length, &f.tail_length}) *v *= k.x;
  f.diameter *= k.y * k.z;
}
void scale(MyringForm& f, const Vec3& k) {
  for (double* v : {&f.nose_length, &f.middle_length, &f.tail_length, &f.nose_offset, &f.tail_offset})
    *v *= k.x;
  f.diameter *= k.y * k.z;
  f.tail_angle = std::min(f.tail_angle, std::atan(1.5 * f.diameter / f.tail_length));
}
void scale(OffsetsForm& f, const Vec3& k) {
  for (OffsetStation& s : f.stations) {
    s.at_x *= k.x;
    for (double& z : s.heights) z *= k.z;
    for (double& y : s.half_breadths) y *= k.y;
  }
}
void scale(MeshForm& f, const Vec3& k) { f.size *= k; }
template <class Other>
void scale(Other&, const Vec3&) {}  // no hull

}  // namespace

Boat withHullNumber(const Boat& boat, std::size_t skin, HullNumber number, double value) {
  Boat changed = boat;
  if (number == HullNumber::Line) {
    changed.marks.line_height = value;
    return changed;
  }
  Skin& hull = changed.skins.at(skin);
  const HullBox before = hullBox(hull.form);
  const int axis = static_cast<int>(number);
  Vec3 k(1.0);
  k[axis] = value / (before.high - before.low)[axis];
  std::visit([&](auto& form) { scale(form, k); }, hull.form);
  const HullBox now = hullBox(hull.form);
  hull.position += Vec3(before.low.x - now.low.x, 0, before.low.z - now.low.z);
  return changed;
}

Boat withOffsets(const Boat& boat, std::size_t index, OffsetsForm table) {
  Boat changed = boat;
  changed.skins.at(index).form = std::move(table);
  return changed;
}

Boat withoutSkin(const Boat& boat, std::size_t index) {
  Boat changed = boat;
  const std::string name = boat.skins.at(index).name;
  eraseAt(changed.skins, index);
  const auto in_it = [&](const Opening& o) { return o.skin == name; };
  changed.openings.erase(std::remove_if(changed.openings.begin(), changed.openings.end(), in_it),
                         changed.openings.end());
  return changed;
}

Boat withNewOpening(const Boat& boat, std::size_t skin) {
  Boat changed = boat;
  const Skin& in = boat.skins.at(skin);
  const Mesh mesh = meshSkin(in);
  const Vec3 top = *std::max_element(mesh.vertices.begin(), mesh.vertices.end(),
                                     [](const Vec3& a, const Vec3& b) { return a.z < b.z; });
  const auto millimetres = [](double v) { return std::round(v * 1000) / 1000; };
  const Vec3 at(millimetres(top.x), 0, millimetres(top.z));
  changed.openings.push_back({"vent", in.name, at, 0.004});
  return changed;
}

Boat withoutOpening(const Boat& boat, std::size_t index) {
  Boat changed = boat;
  eraseAt(changed.openings, index);
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
  if (what.owner == Owner::Skin)
    for (Opening& opening : changed.openings) follow(opening.skin);
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
