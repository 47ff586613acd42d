// The pond log in a builder's words.
#include <algorithm>
#include <cmath>
#include <pondtrim/file/correct_json.hpp>

#include "number_words.hpp"

namespace pondtrim::file {
namespace {

constexpr const char* kPlusMinus = "± ";
constexpr double kTrimArm = 0.1, kSideArm = 0.01;  ///< [m] over which a moment is told as a weight

std::string spreadWords(const std::string& spread) { return std::string("(") + kPlusMinus + spread + ")"; }

std::string massWithSpread(const Spread& s, const UnitSet& units) {
  return sayMass(std::abs(s.value), units) + " " + spreadWords(sayMass(s.spread, units));
}

bool isClear(const Spread& s) { return std::abs(s.value) > 2 * s.spread; }

std::string weightSentence(const BalanceFound& b, const char* when, const UnitSet& units) {
  if (!isClear(b.weight))
    return std::string(when) + " she weighs what the file says, as far as the readings can tell " +
           spreadWords(sayMass(b.weight.spread, units)) + ".";
  std::string out = std::string(when) + " she is about " + massWithSpread(b.weight, units) +
                    (b.weight.value > 0 ? " heavier" : " lighter") + " than the file says";
  if (b.x)
    out += ", somewhere near " + say(b.x->value, units.length, 0) + " from the stern " +
           spreadWords(say(b.x->spread, units.length, 0));
  return out + ".";
}

/// A moment as the weight that would make it when moved so far.
std::string momentSentence(const Spread& moment, double arm, const char* when, const char* plus,
                           const char* minus, const UnitSet& units) {
  const Spread weight{moment.value / arm, moment.spread / arm};
  return std::string(when) + " she balances as if " + massWithSpread(weight, units) + " had been moved " +
         say(arm, units.length, units.length.suffix == std::string_view("mm") ? 0 : 1) +
         (moment.value > 0 ? plus : minus) + ".";
}

void addBalance(std::vector<std::string>& out, const BalanceFound& b, const char* when,
                const UnitSet& units) {
  out.push_back(weightSentence(b, when, units));
  if (!b.x && isClear(b.bow_moment))
    out.push_back(
        momentSentence(b.bow_moment, kTrimArm, when, " towards the bow", " towards the stern", units));
  if (isClear(b.port_moment))
    out.push_back(momentSentence(b.port_moment, kSideArm, when, " to port", " to starboard", units));
}

std::string more(double change) { return change < 0 ? " less" : " more"; }

std::string percentSentence(const char* what, const CauseGuess& g) {
  return what + fixedText(100 * std::abs(g.change), 1) + " %" + more(g.change) + " than the file says " +
         spreadWords(fixedText(100 * g.spread, 1) + " %") + ".";
}

const Part* partNamed(const Boat& boat, const std::string& name) {
  for (const Part& p : boat.parts)
    if (p.name == name) return &p;
  return nullptr;
}

struct DoubtWords {
  const char* field;
  const char* words;
  Quantity quantity;
};
constexpr DoubtWords kDoubtWords[] = {{"bow", "the line at the bow mark", Quantity::Length},
                                      {"stern", "the line at the stern mark", Quantity::Length},
                                      {"sail_showing", "the sail showing", Quantity::Length},
                                      {"trim", "the trim", Quantity::Angle},
                                      {"heel", "the heel", Quantity::Angle},
                                      {"pull", "the pull", Quantity::Mass},
                                      {"bow_pull", "the pull at the bow hook", Quantity::Mass},
                                      {"stern_pull", "the pull at the stern hook", Quantity::Mass}};

std::string sayValue(double si, Quantity quantity, const UnitSet& units) {
  if (quantity == Quantity::Angle) return sayAngle(si);
  return quantity == Quantity::Mass ? sayMass(si, units) : sayLength(si, units);
}

std::string aboveBelow(const Predicted& p, const UnitSet& units) {
  return sayLength(std::abs(p.value), units) + (p.value < 0 ? " below" : " above") + " the water " +
         spreadWords(sayLength(p.spread, units));
}
std::string turned(const Predicted& p, const char* plus, const char* minus) {
  constexpr double kSaid = 0.05 * kPi / 180;  // below this the words say 0.0
  const char* way = std::abs(p.value) < kSaid ? "" : p.value < 0 ? minus : plus;
  return sayAngle(std::abs(p.value)) + way + " " + spreadWords(sayAngle(p.spread));
}
std::string sayChance(double probability) {
  if (probability > 0.99) return "more than 99 %";
  return probability < 0.01 ? "less than 1 %" : fixedText(100 * probability, 0) + " %";
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return out;
}

}  // namespace

std::string changeSentence(const Boat& boat, const PondChange& change, const UnitSet& units) {
  const double by = change.after - change.before;
  if (change.slides)
    return "Slide the " + change.part + " " + sayLength(std::abs(by), units) +
           (by > 0 ? " forward" : " aft") + ", to " + sayLength(change.after, units) + " from the stern.";
  const Part* part = partNamed(boat, change.part);
  const bool foam = part && part->role == Role::Foam;
  const std::string amount =
      foam ? sayVolume(std::abs(by), units) + " of foam"
           : sayMass(std::abs(by), units) + (part && part->role == Role::Lead ? " of lead" : "");
  const std::string sides = part && part->mirrored ? ", on each side" : "";
  const std::string where =
      part && change.before == 0
          ? " (at " +
                say(part->position.x, units.length, units.length.suffix == std::string_view("mm") ? 0 : 1) +
                " from the stern)"
          : "";
  if (by < 0) return "Take " + amount + " out of the " + change.part + sides + ".";
  return "Add " + amount + " to the " + change.part + where + sides + ".";
}

std::string coarseSentence(const Boat& boat, const CoarseStep& coarse, const UnitSet& units) {
  const Part* part = partNamed(boat, coarse.part);
  const std::string step = coarse.slides                      ? sayLength(coarse.step, units)
                           : part && part->role == Role::Foam ? sayVolume(coarse.step, units)
                                                              : sayMass(coarse.step, units);
  constexpr double kFar = 20 * kPi / 180;  // beyond it the answer to a step is no longer linear
  const std::string turn = coarse.turn > kFar ? "more than " + say(kFar, kDegree, 0) : sayAngle(coarse.turn);
  return "One step of " + step + " at the " + coarse.part + " turns her dived trim by " + turn +
         ": take finer steps there, or slide a weight instead.";
}

std::string guessSentence(const CauseGuess& g, const UnitSet& units) {
  switch (g.kind) {
    case CauseGuess::Weights:
      return "The weights together are " + massWithSpread({g.change, g.spread}, units) + more(g.change) +
             " than the file says.";
    case CauseGuess::Skin:
      return percentSentence("The skin displaces ", g);
    case CauseGuess::Cylinder:
      return percentSentence("The sealed cylinder displaces ", g);
    case CauseGuess::Solids:
      return percentSentence("The wet parts together displace ", g);
    case CauseGuess::Foam:
      return percentSentence("The foam displaces ", g);
    case CauseGuess::Tank:
      return percentSentence("The tank holds ", g);
    case CauseGuess::TrappedAir:
      return g.change < 0
                 ? "No sign of trapped air in the upper bow."
                 : "About " + sayVolume(g.change, units) + " " + spreadWords(sayVolume(g.spread, units)) +
                       " of air is trapped high in the bow.";
    case CauseGuess::Forgotten:
      break;
  }
  return g.change < 0 ? "Something of " + massWithSpread({g.change, g.spread}, units) +
                            " in the file is not in the boat."
                      : "Something of " + massWithSpread({g.change, g.spread}, units) +
                            " in the boat is not in the file.";
}

std::string doubtSentence(const Doubt& doubt, const UnitSet& units) {
  const auto* known = std::find_if(std::begin(kDoubtWords), std::end(kDoubtWords),
                                   [&](const DoubtWords& w) { return doubt.field == w.field; });
  const bool found = known != std::end(kDoubtWords);
  const Quantity quantity = found ? known->quantity : Quantity::Number;
  std::string out = "Reading " + std::to_string(doubt.reading + 1) + ": " +
                    (found ? known->words : doubt.field.c_str()) + " was read as " +
                    sayValue(doubt.measured, quantity, units);
  constexpr double kNoAttitude = 1e6;  // no position of rest gives such a number
  if (doubt.kind == Doubt::Unlikely)
    return out + ", where the file's boat gives " + sayValue(doubt.fitted, quantity, units) +
           ": hardly the same boat. Look for a slip and read it again; read alike a second time it is "
           "believed.";
  out += std::abs(doubt.fitted) > kNoAttitude
             ? ", but the boat that the readings describe would not float so at all."
             : ", but the boat that all readings describe gives " + sayValue(doubt.fitted, quantity, units) +
                   ".";
  return out + " Look for a slip, and read it again.";
}

const char* numberWords(PondNumber number) {
  switch (number) {
    case PondNumber::Bow:
      return "the bow mark";
    case PondNumber::Stern:
      return "the stern mark";
    case PondNumber::Heel:
      return "the heel with the tank empty";
    case PondNumber::Sail:
      return "the sail with the tank full";
    case PondNumber::DivedTrim:
      return "the trim with the tank full";
    case PondNumber::DivedHeel:
      break;
  }
  return "the heel with the tank full";
}

const char* readingWords(Outlook::Reading reading) {
  switch (reading) {
    case Outlook::Reading::SurfacedMarks:
      return "both marks with the tank empty";
    case Outlook::Reading::SurfacedHeel:
      return "the heel with the tank empty";
    case Outlook::Reading::DivedSail:
      return "the sail showing with the tank full";
    case Outlook::Reading::DivedTrim:
      return "the trim with the tank full";
    case Outlook::Reading::DivedHeel:
      return "the heel with the tank full";
    case Outlook::Reading::Inclining:
      break;
  }
  return "the heel with a known weight moved to one side";
}

std::vector<std::string> doubtSentences(const Estimate& estimate, const UnitSet& units) {
  std::vector<std::string> out;
  for (const Doubt& d : estimate.doubts) out.push_back(doubtSentence(d, units));
  if (estimate.widened > 1)
    out.push_back(
        "What was read lies further from the file than weights and volumes usually err: read it again before "
        "you cut. If it stays, look for water or air where it should not be, a tank that does not fill, or a "
        "piece that is not in the file.");
  return out;
}

namespace {
std::string stabilitySentence(const CorrectAnswer& answer, const UnitSet& units) {
  const Predicted& gm = answer.outlook.gm;
  if (!answer.height)
    return "The height of her weight (G) does not show in these readings, so stability is as the file says" +
           (answer.outlook.sinks ? std::string()
                                 : ": with the tank empty GM would be " + sayLength(gm.value, units)) +
           ". Move a known weight a known distance to one side and read the heel to see it.";
  const Spread& g = *answer.height;
  const std::string spread = " " + spreadWords(sayLength(g.spread, units));
  const std::string lies =
      isClear(g) ? "her weight (G) lies " + sayLength(std::abs(g.value), units) + spread +
                       (g.value > 0 ? " higher" : " lower") + " than the file says"
                 : "the height of her weight (G) is what the file says, as far as that can tell" + spread;
  if (answer.outlook.sinks) return "By the heel read with a weight moved to one side, " + lies + ".";
  return "By the heel read with a weight moved to one side, GM with the tank empty is " +
         sayLength(gm.value, units) + " " + spreadWords(sayLength(gm.spread, units)) + ": " + lies + ".";
}
}  // namespace

std::vector<std::string> correctionSentences(const Boat& boat, const CorrectAnswer& answer,
                                             const UnitSet& units) {
  const Estimate& e = answer.estimate;
  std::vector<std::string> out;
  if (e.values_used == 0) {
    out.push_back(boat.log.empty() ? "There is no reading yet, so nothing is corrected."
                                   : "No reading is in use, so nothing is corrected.");
    return out;
  }
  addBalance(out, answer.surfaced, "Tank empty,", units);
  addBalance(out, answer.dived, "Tank full,", units);
  for (std::string& s : doubtSentences(e, units)) out.push_back(std::move(s));
  const auto worthSaying = [](const CauseGuess& g) {
    const bool no_air = g.kind == CauseGuess::TrappedAir && g.change < 0;  // air cannot be less than none
    return std::abs(g.change) > 0.5 * g.spread && !no_air;
  };
  for (const CauseGuess& g : e.guesses)
    if (worthSaying(g)) out.push_back("A guess at the cause: " + guessSentence(g, units));
  out.push_back(
      "A weight too much and displacement too little look the same in these readings: the balance is "
      "corrected, its cause is a guess.");
  out.push_back(stabilitySentence(answer, units));
  return out;
}

namespace {
std::string chanceSentence(const Outlook& o) {
  return "The chance that all of it is within its limits is " + sayChance(o.probability) + ".";
}
}  // namespace

std::vector<std::string> outlookSentences(const Outlook& o, const UnitSet& units) {
  const std::string chance = chanceSentence(o);
  const std::string surfaced = "Tank empty, the painted line should lie " + aboveBelow(o.bow, units) +
                               " at the bow mark and " + aboveBelow(o.stern, units) +
                               " at the stern mark, heel " + turned(o.heel, " to starboard", " to port") +
                               ".";
  const std::string weight = "Tank full, she should be " + sayMass(std::abs(o.dived_net.value), units) + " " +
                             spreadWords(sayMass(o.dived_net.spread, units)) +
                             (o.dived_net.value >= 0 ? " lighter" : " heavier") + " than wanted";
  if (o.sinks) return {"Tank empty, she sinks.", weight + ": she sinks.", chance};
  if (o.dived_sinks) return {surfaced, weight + ": she sinks.", chance};
  return {surfaced,
          weight + ", with " + sayLength(o.sail_showing, units) + " " +
              spreadWords(sayLength(o.sail_spread, units)) + " of sail showing, trim " +
              turned(o.dived_trim, " bow up", " bow down") + ", heel " +
              turned(o.dived_heel, " to starboard", " to port") + ".",
          chance};
}

namespace {
std::vector<std::string> numbersIn(const std::vector<PondNumber>& numbers) {
  std::vector<std::string> out;
  out.reserve(numbers.size());
  for (const PondNumber n : numbers) out.emplace_back(numberWords(n));
  return out;
}

/// Read in both conditions, and still not done. A chance that is poor says enough.
std::string whyOpen(const Outlook& o) {
  constexpr const char* kRaw = " what was read lies outside its limit by more than a reading's spread.";
  constexpr double kPoor = 0.5;
  const bool poor = o.probability < kPoor;
  std::string why;  // appended to: g++ 12 sees a false bound in literal + string (its bug 105651)
  if (o.sinks || o.dived_sinks) {
    why += o.sinks ? " she sinks with the tank empty." : " she sinks with the tank full.";
    return why;
  }
  if (!poor && !o.unread.empty()) {
    why += " not read since the last change: ";
    why += listed(numbersIn(o.unread));
    why += ".";
    return why;
  }
  if (!poor && (!o.surfaced_confirmed || !o.dived_confirmed)) {
    why += o.surfaced_confirmed ? " with the tank full" : " with the tank empty";
    why += kRaw;
    return why;
  }
  why += " the chance that all of it is within its limits, ";
  why += sayChance(o.probability);
  why += ", is too small.";
  return why;
}
}  // namespace

std::vector<std::string> verdictSentences(const CorrectAnswer& answer) {
  const Outlook& o = answer.outlook;
  std::vector<std::string> out;
  if (o.done) {
    out.push_back(
        "Done: marks, sail, trim and heel were read since the last change, and lie within their limits as "
        "far "
        "as a reading can tell (each within its limit and its own spread). " +
        chanceSentence(o));
  } else {
    std::vector<std::string> missing;
    if (!o.surfaced_read) missing.push_back("both marks with the tank empty");
    if (!o.dived_read) missing.push_back("the sail or the pull with the tank full");
    std::string why = "Not done:";
    if (!missing.empty()) why += " not read since the last change: " + listed(missing) + ".";
    if (missing.empty() && o.doubtful) why += " a reading does not fit the others.";
    if (missing.empty() && !o.doubtful) why += whyOpen(o);
    out.push_back(why);
    if (!o.surfaced_known || !o.dived_known) out.push_back("Take both readings before you cut anything.");
    if (!o.dived_known)
      out.push_back(
          "If she sinks with the tank full, hang her by one hook at the sail's top and read pull, trim and "
          "heel. "
          "If she floats far too high, lay lead on the deck below the sail until about as much sail shows as "
          "wanted, and note how much: only then does her trim tell.");
  }
  if (answer.step == PondStep::ReadEmpty) out.push_back("Next: dip her with the tank empty.");
  if (answer.step == PondStep::ReadFull)
    out.push_back(o.read_unladen ? "Next: dip her with the tank full, as she is, with no lead laid on."
                                 : "Next: dip her with the tank full.");
  if (answer.step == PondStep::Change) out.push_back("Next: the change below, then dip her again.");
  if (!answer.close_calls.empty())
    out.push_back("Close to the limit, read again: " + listed(numbersIn(answer.close_calls)) + ".");
  if (o.best_gain > 0.05)
    out.push_back(std::string("The reading that would tell most is ") + readingWords(o.best_reading) +
                  ": it takes away about " + fixedText(100 * o.best_gain, 0) + " % of what is not known.");
  return out;
}

std::vector<std::string> nextSentences(const CorrectAnswer& answer, const UnitSet& units) {
  std::vector<std::string> out;
  if (answer.outlook.reread_empty || answer.outlook.reread_full) {
    out.push_back("No change is worked out from a reading that hardly can be true: read it again first.");
    return out;
  }
  if (answer.next.changes.empty()) {
    out.push_back("No change in whole steps would make her better.");
    return out;
  }
  for (const PondChange& c : answer.next.changes) out.push_back(changeSentence(answer.next.boat, c, units));
  const CoarseStep* worst = nullptr;
  for (const CoarseStep& coarse : answer.coarse) {
    const bool touched = std::any_of(answer.next.changes.begin(), answer.next.changes.end(),
                                     [&](const PondChange& c) { return c.part == coarse.part; });
    if (touched && (!worst || coarse.turn > worst->turn)) worst = &coarse;
  }
  if (worst) out.push_back(coarseSentence(answer.next.boat, *worst, units));
  out.push_back("After this change:");
  for (std::string& s : outlookSentences(answer.next.after, units)) out.push_back(std::move(s));
  return out;
}

}  // namespace pondtrim::file
