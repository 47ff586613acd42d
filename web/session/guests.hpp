#pragma once
// Boats from someone else: a link, parts of a link from several codes, a file. A guest comes aboard as a new
// boat with her origin written on her; the boat that was in hand goes on the shelf first (shelf.hpp), so that
// no work is lost.
#include <pondtrim/file/link.hpp>
#include <string>
#include <string_view>

#include "session/session.hpp"

namespace pondtrim {

/// What follows the # of a link. A part is kept until its others are there; `notice` says which are missing.
/// `today`: "2026-05-02". Error: as file::readBoatFragment and Session::open; the boat in hand stays.
Result<void> receiveFragment(Session& session, std::string_view fragment, std::string_view today);

/// Opens a boat with her origin. Error: as Session::open; the boat in hand stays.
Result<void> welcome(Session& session, file::BoatDocument document, std::string origin);

}  // namespace pondtrim
