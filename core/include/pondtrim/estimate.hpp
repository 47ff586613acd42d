#pragma once
// From a dozen numbers to a whole boat: what a builder knows before there is a boat, and an estimate for all
// the rest. Shares and sizes are common practice, no source: they are there to be replaced, one by one, by
// what is measured and weighed.
#include <optional>
#include <pondtrim/boat.hpp>
#include <pondtrim/result.hpp>
#include <pondtrim/scale.hpp>
#include <string>

namespace pondtrim {

/// What is known of a boat not yet built. Lengths [m], masses [kg], volumes [m^3], density [kg/m^3].
struct RoughBoat {
  std::string name = "My boat";
  double length = 1.0, breadth = 0.11, height = 0.11;  ///< of the hull, without the sail
  double line_height = 0.085;                          ///< painted line over the keel
  double sail_height = 0.07;                           ///< over the deck
  double sail_showing = 0.03;                          ///< wanted, dived
  double skin_thickness = 0.002;
  double skin_density = 1050;       ///< of its material
  std::optional<double> skin_mass;  ///< weighed; wins over thickness and density
  double cylinder_length = 0.42, cylinder_diameter = 0.08, cylinder_wall = 0.003;
  std::optional<double> cylinder_mass;  ///< weighed; else as acrylic
  std::optional<double>
      tank_capacity;  ///< empty: what takes her from the line to the wanted sail, and a little
  double battery_mass = 0.26;
  Water water;
  bool operator==(const RoughBoat&) const = default;
};

/// The material that stands in a part whose mass nobody has weighed yet.
inline constexpr const char* kEstimate = "estimated, not weighed";
[[nodiscard]] inline bool isEstimate(const Part& part) { return part.material == kEstimate; }

/// The boat: hull, sail, cylinder, tank in its middle, battery; motor, pump, radio, servos, propeller and
/// planes as shares of what the cylinder carries, each marked (isEstimate); and empty places for foam and
/// lead (proposePlaces), for a plan to fill. Error: "start.length", "start.breadth", "start.height",
/// "start.line_height", "start.sail.height", "start.sail_showing", "start.skin.thickness",
/// "start.skin.density", "start.skin.mass", "start.cylinder.length", "start.cylinder.diameter",
/// "start.cylinder.wall_thickness", "start.cylinder.mass", "start.tank.capacity", "start.battery.mass",
/// "water.temperature", "water.salinity".
[[nodiscard]] Result<Boat> estimateBoat(const RoughBoat& rough);

/// The rough boat with the model's sizes; sail, cylinder and battery follow them, skin thickness and water
/// stay, what was weighed or measured of another boat goes.
[[nodiscard]] RoughBoat sizedAs(const ScaledModel& model, RoughBoat rough);

}  // namespace pondtrim
