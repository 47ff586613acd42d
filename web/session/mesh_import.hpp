#pragma once
// A hull drawn elsewhere (STL, OBJ) on its way from a file into the boat: read, checked and thinned in steps
// between frames, then turned, scaled and placed as the person wants it. The boat stays as she is until then.
#include <array>
#include <optional>
#include <pondtrim/file/mesh_file.hpp>
#include <pondtrim/hull_mesh.hpp>
#include <pondtrim/thin_mesh.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "session/drawn_trial.hpp"
#include "session/quantities.hpp"

namespace pondtrim {

struct MeshUnit {
  const char* id;
  const char* label;
  double metres;
};
inline constexpr std::array<MeshUnit, 4> kMeshUnits{
    {{"mm", "mm", 0.001}, {"cm", "cm", 0.01}, {"m", "m", 1.0}, {"inch", "inch", 0.0254}}};

[[nodiscard]] int axisOf(Facing facing);     ///< 0 to 2
[[nodiscard]] bool pointsUp(Facing facing);  ///< along the axis, not against it

/// What a boat keeps of a mesh: half of what its file holds, so that a phone still solves her at every touch.
inline constexpr std::size_t kKeptTriangles = 20'000;

/// How the person wants the file's body to lie in the boat.
struct MeshChoices {
  std::size_t unit = 0;  ///< of kMeshUnits
  double scale = 1.0;    ///< on top of it
  Facing forward = Facing::PlusX, up = Facing::PlusZ;
  bool mirrored = false;
  bool solid = false;
  double thickness = 0.002;             ///< of a skin [m]
  bool as_in_file = false;              ///< the place is where the file has it
  Vec3 position{0.0};                   ///< else aft end, middle and bottom of the body's box [m]
  std::optional<std::size_t> replaces;  ///< the skin that it comes in place of; empty: a piece more
};

class MeshImport {
 public:
  enum class Stage { None, Loading, Reading, Checking, Thinning, Ready };

  /// A file of so many bytes is to come. Error: more than are read, or than there is memory for.
  Result<void> begin(std::string name, std::size_t bytes);
  /// The next of its bytes.
  void add(std::string_view bytes);
  /// Whether there is work to do.
  [[nodiscard]] bool owes() const;
  /// Does the next piece of it, a fraction of a second even with a million triangles. `boat`: from which
  /// first guesses are made. Error: the file is no mesh; there is no import any more.
  Result<void> work(const Boat& boat);
  void drop() { *this = {}; }

  [[nodiscard]] Stage stage() const { return stage_; }
  [[nodiscard]] double share() const;  ///< of loading and work done so far, 0 to 1
  [[nodiscard]] const std::string& name() const { return name_; }

  // ---- Once it is ready.
  [[nodiscard]] file::MeshFormat format() const { return format_; }
  [[nodiscard]] const MeshFindings& found() const { return mended_.found; }
  [[nodiscard]] const MeshRepair& done() const { return mended_.done; }
  /// What the boat keeps of it, in the file's unit and axes.
  [[nodiscard]] const ThinnedMesh& kept() const { return kept_; }
  /// The same with few enough triangles to be drawn as a small picture.
  [[nodiscard]] const Mesh& sketch() const { return sketch_; }

  [[nodiscard]] const MeshChoices& choices() const { return choices_; }
  // Each of these ends the trial below.
  void setUnit(std::size_t unit);
  /// The other axis moves out of the way.
  void setForward(Facing forward);
  void setUp(Facing up);
  void setMirrored(bool mirrored) { changed().mirrored = mirrored; }
  void setSolid(bool solid) { changed().solid = solid; }
  void setAsInFile(bool as_in_file) { changed().as_in_file = as_in_file; }
  /// The place follows to where that piece is. Empty: aft end and baseline of the boat.
  void setReplaces(const Boat& boat, std::optional<std::size_t> skin);
  /// Error: "mesh.length", "mesh.thickness": not above 0 (the boat's limits are the core's to say).
  Result<void> setLength(double length);
  Result<void> setThickness(double thickness);
  void setPosition(int axis, double value);

  /// Length, breadth and height in the boat [m]; with another of kMeshUnits, and no scale.
  [[nodiscard]] Vec3 size() const;
  [[nodiscard]] Vec3 sizeIn(std::size_t unit) const;
  [[nodiscard]] double metres() const;  ///< in one of the file's units
  /// Aft end, middle and bottom of its box in the boat [m].
  [[nodiscard]] Vec3 position() const;
  /// A point of the file in the boat's frame [m].
  [[nodiscard]] Vec3 inBoat(const Vec3& p) const;

  /// The boat with the body in her. Error: as packMesh; whether the numbers make a boat is the core's to say.
  [[nodiscard]] Result<Boat> boatWith(const Boat& boat) const;

  /// Begins to float the boat with all triangles of the drawing; `work` goes on with it. Error: as boatWith,
  /// or there is not enough memory.
  Result<void> tryDrawn(const Boat& boat);
  void endTrial() { trial_.reset(); }
  [[nodiscard]] const std::optional<DrawnTrial>& trial() const { return trial_; }

 private:
  MeshChoices& changed();
  [[nodiscard]] Mesh drawnInBoat() const;
  void guess(const Boat& boat);
  [[nodiscard]] Vec3 turned(const Vec3& p) const;
  /// Aft end, middle and bottom of the turned body's box, in the file's unit.
  [[nodiscard]] Vec3 corner() const;

  Stage stage_ = Stage::None;
  std::string name_, bytes_;
  std::size_t size_ = 0;
  std::optional<file::MeshReader> reader_;
  std::optional<MeshMender> mender_;
  std::optional<MeshThinner> thinner_;
  std::size_t most_ = kKeptTriangles;
  file::MeshFormat format_ = file::MeshFormat::BinaryStl;
  MendedMesh mended_;
  ThinnedMesh kept_;
  Mesh sketch_;
  MeshChoices choices_;
  std::optional<DrawnTrial> trial_;
};

/// "Of 998,000 triangles ..." How far what is kept is from what was drawn.
[[nodiscard]] std::string thinnedSentence(const MeshImport& import, const UnitSet& units);
/// "912 × 104 × 121 mm"
[[nodiscard]] std::string sizeWords(const Vec3& size, const UnitSet& units);

}  // namespace pondtrim
