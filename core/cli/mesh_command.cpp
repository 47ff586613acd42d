#include <cstdio>
#include <pondtrim/file/mesh_file.hpp>
#include <pondtrim/file/mesh_words.hpp>

#include "input.hpp"

namespace pondtrim::cli {

int runMesh(Words words) {
  if (words.size() != 1 || words[0].empty()) return complainUsage("mesh", "needs one FILE.");
  const auto bytes = readBytes(words[0], file::kMostMeshBytes);
  if (!bytes) return complain(bytes.error());
  const auto read = file::readMeshFile(*bytes);
  if (!read) return complain(read.error());
  std::fputs(file::meshJson(read->format, mendMesh(read->mesh)).c_str(), stdout);
  return kSolved;
}

}  // namespace pondtrim::cli
