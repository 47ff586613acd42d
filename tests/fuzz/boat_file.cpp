// Whatever the bytes: a boat that is written and read again unchanged, or an error with a message.
#include <cstdint>
#include <cstdlib>
#include <pondtrim/file/boat_file.hpp>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pondtrim::file;
  const auto read = readBoatFile({reinterpret_cast<const char*>(data), size});
  if (!read) {
    if (read.error().message.empty()) std::abort();
    return 0;
  }
  const auto again = readBoatFile(writeBoatFile(*read));
  if (!again || !(again->boat == read->boat) || again->unknown != read->unknown) std::abort();
  const auto compact = readBoatFile(writeCompactBoatFile(*read));
  if (!compact || !(compact->boat == read->boat)) std::abort();
  return 0;
}
