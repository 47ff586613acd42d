#include "stl_file.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <pondtrim/file/mesh_file.hpp>

#include "decimal.hpp"
#include "mesh_text.hpp"

namespace pondtrim::file {
namespace {

constexpr std::size_t kHead = 84, kTriangle = 50, kNormal = 12;

std::uint32_t wordAt(std::string_view bytes, std::size_t at) {
  std::uint32_t out = 0;
  for (std::size_t k = 0; k < 4; ++k)
    out |= std::uint32_t(static_cast<unsigned char>(bytes[at + k])) << (8 * k);
  return out;
}

float floatAt(std::string_view bytes, std::size_t at) {  // Emscripten's library lacks bit_cast
  const std::uint32_t word = wordAt(bytes, at);
  float value = 0;
  std::memcpy(&value, &word, sizeof value);
  return value;
}

std::string shownNumber(double value) {
  if (std::isnan(value)) return "not a number";
  if (std::isinf(value)) return value < 0 ? "minus infinity" : "infinity";
  return roundedDecimal(value, 6);
}

std::string placeOf(std::size_t triangle, std::size_t vertex, std::size_t axis) {
  return "triangle " + std::to_string(triangle) + ", corner " + std::to_string(vertex) + ", " + "xyz"[axis];
}

void addCorner(Mesh& mesh, const Vec3& p) {
  mesh.triangles.push_back(std::uint32_t(mesh.vertices.size()));
  mesh.vertices.push_back(p);
}

Error tooMany() {
  return meshError("number of triangles", "more than " + std::to_string(kMostMeshTriangles),
                   "at most " + std::to_string(kMostMeshTriangles) + "; let the drawing program write fewer");
}

Error wrongCount(std::size_t said, std::size_t bytes) {
  if (said > kMostMeshTriangles && bytes < kHead + kTriangle * kMostMeshTriangles)
    return meshError("number of triangles in the head", std::to_string(said),
                     std::to_string((bytes - kHead) / kTriangle) +
                         ", as many as the file holds; it is damaged, or no STL");
  if (said > kMostMeshTriangles) return tooMany();
  return meshError(
      "number of triangles in the head",
      std::to_string(said) + ", but the file holds " + std::to_string((bytes - kHead) / kTriangle),
      "as many as there are; the file is damaged or was cut off");
}

class TextStlReader final : public MeshSource {
 public:
  explicit TextStlReader(std::string_view text) : words_(text) {}

  bool step(std::size_t bytes) override {
    for (const std::size_t to = words_.position() + bytes; !error_ && words_.position() < to;) {
      const std::string_view word = words_.word();
      if (word.empty()) return end();
      take(word);
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
    if (in_facet_)
      refuse("the end of the file", "the rest of the triangle; the file was cut off");
    else if (in_solid_)
      refuse("the end of the file", "endsolid; the file was cut off");
    else if (mesh_.triangles.empty())
      refuse("the end of the file", "at least one facet before it");
    return false;
  }

  void refuse(std::string was, std::string allowed) {
    std::string where = "line " + std::to_string(words_.line());
    if (in_facet_)
      where += " (triangle " + std::to_string(mesh_.vertices.size() / 3 + (corners_ == 3 ? 0 : 1)) + ")";
    error_ = meshError(std::move(where), std::move(was), std::move(allowed));
  }

  void take(std::string_view word) {
    if (word.empty()) return;  // the end, of which the next step says what is missing
    if (isWord(word, "vertex")) return vertex();
    if (isWord(word, "outer") || isWord(word, "loop")) return;
    if (isWord(word, "facet")) return beginFacet();
    if (isWord(word, "endloop")) return endLoop(word);
    if (isWord(word, "endfacet")) {
      endLoop(word);
      in_facet_ = false;
      return;
    }
    if (isWord(word, "solid") || isWord(word, "endsolid")) {
      if (in_facet_) return refuse(shownWord(word), "endfacet first");
      in_solid_ = isWord(word, "solid");
      words_.nextLine();
      return;
    }
    refuse(shownWord(word), "a word of an STL: facet, outer loop, vertex, endloop, endfacet, endsolid");
  }

  /// The normal is not needed, and often wrong: the corners' turn says which side is outside.
  void beginFacet() {
    if (in_facet_) return refuse("\"facet\"", "endfacet first");
    if (mesh_.vertices.size() >= 3 * kMostMeshTriangles) {
      error_ = tooMany();
      return;
    }
    in_facet_ = true;
    corners_ = 0;
    const std::string_view next = words_.word();
    if (!isWord(next, "normal")) return take(next);
    for (int k = 0; k < 3; ++k) (void)words_.word();
  }

  void endLoop(std::string_view word) {
    if (!in_facet_) return refuse(shownWord(word), "facet before it");
    if (corners_ != 3)
      refuse(shownWord(word) + " after " + std::to_string(corners_) + " vertices", "three vertices");
  }

  void vertex() {
    if (!in_facet_) return refuse("\"vertex\"", "facet before it");
    if (corners_ == 3) return refuse("a fourth vertex", "three vertices to a facet");
    Vec3 p;
    for (int k = 0; k < 3; ++k) {
      const std::string_view word = words_.word();
      const auto number = quickNumber(word);
      if (!number || !isCoordinate(*number))
        return refuse(word.empty() ? "the end of the file" : shownWord(word), kCoordinateAllowed);
      p[k] = *number;
    }
    addCorner(mesh_, p);
    ++corners_;
  }

  MeshWords words_;
  Mesh mesh_;
  bool in_solid_ = false, in_facet_ = false;
  int corners_ = 0;
  std::optional<Error> error_;
};

/// Letters, digits and blanks only, where a binary file would have its first numbers.
bool looksLikeText(std::string_view bytes) {
  for (const char c : bytes.substr(0, 1024))
    if (static_cast<unsigned char>(c) < ' ' && c != '\n' && c != '\r' && c != '\t' && c != '\f' && c != '\v')
      return false;
  return true;
}

class BinaryStlReader final : public MeshSource {
 public:
  explicit BinaryStlReader(std::string_view bytes) : bytes_(bytes) {
    if (bytes.size() < kHead + kTriangle) {
      error_ = meshError("file", std::to_string(bytes.size()) + " bytes long",
                         "an STL (at least one triangle) or OBJ; this is neither");
      return;
    }
    count_ = wordAt(bytes, kHead - 4);
    if (!fitsBinaryStl(bytes))
      error_ = wrongCount(count_, bytes.size());
    else if (count_ > kMostMeshTriangles)
      error_ = tooMany();
    if (error_) return;
    mesh_.vertices.reserve(3 * count_);
    mesh_.triangles.reserve(3 * count_);
  }

