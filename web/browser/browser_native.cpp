// Stand-in for the page in native tests: remembers in memory, shows nothing.
#include <map>

#include "browser/browser.hpp"

namespace pondtrim::browser {
namespace {
std::map<std::string, std::string, std::less<>>& kept() {
  static std::map<std::string, std::string, std::less<>> store;
  return store;
}
}  // namespace

// The page's own version keeps the handler, so it comes by value.
void listen(Handler) {}  // NOLINT(performance-unnecessary-value-param)

std::optional<std::string> recall(std::string_view key) {
  const auto found = kept().find(key);
  if (found == kept().end()) return std::nullopt;
  return found->second;
}

bool keep(std::string_view key, std::string_view text) {
  kept()[std::string(key)] = text;
  return true;
}

std::vector<std::string> keptKeys(std::string_view prefix) {
  std::vector<std::string> keys;
  for (const auto& [key, text] : kept())
    if (key.compare(0, prefix.size(), prefix) == 0) keys.push_back(key);
  return keys;
}

void forget(std::string_view key) { kept().erase(std::string(key)); }

void download(std::string_view, std::string_view) {}
void saveApp() {}
void go(std::string_view) {}
void shareFile(std::string_view, std::string_view) {}
void shareLink(std::string_view, std::string_view) {}
void copyText(std::string_view) {}
std::string pageAddress() { return "http://localhost:8000/"; }
void chooseFile(FileKind) {}
void askTable(std::string_view, std::string_view) {}
void showSheet(std::string_view, std::string_view) {}
void mirror(std::string_view) {}
void announce(std::string_view) {}

}  // namespace pondtrim::browser
