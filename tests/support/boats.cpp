#include "support/boats.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/hull.hpp>
#include <pondtrim/hull_mesh.hpp>
#include <sstream>

namespace pondtrim::test {
namespace {

Part part(const std::string& name, Role role, const Shape& shape, const Vec3& position, double mass) {
  Part p;
  p.name = name;
  p.role = role;
  p.shape = shape;
  p.position = position;
  p.mass = mass;
  return p;
}

Part dry(const std::string& name, const Vec3& position, double mass) {
  Part p = part(name, Role::Dry, BoxShape{{0.08, 0.03, 0.03}}, position, mass);
  p.inside = "cylinder";
  return p;
}

std::vector<Skin> fullSkins() {
  Skin hull;
  hull.name = "hull";
  SpindleForm form;
  form.length = 0.96;
  form.breadth = 0.11;
  form.height = 0.10;
  form.nose_length = 0.16;
  form.tail_length = 0.40;
  form.tail_lift = 0.3;
  form.section_power = 2.6;
  hull.form = form;
  hull.position = {0.02, 0, 0.05};
  hull.thickness = 0.002;
  hull.density = 1550;
  Skin sail;
  sail.name = "sail";
  SailForm sail_form;
  sail_form.length = 0.14;
  sail_form.breadth = 0.034;
  sail_form.height = 0.07;
  sail_form.top_scale = 0.85;
  sail_form.rake = 0.01;
  sail.form = sail_form;
  sail.position = {0.6, 0, 0.098};
  sail.thickness = 0.0015;
  sail.mass = 0.05;
  return {hull, sail};
}

SealedCylinder fullCylinder() {
  SealedCylinder c;
  c.name = "cylinder";
  c.position = {0.32, 0, 0.048};
  c.length = 0.40;
  c.diameter = 0.08;
  c.wall_thickness = 0.0025;
  c.cap_thickness = 0.006;
  c.fore_dome = 0.025;
  c.mass = 0.42;
  return c;
}

void addOutside(Boat& boat) {
  Part foam = part("foam", Role::Foam, StripShape{0.09, 0.03, 0.03, 0.02, 0.02}, {0.86, 0.02, 0.055}, 0.0);
  foam.mass.reset();
  foam.density = 33;
  foam.volume = 4e-5;
  foam.mirrored = true;
  boat.parts.push_back(foam);
  Part stern = part("stern foam", Role::Foam, BoxShape{{0.08, 0.05, 0.03}}, {0.25, 0, 0.06}, 0.0);
  stern.mass.reset();
  stern.density = 33;
  boat.parts.push_back(stern);
  Part lead = part("keel", Role::Lead, StripShape{0.22, 0.024, 0.006, 0.02, 0.005}, {0.55, 0, 0.006}, 0.21);
  lead.density = 11340;
  boat.parts.push_back(lead);
  Part planes = part("planes", Role::Solid, BoxShape{{0.04, 0.05, 0.003}}, {0.08, 0.05, 0.05}, 0.01);
  planes.mirrored = true;
  boat.parts.push_back(planes);
  boat.parts.push_back(
      part("shaft", Role::Solid, CylinderShape{Axis::X, 0.006, 0.28, 0, 0}, {0.17, 0, 0.05}, 0.045));
  boat.parts.push_back(
      part("periscope", Role::Solid, CylinderShape{Axis::Z, 0.006, 0.05, 0.003, 0}, {0.61, 0, 0.185}, 0.008));
  boat.parts.push_back(part("hook", Role::Solid, PointShape{}, {0.95, 0, 0.06}, 0.006));
  Part air = part("bubble", Role::TrappedAir, BoxShape{{0.05, 0.03, 0.006}}, {0.45, 0, 0.094}, 0.0);
  air.mass.reset();
  air.volume = 4e-6;
  boat.parts.push_back(air);
}

}  // namespace

Boat fullBoat() {
  Boat boat;
  boat.name = "full";
  boat.length = 1.0;
  boat.skins = fullSkins();
  boat.cylinders = {fullCylinder()};
  boat.tank = BallastTank{"cylinder", 0.47, 0.58, 0.00046, {0.52}};
  boat.parts = {dry("battery", {0.66, 0, 0.03}, 0.33), dry("motor", {0.36, 0, 0.045}, 0.20),
                dry("pump", {0.43, 0, 0.035}, 0.15), dry("electronics", {0.63, 0, 0.06}, 0.09)};
  addOutside(boat);
  boat.marks = {0.88, 0.18, 0.074, 0.1, {0.6, 0, 0.168}};
  boat.water = {288.15, 0.0};
  return boat;
}

Boat plainBoat() {
  Boat boat;
  boat.name = "plain";
  boat.length = 0.8;
  SealedCylinder c = fullCylinder();
  c.position = {0.1, 0, 0.05};
  c.length = 0.6;
  c.fore_dome = 0.0;
  c.cap_thickness = 0.008;
  boat.cylinders = {c};
  boat.tank = BallastTank{"cylinder", 0.33, 0.47, std::nullopt, {}};
  boat.parts = {dry("battery", {0.55, 0, 0.03}, 0.60), dry("motor", {0.2, 0, 0.03}, 0.45)};
  Part keel = part("keel", Role::Lead, BoxShape{{0.4, 0.012, 0.012}}, {0.4, 0, 0.004}, 0.5);
  keel.density = 11340;
  boat.parts.push_back(keel);
  boat.marks = {0.7, 0.1, 0.07, 0.09, {0.4, 0, 0.1}};
  return boat;
}

Boat formsBoat() {
  Boat boat = fullBoat();
  const auto add = [&](const char* name, const SkinForm& form, const Vec3& position, double thickness) {
    Skin skin;
    skin.name = name;
    skin.form = form;
    skin.position = position;
    skin.thickness = thickness;
    skin.density = 1400;
    boat.skins.push_back(skin);
  };
  boat.skins[0].form = SuboffForm{0.95, 0.106, 0.22, 0.24};
  add("pod", MyringForm{0.03, 0.03, 0.05, 0.06, 0.002, 0.005, 2.2, 0.4}, {0.3, 0, 0.11}, 0.001);
  add("casing", CasingForm{0.6, 0.04, 0.015, 0.08, 0.1}, {0.2, 0, 0.095}, 0.0015);
  add("stern planes", PlateForm{0.06, 0.04, 0.05, 0.008, 0.1, true}, {0.1, 0.02, 0.05}, 0.003);
  add("keel fairing", offsetsOf(SpindleForm{0.3, 0.02, 0.016, 0.05, 0.06}, 9, 7), {0.4, 0, 0.0}, 0.001);
  // From a mesh, alike on both sides in its own steps.
  const Mesh wedge{{{0, -8, 12}, {0, 8, 12}, {40, -8, 0}, {40, 8, 0}, {90, -8, 12}, {90, 8, 12}},
                   {0, 1, 3, 0, 3, 2, 2, 3, 5, 2, 5, 4, 0, 4, 5, 0, 5, 1, 0, 2, 4, 1, 5, 3}};
  const auto packed = packMesh(wedge, {});
  if (packed) add("printed fairing", *packed, {0.6, 0, 0.0}, 0.001);
  add("skeg", PlateForm{0.08, 0.05, 0.05, 0.01, -kPi / 2, false}, {0.12, 0, 0.03}, 0.003);
  return boat;
}

std::vector<NamedBoat> allBoats() {
  std::vector<NamedBoat> boats{{"full", fullBoat()}, {"plain", plainBoat()}, {"forms", formsBoat()}};
  const std::filesystem::path folder = std::string(PONDTRIM_SOURCE_DIR) + "/presets/boats";
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  for (const auto& path : files) {
    if (path.extension() != ".json") continue;
    std::ifstream in(path);
    std::ostringstream text;
    text << in.rdbuf();
    const auto read = file::readBoatFile(text.str());
    if (!read) FAIL(path.filename().string() << ": " << read.error().message);
    boats.push_back({path.stem().string(), read->boat});
  }
  return boats;
}

}  // namespace pondtrim::test
