// Which numbers make a boat: ranges, names that must be there, places that must fit together.
//
// The ranges are wide: they keep slips of the finger (a metre typed as millimetres) and useless extremes out,
// not unusual boats. The largest hull is 10 m.
#include <algorithm>
#include <cmath>
#include <pondtrim/model.hpp>

#include "checker.hpp"
#include "place_amount.hpp"

namespace pondtrim {

namespace {

/// The lengths of the two ends, which leave the middle 0 or more.
template <class Form>
void checkEnds(Checker& c, const std::string& at, const Form& f) {
  c.length(at + ".length", f.length);
  c.length(at + ".nose_length", f.nose_length);
  c.length(at + ".tail_length", f.tail_length);
  c.atMost(at + ".nose_length", f.nose_length, at + ".tail_length", f.length - f.tail_length);
}

void check(Checker& c, const std::string& at, const SpindleForm& f) {
  c.length(at + ".breadth", f.breadth);
  c.length(at + ".height", f.height);
  checkEnds(c, at, f);
  c.range(at + ".nose_power", f.nose_power, 1, 8);
  c.range(at + ".nose_root", f.nose_root, 1, 8);
  c.range(at + ".tail_power", f.tail_power, 1, 8);
  c.range(at + ".tail_root", f.tail_root, 1, 8);
  c.range(at + ".nose_lift", f.nose_lift, -1, 1);
  c.range(at + ".tail_lift", f.tail_lift, -1, 1);
  c.range(at + ".section_power", f.section_power, 1.2, 12);
}

void check(Checker& c, const std::string& at, const SailForm& f) {
  c.length(at + ".length", f.length);
  c.length(at + ".breadth", f.breadth);
  c.length(at + ".height", f.height);
  c.range(at + ".top_scale", f.top_scale, 0.1, 1);
  c.range(at + ".rake", f.rake, -kLongest, kLongest);
  c.range(at + ".shoulder", f.shoulder, 0.1, 0.9);
}

void check(Checker& c, const std::string& at, const SuboffForm& f) {
  c.length(at + ".diameter", f.diameter);
  checkEnds(c, at, f);
}

void check(Checker& c, const std::string& at, const MyringForm& f) {
  c.length(at + ".diameter", f.diameter);
  c.length(at + ".nose_length", f.nose_length);
  c.length(at + ".middle_length", f.middle_length);
  c.length(at + ".tail_length", f.tail_length);
  c.range(at + ".nose_offset", f.nose_offset, 0, kLongest);
  c.range(at + ".tail_offset", f.tail_offset, 0, kLongest);
  c.atMost(at + ".nose_offset", f.nose_offset, at + ".nose_length", 0.9 * f.nose_length);
  c.atMost(at + ".tail_offset", f.tail_offset, at + ".tail_length", 0.9 * f.tail_length);
  c.range(at + ".nose_power", f.nose_power, 1, 8);
  c.range(at + ".tail_angle", f.tail_angle, 0, kPi / 2);
  // Beyond that the tail would swell before it narrows.
  c.atMost(at + ".tail_angle", f.tail_angle, at + ".tail_length",
           std::atan(1.5 * f.diameter / f.tail_length));
}

void check(Checker& c, const std::string& at, const CasingForm& f) {
  c.length(at + ".breadth", f.breadth);
  c.length(at + ".height", f.height);
  checkEnds(c, at, f);
  c.range(at + ".nose_root", f.nose_root, 1, 8);
  c.range(at + ".tail_root", f.tail_root, 1, 8);
  c.range(at + ".section_power", f.section_power, 1.2, 12);
}

void check(Checker& c, const std::string& at, const PlateForm& f) {
  c.length(at + ".length", f.length);
  c.length(at + ".tip_length", f.tip_length);
  c.length(at + ".span", f.span);
  c.range(at + ".rake", f.rake, -kLongest, kLongest);
  c.range(at + ".slant", f.slant, -kPi, kPi);
}

/// Heights that do not fall, half breadths of 0 or more, one for each, no point twice.
void check(Checker& c, const std::string& at, const OffsetStation& s, bool end) {
  c.range(at + ".at_x", s.at_x, -kLongest, kLongest);
  const std::size_t count = s.heights.size(), least = end ? 1 : 2, most = 100;
  const auto number = [](std::size_t n) { return std::to_string(n); };
  if (count < least || count > most)
    c.fault(at + ".heights", number(count) + " points", number(least) + " to " + number(most), "",
            at + " has " + number(count) + " points; allowed are " + number(least) + " to " + number(most) +
                (end ? "" : ", and only the first and the last station may have less than two"));
  if (s.half_breadths.size() != count)
    c.fault(at + ".half_breadths", number(s.half_breadths.size()) + " numbers", number(count),
            at + ".heights",
            at + " has " + number(count) + " heights but " + number(s.half_breadths.size()) +
                " half breadths; each height needs one");
  for (std::size_t k = 0; k < count && c.good(); ++k) {
    const std::string height = at + ".heights[" + number(k) + "]";
    const std::string breadth = at + ".half_breadths[" + number(k) + "]";
    c.range(height, s.heights[k], -kLongest, kLongest);
    c.range(breadth, s.half_breadths[k], 0, kLongest);
    if (k == 0) continue;
    c.atLeast(height, s.heights[k], at + ".heights[" + number(k - 1) + "]", s.heights[k - 1]);
    // Closer than this a chord has no direction.
    if (std::hypot(s.heights[k] - s.heights[k - 1], s.half_breadths[k] - s.half_breadths[k - 1]) < kThinnest)
      c.fault(breadth, numberText(s.half_breadths[k]), "another point",
              at + ".heights[" + number(k - 1) + "]", at + " has the same point twice in a row");
  }
  if (count > 1 && c.good() && s.heights.back() - s.heights.front() < kThinnest)
    c.fault(at + ".heights", numberText(s.heights.back()), "more than " + numberText(s.heights.front()), "",
            at + " has no height");
}

void check(Checker& c, const std::string& at, const OffsetsForm& f) {
  const std::size_t count = f.stations.size();
  if (count < 3 || count > 100)
    c.fault(at + ".stations", std::to_string(count), "3 to 100", "",
            at + " has " + std::to_string(count) + " stations; a hull needs 3 to 100");
  for (std::size_t i = 0; i < count && c.good(); ++i) {
    const std::string station = at + ".stations[" + std::to_string(i) + "]";
    check(c, station, f.stations[i], i == 0 || i + 1 == count);
    if (i > 0)
      c.atLeast(station + ".at_x", f.stations[i].at_x, at + ".stations[" + std::to_string(i - 1) + "].at_x",
                f.stations[i - 1].at_x + 1e-4);
  }
  double broadest = 0;
  for (const OffsetStation& s : f.stations)
    for (const double y : s.half_breadths) broadest = std::max(broadest, y);
  if (c.good() && broadest < kThinnest)
    c.fault(at + ".stations", "no breadth", "a half breadth of more than 0", "", at + " has no breadth");
}

void check(Checker& c, const std::string& at, const MeshForm& f) {
  c.length(at + ".size.x", f.size.x);
  c.length(at + ".size.y", f.size.y);
  c.length(at + ".size.z", f.size.z);
  if (!f.mesh) return c.fault(at + ".mesh", "missing", "a mesh", "", at + " has no mesh");
  if (f.solid && !f.mesh->closed())
    c.fault(at + ".solid", "true", "false: the mesh is not closed all round", at + ".mesh",
            at + " is solid, but its mesh is not closed all round");
}

void check(Checker& c, const std::string& at, const Skin& skin) {
  c.name(at + ".name", skin.name);
  std::visit([&](const auto& form) { check(c, at + ".form", form); }, skin.form);
  c.place(at + ".position", skin.position);
  c.range(at + ".thickness", skin.thickness, kThinnest, 0.1);
  c.weight(at, skin.mass, skin.density);
}

void check(Checker& c, const std::string& at, const SealedCylinder& s) {
  c.name(at + ".name", s.name);
  c.place(at + ".position", s.position);
  c.length(at + ".length", s.length);
  c.length(at + ".diameter", s.diameter);
  c.length(at + ".wall_thickness", s.wall_thickness);
  c.atMost(at + ".wall_thickness", s.wall_thickness, at + ".diameter", 0.49 * s.diameter);
  c.length(at + ".cap_thickness", s.cap_thickness);
  c.atMost(at + ".cap_thickness", s.cap_thickness, at + ".length", 0.49 * s.length);
  for (const auto& [end, dome] : {std::pair{".fore_dome", s.fore_dome}, {".aft_dome", s.aft_dome}}) {
    c.range(at + end, dome, 0, kLongest);
    if (dome > 0) c.atLeast(at + end, dome, at + ".cap_thickness", s.cap_thickness);
  }
  c.weight(at, s.mass, s.density);
  c.range(at + ".elastic_modulus", s.elastic_modulus, 1e6, 1e12);
  c.range(at + ".poisson_ratio", s.poisson_ratio, 0, 0.5);
  c.range(at + ".strength", s.strength, 1e5, 1e10);
  c.range(at + ".flexibility", s.flexibility, 0, 1e-6);
}

std::string cylinderNames(const Boat& boat) {
  std::string out;
  for (const SealedCylinder& c : boat.cylinders) out += (out.empty() ? "\"" : ", \"") + c.name + "\"";
  return out.empty() ? "the name of a sealed cylinder; the boat has none" : out;
}

void missingCylinder(Checker& c, const Boat& boat, const std::string& field, const std::string& name) {
  c.fault(
      field, "\"" + name + "\"", cylinderNames(boat), "cylinders",
      field + " names the cylinder \"" + name + "\", which does not exist; allowed: " + cylinderNames(boat));
}

/// Flat end caps stand inside the tube, domes outside it: the tank keeps clear of both.
void checkTankEnds(Checker& c, const BallastTank& tank, const SealedCylinder& in, const std::string& at) {
  c.range("tank.aft_end", tank.aft_end, -kLongest, kLongest);
  c.range("tank.fore_end", tank.fore_end, -kLongest, kLongest);
  const double first = in.position.x, last = first + in.length;
  const double aft_cap = in.aft_dome > 0 ? 0.0 : in.cap_thickness;
  const double fore_cap = in.fore_dome > 0 ? 0.0 : in.cap_thickness;
  const std::string cap = at + ".cap_thickness";
  c.atLeast("tank.aft_end", tank.aft_end, tank.aft_end < first ? at + ".position.x" : cap, first + aft_cap);
  c.atMost("tank.fore_end", tank.fore_end, tank.fore_end > last ? at + ".length" : cap, last - fore_cap);
  c.atLeast("tank.fore_end", tank.fore_end, "tank.aft_end", tank.aft_end + 1e-3);
}

void checkBulkheads(Checker& c, const BallastTank& tank) {
  double before = tank.aft_end;
  for (std::size_t k = 0; k < tank.bulkheads.size(); ++k) {
    const std::string field = item("tank.bulkheads", k);
    c.range(field, tank.bulkheads[k], -kLongest, kLongest);
    c.atLeast(field, tank.bulkheads[k], k == 0 ? "tank.aft_end" : item("tank.bulkheads", k - 1),
              before + 1e-3);
    before = tank.bulkheads[k];
  }
  if (!tank.bulkheads.empty())
    c.atMost(item("tank.bulkheads", tank.bulkheads.size() - 1), before, "tank.fore_end",
             tank.fore_end - 1e-3);
}

void checkTank(Checker& c, const Boat& boat) {
  const BallastTank& tank = *boat.tank;
  std::size_t i = 0;
  const SealedCylinder* in = findCylinder(boat, tank.cylinder, &i);
  if (in == nullptr) {
    missingCylinder(c, boat, "tank.cylinder", tank.cylinder);
    return;
  }
  checkTankEnds(c, tank, *in, item("cylinders", i));
  c.range("tank.capacity", tank.capacity, kSmallestTank, kLargest);
  if (tank.capacity) c.atMost("tank.capacity", *tank.capacity, "tank.fore_end", largestTankCapacity(boat));
  checkBulkheads(c, tank);
}

void check(Checker& c, const std::string& at, const BoxShape& s) {
  c.length(at + ".size.x", s.size.x);
  c.length(at + ".size.y", s.size.y);
  c.length(at + ".size.z", s.size.z);
}
void check(Checker& c, const std::string& at, const CylinderShape& s) {
  c.length(at + ".diameter", s.diameter);
  c.range(at + ".length", s.length, 0, kLongest);
  c.range(at + ".fore_dome", s.fore_dome, 0, kLongest);
  c.range(at + ".aft_dome", s.aft_dome, 0, kLongest);
  c.atLeast(at + ".length", s.length + s.fore_dome + s.aft_dome, at + ".fore_dome", kThinnest);
}
void check(Checker& c, const std::string& at, const StripShape& s) {
  c.length(at + ".length", s.length);
  c.length(at + ".aft_breadth", s.aft_breadth);
  c.length(at + ".aft_height", s.aft_height);
  c.length(at + ".fore_breadth", s.fore_breadth);
  c.length(at + ".fore_height", s.fore_height);
}
void check(Checker&, const std::string&, const PointShape&) {}

/// Its centre must lie in the cylinder's bore.
void checkInside(Checker& c, const Boat& boat, const std::string& at, const Part& part) {
  std::size_t i = 0;
  const SealedCylinder* in = findCylinder(boat, part.inside, &i);
  if (in == nullptr) {
    missingCylinder(c, boat, at + ".inside", part.inside);
    return;
  }
  const std::string where = item("cylinders", i);
  c.atLeast(at + ".position.x", part.position.x, where + ".position.x", in->position.x - in->aft_dome);
  c.atMost(at + ".position.x", part.position.x, where + ".length",
           in->position.x + in->length + in->fore_dome);
  const double off = std::hypot(part.position.y - in->position.y, part.position.z - in->position.z);
  if (off > in->diameter / 2 - in->wall_thickness) {
    c.fault(at + ".position.z", numberText(part.position.z),
            "within " + numberText(in->diameter / 2 - in->wall_thickness) + " of the cylinder's axis at y " +
                numberText(in->position.y) + ", z " + numberText(in->position.z),
            where + ".diameter",
            at + ".position lies " + numberText(off) + " from the axis of \"" + in->name +
                "\", outside its bore of radius " + numberText(in->diameter / 2 - in->wall_thickness));
  }
}

void check(Checker& c, const Boat& boat, const std::string& at, const Part& part) {
  c.name(at + ".name", part.name);
  std::visit([&](const auto& shape) { check(c, at + ".shape", shape); }, part.shape);
  c.place(at + ".position", part.position);
  c.range(at + ".volume", part.volume, 0, kLargest);
  c.range(at + ".bulk_modulus", part.bulk_modulus, 1e4, 1e12);
  c.range(at + ".water_uptake", part.water_uptake, 0, 1);
  const bool point = std::holds_alternative<PointShape>(part.shape);
  if (part.role == Role::Dry) {
    if (c.good()) checkInside(c, boat, at, part);
  } else if (!part.inside.empty()) {
    c.fault(at + ".inside", "\"" + part.inside + "\"", "no cylinder unless the role is dry", at + ".role",
            at + " is inside a cylinder, but only a dry item can be");
  }
  if (part.role == Role::TrappedAir) {
    c.range(at + ".mass", part.mass, 0, 0);
    c.range(at + ".density", part.density, 0, 2);
    if (point)
      c.fault(at + ".shape", "point", "a box, cylinder or strip", "",
              at + " is trapped air, which needs a shape");
  } else {
    c.weight(at, part.mass, part.density);
    if ((point || part.role == Role::Dry) && !part.mass) {
      c.fault(at + ".mass", "missing", "a mass", "", at + " displaces nothing, so it needs a mass");
    }
  }
  if (!c.good() || point || part.role == Role::Dry) return;
  const auto volume = displacedVolume(part);
  if (volume)
    c.atMost(part.volume ? at + ".volume" : at + ".mass", *volume, at + ".shape", shapeVolume(part));
}

/// Every name once, over skins, cylinders and parts: a builder points at things by name.
void checkNames(Checker& c, const Boat& boat) {
  std::vector<std::pair<std::string, std::string>> seen;  // name, field
  const auto add = [&](const std::string& field, const std::string& name) {
    for (const auto& [other, where] : seen) {
      if (other == name)
        c.fault(field, "\"" + name + "\"", "a name not used before", where,
                field + " and " + where + " are both \"" + name + "\"");
    }
    seen.emplace_back(name, field);
  };
  for (std::size_t i = 0; i < boat.skins.size(); ++i) add(item("skins", i) + ".name", boat.skins[i].name);
  for (std::size_t i = 0; i < boat.cylinders.size(); ++i)
    add(item("cylinders", i) + ".name", boat.cylinders[i].name);
  for (std::size_t i = 0; i < boat.parts.size(); ++i) add(item("parts", i) + ".name", boat.parts[i].name);
}

void checkOpenings(Checker& c, const Boat& boat) {
  for (std::size_t i = 0; i < boat.openings.size() && c.good(); ++i) {
    const Opening& o = boat.openings[i];
    const std::string at = item("openings", i);
    c.name(at + ".name", o.name);
    c.place(at + ".position", o.position);
    c.range(at + ".diameter", o.diameter, 1e-4, 1);
    std::string names;
    bool there = false;
    for (const Skin& s : boat.skins) {
      there = there || s.name == o.skin;
      names += (names.empty() ? "\"" : ", \"") + s.name + "\"";
    }
    if (!there)
      c.fault(at + ".skin", "\"" + o.skin + "\"",
              names.empty() ? "the name of a skin; the boat has none" : names, "skins",
              at + ".skin names the skin \"" + o.skin + "\", which does not exist; allowed: " + names);
  }
}

void checkMarks(Checker& c, const Marks& m) {
  c.range("marks.bow_x", m.bow_x, -kLongest, kLongest);
  c.range("marks.stern_x", m.stern_x, -kLongest, kLongest);
  c.atLeast("marks.bow_x", m.bow_x, "marks.stern_x", m.stern_x + 1e-3);
  c.range("marks.line_height", m.line_height, 0, kLongest);
  c.range("marks.deck_height", m.deck_height, 0, kLongest);
  c.atLeast("marks.deck_height", m.deck_height, "marks.line_height", m.line_height);
  c.place("marks.sail_top", m.sail_top);
  c.atLeast("marks.sail_top.z", m.sail_top.z, "marks.line_height", m.line_height);
}

/// How many of each a boat may have: enough for any model, few enough to stay instant.
void checkCounts(Checker& c, const Boat& boat) {
  const auto most = [&](const char* field, std::size_t n, std::size_t limit) {
    if (n > limit)
      c.fault(field, std::to_string(n), "at most " + std::to_string(limit), "",
              std::string(field) + " has " + std::to_string(n) + " entries, allowed is at most " +
                  std::to_string(limit));
  };
  most("skins", boat.skins.size(), 50);
  most("openings", boat.openings.size(), 100);
  most("cylinders", boat.cylinders.size(), 20);
  most("parts", boat.parts.size(), 1000);
  most("log", boat.log.size(), 1000);
  if (boat.tank) most("tank.bulkheads", boat.tank->bulkheads.size(), 50);
}

}  // namespace

double boreBetweenEnds(const Boat& boat) {
  std::size_t at = 0;
  const SealedCylinder* in = findCylinder(boat, boat.tank->cylinder, &at);
  const double radius = in->diameter / 2 - in->wall_thickness;
  return kPi * radius * radius * (boat.tank->fore_end - boat.tank->aft_end);
}

double largestTankCapacity(const Boat& boat) { return 1.1 * boreBetweenEnds(boat); }

const SealedCylinder* findCylinder(const Boat& boat, const std::string& name, std::size_t* at) {
  for (std::size_t i = 0; i < boat.cylinders.size(); ++i) {
    if (boat.cylinders[i].name == name) {
      *at = i;
      return &boat.cylinders[i];
    }
  }
  return nullptr;
}

Result<void> checkBoat(const Boat& boat) {
  Checker c;
  c.name("name", boat.name);
  c.range("length", boat.length, 0.05, kLongest);
  checkCounts(c, boat);
  for (std::size_t i = 0; i < boat.skins.size() && c.good(); ++i) check(c, item("skins", i), boat.skins[i]);
  checkOpenings(c, boat);
  for (std::size_t i = 0; i < boat.cylinders.size() && c.good(); ++i)
    check(c, item("cylinders", i), boat.cylinders[i]);
  if (boat.tank && c.good()) checkTank(c, boat);
  if (boat.ballast && c.good()) checkBallast(c, boat);
  for (std::size_t i = 0; i < boat.parts.size() && c.good(); ++i)
    check(c, boat, item("parts", i), boat.parts[i]);
  checkNames(c, boat);
  checkMarks(c, boat.marks);
  c.range("aims.sail_showing", boat.aims.sail_showing, -kLongest, kLongest);
  if (!c.good()) return c.result();
  if (auto density = waterDensity(boat.water); !density) return fail(density.error());
  if (auto places = checkPlaces(boat); !places) return places;
  checkLog(c, boat);
  return c.result();
}

}  // namespace pondtrim
