#pragma once
// Boat: what the boat file says, in SI. Plain values; an edit makes a changed copy, and checkBoat (or
// buildModel) says whether that copy is a boat. Frame and signs: vec.hpp. Lengths [m], masses [kg],
// volumes [m^3], densities [kg/m^3].
#include <optional>
#include <pondtrim/ballast_system.hpp>
#include <pondtrim/condition.hpp>
#include <pondtrim/packed_mesh.hpp>
#include <pondtrim/result.hpp>
#include <pondtrim/vec.hpp>
#include <string>
#include <variant>
#include <vector>

namespace pondtrim {

enum class Axis { X, Y, Z };

// ---- Forms of the free-flooding skin (a thin sheet, wet on both sides) ------------------------------------

/// A long body whose cross-sections are superellipses |y/b|^n + |z/h|^n = 1 of one shape, growing from the
/// tail point to the parallel middle and shrinking to the nose. Along nose and tail the half-height is
/// (1 - t^p)^(1/q) of the full one, t from 0 at the shoulder to 1 at the tip (p = q = 2: an ellipse;
/// q = 1: a point). `*_lift` moves the centre of the narrowing sections: +1 keeps the top line level (the
/// keel rises), -1 keeps the bottom line level, 0 is symmetric.
struct SpindleForm {
  double length = 1.0;
  double breadth = 0.1;
  double height = 0.1;
  double nose_length = 0.2;
  double tail_length = 0.4;
  double nose_power = 2.0, nose_root = 2.0;  ///< p and q of the nose, 1 to 8
  double tail_power = 2.0, tail_root = 1.0;  ///< p and q of the tail, 1 to 8
  double nose_lift = 0.0, tail_lift = 0.0;   ///< -1 to 1
  double section_power = 2.0;                ///< n, 1.2 to 12 (2: ellipse; large: box)

  bool operator==(const SpindleForm&) const = default;
};

/// A sail (fin, conning tower): a streamlined horizontal section that may taper upwards, with a closed top
/// and an open foot. The section is an ellipse whose aft part is drawn out: its greatest breadth lies at
/// `shoulder` of its length from the fore end.
struct SailForm {
  double length = 0.2;     ///< at the foot, along x
  double breadth = 0.04;   ///< at the foot
  double height = 0.1;     ///< foot to top
  double top_scale = 1.0;  ///< length and breadth of the top over those of the foot, 0.1 to 1
  double rake = 0.0;       ///< how far the centre of the top lies aft of the centre of the foot
  double shoulder = 0.35;  ///< 0.1 to 0.9

  bool operator==(const SailForm&) const = default;
};

/// The body of revolution of the DARPA SUBOFF: bow, parallel middle body, afterbody with a small round cap.
/// Groves, Huang and Chang 1989, DTRC/SHD-1298-01, Table 1. The default is the published form; its bow and
/// its tail (afterbody and cap) stretch with the lengths given.
struct SuboffForm {
  double length = 1.0;
  double diameter = 40.0 / 343;
  double nose_length = 80.0 / 343;
  double tail_length = 87.5 / 343;

  bool operator==(const SuboffForm&) const = default;
};

/// The body of revolution of Myring 1976 (Aeronautical Quarterly 27, 186-194): nose and tail by formulas, a
/// cylinder between them. As in the paper, nose_length and tail_length run to the points that the curves aim
/// at; the hull itself ends nose_offset and tail_offset short of them, in small flat discs.
struct MyringForm {
  double diameter = 0.1;
  double nose_length = 0.1;    ///< a
  double middle_length = 0.4;  ///< b
  double tail_length = 0.3;    ///< c
  double nose_offset = 0.0, tail_offset = 0.0;
  double nose_power = 2.0;   ///< n, 1 to 8: 2 is half an ellipse
  double tail_angle = 0.35;  ///< between axis and skin at the tail's point [rad], tangent at most 1.5 d / c

