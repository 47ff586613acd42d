#pragma once
#include <string>
#include <string_view>

namespace pondtrim {

/// A file name that every system takes: letters and digits of the boat's name, the rest dashes, then
/// `ending`.
[[nodiscard]] std::string fileName(std::string_view boat_name, std::string_view ending);

}  // namespace pondtrim
