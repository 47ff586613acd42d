// Read on, cut, or stop: whichever promises fewest dips.
#include <pondtrim/pond_log.hpp>

namespace pondtrim {

namespace {

// Tuned on the pond trial (tests/bench/pond_trial.cpp).
constexpr double kGain = 0.1;       // of the chance: less is not worth a cut
constexpr double kHopeless = 0.35;  // below it the other condition need not be read before a cut
constexpr double kReread = 0.45;    // both read: above it another reading may be all that is wanting,
constexpr double kSure = 0.75;      // unless the change is as good as sure

bool pays(const Outlook& now, const NextChange& next) {
  if (next.changes.empty()) return false;
  return next.after.probability > now.probability + kGain || next.after.misfit < 0.5 * now.misfit;
}

}  // namespace

bool changeMatters(const Outlook& now) {
  if (now.reread_empty || now.reread_full) return false;
  if (now.done || !now.surfaced_known || !now.dived_known) return false;
  return (now.surfaced_read && now.dived_read) || now.probability < kHopeless;
}

PondStep nextStep(const Outlook& now, const NextChange& next) {
  if (now.done) return PondStep::Done;
  if (!now.surfaced_known || now.reread_empty) return PondStep::ReadEmpty;
  if (!now.dived_known || now.reread_full) return PondStep::ReadFull;
  const bool all_read = now.surfaced_read && now.dived_read;
  const bool poor = now.probability < (all_read ? kReread : kHopeless);
  if (changeMatters(now) && pays(now, next) && (poor || next.after.probability > kSure))
    return PondStep::Change;
  if (now.surfaced_read != now.dived_read) return now.dived_read ? PondStep::ReadEmpty : PondStep::ReadFull;
  if (now.surfaced_confirmed != now.dived_confirmed)
    return now.dived_confirmed ? PondStep::ReadEmpty : PondStep::ReadFull;
  return now.dived_probability <= now.surfaced_probability ? PondStep::ReadFull : PondStep::ReadEmpty;
}

}  // namespace pondtrim
