// Whether what was read since the last change confirms that she is right.
#include "raw_readings.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "log_filter.hpp"
#include "log_plane.hpp"

namespace pondtrim {

namespace {

/// How far the numbers read of one thing lie from what is wanted, beyond two spreads of theirs, over what is
/// allowed. Of several the middle one counts, of two that differ the worse: a third reading settles it.
class Strays {
 public:
  void add(const std::optional<Measured>& read, double aim, double allowed) {
    if (read) strays_.push_back((std::abs(read->value - aim) - 2 * read->spread) / allowed);
  }
  /// She did not float, so the number was not to be had.
  void addNone() { strays_.push_back(std::numeric_limits<double>::infinity()); }
  [[nodiscard]] bool within() {
    if (strays_.empty()) return true;
    const auto middle = strays_.begin() + std::ptrdiff_t(strays_.size() / 2);
    std::nth_element(strays_.begin(), middle, strays_.end());
    return *middle <= 1;
  }

 private:
  std::vector<double> strays_;
};

struct RawReadings {
  Strays bow, stern, heel, sail, trim, dived_heel;
  void add(const Reading& r, const Tolerance& t, const Outputs& outputs) {
    const bool full = r.tank == TankState::Full;
    if (hung(r)) {  // what carried her weight is not there when she is let go
      (full ? sail : bow).addNone();
    } else if (full) {
      sail.add(r.sail_showing, outputs.wanted_sail, t.net / std::max(outputs.mass_per_sail, 1e-6));
      trim.add(r.trim, 0, t.trim);
      dived_heel.add(r.heel, 0, t.heel);
    } else {
      bow.add(r.bow, 0, t.mark);
      stern.add(r.stern, 0, t.mark);
      heel.add(r.heel, 0, t.heel);
    }
  }
  [[nodiscard]] bool surfacedWithin() { return bow.within() && stern.within() && heel.within(); }
  [[nodiscard]] bool divedWithin() { return sail.within() && trim.within() && dived_heel.within(); }
};

/// Laid lead or a weight moved to one side: not as she is.
bool altered(const Reading& r) { return r.laid_mass != 0 || r.shifted_mass != 0; }

}  // namespace

// A doubt about an older reading is history, and one about a reading of which there is a sound second one is
// settled.
void noteReadings(Outlook& out, const Boat& boat, const std::vector<Doubt>& doubts,
                  const Tolerance& tolerance, const Outputs& outputs) {
  const std::vector<Installed> now = installedIn(boat);
  bool doubt_surfaced = false, doubt_dived = false;
  RawReadings raw;
  for (std::size_t i = 0; i < boat.log.size(); ++i) {
    const Reading& r = boat.log[i];
    if (!r.used || r.tank == TankState::Measured) continue;
    const bool surfaced = r.tank == TankState::Empty && ((r.bow && r.stern) || hung(r)),
               dived = r.tank == TankState::Full && (r.sail_showing || hung(r));
    out.surfaced_known = out.surfaced_known || surfaced;
    out.dived_known = out.dived_known || dived;
    if (altered(r) || installedIn(withInstalled(boat, r.installed)) != now) continue;
    const bool doubted =
        std::any_of(doubts.begin(), doubts.end(), [&](const Doubt& d) { return d.reading == i; });
    (r.tank == TankState::Empty ? doubt_surfaced : doubt_dived) |= doubted;
    if (doubted) continue;
    raw.add(r, tolerance, outputs);
    out.surfaced_read = out.surfaced_read || surfaced;
    out.dived_read = out.dived_read || dived;
  }
  out.surfaced_confirmed = out.surfaced_read && raw.surfacedWithin();
  out.dived_confirmed = out.dived_read && raw.divedWithin();
  out.doubtful = (doubt_surfaced && !out.surfaced_read) || (doubt_dived && !out.dived_read);
}

}  // namespace pondtrim
