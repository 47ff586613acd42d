#pragma once
// The invented boats that come with the program.
#include <pondtrim/file/boat_file.hpp>
#include <string>
#include <vector>

namespace pondtrim {

struct PresetName {
  std::string name;   ///< of the boat
  std::string notes;  ///< one line that says what sort of boat it is
  std::size_t index = 0;
};

[[nodiscard]] std::vector<PresetName> presetNames();
/// Error: as readBoatFile; tests prove that none of ours has one.
[[nodiscard]] Result<file::BoatDocument> preset(std::size_t index);

}  // namespace pondtrim
