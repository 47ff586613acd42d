#include "panels/fields.hpp"

#include <algorithm>
#include <cmath>

#include "panels/screen.hpp"

namespace pondtrim {
namespace {

std::optional<double> valueOf(const NumberField& field, const Session& session) {
  if (field.read != nullptr) return field.read(session);
  if (field.read_optional != nullptr) return field.read_optional(session);
  if (field.look != nullptr) return field.look(session.boat(), field.index);
  const Boat& boat = session.boat();
  // The finders hand out references for edits; here the boat is only read.
  Boat& readable = const_cast<Boat&>(boat);
  if (field.find != nullptr) return field.find(readable, field.index);
  return field.find_optional(readable, field.index);
}

Boat changedBoat(const NumberField& field, const Boat& boat, std::optional<double> value) {
  if (field.put != nullptr) return field.put(boat, field.index, value);
  if (field.set != nullptr && value) return field.set(boat, field.index, *value);
  Boat changed = boat;
  if (field.find != nullptr)
    field.find(changed, field.index) = *value;
  else
    field.find_optional(changed, field.index) = value;
  return changed;
}

Result<void> carryOut(const NumberField& field, Session& session, std::optional<double> value,
                      std::uint64_t gesture) {
  if (field.write != nullptr) return field.write(session, value.value_or(0.0));
  const auto done = session.edit(changedBoat(field, session.boat(), value), gesture);
  if (!done && field.set != nullptr && value)
    session.refuseWhatWasAsked(valueText(*value, field.quantity, session.units()), field.path);
  return done;
}

/// Whole steps: 98.3 nudged up by 5 becomes 100, not 103.3.
double nudged(double value, double step, int way, Quantity quantity, const UnitSet& units) {
  const double zero =
      file::unitFor(quantity, units).offset;  // of the person's scale: 15 degrees, not 288.15 K
  const double steps = (value - zero) / step;
  const double whole = way > 0 ? std::floor(steps + 1e-6) + 1 : std::ceil(steps - 1e-6) - 1;
  return whole * step + zero;
}

/// "5 g", "1/16 in".
std::string stepText(double step, Quantity quantity, const UnitSet& units) {
  const file::Unit unit = file::unitFor(quantity, units);
  const double shift = unit.offset;  // a step of temperature is no temperature
  return valueText(step + shift, quantity, units);
}

double slid(const SliderHold& hold, double share, Quantity quantity, const UnitSet& units) {
  const double raw = hold.low + share * (hold.high - hold.low);
  const file::Unit unit = file::unitFor(quantity, units);
  const double grain = std::min(unit.numerator / unit.denominator, nudgeStep(quantity, units));
  return std::clamp(std::round(raw / grain) * grain, hold.low, hold.high);
}

}  // namespace

void askFor(Session& session, Screen& screen, const NumberField& field, const std::string& now) {
  const UnitSet& units = session.units();
  const bool optional =
      field.find_optional != nullptr || field.look != nullptr || field.read_optional != nullptr;
  screen.asked = field;
  screen.pad_work = {screen.ui.gesture, valueOf(field, session), {}};
  session.dismissNotice();
  screen.pad.ask({field.label, file::unitFor(field.quantity, units).symbol, now,
                  optional && valueOf(field, session) ? "unset" : "",
                  stepText(stockStep(field.step, field.quantity, units), field.quantity, units),
                  field.negative, field.quantity == Quantity::Length && units.sixteenths});
}

void nudge(Session& session, Screen& screen, const NumberField& field, double from, int way) {
  const UnitSet& units = session.units();
  const double to = nudged(from, stockStep(field.step, field.quantity, units), way, field.quantity, units);
  (void)carryOut(field, session, field.negative || to >= 0 ? to : 0.0, screen.ui.gesture);
}

double roundAbove(double value, double least) {
  double end = least;
  for (int i = 0; end < 1.6 * value && i < 60; ++i) end *= i % 3 == 1 ? 2.5 : 2.0;
  return end;
}

bool fieldRow(Session& session, Screen& screen, const NumberField& field, const RowHead& head) {
  Ui& ui = screen.ui;
  const UnitSet& units = session.units();
  const std::optional<double> typed = valueOf(field, session);
  const double value = typed.value_or(field.stand_in);

  SliderHold range{field.path, field.low, field.high};
  if (screen.slider_hold.path == field.path) range = screen.slider_hold;
  double share = range.high > range.low ? (value - range.low) / (range.high - range.low) : 0.0;

  NumberRow row;
  row.name = field.path;
  row.label = field.label;
  row.value = (typed && !field.estimated ? "" : "\u2248 ") + valueText(value, field.quantity, units);
  if (!typed && field.look != nullptr) row.value = "not read";  // there is no estimate to stand in for it
  row.opens = head.opens;
  row.open = head.open;
  row.chip = head.chip;
  row.nudges = typed.has_value();
  if (range.high > range.low) row.share = &share;
  const auto& notice = session.notice();
  if (notice && notice->kind == Notice::Kind::Refused && notice->field == field.path)
    row.fault = notice->text;

  const NumberRowAnswer answer = numberRow(ui, row);
  using What = NumberRowAnswer::What;
  const auto change = [&](double to) { (void)carryOut(field, session, to, ui.gesture); };
  switch (answer.what) {
    case What::Up:
    case What::Down:
      nudge(session, screen, field, value, answer.what == What::Up ? 1 : -1);
      break;
    case What::Slide:
      screen.slider_hold = range;
      change(slid(range, answer.share, field.quantity, units));
      break;
    case What::Type:
      askFor(session, screen, field, row.value);
      break;
    case What::Open:
      return true;
    case What::Nothing:
      break;
  }
  return false;
}

namespace {

/// A step from what is typed, or from the value in hand; the pad stays open.
void stepPad(Session& session, Screen& screen, const NumberPad::Answer& answer) {
  const NumberField& field = *screen.asked;
  const UnitSet& units = session.units();
  const std::optional<double> typed = typedValue(answer.typed, field.quantity, units);
  const double from = typed ? *typed : valueOf(field, session).value_or(field.stand_in);
  const double step = stockStep(field.step, field.quantity, units);
  const double to =
      nudged(from, step, answer.what == NumberPad::Answer::What::Up ? 1 : -1, field.quantity, units);
  if (!carryOut(field, session, field.negative ? to : std::max(to, 0.0), screen.pad_work.gesture))
    return screen.pad.complain(session.notice()->text);
  screen.pad_work.stepped_to = session.revision();
  screen.pad.nowIs(valueText(valueOf(field, session).value_or(field.stand_in), field.quantity, units));
}

/// What the stepping keys did, unless it has been undone already.
void takeBackSteps(Session& session, const Screen& screen) {
  const PadWork& work = screen.pad_work;
  if (!work.stepped_to) return;
  if (screen.asked->write != nullptr)
    (void)carryOut(*screen.asked, session, work.before, 0);
  else if (*work.stepped_to == session.revision())
    session.undo();
}

}  // namespace

void drawPad(Session& session, Screen& screen) {
  const NumberPad::Answer answer = screen.pad.draw(screen.ui);
  using What = NumberPad::Answer::What;
  if (answer.what == What::Nothing) return;
  if (answer.what == What::Cancelled || (answer.what == What::Set && answer.typed.empty())) {
    session.dismissNotice();
    if (answer.what == What::Cancelled) takeBackSteps(session, screen);
    return screen.pad.close();
  }
  const NumberField& field = *screen.asked;
  std::optional<double> value;
  if (answer.what == What::Up || answer.what == What::Down) return stepPad(session, screen, answer);
  if (answer.what == What::Set) {
    value = typedValue(answer.typed, field.quantity, session.units());
    if (!value) return screen.pad.complain("That is not a number.");
  }
  const auto done = carryOut(field, session, value, screen.pad_work.gesture);
  if (done) return screen.pad.close();
  screen.pad.complain(session.notice()->text);
}

}  // namespace pondtrim
