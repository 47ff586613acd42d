#include "support/presets.hpp"

#include <dirent.h>
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace pondtrim::test {
namespace {

bool endsWith(const std::string& text, const std::string& end) {
  return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

}  // namespace

std::string textOf(const std::string& path_in_checkout) {
  const std::string path = std::string(PONDTRIM_SOURCE_DIR) + "/" + path_in_checkout;
  std::ifstream in(path, std::ios::binary);
  if (!in) FAIL("cannot open " << path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<std::string> presetPaths() {
  const std::string folder = "presets/boats";
  std::vector<std::string> paths;
  // Not std::filesystem: Emscripten 3.1.6 lists a folder of Node's file system by readdir.
  DIR* open = opendir((std::string(PONDTRIM_SOURCE_DIR) + "/" + folder).c_str());
  if (open == nullptr) FAIL("cannot list " << folder);
  for (const dirent* entry = readdir(open); entry != nullptr; entry = readdir(open))
    if (endsWith(entry->d_name, ".boat.json")) paths.push_back(folder + "/" + entry->d_name);
  closedir(open);
  if (paths.empty()) FAIL("no presets");
  std::sort(paths.begin(), paths.end());
  return paths;
}

file::BoatDocument presetBoat(const std::string& path_in_checkout) {
  auto document = file::readBoatFile(textOf(path_in_checkout));
  if (!document) FAIL(path_in_checkout << ": " << document.error().message);
  return *document;
}

}  // namespace pondtrim::test
