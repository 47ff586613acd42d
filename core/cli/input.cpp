#include "input.hpp"

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <memory>

namespace pondtrim::cli {
namespace {

struct CloseFile {
  void operator()(std::FILE* f) const {
    if (f && f != stdin) std::fclose(f);
  }
};

Error cannotRead(const std::string& path, int reason) {
  Error e;
  e.field = path;
  e.was = std::strerror(reason);
  e.allowed = "a file that can be read";
  e.message = path + " cannot be read: " + e.was + ".";
  return e;
}

}  // namespace

Result<std::string> readBytes(const std::string& path, std::size_t most) {
  const std::unique_ptr<std::FILE, CloseFile> file(path == "-" ? stdin : std::fopen(path.c_str(), "rb"));
  if (!file) return fail(cannotRead(path, errno));
  constexpr std::size_t kPiece = std::size_t{1} << 20;
  std::string bytes;
  std::size_t have = 0, got = 0;
  do {
    bytes.resize(have + std::min(kPiece, most + 1 - have));
    got = std::fread(bytes.data() + have, 1, bytes.size() - have, file.get());
    have += got;
  } while (got > 0 && have <= most);
  if (std::ferror(file.get())) return fail(cannotRead(path, errno));
  bytes.resize(have);
  return bytes;
}

int complain(const Error& error) {
  std::fprintf(stderr, "pondtrim: %s\n", error.message.c_str());
  const auto line = [](const char* title, const std::string& text) {
    if (!text.empty()) std::fprintf(stderr, "  %s: %s\n", title, text.c_str());
  };
  line("where", error.field);
  line("and", error.other_field);
  line("was", error.was);
  line("allowed", error.allowed);
  return kBadInput;
}

int complainUsage(const char* command, const std::string& sentence) {
  std::fprintf(stderr, "pondtrim %s: %s See \"pondtrim help\".\n", command, sentence.c_str());
  return kBadInput;
}

Result<file::BoatDocument> readBoat(const std::string& path) {
  const auto text = readBytes(path, file::kMaxFileBytes);
  if (!text) return fail(text.error());
  return file::readBoatFile(*text);
}

std::optional<double> numberFrom(const std::string& word) {
  if (word.empty() || word.find_first_not_of("+-.0123456789eE") != std::string::npos) return std::nullopt;
  char* end = nullptr;
  const double value = std::strtod(word.c_str(), &end);
  if (*end != '\0' || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace pondtrim::cli