  bool operator==(const MyringForm&) const = default;
};

/// A raised deck or casing laid on the hull, open below: the upper half of a superellipse (power 2: round, 8:
/// flat on top) that shrinks over nose_length and tail_length to points of the foot, by (1 - t^2)^(1/q) as
/// the spindle does.
struct CasingForm {
  double length = 0.5;
  double breadth = 0.04;  ///< at the foot
  double height = 0.02;
  double nose_length = 0.1, tail_length = 0.1;
  double nose_root = 2.0, tail_root = 2.0;  ///< q, 1 to 8
  double section_power = 6.0;               ///< 1.2 to 12

  bool operator==(const CasingForm&) const = default;
};

/// A flat plate: rudder, plane, skeg, or with enough thickness a bar keel. A trapezium whose root lies along
/// x.
struct PlateForm {
  double length = 0.08;      ///< of the root
  double tip_length = 0.05;  ///< the tip is parallel to the root
  double span = 0.05;        ///< from root to tip
  double rake = 0.0;         ///< how far the middle of the tip lies aft of the middle of the root
  double slant = 0.0;        ///< of the span: 0 level to port, pi/2 up, -pi/2 down [rad]
  bool mirrored = false;     ///< a second one at -y; a mass is that of both together

  bool operator==(const PlateForm&) const = default;
};

/// One station of a lines plan: points of the port side from keel to deck.
struct OffsetStation {
  double at_x = 0.0;
  std::vector<double> heights;        ///< not falling
  std::vector<double> half_breadths;  ///< one for each height, 0 or more
  bool operator==(const OffsetStation&) const = default;
};

/// A hull from a table of offsets: stations from aft to fore, faired to a skin (hull.hpp, Fairing). The first
/// and the last may be single points; else the hull ends there in a flat face. Where the lowest or highest
/// point of a station is not on the centreline, bottom or deck is flat there.
struct OffsetsForm {
  std::vector<OffsetStation> stations;
  bool operator==(const OffsetsForm&) const = default;
};

/// A hull from a drawing program's mesh (hull_mesh.hpp). Its frame: x from the aft end of its box, y from the
/// middle of the box to port, z from its bottom.
struct MeshForm {
  Vec3 size{0.1};      ///< of the box: length, breadth, height
  bool solid = false;  ///< displaces all that it encloses, not area x thickness: then it must be closed
  std::shared_ptr<const PackedMesh> mesh;

