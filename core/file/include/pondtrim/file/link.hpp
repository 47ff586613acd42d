#pragma once
// A boat as the fragment of a link (what follows the # and never leaves the phone), whole or in parts that
// each fit a code for a phone's camera. Text in, text out.
//
//   boat=PAYLOAD             PAYLOAD: base64url (RFC 4648 section 5, no padding) of
//                              byte 0      version of the link, 1
//                              bytes 1-4   CRC-32 of the bytes that follow, highest byte first
//                              the rest    raw deflate (RFC 1951) of the boat file without blanks, its window
//                              filled
//                                          with the dictionary of that version
//   part=2.3.1f00ab42.TEXT   part 2 of 3 of a payload whose checksum is 1f00ab42; TEXT is its share of
//   PAYLOAD
#include <cstddef>
#include <optional>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/result.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace pondtrim::file {

inline constexpr int kLinkVersion = 1;
/// Longer fragments are refused unread. The longest a common browser opens is about twice that.
inline constexpr std::size_t kMaxLinkCharacters = 1u << 20;
inline constexpr int kMaxLinkParts = 99;

/// What a person may keep for himself.
struct LinkContents {
  bool notes = true;
  bool log = true;  ///< without it the correction stays: it is the boat's, and her numbers need it
  bool operator==(const LinkContents&) const = default;
};

/// The document without what is kept back.
[[nodiscard]] BoatDocument withContents(BoatDocument document, const LinkContents& contents);

/// "boat=..."
[[nodiscard]] std::string boatFragment(const BoatDocument& document);

/// Reads "boat=..." and gives back the very document that was put in, bit for bit. Error: `field` is "link"
/// for a fragment that is too long, damaged, from a newer version or unpacks to more than kMaxFileBytes; else
/// as readBoatFile.
[[nodiscard]] Result<BoatDocument> readBoatFragment(std::string_view fragment);

/// One part of a link.
struct LinkPart {
  int number = 1, count = 1;
  std::string checksum;  ///< of the whole, which tells the parts of two boats apart
  std::string text;
  bool operator==(const LinkPart&) const = default;
};

/// The fragment as it is when it has at most `most` characters; else as few fragments "part=..." of about
/// equal length as that allows. `most`: 100 or more. Empty: kMaxLinkParts do not suffice.
[[nodiscard]] std::vector<std::string> splitFragment(const std::string& fragment, std::size_t most);

[[nodiscard]] bool isPartFragment(std::string_view fragment);
/// Error: as readBoatFragment.
[[nodiscard]] Result<LinkPart> readPartFragment(std::string_view fragment);

/// Parts in the order in which a camera happened to see them; those of the last boat seen are kept.
class PartCollection {
 public:
  void add(const LinkPart& part);
  [[nodiscard]] int count() const { return count_; }
  [[nodiscard]] std::vector<int> missing() const;
  /// "boat=..." when all are there.
  [[nodiscard]] std::optional<std::string> whole() const;
  /// The parts' fragments, one a line: what must be kept between visits, and read again with
  /// readPartFragment.
  [[nodiscard]] std::string lines() const;

 private:
  std::string checksum_;
  int count_ = 0;
  std::vector<std::string> texts_;  ///< empty: not seen yet
};

}  // namespace pondtrim::file
