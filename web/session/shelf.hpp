#pragma once
// The person's own boats, kept in the browser under their names.
#include <optional>
#include <string>
#include <vector>

#include "session/session.hpp"

namespace pondtrim {

/// Their names, sorted.
[[nodiscard]] std::vector<std::string> boatsOnShelf();

/// The boat's file, if she is there.
[[nodiscard]] std::optional<std::string> textOnShelf(const std::string& name);

/// Puts the boat in hand on the shelf and gives the name it stands under. It takes the place of the one that
/// it was taken from if that has its name; any other boat of the same name stays, and this one becomes "name
/// (2)". Empty: the page could not keep it.
std::string putOnShelf(Session& session);

/// Opens a boat of the shelf; the one in hand is put there first, if it is anybody's work.
Result<void> openFromShelf(Session& session, const std::string& name);

/// Opens another boat (a preset, a file); the one in hand goes to the shelf first, if it is anybody's work.
Result<void> openAnother(Session& session, file::BoatDocument document);

/// Session::shelfPlace across visits.
bool keepShelfPlace(const Session& session);
void resumeShelfPlace(Session& session);

void removeFromShelf(const std::string& name);

}  // namespace pondtrim
