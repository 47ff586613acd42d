// Links: the first byte says whether the rest is a fragment as it stands, a part, or (as a stranger who knows
// the format would send it) a deflate stream with its right checksum.
#include <cstdint>
#include <cstdlib>
#include <pondtrim/file/link.hpp>

#include "base64url.hpp"
#include "deflate.hpp"

namespace {

using namespace pondtrim::file;

void tryFragment(const std::string& fragment) {
  const auto read = readBoatFragment(fragment);
  if (!read) {
    if (read.error().message.empty()) std::abort();
    return;
  }
  const auto again = readBoatFragment(boatFragment(*read));
  if (!again || !(again->boat == read->boat)) std::abort();
}

void tryPart(const std::string& fragment) {
  const auto part = readPartFragment(fragment);
  if (!part) return;
  PartCollection collection;
  collection.add(*part);
  if (collection.missing().size() != static_cast<std::size_t>(part->count) - 1) std::abort();
  if (collection.whole()) tryFragment(*collection.whole());
}

std::string withChecksum(const std::string& stream) {
  const std::uint32_t checksum = crc32Of(stream);
  std::string bytes(1, '\1');
  for (const int shift : {24, 16, 8, 0}) bytes += static_cast<char>((checksum >> shift) & 255);
  return "boat=" + toBase64Url(bytes + stream);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string rest(reinterpret_cast<const char*>(data + 1), size - 1);
  switch (data[0] % 3) {
    case 0:
      tryFragment("boat=" + rest);
      break;
    case 1:
      tryPart("part=" + rest);
      break;
    default:
      tryFragment(withChecksum(rest));
  }
  return 0;
}
