#include "support/mesh_files.hpp"

#include <cstdio>
#include <utility>

namespace pondtrim::test {
namespace {

void addWord(std::string& out, std::uint32_t word) {
  for (int k = 0; k < 4; ++k) out += char(word >> (8 * k) & 0xff);
}

std::string line(const char* word, const Vec3& p) {
  char text[120];
  std::snprintf(text, sizeof text, "%s %.9g %.9g %.9g\n", word, p.x, p.y, p.z);
  return text;
}

}  // namespace

std::string binaryStl(const Mesh& mesh, const std::string& head) {
  std::string out = head;
  out.resize(80, '\0');
  addWord(out, std::uint32_t(mesh.triangles.size() / 3));
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    if (i % 3 == 0) out.append(12, '\0');  // the normal
    const Vec3& p = mesh.vertices[mesh.triangles[i]];
    for (int k = 0; k < 3; ++k) addWord(out, bitsOf(float(p[k])));
    if (i % 3 == 2) out.append(2, '\0');
  }
  return out;
}

std::string textStl(const Mesh& mesh) {
  std::string out = "solid made for a test\n";
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    if (i % 3 == 0) out += "  facet normal 0 0 nan\n    outer loop\n";
    out += line("      vertex", mesh.vertices[mesh.triangles[i]]);
    if (i % 3 == 2) out += "    endloop\n  endfacet\n";
  }
  return out + "endsolid made for a test\n";
}

std::string objOf(const Mesh& mesh) {
  std::string out = "# made for a test\no body\n";
  for (const Vec3& v : mesh.vertices) out += line("v", v);
  for (std::size_t i = 0; i < mesh.triangles.size(); i += 3) {
    out += "f";
    for (std::size_t k = i; k < i + 3; ++k) out += " " + std::to_string(mesh.triangles[k] + 1) + "//1";
    out += "\n";
  }
  return out;
}

Mesh withTurned(Mesh mesh, std::size_t every) {
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3 * every)
    std::swap(mesh.triangles[i], mesh.triangles[i + 1]);
  return mesh;
}

Mesh loose(const Mesh& mesh) {
  Mesh out;
  for (const std::uint32_t i : mesh.triangles) {
    out.triangles.push_back(std::uint32_t(out.vertices.size()));
    out.vertices.push_back(mesh.vertices[i]);
  }
  return out;
}

}  // namespace pondtrim::test
