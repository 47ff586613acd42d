#include "session/presets.hpp"

#include "embedded.hpp"

namespace pondtrim {
namespace {
std::string_view textOf(const EmbeddedFile& file) {
  return {reinterpret_cast<const char*>(file.data), file.size};
}
}  // namespace

std::vector<PresetName> presetNames() {
  std::vector<PresetName> names;
  for (std::size_t i = 0; kPresetBoats[i].name != nullptr; ++i)
    if (const auto document = file::readBoatFile(textOf(kPresetBoats[i])))
      names.push_back({document->boat.name, document->boat.notes, i});
  return names;
}

Result<file::BoatDocument> preset(std::size_t index) {
  for (std::size_t i = 0; kPresetBoats[i].name != nullptr; ++i)
    if (i == index) return file::readBoatFile(textOf(kPresetBoats[i]));
  return fail(
      {"preset", std::to_string(index), "", "", "There is no such boat among those that come along."});
}

}  // namespace pondtrim
