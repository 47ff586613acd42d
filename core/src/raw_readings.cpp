// Whether what was read since the last change confirms that she is right.
#include "raw_readings.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <vector>

#include "log_filter.hpp"
#include "log_plane.hpp"

namespace pondtrim {

namespace {

// What is read may lie beyond its limit by this many spreads of the reading: so far sound readings stray.
constexpr double kStray = 1.0;
constexpr std::size_t kSettled = 3;  // so often read, a number is not asked for again

/// What was read of one number. Of several the middle one counts, of two that differ the worse: a third
/// settles it.
class Strays {
 public:
  explicit Strays(double allowed) : allowed_(allowed) {}
  void add(const std::optional<Measured>& read, double aim) {
    if (read) strays_.push_back({std::abs(read->value - aim), read->spread});
  }
  /// She did not float, so the number was not to be had.
  void addNone() { strays_.push_back({std::numeric_limits<double>::infinity(), 0}); }
  [[nodiscard]] bool unread() const { return strays_.empty(); }
  [[nodiscard]] bool within() const { return !unread() && beyond(deciding()) <= allowed_; }
  /// Beyond its limit, or nearer to it than to the aim and by less than its own spread.
  [[nodiscard]] bool close() const {
    if (unread() || strays_.size() >= kSettled) return false;
    const Stray s = deciding();
    return std::isfinite(s.off) && s.off > allowed_ / 2 && s.off + s.spread > allowed_;
  }

 private:
  struct Stray {
    double off, spread;
  };
  static double beyond(const Stray& s) { return s.off - kStray * s.spread; }
  [[nodiscard]] Stray deciding() const {
    std::vector<Stray> sorted = strays_;
    const auto middle = sorted.begin() + std::ptrdiff_t(sorted.size() / 2);
    std::nth_element(sorted.begin(), middle, sorted.end(),
                     [](const Stray& a, const Stray& b) { return beyond(a) < beyond(b); });
    return *middle;
  }
  double allowed_;
  std::vector<Stray> strays_;
};

class RawReadings {
 public:
  RawReadings(const Tolerance& t, const Outputs& outputs)
      : wanted_sail_(outputs.wanted_sail), numbers_{Strays(t.mark),
                                                    Strays(t.mark),
                                                    Strays(t.heel),
                                                    Strays(t.net / std::max(outputs.mass_per_sail, 1e-6)),
                                                    Strays(t.trim),
                                                    Strays(t.heel)} {}
  void add(const Reading& r) {
    const bool full = r.tank == TankState::Full;
    if (hung(r)) {  // what carried her weight is not there when she is let go
      of(full ? PondNumber::Sail : PondNumber::Bow).addNone();
    } else if (full) {
      of(PondNumber::Sail).add(r.sail_showing, wanted_sail_);
      of(PondNumber::DivedTrim).add(r.trim, 0);
      of(PondNumber::DivedHeel).add(r.heel, 0);
    } else {
      of(PondNumber::Bow).add(r.bow, 0);
      of(PondNumber::Stern).add(r.stern, 0);
      of(PondNumber::Heel).add(r.heel, 0);
    }
  }
  void tell(Outlook& out) const {
    for (const PondNumber n : kPondNumbers) {
      if (of(n).unread()) out.unread.push_back(n);
      if (of(n).close()) out.close.push_back(n);
    }
    const auto within = [&](PondNumber n) { return of(n).within(); };
    out.surfaced_confirmed = std::all_of(kPondNumbers, kPondNumbers + 3, within);
    out.dived_confirmed = std::all_of(kPondNumbers + 3, std::end(kPondNumbers), within);
  }

 private:
  Strays& of(PondNumber n) { return numbers_[std::size_t(n)]; }
  [[nodiscard]] const Strays& of(PondNumber n) const { return numbers_[std::size_t(n)]; }
  double wanted_sail_;
  Strays numbers_[std::size(kPondNumbers)];
};

/// Laid lead or a weight moved to one side: not as she is.
bool altered(const Reading& r) { return r.laid_mass != 0 || r.shifted_mass != 0; }

}  // namespace

// A doubt about an older reading is history, and one about a reading of which there is a sound second one is
// settled.
void noteReadings(Outlook& out, const Boat& boat, const std::vector<Doubt>& doubts,
                  const Tolerance& tolerance, const Outputs& outputs) {
  const std::vector<Installed> now = installedIn(boat);
  bool laden = false, doubt_surfaced = false, doubt_dived = false, unlikely_surfaced = false,
       unlikely_dived = false;
  RawReadings raw(tolerance, outputs);
  for (std::size_t i = 0; i < boat.log.size(); ++i) {
    const Reading& r = boat.log[i];
    if (!r.used || r.tank == TankState::Measured) continue;
    const bool surfaced = r.tank == TankState::Empty && ((r.bow && r.stern) || hung(r)),
               dived = r.tank == TankState::Full && (r.sail_showing || hung(r));
    out.surfaced_known = out.surfaced_known || surfaced;
    out.dived_known = out.dived_known || dived;
    if (installedIn(withInstalled(boat, r.installed)) != now) continue;
    laden = laden || (r.tank == TankState::Full && r.laid_mass != 0);
    if (altered(r)) continue;
    const bool doubted =
        std::any_of(doubts.begin(), doubts.end(), [&](const Doubt& d) { return d.reading == i; });
    (r.tank == TankState::Empty ? doubt_surfaced : doubt_dived) |= doubted;
    const bool unlikely = std::any_of(doubts.begin(), doubts.end(), [&](const Doubt& d) {
      return d.reading == i && d.kind == Doubt::Unlikely;
    });
    (r.tank == TankState::Empty ? unlikely_surfaced : unlikely_dived) |= unlikely;
    if (doubted) continue;
    raw.add(r);
    out.surfaced_read = out.surfaced_read || surfaced;
    out.dived_read = out.dived_read || dived;
  }
  raw.tell(out);
  out.reread_empty = unlikely_surfaced && !out.surfaced_read;
  out.reread_full = unlikely_dived && !out.dived_read;
  out.read_unladen = laden && !out.dived_read;
  out.doubtful = (doubt_surfaced && !out.surfaced_read) || (doubt_dived && !out.dived_read);
}

}  // namespace pondtrim
