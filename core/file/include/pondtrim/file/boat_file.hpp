#pragma once
// The boat file: JSON text in and out, no file access. Every number carries its unit as the suffix of its
// key (length_mm is Boat's field length). DEVELOPERS.md shows a whole file; presets/boat.schema.json is its
// JSON Schema.
#include <cstddef>
#include <pondtrim/boat.hpp>
#include <pondtrim/result.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace pondtrim::file {

inline constexpr int kBoatFileVersion = 1;
/// A large preset takes 8 kB; the limit keeps a stranger's file from filling a phone's memory.
inline constexpr std::size_t kMaxFileBytes = 4u << 20;
inline constexpr int kMaxNesting = 32;  ///< objects and lists within each other
inline constexpr std::size_t kMaxEntries =
    1000;  ///< of one list of the boat: skins, cylinders, parts, bulkheads

/// A part of the file that this version does not know. It is kept and written back.
struct UnknownPart {
  std::string
      parent;  ///< path of the object that holds it, as the file spells it ("parts[2]"); "" for the top
  std::string key;
  std::string json;  ///< its value
  /// Inside a list of named things: the name of that thing and how many there were, so that the part finds
  /// its place again after the list has been edited. When the thing is gone, so is the part.
  std::string owner;
  std::size_t siblings = 0;

  [[nodiscard]] std::string path() const { return parent + (parent.empty() ? "" : ".") + key; }
  bool operator==(const UnknownPart&) const = default;
};

struct BoatDocument {
  Boat boat;
  std::vector<UnknownPart> unknown;
  std::vector<std::string> notices;  ///< one sentence for each thing the reader should know

  bool operator==(const BoatDocument&) const = default;
};

/// Reads and checks a boat (checkBoat included).
/// Error: `field` is the path as the file spells it ("cylinders[0].wall_thickness_mm"; "line 7, column 12"
/// for broken JSON), `was` the value as typed, `allowed` in the file's units, `other_field` the second place
/// when two disagree.
[[nodiscard]] Result<BoatDocument> readBoatFile(std::string_view text);

/// The file's text. Numbers are the shortest decimals that read back to the very same SI value, so reading
/// and writing changes no number. The boat must hold finite numbers only.
[[nodiscard]] std::string writeBoatFile(const BoatDocument& document);
/// The same file on one line, without one blank that is not in a text.
[[nodiscard]] std::string writeCompactBoatFile(const BoatDocument& document);

}  // namespace pondtrim::file
