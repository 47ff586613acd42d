#include "session/file_name.hpp"

namespace pondtrim {

std::string fileName(std::string_view boat_name, std::string_view ending) {
  std::string file;
  for (const char c : boat_name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z');
    if (plain)
      file += c;
    else if (!file.empty() && file.back() != '-')
      file += '-';
  }
  return (file.empty() ? "boat" : file) + std::string(ending);
}

}  // namespace pondtrim
