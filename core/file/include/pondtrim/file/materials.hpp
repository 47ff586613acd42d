#pragma once
// The table of materials (presets/materials.json): densities a builder may start from, each with its source.
#include <pondtrim/result.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace pondtrim::file {

/// Densities [kg/m^3]; low <= density <= high.
struct Material {
  std::string name;
  double density = 0.0;
  double low = 0.0, high = 0.0;
  std::string source;  ///< a publication, or "from memory"
  std::string note;
};

/// Error: as readBoatFile, with paths like "materials[3].density_kg_per_m3".
[[nodiscard]] Result<std::vector<Material>> readMaterials(std::string_view text);

}  // namespace pondtrim::file
