#include <algorithm>
#include <cmath>
#include <pondtrim/estimate.hpp>
#include <pondtrim/model.hpp>
#include <pondtrim/plan.hpp>

#include "checker.hpp"

namespace pondtrim {

namespace {

// Where things usually are, in shares of the hull's length from aft, and how large in shares of the hull.
constexpr double kNose = 0.16, kTail = 0.36, kSailX = 0.58, kSailLength = 0.15, kSailBreadth = 0.3;
constexpr double kCylinderX = 0.55, kSternMark = 0.17, kBowMark = 0.88;
constexpr double kPlaneX = 0.06, kPropellerX = 0.02;
constexpr double kAcrylic = 1190, kSteel = 7900, kPlastic = 1200, kBattery = 2200;  // [kg/m^3]
constexpr double kClear = 0.002;                                                    // [m]

Result<void> checkRough(const RoughBoat& r) {
  Checker c;
  c.range("start.length", r.length, 0.1, kLongest);
  c.range("start.breadth", r.breadth, 0.02, 0.5 * r.length);
  c.range("start.height", r.height, 0.02, 0.5 * r.length);
  c.range("start.line_height", r.line_height, 0.2 * r.height, r.height);
  c.range("start.sail.height", r.sail_height, 0.005, r.length);
  c.range("start.sail_showing", r.sail_showing, 0.001, r.sail_height);
  c.range("start.skin.thickness", r.skin_thickness, kThinnest, 0.1 * r.breadth);
  c.range("start.skin.density", r.skin_density, 1, kDensest);
  c.range("start.skin.mass", r.skin_mass, 0, kHeaviest);
  const double bore = std::min(r.breadth, r.height) - 2 * (r.skin_thickness + kClear);
  c.range("start.cylinder.diameter", r.cylinder_diameter, 0.01, bore);
  c.range("start.cylinder.length", r.cylinder_length, r.cylinder_diameter, 0.75 * r.length);
  c.range("start.cylinder.wall_thickness", r.cylinder_wall, 1e-4, 0.2 * r.cylinder_diameter);
  c.range("start.cylinder.mass", r.cylinder_mass, 0, kHeaviest);
  c.range("start.battery.mass", r.battery_mass, 0, kHeaviest);
  return c.result();
}

double boreRadius(const RoughBoat& r) { return r.cylinder_diameter / 2 - r.cylinder_wall; }
double boreArea(const RoughBoat& r) { return kPi * boreRadius(r) * boreRadius(r); }

/// Most of the bore that a tank may take: the rest is for what she carries.
double largestTank(const RoughBoat& r) { return 0.6 * boreArea(r) * r.cylinder_length; }

Boat hullOf(const RoughBoat& r) {
  Boat boat;
  boat.name = r.name;
  boat.length = r.length;
  boat.water = r.water;
  Skin hull;
  hull.name = "hull";
  SpindleForm form;
  form.length = r.length;
  form.breadth = r.breadth;
  form.height = r.height;
  form.nose_length = kNose * r.length;
  form.tail_length = kTail * r.length;
  form.section_power = 2.2;
  hull.form = form;
  hull.position = {0, 0, r.height / 2};
  hull.thickness = r.skin_thickness;
  hull.mass = r.skin_mass;
  hull.density = r.skin_density;
  Skin sail = hull;
  sail.name = "sail";
  sail.form = SailForm{kSailLength * r.length, kSailBreadth * r.breadth, r.sail_height, 0.9, 0.0, 0.35};
  sail.position = {kSailX * r.length, 0, r.height};
  sail.mass.reset();
  boat.skins = {hull, sail};
  boat.marks = {kBowMark * r.length, kSternMark * r.length, r.line_height, r.height,
                Vec3(kSailX * r.length, 0, r.height + r.sail_height)};
  boat.aims.sail_showing = r.sail_showing;
  return boat;
}

void addCylinder(Boat& boat, const RoughBoat& r) {
  SealedCylinder c;
  c.name = "cylinder";
  c.length = r.cylinder_length;
  c.diameter = r.cylinder_diameter;
  c.wall_thickness = r.cylinder_wall;
  c.cap_thickness = std::min(2.5 * r.cylinder_wall, 0.05 * r.cylinder_length);
  c.position = {kCylinderX * r.length - r.cylinder_length / 2, 0, r.height / 2};
  c.mass = r.cylinder_mass;
  c.density = kAcrylic;
  boat.cylinders = {c};
}

/// What a share of the cylinder's displacement usually weighs.
struct Usual {
  const char* name;
  double share;  ///< of the water that the cylinder displaces
  double along;  ///< place in the cylinder, 0 aft end to 1 fore end
  double up;     ///< over the axis, in radii of the bore
};
constexpr Usual kUsual[] = {{"motor", 0.075, 0.1, -0.1},
                            {"pump", 0.065, 0.24, -0.35},
                            {"tank ends", 0.03, 0.5, 0.0},
                            {"receiver and controllers", 0.035, 0.78, 0.35},
                            {"servos", 0.02, 0.2, 0.3}};

Part dry(const SealedCylinder& c, const std::string& name, double mass, double density, const Vec3& at) {
  Part p;
  p.name = name;
  p.role = Role::Dry;
  const double side = std::cbrt(std::max(mass, 1e-4) / density / 2);  // a box twice as long as wide
  p.shape = BoxShape{{2 * side, side, side}};
  p.position = at;
  p.inside = c.name;
  p.mass = mass;
  p.material = kEstimate;
  return p;
}

Part wet(const std::string& name, double mass, double density, const Vec3& size, const Vec3& at) {
  Part p;
  p.name = name;
  p.shape = BoxShape{size};
  p.position = at;
  p.mass = mass;
  p.volume = mass / density;
  p.material = kEstimate;
  return p;
}

void addParts(Boat& boat, const RoughBoat& r) {
  const SealedCylinder c = boat.cylinders.front();
  const double bore = boreRadius(r), carried = 1000 * kPi * c.diameter * c.diameter / 4 * c.length;
  const auto inside = [&](double along, double up) {
    return c.position + Vec3(along * c.length, 0, up * bore);
  };
  Part battery = dry(c, "battery", r.battery_mass, kBattery, inside(0.78, -0.4));
  battery.material.clear();
  boat.parts.push_back(battery);
  for (const Usual& u : kUsual)
    boat.parts.push_back(dry(c, u.name, u.share * carried, 1500, inside(u.along, u.up)));
  const double shaft = 0.03 * carried, planes = 0.03 * carried;
  const double shaft_length = std::max(c.position.x - kPropellerX * r.length, 0.05 * r.length);
  const double shaft_side = std::sqrt(1.1 * shaft / kSteel / shaft_length);
  boat.parts.push_back(wet("propeller and shaft", shaft, kSteel, {shaft_length, shaft_side, shaft_side},
                           {kPropellerX * r.length + shaft_length / 2, 0, r.height / 2}));
  const double chord = 0.06 * r.length, span = 0.9 * r.breadth;
  boat.parts.push_back(wet("rudders and planes", planes, kPlastic,
                           {chord, span, 1.1 * planes / kPlastic / chord / span},
                           {kPlaneX * r.length, 0, r.height / 2}));
}

/// What lies between the painted line and the wanted dived water, and a little more for foam above the line.
Result<double> usualTank(const Boat& boat) {
  const auto model = buildModel(boat);
  if (!model) return fail(model.error());
  const Vec3 up(0, 0, 1);
  const double dived = cutModel(*model, {up, boat.marks.sail_top.z - boat.aims.sail_showing}).volume;
  const double surfaced = cutModel(*model, {up, boat.marks.line_height}).volume;
  return 1.05 * (dived - surfaced);
}

Result<void> addTank(Boat& boat, const RoughBoat& r) {
  double capacity = r.tank_capacity.value_or(0);
  if (!r.tank_capacity) {
    const auto usual = usualTank(boat);
    if (!usual) return fail(usual.error());
    capacity = std::clamp(*usual, 0.05 * largestTank(r), largestTank(r));
  }
  if (auto error = outside("start.tank.capacity", capacity, 1e-6, largestTank(r))) return fail(*error);
  const SealedCylinder& c = boat.cylinders.front();
  const double middle = c.position.x + c.length / 2, length = capacity / boreArea(r);
  BallastTank tank;
  tank.cylinder = c.name;
  tank.aft_end = middle - length / 2;
  tank.fore_end = middle + length / 2;
  boat.tank = tank;
  return {};
}

/// The keel's places as long and as thick as a whole ballast keel, which a new boat needs all of.
Boat withKeel(Boat boat) {
  const auto& hull = std::get<SpindleForm>(boat.skins.front().form);
  for (Part& part : boat.parts) {
    auto* box = std::get_if<BoxShape>(&part.shape);
    if (part.role != Role::Lead || box == nullptr || part.position.y != 0) continue;
    const double bottom = part.position.z - box->size.z / 2;
    box->size = {0.19 * hull.length, std::max(box->size.y, 0.27 * hull.breadth),
                 std::max(box->size.z, 0.07 * hull.height)};
    part.position.z = bottom + box->size.z / 2;
  }
  return boat;
}

}  // namespace

Result<Boat> estimateBoat(const RoughBoat& r) {
  if (const auto good = checkRough(r); !good) return fail(good.error());
  Boat boat = hullOf(r);
  addCylinder(boat, r);
  addParts(boat, r);
  if (const auto made = addTank(boat, r); !made) return fail(made.error());
  if (const auto good = checkBoat(boat); !good) return fail(good.error());
  return withKeel(proposePlaces(boat));
}

RoughBoat sizedAs(const ScaledModel& model, RoughBoat rough) {
  constexpr double kDiameter = 0.8, kLength = 0.46;  // carries a boat of any scale that is worth building
  const double k = model.length / rough.length;
  rough.length = model.length;
  rough.breadth = model.breadth;
  rough.height = model.height;
  rough.line_height = model.line_height;
  rough.sail_height *= k;
  rough.sail_showing *= k;
  rough.cylinder_length = kLength * model.length;
  rough.cylinder_diameter = kDiameter * std::min(model.breadth, model.height);
  rough.cylinder_mass.reset();
  rough.tank_capacity.reset();
  rough.skin_mass.reset();
  rough.battery_mass *= k * k * k;
  return rough;
}

}  // namespace pondtrim
