// The dive in a builder's words.
#include <cmath>
#include <pondtrim/file/dive_json.hpp>

#include "number_words.hpp"

namespace pondtrim::file {
namespace {

std::string way(const Finding& f) {
  if (f.going_down && f.coming_up) return "Going down and coming up";
  return f.going_down ? "Going down" : "Coming up";
}

std::string where(const Finding& f, const UnitSet& units) {
  if (f.from_fill == f.to_fill) return "with " + sayVolume(f.from_fill, units) + " in the tank";
  return "with " + sayVolume(f.from_fill, units) + " to " + sayVolume(f.to_fill, units) + " in the tank";
}

constexpr double kNothing = 0.05 * kPi / 180;  // rounds to 0.0 degrees

std::string trimWords(double trim) {
  if (std::abs(trim) < kNothing) return "nothing";
  return sayAngle(std::abs(trim)) + (trim < 0 ? " bow down" : " bow up");
}
std::string heelWords(double heel) {
  if (std::abs(heel) < kNothing) return "upright";
  return sayAngle(std::abs(heel)) + (heel < 0 ? " to port" : " to starboard");
}

std::string rollCause(const Finding& f, const UnitSet& units) {
  if (f.worst > 0) return " She rolled over before and stays so, though she could stand upright.";
  if (!f.water_runs) return " The weight lies too high: even with the water held still she would not stand.";
  return " The water of the part-full tank runs to the low side; held still, GM would be " +
         sayLength(f.worst_frozen, units) + ".";
}

std::string trimCause(const Finding& f) {
  if (!f.water_runs)
    return " With the water held still she would still trim " + trimWords(f.worst_frozen) +
           ": weight and buoyancy do not balance fore and aft.";
  const std::string runs = " The water runs along the part-full tank to one end; held still, she would ";
  if (std::abs(f.worst_frozen) < kNothing) return runs + "lie level.";
  return runs + "trim only " + trimWords(f.worst_frozen) + ".";
}

std::string heelCause(const Finding& f) {
  const std::string off = " Something heavy or buoyant is off the centreline";
  if (!f.water_runs) return off + ".";
  return off + ", and the water of the part-full tank runs to the low side; held still, she would hang " +
         heelWords(f.worst_frozen) + ".";
}

std::string findingSentence(const Finding& f, const DiveLimits& limits, const UnitSet& units) {
  const std::string start = way(f) + ", " + where(f, units) + ", ";
  switch (f.trouble) {
    case Trouble::RollsOver:
      if (f.worst > 0) return start + "she lies over to one side." + rollCause(f, units);
      return start + "she does not stay upright: GM is " + sayLength(f.worst, units) + " at " +
             sayVolume(f.worst_fill, units) + ", so she lies over to one side." + rollCause(f, units);
    case Trouble::Heels:
      return start + "she hangs " + heelWords(f.worst) + "." + heelCause(f);
    case Trouble::Pitches:
      return start + "she trims up to " + trimWords(f.worst) + "; the limit is " + sayAngle(limits.trim) +
             "." + trimCause(f);
    case Trouble::StandsOnEnd:
      return start + "she stands on her " + (f.worst < 0 ? "bow" : "stern") + " (" + trimWords(f.worst) +
             ")." + trimCause(f);
    case Trouble::Sinks:
      break;
  }
  return start + "she is up to " + sayMass(f.worst, units) +
         " heavier than the water she can push aside, and sinks.";
}

std::string helpStart(const HelpTried& h, const UnitSet& units) {
  const std::string by = sayLength(std::abs(h.amount), units);
  switch (h.help) {
    case Help::Bulkheads: {
      const int n = static_cast<int>(h.amount);
      return n == 1 ? "A bulkhead half way along the tank"
                    : std::to_string(n) + " bulkheads evenly spaced in the tank";
    }
    case Help::TankCentred:
      return "The tank moved " + by + (h.amount < 0 ? " aft" : " forward") + ", to the fore-and-aft balance,";
    case Help::ShorterTank:
      return "The tank " + by + " shorter, half of it at each end,";
    case Help::Together:
      return "All of these together, but for the shorter tank,";
    case Help::LeadLower:
      break;
  }
  return "All lead " + by + " lower";
}

/// A shorter tank holds less: how high she then stays.
std::string shorterPrice(const HelpTried& h, const UnitSet& units) {
  if (h.help != Help::ShorterTank || !h.sail_showing) return "";
  return " It holds less: full, " + sayLength(*h.sail_showing, units) + " of sail still show.";
}

std::string gapSentence(const DiveGap& g, const UnitSet& units) {
  const std::string where = g.from_fill == g.to_fill ? "At " + sayVolume(g.from_fill, units)
                                                     : "Between " + sayVolume(g.from_fill, units) + " and " +
                                                           sayVolume(g.to_fill, units);
  std::string by;
  if (g.trim >= kNothing) by = "the trim differs by up to " + sayAngle(g.trim);
  if (g.heel >= kNothing)
    by += (by.empty() ? "the heel differs by up to " : ", the heel by up to ") + sayAngle(g.heel);
  return where + " coming up is not the way she went down: " + by + ".";
}

const char* troubleWords(Trouble trouble) {
  switch (trouble) {
    case Trouble::RollsOver:
      return "the rolling over";
    case Trouble::Heels:
      return "the heel";
    case Trouble::Pitches:
      return "the trim beyond the limit";
    case Trouble::StandsOnEnd:
      return "the standing on end";
    case Trouble::Sinks:
      break;
  }
  return "the sinking";
}

std::string list(const std::vector<Trouble>& troubles) {
  std::string out;
  for (std::size_t i = 0; i < troubles.size(); ++i) {
    if (i > 0) out += i + 1 == troubles.size() ? " and " : ", ";
    out += troubleWords(troubles[i]);
  }
  return out;
}

std::string helpSentence(const HelpTried& h, const UnitSet& units) {
  const bool plural = h.help == Help::Together || (h.help == Help::Bulkheads && h.amount > 1);
  std::string out = helpStart(h, units) + (plural ? " cure " : " cures ") + list(h.cured) +
                    ": the most trim is then " + sayAngle(h.greatest_trim) + ", the least GM " +
                    sayLength(h.least_gm_transverse, units) + "." + shorterPrice(h, units);
  if (!h.remaining.empty()) out += " Still to cure: " + list(h.remaining) + ".";
  return out;
}

}  // namespace

std::vector<std::string> diveSentences(const DiveSweep& sweep,
                                       const std::optional<std::vector<HelpTried>>& helps,
                                       const UnitSet& units) {
  std::vector<std::string> out;
  if (sweep.findings.empty())
    out.push_back("Nothing goes wrong on the way down or up: she stays upright and within " +
                  sayAngle(sweep.limits.trim) + " of level.");
  for (const Finding& f : sweep.findings) out.push_back(findingSentence(f, sweep.limits, units));
  for (const DiveGap& g : sweep.gaps) out.push_back(gapSentence(g, units));
  if (helps)
    for (const HelpTried& h : *helps) out.push_back(helpSentence(h, units));
  if (!sweep.findings.empty() && helps && helps->empty())
    out.push_back(
        "Neither bulkheads, nor a shorter tank, nor the tank on the fore-and-aft balance, nor lead " +
        sayLength(0.02, units) + " lower cures it: look at the weights and the foam.");
  out.push_back("The least GM on the way is " + sayLength(sweep.least_gm_transverse.gm, units) + ", with " +
                sayVolume(sweep.least_gm_transverse.fill, units) + " in the tank.");
  return out;
}

}  // namespace pondtrim::file
