#pragma once
// Model: the boat made ready for solving, built once per edit. Weights, and bodies that a plane can cut.
#include <memory>
#include <optional>
#include <pondtrim/boat.hpp>
#include <pondtrim/hydrostatics.hpp>
#include <pondtrim/result.hpp>
#include <string>
#include <variant>
#include <vector>

namespace pondtrim {

/// What a body or weight belongs to, so that pictures and reports can name it.
enum class Owner { Skin, Cylinder, Part, Correction };
struct Source {
  Owner owner = Owner::Part;
  std::size_t index = 0;  ///< in Boat::skins, cylinders or parts (0 for the correction)
  bool mirror = false;    ///< the one at -y
};

/// A body that pushes water aside. Its cut is that of the geometry times `fill` (a part that fills its shape
/// evenly, see boat.hpp).
struct Displacer {
  Source source;
  std::variant<CylinderSolid, StripSolid, CutMesh> geometry;
  double fill = 1.0;
  Cut whole;  ///< fully under water, fill included
};

struct Weight {
  Source source;
  double mass = 0.0;  ///< [kg]
  Vec3 position{0.0};
};

/// One cell of the ballast tank: a flat-ended cylinder. Its water volume is `scale` x the geometric volume
/// below the level, so that a measured capacity can override the geometry.
struct TankCell {
  CylinderSolid bore;
  double scale = 1.0;
  double capacity = 0.0;  ///< scale x geometric volume [m^3]
};

/// A skin made ready: kept with what it was made from, so that an edit elsewhere need not make it again.
struct SkinBody {
  Skin skin;
  std::shared_ptr<const Mesh> mesh;  ///< also what the view draws
  CutMesh cut;
};

/// No point of a boat lies farther than this from its origin [m] (limits of checkBoat, with room to spare).
inline constexpr double kReachLimit = 100.0;

struct Model {
  std::vector<Displacer> displacers;
  std::vector<Weight> weights;
  std::vector<TankCell> tank_cells;
  std::vector<SkinBody> skins;  ///< one for each Boat::skins
  Marks marks;
  double length = 1.0;

  // Sums over the above.
  double mass = 0.0;            ///< tank empty [kg]
  Vec3 centre_of_gravity{0.0};  ///< tank empty
  double whole_volume = 0.0;    ///< displaced with everything under water [m^3]
  Vec3 whole_centroid{0.0};
  double tank_capacity = 0.0;  ///< [m^3]
};

/// Checks the boat and prepares it. Error: as checkBoat, or a boat without mass or displacement.
/// `previous`, if given, is a model of a boat much like this one (before an edit): skins that have not
/// changed are taken from it instead of being meshed again.
[[nodiscard]] Result<Model> buildModel(const Boat& boat, const Model* previous = nullptr);

/// The skin's surface as drawn and cut: a mesh in the boat frame, fine enough that its area is within 0.1 %.
[[nodiscard]] Mesh meshSkin(const Skin& skin);

/// What one piece displaces by its own numbers [m^3]: `volume`, or for lead mass / density; empty when the
/// shape decides.
[[nodiscard]] std::optional<double> displacedVolume(const Part& part);
/// Volume of the part's shape [m^3]; 0 for a point.
[[nodiscard]] double shapeVolume(const Part& part);

/// Installs a correction: weight and volume that no part of the file accounts for.
void installCorrection(Model& model, const Correction& correction);

/// Puts a finer mesh of the same body in place of what a skin is cut by; a skin that was not weighed then
/// weighs what that one says. `cut`: in the boat frame, with a volume.
void refineSkin(Model& model, std::size_t skin, CutMesh cut);

/// What one body displaces under the plane, its fill included.
[[nodiscard]] Cut cutDisplacer(const Displacer& body, const Plane& plane);
/// Displaced water of the whole boat under the plane.
[[nodiscard]] Cut cutModel(const Model& model, const Plane& plane);

/// Tank water at rest: its surface is level in the world.
struct TankWater {
  double volume = 0.0;         ///< [m^3]
  Vec3 moment{0.0};            ///< integral of p dV [m^4]
  Sym3 stiffness_loss;         ///< sum over cells of P - a a^T / A of the free surface [m^4]
  std::vector<double> levels;  ///< of each cell's surface, as Plane::level [m]
};
/// Water of total volume `fill` shared among the cells in proportion to their capacity.
/// Error: "tank_fill" below 0 or above capacity.
[[nodiscard]] Result<TankWater> settleTank(const Model& model, double fill, const Vec3& up);

}  // namespace pondtrim
