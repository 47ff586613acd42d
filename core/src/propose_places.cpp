// Sensible places for a boat that has none: blocks that fit inside the hull skin and clear of the cylinders.
#include <algorithm>
#include <array>
#include <cmath>
#include <glm/common.hpp>
#include <pondtrim/plan.hpp>

#include "hull_section.hpp"
#include "place_amount.hpp"

namespace pondtrim {

namespace {

// Common practice, no source: what a hand can cut and glue.
constexpr double kClear = 0.002, kFromLine = 0.001;  // from skin and cylinder [m]
constexpr double kThinnestFoam = 0.008, kThinnestLead = 0.003;
constexpr double kFoamDensity = 33;  // extruded polystyrene [kg/m^3], presets/materials.json
constexpr double kLeadDensity = 11340;
constexpr double kFoamStep = 1e-5, kLeadStep = 0.005;

/// A block, and perhaps its mirror image.
struct Block {
  double from_x = 0, to_x = 0, from_z = 0, to_z = 0;
  double from_y = 0, to_y = 0;  ///< from_y > 0: two blocks, port and starboard; else one across
  [[nodiscard]] double volume() const {
    return (to_x - from_x) * (to_z - from_z) * std::max(0.0, to_y - from_y) * 2;
  }
};

/// Where along the hull a block's middle may lie, in shares of its length.
struct Stretch {
  const char* name;
  double from, to;
};

class HullRoom {
 public:
  HullRoom(const Boat& boat, const Skin& hull)
      : boat_(boat),
        hull_(hull),
        sections_(hull.form),
        box_(hullBox(hull.form)),
        length_(box_.high.x - box_.low.x) {}

  [[nodiscard]] double station(double share) const { return hull_.position.x + box_.low.x + share * length_; }
  [[nodiscard]] double length() const { return length_; }
  [[nodiscard]] double bottom() const { return hull_.position.z + box_.low.z; }
  [[nodiscard]] double top() const { return hull_.position.z + box_.high.z; }

  /// The block of these stations and heights as broad as the hull lets it be.
  [[nodiscard]] Block widest(double from_x, double to_x, double from_z, double to_z) const {
    Block b{from_x, to_x, from_z, to_z, 0, kNone};
    const double gap = hull_.thickness / 2 + kClear;
    for (const double x : {from_x, to_x}) {
      for (const double z : {from_z, to_z})
        b.to_y = std::min(b.to_y, sections_.halfBreadth(x - hull_.position.x, z - hull_.position.z) - gap);
    }
    for (const SealedCylinder& c : boat_.cylinders) b.from_y = std::max(b.from_y, cylinderReach(c, b));
    return b;
  }

  /// The largest block within a band of heights.
  [[nodiscard]] Block largest(double from_x, double to_x, double low, double high) const {
    constexpr int kParts = 8;
    Block best;
    for (int i = 0; i < kParts; ++i) {
      for (int j = i + 1; j <= kParts; ++j) {
        const double height = high - low;
        const Block b = widest(from_x, to_x, low + height * i / kParts, low + height * j / kParts);
        const bool thick = b.to_y - b.from_y > kThinnestFoam && b.to_z - b.from_z > kThinnestFoam;
        if (thick && b.volume() > best.volume()) best = b;
      }
    }
    return best;
  }

  /// The block with the most volume times lever within a stretch of the boat and a band of heights.
  [[nodiscard]] Block strongest(const Stretch& stretch, double low, double high) const {
    const double half = 0.06 * length_;
    Block best;
    double most = 0;
    for (double share = stretch.from; share <= stretch.to + 1e-9; share += 0.02) {
      const Block b = largest(station(share) - half, station(share) + half, low, high);
      const double lever = std::max(std::abs(share - 0.5), 0.1);
      if (b.volume() * lever <= most) continue;
      most = b.volume() * lever;
      best = b;
    }
    return best;
  }

 private:
  static constexpr double kNone = 1e3;

