#include "session/mesh_import.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <pondtrim/hull.hpp>

#include "session/edits.hpp"
#include "session/structure.hpp"

namespace pondtrim {
namespace {

constexpr std::size_t kSketchTriangles = 1500;
constexpr std::size_t kReadAtOnce = std::size_t{8} << 20;  // bytes: some 50 ms
// A triangle's share of a tree of stored sums, with the copy that it is made from.
constexpr std::size_t kTrialBytes = 300;
// Of all the work, as measured with a million triangles; thinning takes the rest.
constexpr double kLoading = 0.1, kReading = 0.1, kChecking = 0.25;

Vec3 directionOf(Facing facing) {
  Vec3 out(0.0);
  out[axisOf(facing)] = pointsUp(facing) ? 1 : -1;
  return out;
}

/// A page that asks for more memory than there is ends at once, so it is asked for on trial first.
bool hasRoom(std::size_t bytes) {
  // Volatile: a compiler may leave out an allocation that is only looked at, as if there were always room.
  void* volatile trial =
      std::malloc(bytes);  // NOLINT(cppcoreguidelines-no-malloc): new would end the program
  const bool there = trial != nullptr;
  std::free(trial);  // NOLINT(cppcoreguidelines-no-malloc)
  return there;
}

Error tooSmall(const char* field, const char* words) {
  return {field, "0", "more than 0", "", std::string(words) + " must be more than 0."};
}

std::optional<std::size_t> longestHull(const Boat& boat) {
  std::optional<std::size_t> found;
  double longest = 0;
  for (std::size_t i = 0; i < boat.skins.size(); ++i) {
    const double length = hullSize(boat.skins[i].form).x;
    if (length > longest) longest = length, found = i;
  }
  return found;
}

}  // namespace

int axisOf(Facing facing) { return static_cast<int>(facing) / 2; }
bool pointsUp(Facing facing) { return static_cast<int>(facing) % 2 == 0; }

// ---- From bytes to a thinned mesh -------------------------------------------------------------------------

Result<void> MeshImport::begin(std::string name, std::size_t bytes) {
  drop();
  if (bytes > file::kMostMeshBytes) return fail(file::tooManyMeshBytes());
  if (!hasRoom(3 * bytes))  // the bytes, and about twice as much for what is read from them
    return fail({"file", std::to_string(bytes >> 20) + " MiB", "less", "",
                 "there is not enough memory here for a file of " + std::to_string(bytes >> 20) +
                     " MiB; let the drawing program write fewer triangles."});
  name_ = std::move(name);
  size_ = bytes;
  bytes_.reserve(bytes);
  stage_ = Stage::Loading;
  if (bytes == 0) add({});
  return {};
}

void MeshImport::add(std::string_view bytes) {
  if (stage_ != Stage::Loading) return;
  bytes_ += bytes.substr(0, size_ - bytes_.size());
  if (bytes_.size() < size_) return;
  reader_.emplace(std::move(bytes_));
  bytes_ = {};
  stage_ = Stage::Reading;
}

bool MeshImport::owes() const {
  return stage_ == Stage::Reading || stage_ == Stage::Checking || stage_ == Stage::Thinning ||
         (trial_ && trial_->owes());
}

double MeshImport::share() const {
  switch (stage_) {
    case Stage::None:
      return 0;
    case Stage::Loading:
      return kLoading * double(bytes_.size()) / double(std::max<std::size_t>(1, size_));
    case Stage::Reading:
      return kLoading + kReading * reader_->share();
    case Stage::Checking:
      return kLoading + kReading + kChecking * mender_->share();
    case Stage::Thinning: {
      const double before = kLoading + kReading + kChecking;
      return before + (1 - before) * thinner_->share();
    }
    case Stage::Ready:
      break;
  }
  return 1;
}

Result<void> MeshImport::work(const Boat& boat) {
  if (stage_ == Stage::Reading) {
    if (reader_->step(kReadAtOnce)) return {};
    auto read = reader_->take();
    if (!read) {
      drop();
      return fail(read.error());
    }
    format_ = read->format;
    reader_.reset();
    mender_.emplace(std::move(read->mesh));
    stage_ = Stage::Checking;
  } else if (stage_ == Stage::Checking) {
    if (mender_->step()) return {};
    mended_ = mender_->take();
    mender_.reset();
    if (mended_.found.triangles == 0) {
      drop();
      return fail({"file", "no area", "a surface", "", "no triangle in it has any area."});
    }
    thinner_.emplace(mended_.mesh, most_);
    stage_ = Stage::Thinning;
  } else if (stage_ == Stage::Thinning) {
    if (thinner_->step()) return {};
    kept_ = thinner_->take();
    if (kept_.mesh.vertices.size() > kMostPackedVertices) {  // loose triangles: many corners for few faces
      most_ /= 2;
      thinner_.emplace(mended_.mesh, most_);
      return {};
    }
    thinner_.reset();
    sketch_ = thinMesh(kept_.mesh, kSketchTriangles).mesh;
    guess(boat);
    stage_ = Stage::Ready;
  } else if (trial_) {
    if (auto done = trial_->work(); !done) {
      endTrial();
      return done;
    }
  }
  return {};
}

// ---- How it lies in the boat ------------------------------------------------------------------------------

/// The longest way is lengthways; up is the file's z if it can be; the unit is the one that makes her about
/// as long as the boat in hand.
void MeshImport::guess(const Boat& boat) {
  const Vec3 extent = found().high - found().low;
  const int longest = extent.x >= extent.y && extent.x >= extent.z ? 0 : extent.y >= extent.z ? 1 : 2;
  choices_ = {};
  choices_.forward = static_cast<Facing>(2 * longest);
  choices_.up = longest == 2 ? Facing::PlusY : Facing::PlusZ;
  const auto off = [&](const MeshUnit& u) {
    return std::abs(std::log(extent[longest] * u.metres / boat.length));
  };
  const auto nearest = std::min_element(kMeshUnits.begin(), kMeshUnits.end(),
                                        [&](const auto& a, const auto& b) { return off(a) < off(b); });
  choices_.unit = std::size_t(nearest - kMeshUnits.begin());
  setReplaces(boat, longestHull(boat));
}

MeshChoices& MeshImport::changed() {
  endTrial();
  return choices_;
}

void MeshImport::setUnit(std::size_t unit) {
  changed().unit = unit;
  choices_.scale = 1;
}

void MeshImport::setForward(Facing forward) {
  changed().forward = forward;
  if (axisOf(choices_.up) == axisOf(forward))
    choices_.up = axisOf(forward) == 2 ? Facing::PlusY : Facing::PlusZ;
}

void MeshImport::setUp(Facing up) {
  changed().up = up;
  if (axisOf(choices_.forward) == axisOf(up))
    choices_.forward = axisOf(up) == 0 ? Facing::PlusY : Facing::PlusX;
}

void MeshImport::setReplaces(const Boat& boat, std::optional<std::size_t> skin) {
  changed().replaces = skin;
  choices_.position = Vec3(0.0);
  choices_.as_in_file = false;
  if (!skin) return;
  const Skin& old = boat.skins[*skin];
  choices_.thickness = old.thickness;
  const HullBox box = hullBox(old.form);
  choices_.position = old.position + Vec3(box.low.x, 0, box.low.z);
}

Result<void> MeshImport::setLength(double length) {
  if (!(length > 0)) return fail(tooSmall("mesh.length", "The length"));
  changed().scale *= length / size().x;
  return {};
}

Result<void> MeshImport::setThickness(double thickness) {
  if (!(thickness > 0)) return fail(tooSmall("mesh.thickness", "The thickness"));
  changed().thickness = thickness;
  return {};
}

void MeshImport::setPosition(int axis, double value) {
  changed().position = position();
  choices_.as_in_file = false;
  choices_.position[axis] = value;
}

double MeshImport::metres() const { return kMeshUnits[choices_.unit].metres * choices_.scale; }

/// Into the boat's axes, still in the file's unit.
Vec3 MeshImport::turned(const Vec3& p) const {
  const Vec3 x = directionOf(choices_.forward), z = directionOf(choices_.up);
  const Vec3 y = glm::cross(z, x) * (choices_.mirrored ? -1.0 : 1.0);
  return {glm::dot(p, x), glm::dot(p, y), glm::dot(p, z)};
}

Vec3 MeshImport::corner() const {
  const Vec3 a = turned(found().low), b = turned(found().high), low = glm::min(a, b);
  return {low.x, (a.y + b.y) / 2, low.z};
}

Vec3 MeshImport::size() const { return glm::abs(turned(found().high - found().low)) * metres(); }
Vec3 MeshImport::sizeIn(std::size_t unit) const {
  return glm::abs(turned(found().high - found().low)) * kMeshUnits[unit].metres;
}

Vec3 MeshImport::position() const { return choices_.as_in_file ? corner() * metres() : choices_.position; }

Vec3 MeshImport::inBoat(const Vec3& p) const { return (turned(p) - corner()) * metres() + position(); }

Result<Boat> MeshImport::boatWith(const Boat& boat) const {
  auto form = packMesh(kept_.mesh, {metres(), choices_.forward, choices_.up, choices_.mirrored});
  if (!form) return fail(form.error());
  form->solid = choices_.solid;
  Boat changed = boat;
  const bool replaces = choices_.replaces && *choices_.replaces < boat.skins.size();
  if (!replaces) changed = withNewSkin(boat, NewSkin::Spindle);
  Skin& skin = replaces ? changed.skins[*choices_.replaces] : changed.skins.back();
  skin.form = std::move(*form);
  // Thinning may have taken a little off the ends: what is left stays where it was drawn.
  Vec3 low(1e300), high(-1e300);
  for (const Vec3& v : kept_.mesh.vertices) {
    low = glm::min(low, inBoat(v));
    high = glm::max(high, inBoat(v));
  }
  skin.position = {low.x, (low.y + high.y) / 2, low.z};
  if (!choices_.solid) skin.thickness = choices_.thickness;
  return changed;
}

// ---- With all that was drawn ------------------------------------------------------------------------------

Mesh MeshImport::drawnInBoat() const {
  Mesh out = mended_.mesh;
  for (Vec3& v : out.vertices) v = inBoat(v);
  if (choices_.mirrored)
    for (std::size_t i = 0; i + 2 < out.triangles.size(); i += 3)
      std::swap(out.triangles[i], out.triangles[i + 1]);
  return out;
}

Result<void> MeshImport::tryDrawn(const Boat& boat) {
  auto kept = boatWith(boat);
  if (!kept) return fail(kept.error());
  if (auto ok = checkBoat(*kept); !ok) return fail(ok.error());
  const std::size_t triangles = mended_.mesh.triangles.size() / 3;
  if (!hasRoom(triangles * kTrialBytes))
    return fail({"mesh", std::to_string(triangles) + " triangles", "less", "",
                 "there is not enough memory here to float her with all " + std::to_string(triangles) +
                     " triangles."});
  const bool replaces = choices_.replaces && *choices_.replaces < boat.skins.size();
  const std::size_t skin = replaces ? *choices_.replaces : kept->skins.size() - 1;
  trial_.emplace(boat, std::move(*kept), skin, drawnInBoat());
  return {};
}

// ---- In words ---------------------------------------------------------------------------------------------

std::string sizeWords(const Vec3& size, const UnitSet& units) {
  const bool rough = size.x > 1, huge = size.x > 20;  // no tenths of a millimetre of something so long
  const Quantity quantity = huge ? Quantity::Depth : Quantity::Length;
  const int decimals = !units.metric() ? 2 : rough && !huge ? 0 : -1;
  const auto one = [&](double v) { return numberText(v, quantity, units, decimals); };
  return one(size.x) + "\u00a0\u00d7\u00a0" + one(size.y) + "\u00a0\u00d7\u00a0" +
         valueText(size.z, quantity, units, decimals);
}

std::string thinnedSentence(const MeshImport& import, const UnitSet& units) {
  const ThinnedMesh& kept = import.kept();
  const std::size_t drawn = import.found().triangles, left = kept.mesh.triangles.size() / 3;
  if (left == drawn) return "The boat keeps all " + std::to_string(left) + " triangles.";
  const auto percent = [](double share) {
    return numberText(100 * share, Quantity::Number, {}, std::abs(share) < 1e-3 ? 3 : 1) + "\u00a0%";
  };
  std::string out = "Of " + std::to_string(drawn) + " triangles the boat keeps " + std::to_string(left) +
                    ": no corner of the drawing is farther than " +
                    valueText(kept.farthest * import.metres(), Quantity::Length, units, 2) +
                    " from them; area " + percent(kept.area_change);
  if (import.found().closed) out += ", volume " + percent(kept.volume_change);
  return out + ".";
}

}  // namespace pondtrim
