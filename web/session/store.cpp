#include "session/store.hpp"

#include <cstdio>
#include <cstdlib>

#include "browser/browser.hpp"
#include "session/presets.hpp"
#include "session/shelf.hpp"

namespace pondtrim {
namespace {
constexpr const char* kBoatKey = "boat";
constexpr const char* kPreferencesKey = "preferences";
constexpr const char* kDepthKey = "depth_m";
constexpr const char* kSetAsideKey = "boat-set-aside";

constexpr int kMostSetAside = 20;

std::string setAsideKey(int i) {
  return i == 0 ? std::string(kSetAsideKey) : kSetAsideKey + ("-" + std::to_string(i + 1));
}

/// Under a key of its own, so that no earlier one is lost. False: no room.
bool setAside(const std::string& text) {
  for (int i = 0; i < kMostSetAside; ++i) {
    const auto there = browser::recall(setAsideKey(i));
    if (there == text) return true;
    if (!there) return browser::keep(setAsideKey(i), text);
  }
  return false;
}

// One word for each choice that is on.
struct ChoiceWord {
  const char* word;
  bool Preferences::*choice;
};
constexpr ChoiceWord kChoices[] = {{"inches", &Preferences::inches},
                                   {"sixteenths", &Preferences::sixteenths},
                                   {"cubic-inches", &Preferences::cubic_inches},
                                   {"night", &Preferences::night}};
constexpr const char* kLetters[] = {nullptr, "large-text", "largest-text"};  // Preferences::Letters

Result<Session> firstPreset() {
  auto document = preset(0);
  if (!document) return fail(document.error());
  return Session::start(std::move(*document), recallPreferences());
}

Result<Session> resumeBoat() {
  const auto kept = browser::recall(kBoatKey);
  if (!kept) return firstPreset();
  std::string why;
  if (auto document = file::readBoatFile(*kept)) {
    auto session = Session::start(std::move(*document), recallPreferences());
    if (session) {
      resumeShelfPlace(*session);
      return session;
    }
    why = session.error().message;
  } else {
    why = document.error().message;
  }
  const bool set_aside = setAside(*kept);
  auto session = firstPreset();
  if (session)
    session->say("The boat kept in this browser could not be read (" + why + "). " +
                 (set_aside ? "It was set aside; save it from the Boat page."
                            : "It could not be set aside: it is overwritten by the next change."));
  return session;
}

/// A kept depth that is none is as good as no depth kept.
void resumeDepth(Session& session) {
  const auto kept = browser::recall(kDepthKey);
  if (!kept) return;
  char* end = nullptr;
  const double depth = std::strtod(kept->c_str(), &end);
  if (end != kept->c_str() && *end == '\0' && !session.setDepth(depth)) session.dismissNotice();
}

}  // namespace

Result<Session> resumeSession() {
  auto session = resumeBoat();
  if (session && !session->notice()) resumeDepth(*session);  // a notice of a damaged boat stays
  return session;
}

std::vector<std::string> setAsideTexts() {
  std::vector<std::string> texts;
  for (int i = 0; i < kMostSetAside; ++i)
    if (auto text = browser::recall(setAsideKey(i))) texts.push_back(std::move(*text));
  return texts;
}

Preferences recallPreferences() {
  Preferences preferences;
  const auto kept = browser::recall(kPreferencesKey);
  if (!kept) return preferences;
  const std::string words = " " + *kept + " ";
  const auto said = [&](const char* word) {
    return words.find(std::string(" ") + word + " ") != std::string::npos;
  };
  for (const ChoiceWord& c : kChoices) preferences.*c.choice = said(c.word);
  for (const auto letters : {Preferences::Letters::Large, Preferences::Letters::Largest})
    if (said(kLetters[static_cast<int>(letters)])) preferences.letters = letters;
  return preferences;
}

bool keepPreferences(const Preferences& preferences) {
  std::string words = "choices";
  for (const ChoiceWord& c : kChoices)
    if (preferences.*c.choice) words += std::string(" ") + c.word;
  if (const char* word = kLetters[static_cast<int>(preferences.letters)]) words += std::string(" ") + word;
  return browser::keep(kPreferencesKey, words);
}

bool keepBoat(const Session& session) {
  return browser::keep(kBoatKey, file::writeBoatFile(session.base().document)) && keepShelfPlace(session);
}

bool keepDepth(const Session& session) {
  char text[32];
  std::snprintf(text, sizeof text, "%.17g", session.depth());
  return browser::keep(kDepthKey, text);
}

}  // namespace pondtrim
