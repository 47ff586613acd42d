#include "session/drafts.hpp"

#include <algorithm>

#include "browser/browser.hpp"
#include "session/store.hpp"

namespace pondtrim {
namespace {

// A draft is kept as a boat file below the name of its boat; beside it the boat that it was begun over.
constexpr const char* kInHandKey = "draft-in-hand";
constexpr const char kGap = '\x1f';  // in no name: they are one line of text

std::string plain(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return c < 0x20; }, ' ');
  return text;
}
std::string prefixOf(const std::string& boat) { return "draft." + plain(boat) + kGap; }
std::string prefixOf(const Session& session) { return prefixOf(session.base().document.boat.name); }
std::string keyOf(const Session& session, const std::string& name) { return prefixOf(session) + name; }
std::string baseKey(const std::string& key) { return "draft-base." + key; }

void forgetDraft(const std::string& key) {
  browser::forget(key);
  browser::forget(baseKey(key));
}

void moveDraft(const std::string& from, const std::string& to) {
  const auto text = browser::recall(from), base = browser::recall(baseKey(from));
  if (!text || browser::recall(to) || !browser::keep(to, *text)) return;
  if (base) (void)browser::keep(baseKey(to), *base);
  forgetDraft(from);
}

void moveDrafts(const std::string& from, const std::string& to) {
  if (from == to) return;
  for (const std::string& key : browser::keptKeys(from)) moveDraft(key, to + key.substr(from.size()));
}

/// What was changed in the boat since the draft was begun would be lost with it.
void warnOfChanges(Session& session, const std::string& key) {
  const auto base = browser::recall(baseKey(key));
  if (base && *base != file::writeBoatFile(session.base().document))
    session.say(
        "The boat has been changed since this draft was begun. Keeping the draft undoes those changes.");
}

}  // namespace

std::vector<std::string> draftsOf(const Session& session) {
  const std::string prefix = prefixOf(session);
  std::vector<std::string> names;
  for (const std::string& key : browser::keptKeys(prefix)) names.push_back(key.substr(prefix.size()));
  if (session.inDraft())
    names.erase(std::remove(names.begin(), names.end(), session.draftName()), names.end());
  return names;
}

void startDraft(Session& session) {
  putAside(session);
  const auto names = draftsOf(session);
  std::string name;
  for (int i = 1; name.empty() || std::find(names.begin(), names.end(), name) != names.end(); ++i)
    name = "Draft " + std::to_string(i);
  session.beginDraft(name);
  (void)browser::keep(baseKey(keyOf(session, name)), file::writeBoatFile(session.base().document));
}

Result<void> takeUpDraft(Session& session, const std::string& name) {
  putAside(session);
  const std::string key = keyOf(session, name);
  const auto text = browser::recall(key);
  if (!text) return fail({"draft", name, "", "", "There is no draft " + name + "."});
  auto document = file::readBoatFile(*text);
  if (!document) {
    session.refuseFile(name, document.error());
    return fail(document.error());
  }
  session.beginDraft(name);
  if (auto done = session.edit(document->boat); !done) {
    const auto why = session.notice();
    session.leaveDraft();
    if (why) session.say(why->text);
    return done;
  }
  warnOfChanges(session, key);
  return {};
}

void putAside(Session& session) {
  if (!session.inDraft()) return;
  (void)storeDraft(session);
  session.leaveDraft();
  browser::forget(kInHandKey);
}

void keepDraft(Session& session) {
  const std::string key = keyOf(session, session.draftName()), others = prefixOf(session);
  session.keepDraft();
  if (!keepBoat(session)) return;  // then the draft's text is all there is of her
  forgetDraft(key);
  browser::forget(kInHandKey);
  moveDrafts(others, prefixOf(session));
}

void followName(const Session& session) {
  const Boat& boat = session.base().document.boat;
  for (const std::vector<Step>* steps : {&session.keptPast(), &session.keptFuture()}) {
    if (steps->empty() || !steps->back().solved) continue;
    Boat other = steps->back().solved->document.boat;
    if (other.name == boat.name) continue;
    const std::string from = prefixOf(other.name);
    other.name = boat.name;
    if (other == boat) moveDrafts(from, prefixOf(session));
  }
}

void dropDraft(Session& session) {
  forgetDraft(keyOf(session, session.draftName()));
  browser::forget(kInHandKey);
  session.leaveDraft();
}

void removeDraft(const Session& session, const std::string& name) { forgetDraft(keyOf(session, name)); }

void renameDraft(Session& session, const std::string& wanted) {
  const std::string name = plain(wanted), key = keyOf(session, session.draftName());
  if (name.empty() || browser::recall(keyOf(session, name)))
    return session.say("There is a draft of that name already.");
  const auto base = browser::recall(baseKey(key));
  forgetDraft(key);
  session.nameDraft(name);
  if (base) (void)browser::keep(baseKey(keyOf(session, name)), *base);
  (void)storeDraft(session);
}

bool storeDraft(const Session& session) {
  if (!session.inDraft()) {
    if (browser::recall(kInHandKey)) browser::forget(kInHandKey);
    return true;
  }
  return browser::keep(keyOf(session, session.draftName()), file::writeBoatFile(session.document())) &&
         browser::keep(kInHandKey, session.draftName());
}

void resumeDraft(Session& session) {
  const auto name = browser::recall(kInHandKey);
  if (name && browser::recall(keyOf(session, *name))) (void)takeUpDraft(session, *name);
}

}  // namespace pondtrim
