// Tables of weights: onto a small boat, a changed boat that checkBoat accepts, or an error with a message.
#include <cstdint>
#include <cstdlib>
#include <pondtrim/file/compare.hpp>
#include <pondtrim/file/weights_csv.hpp>

namespace {

pondtrim::Boat smallBoat() {
  pondtrim::Boat boat;
  boat.name = "small";
  pondtrim::Part part;
  part.name = "a";
  part.role = pondtrim::Role::Foam;
  part.density = 33.0;
  boat.parts.push_back(part);
  boat.places.push_back({"a", std::nullopt, std::nullopt, 1e-6, std::nullopt});
  return boat;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const pondtrim::Boat kBoat = smallBoat();
  const auto read = pondtrim::file::readWeightsCsv({reinterpret_cast<const char*>(data), size}, kBoat);
  if (!read) {
    if (read.error().message.empty()) std::abort();
    return 0;
  }
  if (!pondtrim::checkBoat(*read)) std::abort();
  (void)pondtrim::file::compareBoats(kBoat, *read);
  const auto again = pondtrim::file::readWeightsCsv(pondtrim::file::writeWeightsCsv(*read), *read);
  if (!again || !(*again == *read)) std::abort();
  return 0;
}
