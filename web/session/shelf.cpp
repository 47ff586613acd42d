#include "session/shelf.hpp"

#include <utility>

#include "browser/browser.hpp"
#include "session/drafts.hpp"
#include "session/presets.hpp"

namespace pondtrim {
namespace {

constexpr const char* kPrefix = "shelf.";
constexpr const char* kInHandKey = "taken-from-shelf";

std::string keyOf(const std::string& name) { return kPrefix + name; }

/// A boat that came along unchanged needs no place on the shelf.
bool isPreset(const std::string& text) {
  for (const PresetName& entry : presetNames())
    if (const auto document = preset(entry.index); document && file::writeBoatFile(*document) == text)
      return true;
  return false;
}

std::string plainName(const Session& session) {
  std::string name = session.base().document.boat.name;
  if (name.empty()) name = "boat";
  for (char& c : name)
    if (static_cast<unsigned char>(c) < 0x20) c = ' ';
  return name;
}

void keepIfAnybodysWork(Session& session) {
  putAside(session);
  if (!isPreset(file::writeBoatFile(session.document()))) putOnShelf(session);
}

}  // namespace

std::vector<std::string> boatsOnShelf() {
  std::vector<std::string> names;
  for (const std::string& key : browser::keptKeys(kPrefix))
    names.push_back(key.substr(std::string_view(kPrefix).size()));
  return names;
}

std::optional<std::string> textOnShelf(const std::string& name) { return browser::recall(keyOf(name)); }

std::string putOnShelf(Session& session) {
  const std::string text = file::writeBoatFile(session.base().document);  // a draft has a place of its own
  const std::string plain = plainName(session);
  std::string name = plain;
  for (int i = 2;; ++i) {
    const auto there = browser::recall(keyOf(name));
    // "Teapot (2)" was taken from the shelf and goes back to its place, as long as it is called "Teapot".
    const bool same_place = session.shelfPlace() == name;
    if (!there || *there == text || same_place) break;
    name = plain + " (" + std::to_string(i) + ")";
  }
  if (!browser::keep(keyOf(name), text)) return {};
  session.setShelfPlace(name);
  (void)keepShelfPlace(session);
  return name;
}

Result<void> openFromShelf(Session& session, const std::string& name) {
  keepIfAnybodysWork(session);  // first: it may be this very boat
  const auto text = browser::recall(keyOf(name));
  if (!text) return fail({"shelf", name, "", "", "There is no boat " + name + " on the shelf."});
  auto document = file::readBoatFile(*text);
  if (!document) {
    session.refuseFile(name, document.error());
    return fail(document.error());
  }
  auto opened = openAnother(session, std::move(*document));
  if (opened) session.setShelfPlace(name);
  return opened;
}

Result<void> openAnother(Session& session, file::BoatDocument document) {
  keepIfAnybodysWork(session);
  return session.open(std::move(document));
}

bool keepShelfPlace(const Session& session) { return browser::keep(kInHandKey, session.shelfPlace()); }

void resumeShelfPlace(Session& session) { session.setShelfPlace(browser::recall(kInHandKey).value_or("")); }

void removeFromShelf(const std::string& name) { browser::forget(keyOf(name)); }

}  // namespace pondtrim
