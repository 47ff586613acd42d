#pragma once
// What of a boat a link can carry: one with a mesh is too long for most messengers and for codes, so her hull
// is made simpler, and it is said by how much.
#include <pondtrim/file/link.hpp>
#include <string>

#include "session/quantities.hpp"

namespace pondtrim {

/// Common practice, no source: messengers and mail pass links of about this many characters.
inline constexpr std::size_t kMostLinkCharacters = 30'000;
/// Nobody holds a phone still for more codes.
inline constexpr std::size_t kMostCodes = 12;

struct LinkBoat {
  std::string fragment;       ///< empty: no link can carry her
  std::size_t triangles = 0;  ///< of the simpler meshes together; 0: she is as in the file
  double farthest = 0.0;      ///< no corner of a mesh lies farther from the simpler one [m]
};

[[nodiscard]] bool hasMesh(const Boat& boat);

/// A boat without a mesh goes whole, however long that is. `most`: characters of the fragment.
[[nodiscard]] LinkBoat linkBoat(const file::BoatDocument& document, std::size_t most);

/// "The link carries ..."; empty: she goes whole. `what`: "The link", "The codes".
[[nodiscard]] std::string linkSentence(const LinkBoat& boat, const std::string& what, const UnitSet& units);

}  // namespace pondtrim