  bool step(std::size_t bytes) override {
    for (const std::size_t to = read_ + bytes / kTriangle + 1; !error_ && read_ < std::min(to, count_);
         ++read_)
      triangle();
    return !error_ && read_ < count_;
  }
  [[nodiscard]] std::size_t position() const override { return kHead + kTriangle * read_; }
  [[nodiscard]] Result<Mesh> take() override {
    if (error_) return fail(*error_);
    return std::move(mesh_);
  }

 private:
  void triangle() {
    std::size_t at = position() + kNormal;
    for (std::size_t corner = 0; corner < 3; ++corner) {
      Vec3 p;
      for (std::size_t k = 0; k < 3; ++k, at += 4) {
        const double value = floatAt(bytes_, at);
        if (!isCoordinate(value)) {
          error_ = meshError(placeOf(read_ + 1, corner + 1, k), shownNumber(value), kCoordinateAllowed);
          return;
        }
        p[int(k)] = value;
      }
      addCorner(mesh_, p);
    }
  }

  std::string_view bytes_;
  std::size_t count_ = 0, read_ = 0;
  Mesh mesh_;
  std::optional<Error> error_;
};

}  // namespace

bool fitsBinaryStl(std::string_view bytes) {
  if (bytes.size() < kHead) return false;
  const std::size_t count = wordAt(bytes, kHead - 4), room = bytes.size() - kHead;
  return count > 0 && room / kTriangle == count;
}

std::unique_ptr<MeshSource> openBinaryStl(std::string_view bytes) {
  return std::make_unique<BinaryStlReader>(bytes);
}
std::unique_ptr<MeshSource> openTextStl(std::string_view text) {
  return std::make_unique<TextStlReader>(text);
}

struct MeshReader::Work {
  std::string own;  ///< empty: the caller keeps the bytes
  std::string_view bytes;
  MeshFormat format = MeshFormat::BinaryStl;
  std::unique_ptr<MeshSource> source;  ///< none: too many bytes

  void open() {
    if (bytes.size() > kMostMeshBytes) return;
    if (fitsBinaryStl(bytes) || !looksLikeText(bytes)) {
      source = openBinaryStl(bytes);
    } else if (MeshWords words(bytes); isWord(words.word(), "solid")) {
      format = MeshFormat::TextStl;
      source = openTextStl(bytes);
    } else {
      format = MeshFormat::Obj;
      source = openObj(bytes);
    }
  }
};

MeshReader::MeshReader() : work_(std::make_unique<Work>()) {}
MeshReader::MeshReader(std::string bytes) : work_(std::make_unique<Work>()) {
  work_->own = std::move(bytes);
  work_->bytes = work_->own;
  work_->open();
}
MeshReader::MeshReader(MeshReader&&) noexcept = default;
MeshReader& MeshReader::operator=(MeshReader&&) noexcept = default;
MeshReader::~MeshReader() = default;

bool MeshReader::step(std::size_t bytes) {
  return work_->source && work_->source->step(std::max<std::size_t>(1, bytes));  // also of an empty file
}

double MeshReader::share() const {
  if (!work_->source || work_->bytes.empty()) return 1;
  return double(work_->source->position()) / double(work_->bytes.size());
}

Result<MeshFile> MeshReader::take() {
  if (!work_->source) return fail(tooManyMeshBytes());
  auto mesh = work_->source->take();
  if (!mesh) return fail(std::move(mesh.error()));
  return MeshFile{work_->format, std::move(*mesh)};
}

Error tooManyMeshBytes() {
  return meshError("file", "more than " + std::to_string(kMostMeshBytes >> 20) + " MiB",
                   "at most that; let the drawing program write fewer triangles");
}

Result<MeshFile> readMeshFile(std::string_view bytes) {
  MeshReader reader;
  reader.work_->bytes = bytes;
  reader.work_->open();
  while (reader.step(bytes.size())) {
  }
  return reader.take();
}

}  // namespace pondtrim::file