  bool operator==(const MeshForm& o) const {
    return size == o.size && solid == o.solid && (mesh == o.mesh || (mesh && o.mesh && *mesh == *o.mesh));
  }
};

using SkinForm =
    std::variant<SpindleForm, SailForm, SuboffForm, MyringForm, CasingForm, PlateForm, OffsetsForm, MeshForm>;
/// The form is a solid one.
[[nodiscard]] inline bool isSolid(const SkinForm& form) {
  const auto* mesh = std::get_if<MeshForm>(&form);
  return mesh != nullptr && mesh->solid;
}

/// A piece of the outer hull. Displaces area x thickness. Measured mass wins over area x thickness x density.
/// `position`: hulls (spindle, SUBOFF, Myring): aft end on the axis at mid-height; sail: centre of the foot;
/// casing: aft end of the foot; plate: middle of the root; offsets: the table's origin; mesh:
/// aft end, middle and bottom of its box. A mesh that is solid displaces its volume, and its density counts
/// on that.
struct Skin {
  std::string name;
  SkinForm form = SpindleForm{};
  Vec3 position{0.0};
  double thickness = 0.002;
  std::optional<double> mass;
  std::optional<double> density;
  std::string material;  ///< a label only
  bool operator==(const Skin&) const = default;
};

/// A hole through which a skin floods and its air leaves: limber hole, vent, gap at a hatch.
struct Opening {
  std::string name;
  std::string skin;  ///< the name of the skin that it is in
  Vec3 position{0.0};
  std::optional<double> diameter;
  bool operator==(const Opening&) const = default;
};

// ---- The sealed cylinder and the ballast tank -------------------------------------------------------------

/// A watertight tube with its end caps, axis along x. Displaces its outer volume, domes included.
/// Measured mass wins; else (outer - bore volume) x density.
struct SealedCylinder {
  std::string name;
  Vec3 position{0.0};     ///< aft end of the tube on its axis (domes lie beyond the tube's ends)
  double length = 0.4;    ///< of the tube, caps included, domes not
  double diameter = 0.1;  ///< outside
  double wall_thickness = 0.003;
  double cap_thickness = 0.006;  ///< of each flat end cap, or of each dome
  double fore_dome = 0.0;        ///< height of a half-ellipsoid dome, 0: flat
  double aft_dome = 0.0;
  std::optional<double> mass;
  std::optional<double> density;
  std::string material;
  // Of the tube's material, for strength and depth (strength.hpp, depth.hpp); not needed to float.
  std::optional<double> elastic_modulus;  ///< [Pa]
  std::optional<double> poisson_ratio;    ///< 0 to 0.5
  std::optional<double> strength;         ///< tensile strength or yield stress, the lower [Pa]
  std::optional<double> flexibility;      ///< measured loss of volume under pressure [m^3/Pa]
  bool operator==(const SealedCylinder&) const = default;
};

/// The ballast tank: the bore of a sealed cylinder between two bulkheads at x = aft_end and x = fore_end.
/// Both lie in the bore: clear of flat end caps, which stand inside the tube.
struct BallastTank {
  std::string cylinder;
  double aft_end = 0.0, fore_end = 0.0;  ///< boat-frame x
  std::optional<double> capacity;        ///< measured; overrides the geometric volume
  std::vector<double> bulkheads;         ///< boat-frame x of bulkheads inside, cells fill in proportion
  bool operator==(const BallastTank&) const = default;
};

// ---- Parts ------------------------------------------------------------------------------------------------

struct BoxShape {
  Vec3 size{0.1};  ///< extents along x, y, z
  bool operator==(const BoxShape&) const = default;
};
/// Full cylinder; domes (half-ellipsoids of that height) are added beyond its flat ends.
struct CylinderShape {
  Axis axis = Axis::X;
  double diameter = 0.05;
  double length = 0.1;
  double fore_dome = 0.0;  ///< at the end of larger x, y or z
  double aft_dome = 0.0;   ///< at the end of smaller x, y or z
  bool operator==(const CylinderShape&) const = default;
};
/// Tapered strip along x: a rectangle of aft_size (y, z) at the aft end grows straight to fore_size at the
/// fore end, both centred on the strip's axis.
struct StripShape {
  double length = 0.2;
  double aft_breadth = 0.02, aft_height = 0.02;
  double fore_breadth = 0.02, fore_height = 0.02;
  bool operator==(const StripShape&) const = default;
};
/// A weight whose size does not matter. Displaces nothing.
struct PointShape {
  bool operator==(const PointShape&) const = default;
};
using Shape = std::variant<BoxShape, CylinderShape, StripShape, PointShape>;

enum class Role {
  Solid,       ///< wet solid: motor, servo, rudder, wet battery
  Foam,        ///< closed-cell foam
  Lead,        ///< lead or another ballast weight outside the cylinder
  Dry,         ///< inside a sealed cylinder: has weight, displaces nothing
  TrappedAir,  ///< air caught in the free-flooding space: displaces, weighs nothing
};

/// Anything that is not skin, sealed cylinder or tank. `position` is the centre of the shape.
/// What it displaces: `volume` if given; else, for lead with mass and density, mass / density; else the
/// volume of the shape (a Dry item and a point displace nothing). A volume below the shape's fills the shape
/// evenly; a larger one is an error. What it weighs: `mass` if given, else density x displaced volume; a dry
/// item and a point need a mass. `mirrored`: a second one at -y; mass and volume are those of ONE piece.
struct Part {
  std::string name;
  Role role = Role::Solid;
  Shape shape = BoxShape{};
  Vec3 position{0.0};
  std::string inside;  ///< name of the sealed cylinder; Dry only
  bool mirrored = false;
  std::optional<double> mass;
  std::optional<double> volume;
  std::optional<double> density;
  std::string material;
  std::optional<double> bulk_modulus;  ///< foam: pressure over the share of volume lost [Pa] (depth.hpp)
  std::optional<double> water_uptake;  ///< foam: water taken up for good, a share of its volume, 0 to 1
  bool operator==(const Part&) const = default;
};

// ---- Marks ------------------------------------------------------------------------------------------------

/// Where the builder reads the waterline. The painted line is level at `line_height` above the baseline.
struct Marks {
  double bow_x = 0.9, stern_x = 0.1;  ///< stations of the two marks; bow_x > stern_x
  double line_height = 0.06;
  double deck_height = 0.1;  ///< top of the hull without the sail: with both marks deeper she floats awash
  Vec3 sail_top{0.5, 0.0, 0.15};
  bool operator==(const Marks&) const = default;
};

/// A further condition that a plan must also put right, within tolerances: other water, another battery.
struct FurtherAim {
  std::string name;
  bool tank_full = false;      ///< else empty
  std::optional<Water> water;  ///< instead of the boat's own
  std::string part;            ///< a part that weighs `mass` in this condition; empty: none
  double mass = 0.0;           ///< of one piece
  /// Marks off the line; tank full: sail top off the height that is wanted, or that net_buoyancy gives it in
  /// the boat's own water. 0.001 or more.
  double mark_tolerance = 0.005;
  double trim_tolerance = 0.02;  ///< [rad], 0.001 or more
  bool operator==(const FurtherAim&) const = default;
};

/// What the builder wants: tank empty, she floats level and upright at the painted line; tank full, she lies
/// level with a little of the sail showing. Used to judge and to plan.
struct Aims {
  double sail_showing = 0.03;  ///< height of the sail top above water with the tank full
  /// When given, it decides instead of sail_showing: buoyancy left over with all under water [kg].
  std::optional<double> net_buoyancy;
  double least_gm = 0.005;  ///< floor on GM, tank empty
  double least_bg = 0.005;  ///< floor on BG with all under water, tank full
  std::vector<FurtherAim> further;
  bool operator==(const Aims&) const = default;
};

// ---- Places: what a plan may change -----------------------------------------------------------------------

/// A movable weight's track; its part's position.x is what changes, in steps of Place::step [m].
struct Rail {
  double from_x = 0.0, to_x = 0.0;
  bool operator==(const Rail&) const = default;
};

/// A part whose amount a plan or a pond change may set: volume [m^3] of foam, mass [kg] of lead or a dry
/// weight, of one piece; or, with a rail, its x. A place with nothing in it yet is a part of no volume or
/// mass. The amount fills the part's shape evenly, so foam needs a density (or a mass with its volume), lead
/// with a shape needs a density, and what has no shape or density needs `most`.
struct Place {
  std::string part;
  std::optional<double> least, most;  ///< default: 0 and what the shape holds
  double step = 0.0;                  ///< of foam [m^3], lead [kg] or along the rail [m]; 0: any amount
  std::optional<Rail> rail;           ///< lead or dry; then least and most are not given
  bool operator==(const Place&) const = default;
};

// ---- The pond log -----------------------------------------------------------------------------------------

/// One number read at the pond, with its spread (one standard deviation).
struct Measured {
  double value = 0.0;
  double spread = 0.0;
  bool operator==(const Measured&) const = default;
};

// Spreads when none is given: ruler, spring scale, clinometer. Common practice, no source.
inline constexpr double kRulerSpread = 0.0015, kScaleSpread = 0.003, kClinometerSpread = 0.5 * kPi / 180;

/// How much of a part was in the boat: volume of foam [m^3], mass of anything else [kg], of one piece; and
/// for a part on a rail where its middle was [m].
struct Installed {
  std::string part;
  double amount = 0.0;
  std::optional<double> at_x{};
  bool operator==(const Installed&) const = default;
};

enum class TankState { Empty, Full, Measured };

/// One dip. Any subset of the numbers may be there. When she sank and hung on a spring scale, all under
/// water, `pull` is what one hook carried (then trim and heel are those in which she hung from it), or
/// `bow_pull` and `stern_pull` what two hooks at bow_hook_x and stern_hook_x carried while she lay level.
struct Reading {
  std::string date;  ///< as written by the person, ISO 8601 by the app
  std::string note;
  bool used = true;
  TankState tank = TankState::Empty;
  double tank_fill = 0.0;  ///< [m^3], with TankState::Measured
  Water water;
  std::optional<Measured> bow, stern;    ///< painted line above (+) or below (-) the water at the marks [m]
  std::optional<Measured> sail_showing;  ///< [m]
  std::optional<Measured> trim, heel;    ///< [rad], bow up and to starboard +
  std::optional<Measured> pull, bow_pull, stern_pull;  ///< [kg]
  double bow_hook_x = 0.0, stern_hook_x = 0.0;
  /// Lead laid on for this reading only, to press a flooded boat down that floats too high to tell her trim.
  double laid_mass = 0.0;  ///< [kg]
  /// Where the one hook held (default: the sail's top) or the lead lay (default: the deck below it), over the
  /// centreline [m].
  std::optional<double> held_x, held_z;
  /// Inclining: a weight on board moved to port (+) by `shifted_by` [m] for this reading only.
  double shifted_mass = 0.0, shifted_by = 0.0;
  std::vector<Installed> installed;  ///< what may have changed since
  bool operator==(const Reading&) const = default;
};

/// What the pond log found missing in the file, about the point P in the middle between the marks at the
/// painted line (see pond_log.hpp).
struct Correction {
  double mass = 0.0;                    ///< [kg]
  Vec3 mass_moment{0.0};                ///< [kg m]
  double upper_volume = 0.0;            ///< displacing volume between the painted line and the deck [m^3]
  double upper_x = 0.0, upper_y = 0.0;  ///< its moments [m^4]
  double tank_factor = 1.0;             ///< tank capacity over the file's
  bool operator==(const Correction&) const = default;
};

struct Boat {
  std::string name;
  std::string notes;
  std::string origin;   ///< where a boat that came from someone else came from, a label only
  double length = 1.0;  ///< hull length over all, for scale and for checking positions
  std::vector<Skin> skins;
  std::vector<Opening> openings;
  std::vector<SealedCylinder> cylinders;
  std::optional<BallastTank> tank;
  std::optional<BallastSystem> ballast;
  std::vector<Part> parts;
  Marks marks;
  Water water;
  Aims aims;
  std::vector<Place> places;
  std::vector<Reading> log;
  std::optional<Correction> correction;
  bool operator==(const Boat&) const = default;
};

/// The point about which a Correction's moments are taken.
[[nodiscard]] Vec3 correctionPoint(const Marks& marks);

/// The first fault in the boat's numbers or names, if any: values outside their range, not finite, a tank
/// outside its cylinder, a dry item in a cylinder that does not exist, a name used twice...
/// Field paths: "name", "length", "skins[i].form.breadth", "cylinders[i].diameter", "tank.aft_end",
/// "ballast.pump.free_flow",
/// "parts[i].position.x", "marks.bow_x", "water.temperature", "aims.sail_showing", "log[i].bow",
/// "log[i].bow_spread", "log[i].installed[j].volume" (foam; else "mass"), "correction.tank_factor".
[[nodiscard]] Result<void> checkBoat(const Boat& boat);

}  // namespace pondtrim
