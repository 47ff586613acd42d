#pragma once
// Files put into the program at build time (see embed.cmake). Each table ends with an entry without a name.
#include <cstddef>

namespace pondtrim {

struct EmbeddedFile {
  const char* name;           ///< without its folder; nullptr ends the table
  const unsigned char* data;  ///< followed by a 0 byte that is not counted
  std::size_t size;
};

extern const EmbeddedFile kPresetBoats[];  ///< presets/boats/*.boat.json
extern const EmbeddedFile kShaders[];      ///< shaders/*

}  // namespace pondtrim
