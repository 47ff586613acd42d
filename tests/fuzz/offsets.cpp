// Tables of offsets: an error with a message, or a form that the core refuses or turns into a finite hull.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <pondtrim/file/offsets_csv.hpp>
#include <pondtrim/hull.hpp>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto read = pondtrim::file::readOffsetsCsv({reinterpret_cast<const char*>(data), size});
  if (!read) {
    if (read.error().message.empty()) std::abort();
    return 0;
  }
  (void)pondtrim::file::writeOffsetsCsv(*read);
  pondtrim::Boat boat;
  boat.name = "small";
  pondtrim::Skin skin;
  skin.name = "hull";
  skin.form = *read;
  skin.mass = 1.0;
  boat.skins.push_back(skin);
  const auto model = pondtrim::buildModel(boat);
  if (!model) {
    if (model.error().message.empty()) std::abort();
    return 0;
  }
  const pondtrim::Fairing fairing = pondtrim::fairingOf(*read);
  if (!std::isfinite(fairing.volume) || !std::isfinite(fairing.farthest)) std::abort();
  if (!std::isfinite(model->whole_volume) || !std::isfinite(pondtrim::roomInside(skin).volume)) std::abort();
  (void)pondtrim::sectionalAreas(skin, 11);
  (void)pondtrim::paintedLine(boat, 0.05);
  return 0;
}