  /// How far to the side the cylinder reaches at the block's stations and heights; 0: clear of it.
  [[nodiscard]] static double cylinderReach(const SealedCylinder& c, const Block& b) {
    const double aft = c.position.x - c.aft_dome - kClear,
                 fore = c.position.x + c.length + c.fore_dome + kClear;
    if (b.to_x <= aft || b.from_x >= fore) return 0;
    const double radius = c.diameter / 2 + kClear;
    const double nearest = std::clamp(c.position.z, b.from_z, b.to_z) - c.position.z;
    if (std::abs(nearest) >= radius) return 0;
    return std::abs(c.position.y) + std::sqrt(radius * radius - nearest * nearest);
  }

  const Boat& boat_;
  const Skin& hull_;
  HullSections sections_;
  HullBox box_;
  double length_;
};

bool nameTaken(const Boat& boat, const std::string& name) {
  const auto is = [&](const auto& thing) { return thing.name == name; };
  return std::any_of(boat.parts.begin(), boat.parts.end(), is) ||
         std::any_of(boat.skins.begin(), boat.skins.end(), is) ||
         std::any_of(boat.cylinders.begin(), boat.cylinders.end(), is);
}

/// Half the size of the box around the part.
Vec3 halfSize(const Part& part) {
  if (const auto* box = std::get_if<BoxShape>(&part.shape)) return box->size / 2.0;
  if (const auto* strip = std::get_if<StripShape>(&part.shape))
    return Vec3(strip->length, std::max(strip->aft_breadth, strip->fore_breadth),
                std::max(strip->aft_height, strip->fore_height)) /
           2.0;
  const auto* tube = std::get_if<CylinderShape>(&part.shape);
  if (tube == nullptr) return Vec3(0.0);
  const double along = tube->length / 2 + std::max(tube->fore_dome, tube->aft_dome),
               across = tube->diameter / 2;
  return {tube->axis == Axis::X ? along : across, tube->axis == Axis::Y ? along : across,
          tube->axis == Axis::Z ? along : across};
}

/// Another foam or lead piece is there already.
bool occupied(const Boat& boat, const Part& part) {
  const Vec3 half = halfSize(part);
  return std::any_of(boat.parts.begin(), boat.parts.end(), [&](const Part& other) {
    if (other.role != Role::Foam && other.role != Role::Lead) return false;
    const Vec3 reach = half + halfSize(other);
    const auto meets = [&](double y) {
      const Vec3 off = glm::abs(other.position * Vec3(1, y, 1) - part.position);
      return off.x < reach.x && off.y < reach.y && off.z < reach.z;
    };
    return meets(1) || (part.mirrored || other.mirrored ? meets(-1) : false);
  });
}

/// Adds the empty part and its place, unless something is there or that would not be a sound boat.
void add(Boat& boat, Part part, double step) {
  if (occupied(boat, part)) return;
  const std::string name = part.name;
  for (int n = 2; nameTaken(boat, part.name); ++n) part.name = name + " " + std::to_string(n);
  Boat with = boat;
  with.places.push_back({part.name, std::nullopt, std::nullopt, step, std::nullopt});
  with.parts.push_back(std::move(part));
  if (checkBoat(with)) boat = std::move(with);
}

Part emptyPart(const std::string& name, Role role, const Vec3& size, const Vec3& position) {
  Part p;
  p.name = name;
  p.role = role;
  p.shape = BoxShape{size};
  p.position = position;
  p.density = role == Role::Foam ? kFoamDensity : kLeadDensity;
  if (role == Role::Foam) p.volume = 0.0;
  if (role == Role::Lead) p.mass = 0.0;
  p.material = role == Role::Foam ? "extruded polystyrene foam" : "lead";
  return p;
}

void addFoam(Boat& boat, const std::string& name, const Block& b) {
  if (b.volume() <= 0) return;
  const bool pair = b.from_y > 0;
  const double breadth = pair ? b.to_y - b.from_y : 2 * b.to_y;
  Part p =
      emptyPart(name, Role::Foam, Vec3(b.to_x - b.from_x, breadth, b.to_z - b.from_z),
                Vec3((b.from_x + b.to_x) / 2, pair ? (b.from_y + b.to_y) / 2 : 0.0, (b.from_z + b.to_z) / 2));
  p.mirrored = pair;
  add(boat, std::move(p), pair ? kFoamStep / 2 : kFoamStep);
}

/// As low as a strip of this breadth fits.
void addKeelLead(Boat& boat, const HullRoom& room, const std::string& name, double share) {
  const double from = room.station(share) - 0.05 * room.length(), to = from + 0.1 * room.length();
  constexpr double kHeight = 0.006, kHalfBreadth = 0.006;
  for (double z = room.bottom() + kClear; z < room.bottom() + 0.3 * (room.top() - room.bottom());
       z += 0.001) {
    const Block b = room.widest(from, to, z, z + kHeight);
    if (b.from_y > 0 || b.to_y < kHalfBreadth) continue;
    const double breadth = 2 * std::min(b.to_y, 0.015);
    add(boat,
        emptyPart(name, Role::Lead, Vec3(to - from, breadth, kHeight),
                  Vec3((from + to) / 2, 0, z + kHeight / 2)),
        kLeadStep);
    return;
  }
}

/// One to either side, against the skin, for heel.
void addSideLead(Boat& boat, const HullRoom& room) {
  const double from = room.station(0.5) - 0.04 * room.length(), to = from + 0.08 * room.length();
  constexpr double kHeight = 0.012, kBreadth = 0.006;
  for (double share = 0.15; share < 0.5; share += 0.05) {
    const double z = room.bottom() + share * (room.top() - room.bottom());
    const Block b = room.widest(from, to, z, z + kHeight);
    if (b.to_y - b.from_y < kBreadth + kThinnestLead || b.to_y < 2 * kBreadth) continue;
    for (const auto& [name, side] : {std::pair{"port side lead", 1.0}, {"starboard side lead", -1.0}}) {
      add(boat,
          emptyPart(name, Role::Lead, Vec3(to - from, kBreadth, kHeight),
                    Vec3((from + to) / 2, side * (b.to_y - kBreadth / 2), z + kHeight / 2)),
          kLeadStep);
    }
    return;
  }
}

void addPresentParts(Boat& boat) {
  for (const Part& part : std::vector<Part>(boat.parts)) {
    if (part.role != Role::Foam && part.role != Role::Lead) continue;
    Boat with = boat;
    with.places.push_back({part.name, std::nullopt, std::nullopt,
                           part.role == Role::Foam ? kFoamStep / (part.mirrored ? 2 : 1) : kLeadStep,
                           std::nullopt});
    if (checkBoat(with)) boat = std::move(with);
  }
}

/// The longest body of revolution or its like: the hull.
const Skin* hullOf(const Boat& boat) {
  const Skin* hull = nullptr;
  double longest = 0;
  for (const Skin& s : boat.skins) {
    if (hullSize(s.form).x <= longest) continue;
    longest = hullSize(s.form).x;
    hull = &s;
  }
  return hull;
}

}  // namespace

Boat proposePlaces(const Boat& boat) {
  Boat out = boat;
  addPresentParts(out);
  const Skin* hull = hullOf(boat);
  if (hull == nullptr) return out;
  const HullRoom room(boat, *hull);
  struct Station {
    const char* name;
    double share;
  };
  const double line = boat.marks.line_height, top = std::min(room.top(), boat.marks.deck_height);
  for (const Stretch& s : {Stretch{"bow", 0.70, 0.90}, {"midships", 0.42, 0.58}, {"stern", 0.12, 0.34}}) {
    addFoam(out, std::string(s.name) + " foam below the line",
            room.strongest(s, room.bottom(), line - kFromLine));
    addFoam(out, std::string(s.name) + " foam above the line", room.strongest(s, line + kFromLine, top));
  }
  for (const Station& s : {Station{"fore", 0.72}, {"midships", 0.5}, {"aft", 0.3}})
    addKeelLead(out, room, std::string("keel lead ") + s.name, s.share);
  addSideLead(out, room);
  return out;
}

}  // namespace pondtrim
