#pragma once
// Drafts over a boat, by name, kept in the browser: what would she do with that lead, with the other battery?
#include <string>
#include <vector>

#include "session/session.hpp"

namespace pondtrim {

/// Names of the drafts kept for the boat in hand (not the one being worked on), sorted.
[[nodiscard]] std::vector<std::string> draftsOf(const Session& session);

/// Begins a draft under a name not yet used: "Draft 1", "Draft 2"...
void startDraft(Session& session);
/// Puts the one in hand aside and takes up another. Error: as Session::edit; then no draft is in hand.
Result<void> takeUpDraft(Session& session, const std::string& name);
/// Keeps it for later and goes back to the boat. Nothing when there is no draft.
void putAside(Session& session);
/// The draft becomes the boat, and is no draft any more.
void keepDraft(Session& session);
/// It is gone; the boat is as she was.
void dropDraft(Session& session);
/// One that is not in hand.
void removeDraft(const Session& session, const std::string& name);
void renameDraft(Session& session, const std::string& wanted);

/// The drafts of a boat stay hers when she gets another name, or the one before by undo.
void followName(const Session& session);

/// For the next visit. False when the page could not keep it.
[[nodiscard]] bool storeDraft(const Session& session);
/// Takes up the draft that the last visit was working on.
void resumeDraft(Session& session);

}  // namespace pondtrim
