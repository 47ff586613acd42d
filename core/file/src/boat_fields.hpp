#pragma once
// What the boat file holds, said once for the reader and the writer: each struct of boat.hpp with its keys in
// the order of the file. A number's key gets the suffix of its unit from units.hpp. `Io` is FieldReader or
// FieldWriter:
//   number, vector, word, requiredText, object   must be there
//   numberOr, wordOr, objectOr, flag             may be left out when they are the default
//   optional, optionalObject, text, numbers, list   may be left out: not set, empty
//   optionalList    a list that is left out when empty; its items start from a given one
//   measured        FIELD and FIELD_spread, the spread may be left out
//   packed          a mesh as one text
//   amount          how much of a part: volume of foam, mass of anything else
#include <array>
#include <pondtrim/boat.hpp>

#include "place_record.hpp"

namespace pondtrim::file {

inline constexpr std::array kFormWords{"spindle", "sail",  "suboff",  "myring",
                                       "casing",  "plate", "offsets", "mesh"};  // order of SkinForm
inline constexpr std::array kShapeWords{"box", "cylinder", "strip", "point"};   // order of Shape
inline constexpr std::array kBallastWords{"pump into sealed tank", "pump into vented tank", "piston",
                                          "gas"};  // order of BallastKind
inline constexpr std::array kRoleWords{"solid", "foam", "lead", "dry", "trapped air"};
inline constexpr std::array kAxisWords{"x", "y", "z"};
inline constexpr std::array kTankWords{"empty", "full", "measured"};  // order of TankState

template <class Io>
void fields(Io& io, SpindleForm& f) {
  const SpindleForm standard;
  io.number("length", f.length);
  io.number("breadth", f.breadth);
  io.number("height", f.height);
  io.number("nose_length", f.nose_length);
  io.number("tail_length", f.tail_length);
  io.numberOr(standard.nose_power, "nose_power", f.nose_power);
  io.numberOr(standard.nose_root, "nose_root", f.nose_root);
  io.numberOr(standard.tail_power, "tail_power", f.tail_power);
  io.numberOr(standard.tail_root, "tail_root", f.tail_root);
  io.numberOr(standard.nose_lift, "nose_lift", f.nose_lift);
  io.numberOr(standard.tail_lift, "tail_lift", f.tail_lift);
  io.numberOr(standard.section_power, "section_power", f.section_power);
}

template <class Io>
void fields(Io& io, SailForm& f) {
  const SailForm standard;
  io.number("length", f.length);
  io.number("breadth", f.breadth);
  io.number("height", f.height);
  io.numberOr(standard.top_scale, "top_scale", f.top_scale);
  io.numberOr(standard.rake, "rake", f.rake);
  io.numberOr(standard.shoulder, "shoulder", f.shoulder);
}

template <class Io>
void fields(Io& io, SuboffForm& f) {
  io.number("length", f.length);
  io.number("diameter", f.diameter);
  io.number("nose_length", f.nose_length);
  io.number("tail_length", f.tail_length);
}

template <class Io>
void fields(Io& io, MyringForm& f) {
  io.number("diameter", f.diameter);
  io.number("nose_length", f.nose_length);
  io.number("middle_length", f.middle_length);
  io.number("tail_length", f.tail_length);
  io.numberOr(0.0, "nose_offset", f.nose_offset);
  io.numberOr(0.0, "tail_offset", f.tail_offset);
  io.number("nose_power", f.nose_power);
  io.number("tail_angle", f.tail_angle);
}

template <class Io>
void fields(Io& io, CasingForm& f) {
  const CasingForm standard;
  io.number("length", f.length);
  io.number("breadth", f.breadth);
  io.number("height", f.height);
  io.number("nose_length", f.nose_length);
  io.number("tail_length", f.tail_length);
  io.numberOr(standard.nose_root, "nose_root", f.nose_root);
  io.numberOr(standard.tail_root, "tail_root", f.tail_root);
  io.numberOr(standard.section_power, "section_power", f.section_power);
}

template <class Io>
void fields(Io& io, PlateForm& f) {
  io.number("length", f.length);
  io.number("tip_length", f.tip_length);
  io.number("span", f.span);
  io.numberOr(0.0, "rake", f.rake);
  io.numberOr(0.0, "slant", f.slant);
  io.flag("mirrored", f.mirrored);
}

template <class Io>
void fields(Io& io, OffsetStation& s) {
  io.number("at_x", s.at_x);
  io.numbers("heights", s.heights);
  io.numbers("half_breadths", s.half_breadths);
}

template <class Io>
void fields(Io& io, OffsetsForm& f) {
  io.list("stations", f.stations);
}

template <class Io>
void fields(Io& io, MeshForm& f) {
  io.vector("size", f.size);
  io.flag("solid", f.solid);
  io.packed("mesh", f.mesh);
}

template <class Io>
void fields(Io& io, SkinForm& form) {
  io.variant("kind", kFormWords, form);
}

template <class Io>
void fields(Io& io, Skin& s) {
  io.requiredText("name", s.name);
  io.object("form", s.form);
  io.vector("position", s.position);
  io.number("thickness", s.thickness);
  io.optional("mass", s.mass);
  io.optional("density", s.density);
  io.text("material", s.material);
}

template <class Io>
void fields(Io& io, Opening& o) {
  io.requiredText("name", o.name);
  io.requiredText("skin", o.skin);
  io.vector("position", o.position);
  io.optional("diameter", o.diameter);
}

template <class Io>
void fields(Io& io, SealedCylinder& c) {
  const SealedCylinder standard;
  io.requiredText("name", c.name);
  io.vector("position", c.position);
  io.number("length", c.length);
  io.number("diameter", c.diameter);
  io.number("wall_thickness", c.wall_thickness);
  io.number("cap_thickness", c.cap_thickness);
  io.numberOr(standard.fore_dome, "fore_dome", c.fore_dome);
  io.numberOr(standard.aft_dome, "aft_dome", c.aft_dome);
  io.optional("mass", c.mass);
  io.optional("density", c.density);
  io.text("material", c.material);
  io.optional("elastic_modulus", c.elastic_modulus);
  io.optional("poisson_ratio", c.poisson_ratio);
  io.optional("strength", c.strength);
  io.optional("flexibility", c.flexibility);
}

template <class Io>
void fields(Io& io, BallastTank& t) {
  io.requiredText("cylinder", t.cylinder);
  io.number("aft_end", t.aft_end);
  io.number("fore_end", t.fore_end);
  io.optional("capacity", t.capacity);
  io.numbers("bulkheads", t.bulkheads);
}

template <class Io>
void fields(Io& io, Pump& p) {
  io.number("free_flow", p.free_flow);
  io.number("stall_pressure", p.stall_pressure);
  io.number("rated_voltage", p.rated_voltage);
  io.optional("hose_loss", p.hose_loss);
  io.optional("free_current", p.free_current);
  io.optional("stall_current", p.stall_current);
}

template <class Io>
void fields(Io& io, SealedTankPump& s) {
  io.object("pump", s.pump);
  io.optional("air", s.air);
}

template <class Io>
void fields(Io& io, VentedTankPump& s) {
  io.object("pump", s.pump);
  io.number("cylinder_air", s.cylinder_air);
}

template <class Io>
void fields(Io& io, PistonTank& s) {
  io.number("diameter", s.diameter);
  io.number("free_speed", s.free_speed);
  io.number("stall_force", s.stall_force);
  io.number("rated_voltage", s.rated_voltage);
  io.number("cylinder_air", s.cylinder_air);
  io.optional("free_current", s.free_current);
  io.optional("stall_current", s.stall_current);
}

template <class Io>
void fields(Io& io, GasBlow& s) {
  io.requiredText("gas", s.gas);
  io.number("can_mass", s.can_mass);
  io.number("vent_diameter", s.vent_diameter);
  io.number("hole_diameter", s.hole_diameter);
  io.number("blow_flow", s.blow_flow);
}

template <class Io>
void fields(Io& io, Battery& b) {
  io.number("full_voltage", b.full_voltage);
  io.number("tired_voltage", b.tired_voltage);
  io.number("charge", b.charge);
}

template <class Io>
void fields(Io& io, BallastSystem& s) {
  io.variant("kind", kBallastWords, s.kind);
  io.optionalObject("battery", s.battery);
}

template <class Io>
void fields(Io& io, BoxShape& s) {
  io.vector("size", s.size);
}

template <class Io>
void fields(Io& io, CylinderShape& s) {
  const CylinderShape standard;
  io.wordOr(standard.axis, "axis", kAxisWords, s.axis);
  io.number("diameter", s.diameter);
  io.number("length", s.length);
  io.numberOr(standard.fore_dome, "fore_dome", s.fore_dome);
  io.numberOr(standard.aft_dome, "aft_dome", s.aft_dome);
}

template <class Io>
void fields(Io& io, StripShape& s) {
  io.number("length", s.length);
  io.number("aft_breadth", s.aft_breadth);
  io.number("aft_height", s.aft_height);
  io.number("fore_breadth", s.fore_breadth);
  io.number("fore_height", s.fore_height);
}

template <class Io>
void fields(Io&, PointShape&) {}

template <class Io>
void fields(Io& io, Shape& shape) {
  io.variant("kind", kShapeWords, shape);
}

template <class Io>
void fields(Io& io, Part& p) {
  io.requiredText("name", p.name);
  io.word("role", kRoleWords, p.role);
  io.object("shape", p.shape);
  io.vector("position", p.position);
  io.text("inside", p.inside);
  io.flag("mirrored", p.mirrored);
  io.optional("mass", p.mass);
  io.optional("volume", p.volume);
  io.optional("density", p.density);
  io.text("material", p.material);
  io.optional("bulk_modulus", p.bulk_modulus);
  io.optional("water_uptake", p.water_uptake);
}

template <class Io>
void fields(Io& io, Marks& m) {
  io.number("bow_x", m.bow_x);
  io.number("stern_x", m.stern_x);
  io.number("line_height", m.line_height);
  io.number("deck_height", m.deck_height);
  io.vector("sail_top", m.sail_top);
}

template <class Io>
void fields(Io& io, Water& w) {
  io.number("temperature", w.temperature);
  io.number("salinity", w.salinity);
}

template <class Io>
void fields(Io& io, FurtherAim& a) {
  const FurtherAim standard;
  io.requiredText("name", a.name);
  io.flag("tank_full", a.tank_full);
  io.optionalObject("water", a.water);
  io.text("part", a.part);
  io.numberOr(standard.mass, "mass", a.mass);
  io.numberOr(standard.mark_tolerance, "mark_tolerance", a.mark_tolerance);
  io.numberOr(standard.trim_tolerance, "trim_tolerance", a.trim_tolerance);
}

template <class Io>
void fields(Io& io, Aims& a) {
  const Aims standard;
  io.number("sail_showing", a.sail_showing);
  io.optional("net_buoyancy", a.net_buoyancy);
  io.numberOr(standard.least_gm, "least_gm", a.least_gm);
  io.numberOr(standard.least_bg, "least_bg", a.least_bg);
  io.optionalList("further", a.further);
}

template <class Io>
void fields(Io& io, RailRecord& r) {
  io.number("from_x", r.from_x);
  io.number("to_x", r.to_x);
  io.numberOr(0.0, "step", r.step);
}

template <class Io>
void fields(Io& io, PlaceRecord& p) {
  io.requiredText("part", p.part);
  io.optional("least_volume", p.volume.least);
  io.optional("most_volume", p.volume.most);
  io.optional("volume_step", p.volume.step);
  io.optional("least_mass", p.mass.least);
  io.optional("most_mass", p.mass.most);
  io.optional("mass_step", p.mass.step);
  io.optionalObject("rail", p.rail);
}

template <class Io>
void fields(Io& io, Installed& i) {
  io.requiredText("part", i.part);
  io.amount(i.part, i.amount);
  io.optional("at_x", i.at_x);
}

template <class Io>
void fields(Io& io, Reading& r) {
  io.text("date", r.date);
  io.text("note", r.note);
  io.flagOr(true, "used", r.used);
  io.word("tank", kTankWords, r.tank);
  io.numberOr(0.0, "tank_fill", r.tank_fill);
  io.keptObject("water", r.water);
  io.measured("bow", kRulerSpread, r.bow);
  io.measured("stern", kRulerSpread, r.stern);
  io.measured("sail_showing", kRulerSpread, r.sail_showing);
  io.measured("trim", kClinometerSpread, r.trim);
  io.measured("heel", kClinometerSpread, r.heel);
  io.measured("pull", kScaleSpread, r.pull);
  io.measured("bow_pull", kScaleSpread, r.bow_pull);
  io.measured("stern_pull", kScaleSpread, r.stern_pull);
  io.numberOr(0.0, "laid_mass", r.laid_mass);
  io.optional("held_x", r.held_x);
  io.optional("held_z", r.held_z);
  io.numberOr(0.0, "bow_hook_x", r.bow_hook_x);
  io.numberOr(0.0, "stern_hook_x", r.stern_hook_x);
  io.numberOr(0.0, "shifted_mass", r.shifted_mass);
  io.numberOr(0.0, "shifted_by", r.shifted_by);
  io.optionalList(Installed{}, "installed", r.installed);
}

template <class Io>
void fields(Io& io, Correction& c) {
  io.number("mass", c.mass);
  io.vector("mass_moment", c.mass_moment);
  io.number("upper_volume", c.upper_volume);
  io.number("upper_x", c.upper_x);
  io.number("upper_y", c.upper_y);
  io.number("tank_factor", c.tank_factor);
}

template <class Io>
void fields(Io& io, Boat& b) {
  io.requiredText("name", b.name);
  io.text("notes", b.notes);
  io.text("origin", b.origin);
  io.number("length", b.length);
  io.list("skins", b.skins);
  io.optionalList("openings", b.openings);
  io.list("cylinders", b.cylinders);
  io.optionalObject("tank", b.tank);
  io.optionalObject("ballast", b.ballast);
  io.list("parts", b.parts);
  io.object("marks", b.marks);
  io.objectOr("water", b.water);
  io.objectOr("aims", b.aims);
  std::vector<PlaceRecord> places = placeRecords(b);
  io.optionalList("places", places);
  if (auto fault = readPlaces(places, b)) io.reject(std::move(*fault));
  io.knowParts(b.parts);  // an amount is a volume or a mass by the part's role
  Reading dip;            // in the boat's own water, unless it says otherwise
  dip.water = b.water;
  io.optionalList(dip, "log", b.log);
  io.optionalObject("correction", b.correction);
}

}  // namespace pondtrim::file
