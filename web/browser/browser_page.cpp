// The only file that knows the page's JavaScript (shell/index.html holds the other end).
#include <emscripten.h>

#include <algorithm>

#include "browser/browser.hpp"

namespace {

pondtrim::browser::Handler& handler() {
  static pondtrim::browser::Handler instance;
  return instance;
}

// clang-format off
EM_JS(char*, pageCall, (const char* verb, const char* subject, const char* text), {
  const answer = globalThis.pondPage(UTF8ToString(verb), UTF8ToString(subject), UTF8ToString(text));
  if (answer === null || answer === undefined) return 0;
  const size = lengthBytesUTF8(answer) + 1;
  const at = _malloc(size);
  stringToUTF8(answer, at, size);
  return at;
})
// clang-format on

/// What the page answers, or nothing.
std::optional<std::string> call(const char* verb, std::string_view subject, std::string_view text) {
  char* answer = pageCall(verb, std::string(subject).c_str(), std::string(text).c_str());
  if (answer == nullptr) return std::nullopt;
  std::string copy(answer);
  std::free(answer);
  return copy;
}

}  // namespace

/// The page's one way in: a message of so many bytes, answered with text that stays valid until the next
/// call.
extern "C" EMSCRIPTEN_KEEPALIVE const char* pondtrim_message(const char* message, std::size_t size) {
  static std::string answer;
  answer = handler() ? handler()({message, size}) : std::string();
  return answer.c_str();
}

namespace pondtrim::browser {

void listen(Handler new_handler) {
  handler() = std::move(new_handler);
  call("ready", "", "");
}

std::optional<std::string> recall(std::string_view key) { return call("recall", key, ""); }
bool keep(std::string_view key, std::string_view text) { return call("keep", key, text).has_value(); }
std::vector<std::string> keptKeys(std::string_view prefix) {
  std::vector<std::string> keys;
  const std::string lines = call("kept-keys", prefix, "").value_or("");
  for (std::size_t at = 0; at < lines.size();) {
    const std::size_t end = std::min(lines.find('\n', at), lines.size());
    keys.push_back(lines.substr(at, end - at));
    at = end + 1;
  }
  return keys;
}

void forget(std::string_view key) { call("forget", key, ""); }

void download(std::string_view file_name, std::string_view text) { call("download", file_name, text); }
void saveApp() { call("one-file", "", ""); }
void go(std::string_view page) { call("go", page, ""); }
void shareFile(std::string_view file_name, std::string_view text) { call("share-file", file_name, text); }
void shareLink(std::string_view title, std::string_view link) { call("share-link", title, link); }
void copyText(std::string_view text) { call("copy", "", text); }
std::string pageAddress() { return call("address", "", "").value_or(""); }
void chooseFile(FileKind kind) { call("choose-file", kind == FileKind::Mesh ? "mesh" : "boat", ""); }
void askTable(std::string_view title, std::string_view text) { call("table", title, text); }
void showSheet(std::string_view html, std::string_view text) { call("sheet", text, html); }
void mirror(std::string_view controls) { call("mirror", "", controls); }
void announce(std::string_view text) { call("announce", "", text); }

}  // namespace pondtrim::browser
