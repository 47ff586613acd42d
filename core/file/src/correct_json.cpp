#include <pondtrim/file/correct_json.hpp>

#include "report_object.hpp"

namespace pondtrim::file {
namespace {

json::Value texts(const std::vector<std::string>& sentences) {
  return listOf(sentences, [](const std::string& s) { return json::string(s); });
}

void put(ReportObject& out, const std::string& name, const Spread& s, const Unit& unit) {
  out.put(name, s.value, unit);
  out.put(name + "_spread", s.spread, unit);
}

ReportObject balanceObject(const BalanceFound& b) {
  ReportObject out;
  put(out, "heavier", b.weight, kGram);
  if (b.x) put(out, "x", *b.x, kMillimetre);
  put(out, "bow_moment", b.bow_moment, kGramMillimetre);
  put(out, "port_moment", b.port_moment, kGramMillimetre);
  return out;
}

Unit unitOf(const std::string& field) {
  if (field == "trim" || field == "heel") return kDegree;
  return field.find("pull") != std::string::npos ? kGram : kMillimetre;
}

json::Value doubtObject(const Doubt& d) {
  ReportObject out;
  out.put("reading", double(d.reading + 1), kNumber);
  out.put("field", json::string(d.field));
  out.put("kind", json::string(d.kind == Doubt::Unlikely ? "unlikely" : "contradicts the others"));
  out.put("measured", d.measured, unitOf(d.field));
  constexpr double kNoAttitude = 1e6;
  if (d.fitted < kNoAttitude) {
    out.put("fitted", d.fitted, unitOf(d.field));
    out.put("spreads", d.spreads, kNumber);
  }
  return out.take();
}

struct CauseWords {
  const char* name;
  Unit unit;
};
CauseWords causeWords(CauseGuess::Kind kind) {
  switch (kind) {
    case CauseGuess::Weights:
      return {"weights", kGram};
    case CauseGuess::Skin:
      return {"skin", kPercent};
    case CauseGuess::Cylinder:
      return {"cylinder", kPercent};
    case CauseGuess::Solids:
      return {"wet parts", kPercent};
    case CauseGuess::Foam:
      return {"foam", kPercent};
    case CauseGuess::Tank:
      return {"tank", kPercent};
    case CauseGuess::TrappedAir:
      return {"trapped air", kMillilitre};
    case CauseGuess::Forgotten:
      break;
  }
  return {"forgotten", kGram};
}

/// What the readings take away from air that may be trapped cannot be: nothing is to be said of it.
bool lessThanNoAir(const CauseGuess& g) { return g.kind == CauseGuess::TrappedAir && g.change < 0; }

json::Value guessObject(const CauseGuess& g) {
  const CauseWords words = causeWords(g.kind);
  ReportObject out;
  out.put("cause", json::string(words.name));
  put(out, "change", {g.change, g.spread}, words.unit);
  return out.take();
}

ReportObject predictedObject(const Predicted& p, const Unit& unit) {
  ReportObject out;
  out.put("value", p.value, unit);
  out.put("spread", p.spread, unit);
  out.put("aim", p.aim, unit);
  out.put("tolerance", p.tolerance, unit);
  return out;
}

ReportObject outlookObject(const Outlook& o) {
  ReportObject out;
  out.put("bow", predictedObject(o.bow, kMillimetre));
  out.put("stern", predictedObject(o.stern, kMillimetre));
  out.put("heel", predictedObject(o.heel, kDegree));
  out.put("dived_net", predictedObject(o.dived_net, kGram));
  out.put("dived_trim", predictedObject(o.dived_trim, kDegree));
  out.put("dived_heel", predictedObject(o.dived_heel, kDegree));
  out.put("gm", predictedObject(o.gm, kMillimetre));
  put(out, "sail_showing", {o.sail_showing, o.sail_spread}, kMillimetre);
  out.put("sinks_empty", json::boolean(o.sinks));
  out.put("sinks_full", json::boolean(o.dived_sinks));
  out.put("probability", o.probability, kPercent);
  out.put("surfaced_read", json::boolean(o.surfaced_read));
  out.put("dived_read", json::boolean(o.dived_read));
  out.put("surfaced_confirmed", json::boolean(o.surfaced_confirmed));
  out.put("dived_confirmed", json::boolean(o.dived_confirmed));
  out.put("done", json::boolean(o.done));
  if (o.best_gain > 0) {
    out.put("best_reading", json::string(readingWords(o.best_reading)));
    out.put("best_gain", o.best_gain, kPercent);
  }
  return out;
}

json::Value changeObject(const Boat& boat, const PondChange& c) {
  bool foam = false;
  for (const Part& p : boat.parts) foam = foam || (p.name == c.part && p.role == Role::Foam);
  const Unit unit = c.slides ? kMillimetre : foam ? kMillilitre : kGram;
  ReportObject out;
  out.put("part", json::string(c.part));
  out.put("say", json::string(changeSentence(boat, c)));
  out.put(c.slides ? "x_before" : "before", c.before, unit);
  out.put(c.slides ? "x_after" : "after", c.after, unit);
  return out.take();
}

std::vector<std::string> allSentences(const Boat& boat, const CorrectAnswer& answer) {
  std::vector<std::string> out;
  const auto add = [&](std::vector<std::string> more) {
    for (std::string& s : more) out.push_back(std::move(s));
  };
  add(correctionSentences(boat, answer));
  add(outlookSentences(answer.outlook));
  add(verdictSentences(answer));
  add(nextSentences(answer));
  return out;
}

}  // namespace

const char* stepWords(PondStep step) {
  switch (step) {
    case PondStep::ReadEmpty:
      return "read with the tank empty";
    case PondStep::ReadFull:
      return "read with the tank full";
    case PondStep::Change:
      return "change";
    case PondStep::Done:
      break;
  }
  return "done";
}

std::string correctJson(const Boat& boat, const CorrectAnswer& answer) {
  const Estimate& e = answer.estimate;
  ReportObject balance, next, out;
  balance.put("tank_empty", balanceObject(answer.surfaced));
  balance.put("tank_full", balanceObject(answer.dived));
  next.put("places_proposed", json::boolean(answer.places_proposed));
  next.put("changes", listOf(answer.next.changes,
                             [&](const PondChange& c) { return changeObject(answer.next.boat, c); }));
  next.put("coarse_steps", listOf(answer.coarse, [&](const CoarseStep& c) {
             return json::string(coarseSentence(answer.next.boat, c));
           }));
  if (!answer.next.changes.empty()) next.put("outlook", outlookObject(answer.next.after));

  out.put("boat", json::string(boat.name));
  out.put("sentences", texts(allSentences(boat, answer)));
  out.put("values_used", double(e.values_used), kNumber);
  out.put("priors_widened_by", e.widened, kNumber);
  out.put("balance", balance);
  out.put("doubts", listOf(e.doubts, doubtObject));
  std::vector<CauseGuess> guesses = e.guesses;
  std::erase_if(guesses, lessThanNoAir);
  out.put("guesses", listOf(guesses, guessObject));
  out.put("height_seen", json::boolean(e.height_seen));
  if (answer.height) put(out, "g_higher", *answer.height, kMillimetre);
  out.put("outlook", outlookObject(answer.outlook));
  out.put("read_again",
          listOf(answer.close_calls, [](PondNumber n) { return json::string(numberWords(n)); }));
  out.put("next_step", json::string(stepWords(answer.step)));
  out.put("next_change", next);
  return json::print(out.take());
}

}  // namespace pondtrim::file
