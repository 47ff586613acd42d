#include <algorithm>
#include <cassert>
#include <optional>
#include <pondtrim/file/link.hpp>
#include <utility>

#include "base64url.hpp"
#include "deflate.hpp"
#include "link_dictionary.hpp"

namespace pondtrim::file {
namespace {

constexpr std::string_view kBoatKey = "boat=", kPartKey = "part=";
constexpr std::size_t kHead = 5;         // version and checksum
constexpr std::size_t kChecksumHex = 8;  // characters

Error linkError(std::string was, std::string allowed, std::string message) {
  return {"link", std::move(was), std::move(allowed), "", std::move(message)};
}

Error damaged(std::string was) {
  return linkError(
      std::move(was), "a whole link",
      "This link is damaged: some of its letters are missing or changed. Often its end was cut off when "
      "it was sent; ask for it again, or for the file.");
}

Error tooLong(std::size_t characters) {
  const std::string was = std::to_string(characters) + " characters";
  return linkError(was, "at most " + std::to_string(kMaxLinkCharacters),
                   "This link has " + was + ", more than any boat needs; it was not read.");
}

Error newer(int version) {
  return linkError("version " + std::to_string(version), "at most " + std::to_string(kLinkVersion),
                   "This link was made by a newer Pondtrim than this one (version " +
                       std::to_string(version) + " of links; this one reads up to " +
                       std::to_string(kLinkVersion) +
                       "). Open this page once with a signal to renew it, then open the link again.");
}

Error unpacksTooLarge() {
  return linkError("more than " + std::to_string(kMaxFileBytes) + " bytes",
                   "at most " + std::to_string(kMaxFileBytes),
                   "This link would unpack to more than " + std::to_string(kMaxFileBytes) +
                       " bytes, which no boat needs; it was not opened.");
}

std::string checksumBytes(std::uint32_t checksum) {
  std::string bytes;
  for (const int shift : {24, 16, 8, 0}) bytes += static_cast<char>((checksum >> shift) & 255);
  return bytes;
}

std::string hexOf(std::string_view bytes) {
  constexpr const char* kDigits = "0123456789abcdef";
  std::string hex;
  for (const char byte : bytes) {
    hex += kDigits[(static_cast<unsigned char>(byte) >> 4) & 15];
    hex += kDigits[static_cast<unsigned char>(byte) & 15];
  }
  return hex;
}

bool isHex(std::string_view text) {
  return text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

/// The whole number that text is, 1 to kMaxLinkParts.
std::optional<int> partNumber(std::string_view text) {
  if (text.empty() || text.size() > 2 || text.find_first_not_of("0123456789") != std::string_view::npos)
    return std::nullopt;
  int number = 0;
  for (const char c : text) number = 10 * number + (c - '0');
  if (number < 1 || number > kMaxLinkParts) return std::nullopt;
  return number;
}

/// The text up to the next point, which is taken out too.
std::string_view takeField(std::string_view& rest) {
  const std::size_t end = std::min(rest.find('.'), rest.size());
  const std::string_view field = rest.substr(0, end);
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return field;
}

}  // namespace

BoatDocument withContents(BoatDocument document, const LinkContents& contents) {
  if (!contents.notes) document.boat.notes.clear();
  if (!contents.log) {
    document.boat.log.clear();
    const auto in_log = [](const UnknownPart& part) { return part.parent.rfind("log[", 0) == 0; };
    document.unknown.erase(std::remove_if(document.unknown.begin(), document.unknown.end(), in_log),
                           document.unknown.end());
  }
  return document;
}

std::string boatFragment(const BoatDocument& document) {
  const std::string stream = deflateRaw(writeCompactBoatFile(document), kLinkDictionary1);
  std::string bytes(1, static_cast<char>(kLinkVersion));
  bytes += checksumBytes(crc32Of(stream)) + stream;
  return std::string(kBoatKey) + toBase64Url(bytes);
}

Result<BoatDocument> readBoatFragment(std::string_view fragment) {
  if (fragment.size() > kMaxLinkCharacters) return fail(tooLong(fragment.size()));
  if (fragment.rfind(kBoatKey, 0) != 0)
    return fail(linkError("", "a link that Pondtrim made", "There is no boat in this link."));
  const auto bytes = fromBase64Url(fragment.substr(kBoatKey.size()));
  if (!bytes || bytes->empty()) return fail(damaged("letters that are not base64url"));
  const int version = static_cast<unsigned char>(bytes->front());
  if (version > kLinkVersion) return fail(newer(version));
  if (version == 0 || bytes->size() < kHead) return fail(damaged("too short"));
  const std::string_view stream = std::string_view(*bytes).substr(kHead);
  if (std::string_view(*bytes).substr(1, kHead - 1) != checksumBytes(crc32Of(stream)))
    return fail(damaged("a wrong checksum"));
  const Inflated inflated = inflateRaw(stream, kLinkDictionary1, kMaxFileBytes);
  if (inflated.fault == InflateFault::TooLarge) return fail(unpacksTooLarge());
  if (inflated.fault) return fail(damaged("a stream that cannot be unpacked"));
  return readBoatFile(inflated.text);
}

std::vector<std::string> splitFragment(const std::string& fragment, std::size_t most) {
  assert(most >= 100 && "leaves room for a part's head");
  if (fragment.size() <= most) return {fragment};
  const std::string_view payload = std::string_view(fragment).substr(kBoatKey.size());
  const auto bytes = fromBase64Url(payload);
  assert(bytes && bytes->size() >= kHead && "made by boatFragment");
  const std::string checksum = hexOf(std::string_view(*bytes).substr(1, kHead - 1));
  const std::size_t longest_head = kPartKey.size() + 2 * 3 + kChecksumHex + 1;
  const std::size_t room = most - longest_head;
  const std::size_t count = (payload.size() + room - 1) / room;
  if (count > static_cast<std::size_t>(kMaxLinkParts)) return {};
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t from = payload.size() * i / count, to = payload.size() * (i + 1) / count;
    parts.push_back(std::string(kPartKey) + std::to_string(i + 1) + "." + std::to_string(count) + "." +
                    checksum + "." + std::string(payload.substr(from, to - from)));
  }
  return parts;
}

bool isPartFragment(std::string_view fragment) { return fragment.rfind(kPartKey, 0) == 0; }

Result<LinkPart> readPartFragment(std::string_view fragment) {
  if (fragment.size() > kMaxLinkCharacters) return fail(tooLong(fragment.size()));
  if (!isPartFragment(fragment))
    return fail(linkError("", "a link that Pondtrim made", "There is no part of a boat in this link."));
  std::string_view rest = fragment.substr(kPartKey.size());
  const auto number = partNumber(takeField(rest)), count = partNumber(takeField(rest));
  const std::string_view checksum = takeField(rest);
  if (!number || !count || *number > *count || checksum.size() != kChecksumHex || !isHex(checksum) ||
      rest.empty())
    return fail(damaged("a part without its number"));
  return LinkPart{*number, *count, std::string(checksum), std::string(rest)};
}

void PartCollection::add(const LinkPart& part) {
  if (part.checksum != checksum_ || part.count != count_) {
    checksum_ = part.checksum;
    count_ = part.count;
    texts_.assign(static_cast<std::size_t>(count_), {});
  }
  texts_[static_cast<std::size_t>(part.number - 1)] = part.text;
}

std::vector<int> PartCollection::missing() const {
  std::vector<int> numbers;
  for (std::size_t i = 0; i < texts_.size(); ++i)
    if (texts_[i].empty()) numbers.push_back(static_cast<int>(i) + 1);
  return numbers;
}

std::optional<std::string> PartCollection::whole() const {
  if (count_ == 0 || !missing().empty()) return std::nullopt;
  std::string fragment(kBoatKey);
  for (const std::string& text : texts_) fragment += text;
  return fragment;
}

std::string PartCollection::lines() const {
  std::string lines;
  for (std::size_t i = 0; i < texts_.size(); ++i)
    if (!texts_[i].empty())
      lines += std::string(kPartKey) + std::to_string(i + 1) + "." + std::to_string(count_) + "." +
               checksum_ + "." + texts_[i] + "\n";
  return lines;
}

}  // namespace pondtrim::file
