#include <array>
#include <cmath>
#include <glm/geometric.hpp>
#include <pondtrim/file/mesh_file.hpp>

#include "mesh_text.hpp"
#include "stl_file.hpp"

namespace pondtrim::file {
namespace {

using Face = std::vector<std::uint32_t>;

/// Cuts a flat face into triangles, ear by ear.
class FaceCutter {
 public:
  FaceCutter(Mesh& mesh, Face face) : mesh_(mesh), face_(std::move(face)) {
    for (std::size_t i = 0; i < face_.size(); ++i) normal_ += glm::cross(at(i), at(i + 1));
  }

  /// False: not convex, with more corners than are cut.
  bool cut() {
    if (isConvex()) {
      for (std::size_t i = 2; i < face_.size(); ++i) add(0, i - 1, i);
      return true;
    }
    if (face_.size() > kMostMeshCorners) return false;
    while (face_.size() > 3) {
      std::size_t ear = 1;
      while (ear < face_.size() && !isEar(ear)) ++ear;
      if (ear == face_.size()) ear = 1;  // crosses itself: any cut is as good
      const std::size_t before = ear - 1, after = (ear + 1) % face_.size();
      add(before, ear, after);
      face_.erase(face_.begin() + std::ptrdiff_t(ear));
    }
    add(0, 1, 2);
    return true;
  }

 private:
  /// About the first corner, for round-off.
  [[nodiscard]] Vec3 at(std::size_t i) const {
    return mesh_.vertices[face_[i % face_.size()]] - mesh_.vertices[face_[0]];
  }
  [[nodiscard]] double turn(const Vec3& a, const Vec3& b, const Vec3& c) const {
    return glm::dot(normal_, glm::cross(b - a, c - a));
  }
  [[nodiscard]] bool isConvex() const {
    if (face_.size() == 3) return true;
    for (std::size_t i = 0; i < face_.size(); ++i)
      if (turn(at(i), at(i + 1), at(i + 2)) < 0) return false;
    return true;
  }
  [[nodiscard]] bool isEar(std::size_t i) const {
    const std::size_t n = face_.size();
    const Vec3 a = at(i - 1), b = at(i), c = at(i + 1);
    if (turn(a, b, c) <= 0) return false;
    for (std::size_t k = 0; k < n; ++k) {
      if (face_[k] == face_[i - 1] || face_[k] == face_[i] || face_[k] == face_[(i + 1) % n]) continue;
      const Vec3 p = at(k);
      if (turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0) return false;
    }
    return true;
  }
  void add(std::size_t a, std::size_t b, std::size_t c) {
    mesh_.triangles.insert(mesh_.triangles.end(), {face_[a], face_[b], face_[c]});
  }

  Mesh& mesh_;
  Face face_;
  Vec3 normal_{0.0};
};

class ObjReader final : public MeshSource {
 public:
  explicit ObjReader(std::string_view text) : words_(text) {}

  bool step(std::size_t bytes) override {
    for (const std::size_t to = words_.position() + bytes; !error_ && words_.position() < to;) {
      const std::string_view word = words_.wordInLine();
      if (word == "v") vertex();
      if (word == "f") face();
      if (!words_.nextLine()) return end();
    }
    return !error_;
  }
  [[nodiscard]] std::size_t position() const override { return words_.position(); }
  [[nodiscard]] Result<Mesh> take() override {
    if (error_) return fail(*error_);
    return std::move(mesh_);
  }

 private:
  bool end() {
    if (!error_ && mesh_.triangles.empty())
      error_ =
          meshError("file", mesh_.vertices.empty() ? "a text without a vertex or a face" : "without a face",
                    "an STL or OBJ with at least one triangle");
    return false;
  }

  void refuse(std::string was, std::string allowed) {
    if (!error_)
      error_ = meshError("line " + std::to_string(words_.line()), std::move(was), std::move(allowed));
  }

  void vertex() {
    if (mesh_.vertices.size() >= 3 * kMostMeshTriangles)
      return refuse("a vertex more than " + std::to_string(3 * kMostMeshTriangles), "at most that many");
    constexpr const char* kTooFew[] = {"a vertex of no number", "a vertex of 1 number",
                                       "a vertex of 2 numbers"};
    Vec3 p;
    for (int k = 0; k < 3; ++k) {
      const std::string_view word = words_.wordInLine();
      const auto number = quickNumber(word);
      if (!number || !isCoordinate(*number))
        return refuse(word.empty() ? kTooFew[k] : shownWord(word), kCoordinateAllowed);
      p[k] = *number;
    }
    mesh_.vertices.push_back(p);
  }

  /// A corner is "12", "12/3", "12/3/4" or "12//4": vertex, texture, normal. Below 0 it counts from the last.
  std::optional<std::uint32_t> corner(std::string_view word) {
    const auto number = quickNumber(word.substr(0, word.find('/')));
    const auto count = double(mesh_.vertices.size());
    const bool whole = number && *number == std::floor(*number) && *number != 0 && std::abs(*number) <= count;
    if (whole) return std::uint32_t(*number > 0 ? *number - 1 : count + *number);
    refuse("a face on vertex " + shownWord(word),
           mesh_.vertices.empty() ? "vertices before it"
                                  : "1 to " + std::to_string(mesh_.vertices.size()) +
                                        ", the vertices so far, or -1 and below counted back from the last");
    return std::nullopt;
  }

  void face() {
    Face face;
    for (std::string_view word = words_.wordInLine(); !word.empty() && word[0] != '#';
         word = words_.wordInLine()) {
      const auto index = corner(word);
      if (!index) return;
      face.push_back(*index);
    }
    if (face.size() < 3)
      return refuse("a face of " + std::to_string(face.size()) + " corners", "three or more");
    if (mesh_.triangles.size() / 3 + face.size() - 2 > kMostMeshTriangles)
      return refuse(
          "triangle " + std::to_string(kMostMeshTriangles + 1),
          "at most " + std::to_string(kMostMeshTriangles) + "; let the drawing program write fewer");
    const std::size_t corners = face.size();
    if (!FaceCutter(mesh_, std::move(face)).cut())
      refuse("a face of " + std::to_string(corners) + " corners that is not convex",
             "at most " + std::to_string(kMostMeshCorners) +
                 " corners; let the drawing program write triangles");
  }

  MeshWords words_;
  Mesh mesh_;
  std::optional<Error> error_;
};

}  // namespace

std::unique_ptr<MeshSource> openObj(std::string_view text) { return std::make_unique<ObjReader>(text); }

}  // namespace pondtrim::file
