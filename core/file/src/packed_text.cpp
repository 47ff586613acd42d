#include "packed_text.hpp"

#include <cstdio>

#include "base64url.hpp"

namespace pondtrim::file {
namespace {

constexpr std::string_view kVersion = "1.";
constexpr std::size_t kHead = 8;

void put(std::string& bytes, std::size_t value, std::size_t count) {
  for (std::size_t k = 0; k < count; ++k) bytes += char(value >> (8 * k) & 0xff);
}

std::size_t take(std::string_view bytes, std::size_t at, std::size_t count) {
  std::size_t out = 0;
  for (std::size_t k = 0; k < count; ++k)
    out |= std::size_t(static_cast<unsigned char>(bytes[at + k])) << (8 * k);
  return out;
}

Error packedError(const std::string& was, const std::string& allowed) {
  return {"mesh", was, allowed, "", was};
}

std::string bytesOf(const PackedMesh& mesh) {
  std::string bytes;
  put(bytes, mesh.corners().size() / 3, 4);
  put(bytes, mesh.triangles().size() / 3, 4);
  for (const auto* list : {&mesh.corners(), &mesh.triangles()})
    for (const std::uint16_t v : *list) put(bytes, v, 2);
  return bytes;
}

}  // namespace

std::string packedText(const PackedMesh& mesh) { return std::string(kVersion) + toBase64Url(bytesOf(mesh)); }

Result<std::shared_ptr<const PackedMesh>> packedFromText(std::string_view text) {
  if (text.substr(0, kVersion.size()) != kVersion)
    return fail(packedError("of another version", "one that begins with \"1.\"; a newer app may read it"));
  const auto bytes = fromBase64Url(text.substr(kVersion.size()));
  if (!bytes || bytes->size() < kHead) return fail(packedError("damaged", "base64url of at least 8 bytes"));
  const std::size_t vertices = take(*bytes, 0, 4), triangles = take(*bytes, 4, 4);
  if (vertices > kMostPackedVertices || triangles > kMostPackedTriangles)
    return fail(packedError(
        std::to_string(vertices) + " vertices and " + std::to_string(triangles) + " triangles",
        "at most " + std::to_string(kMostPackedVertices) + " and " + std::to_string(kMostPackedTriangles)));
  const std::size_t wanted = kHead + 6 * (vertices + triangles);
  if (bytes->size() != wanted)
    return fail(packedError(std::to_string(bytes->size()) + " bytes long",
                            std::to_string(wanted) + " bytes, which its vertices and triangles take"));
  std::vector<std::uint16_t> corners, indices;
  for (std::size_t at = kHead; at < wanted; at += 2)
    (at < kHead + 6 * vertices ? corners : indices).push_back(std::uint16_t(take(*bytes, at, 2)));
  return PackedMesh::make(std::move(corners), std::move(indices));
}

std::string packedTitle(const PackedMesh& mesh) {
  std::uint32_t mark = 2166136261U;  // FNV-1a
  for (const char c : bytesOf(mesh)) mark = (mark ^ static_cast<unsigned char>(c)) * 16777619U;
  char text[60];
  std::snprintf(text, sizeof text, "%u triangles (%06x)", unsigned(mesh.triangles().size() / 3),
                mark & 0xffffffU);
  return text;
}

}  // namespace pondtrim::file
