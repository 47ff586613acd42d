// One reading of the pond log: large keys first, the rest below.
#include <cmath>

#include "panels/screen.hpp"
#include "session/dips.hpp"
#include "widgets/stepper.hpp"

namespace pondtrim {
namespace {

std::string path(std::size_t i, const char* field) { return "log[" + std::to_string(i) + "]." + field; }

NumberField dipField(std::size_t i, Dip dip) {
  const DipKind& kind = dipKind(dip);
  NumberField field{path(i, kind.field), kind.label, kind.quantity, dipIndex(i, dip)};
  field.look = &dipAt;
  field.put = &withDip;
  field.negative = kind.negative;
  if (kind.quantity == Quantity::Angle) field.step = 0.5 * kPi / 180;
  return field;
}

/// How sure the log was of this number before, if it can say.
std::optional<double> spreadOf(const Screen& screen, const Reading& reading, Dip dip) {
  const auto& answer = screen.advisor.answer();
  if (!answer || reading.tank == TankState::Measured) return std::nullopt;
  const Outlook& o = answer->outlook;
  const bool dived = reading.tank == TankState::Full;
  switch (dip) {
    case Dip::Bow:
      return dived ? std::nullopt : std::optional(o.bow.spread);
    case Dip::Stern:
      return dived ? std::nullopt : std::optional(o.stern.spread);
    case Dip::Sail:
      return dived ? std::optional(o.sail_spread) : std::nullopt;
    case Dip::Trim:
      return dived ? std::optional(o.dived_trim.spread) : std::nullopt;
    case Dip::Heel:
      return dived ? o.dived_heel.spread : o.heel.spread;
    default:
      return std::nullopt;
  }
}

/// A spread so wide that to expect a number would mislead.
bool tellsNothing(double spread, Quantity quantity) {
  return spread > (quantity == Quantity::Angle ? 15 * kPi / 180 : 0.05);
}

std::string expectationText(const Screen& screen, const Reading& reading, Dip dip, double should,
                            const UnitSet& units, bool read) {
  const Quantity quantity = dipKind(dip).quantity;
  const auto spread = spreadOf(screen, reading, dip);
  if (spread && tellsNothing(*spread, quantity)) return "not known yet";
  const std::string words = (read ? "expected " : "expect ") + dipWords(dip, should, units);
  return spread ? words + " \u00b1\u00a0" + valueText(*spread, quantity, units) : words;
}

void drawStepper(Session& session, Screen& screen, std::size_t i, Dip dip, const Report& expected) {
  const UnitSet& units = session.units();
  const NumberField field = dipField(i, dip);
  const auto read = dipAt(session.boat(), field.index);
  const Reading& reading = session.boat().log[i];
  const bool as_she_is =
      reading.laid_mass == 0 && reading.shifted_mass == 0 && !reading.pull && !reading.bow_pull;
  const auto should = as_she_is ? expectedDip(dip, expected) : std::nullopt;
  Stepper spec;
  spec.name = field.path;
  spec.label = field.label;
  if (read) spec.value = dipWords(dip, *read, units);
  if (should) spec.beside = expectationText(screen, reading, dip, *should, units, read.has_value());
  using What = NumberRowAnswer::What;
  const What what = stepper(screen.ui, spec);
  if (what == What::Type)
    askFor(session, screen, field, read ? numberText(*read, field.quantity, units) : "");
  if (what == What::Up || what == What::Down)
    nudge(session, screen, field, read.value_or(firstDip(dip, session)), what == What::Up ? 1 : -1);
  const auto& notice = session.notice();
  if (notice && notice->kind == Notice::Kind::Refused && notice->field == field.path)
    paragraph(screen.ui, notice->text, theme::kWarning);
}

void drawTankState(Session& session, Screen& screen, std::size_t i) {
  static const std::vector<Choice> kStates = {
      {"empty", "Empty"}, {"full", "Full"}, {"measured", "Part full"}};
  const Reading& reading = session.boat().log[i];
  const int was = static_cast<int>(reading.tank);
  const int now = chooser(screen.ui, path(i, "tank"), kStates, was);
  const double capacity = session.model().tank_capacity;
  if (now != was) {
    if (session.edit(withTankState(session.boat(), i, static_cast<TankState>(now), capacity)))
      session.setFillShare(fillOf(session.boat().log[i], capacity));
  }
  if (session.boat().log[i].tank != TankState::Measured) return;
  NumberField amount{path(i, "tank_fill"), "Water in the tank", Quantity::Volume, i};
  amount.find = [](Boat& b, std::size_t n) -> double& { return b.log[n].tank_fill; };
  amount.high = capacity;
  fieldRow(session, screen, amount);
}

void dipRow(Session& session, Screen& screen, std::size_t i, Dip dip) {
  fieldRow(session, screen, dipField(i, dip));
}

/// Where the hook held, or the lead lay.
NumberField heldField(const Session& session, std::size_t i, const char* label) {
  NumberField field{path(i, "held_x"), label, Quantity::Length, i};
  field.find_optional = [](Boat& b, std::size_t n) -> std::optional<double>& { return b.log[n].held_x; };
  field.stand_in = session.boat().marks.sail_top.x;
  field.high = session.boat().length;
  return field;
}

void drawEnds(Session& session, Screen& screen, std::size_t i) {
  NumberField fore{path(i, "bow_hook_x"), "Bow hook from aft", Quantity::Length, i};
  fore.find = [](Boat& b, std::size_t n) -> double& { return b.log[n].bow_hook_x; };
  fieldRow(session, screen, fore);
  NumberField aft{path(i, "stern_hook_x"), "Stern hook from aft", Quantity::Length, i};
  aft.find = [](Boat& b, std::size_t n) -> double& { return b.log[n].stern_hook_x; };
  fieldRow(session, screen, aft);
}

/// One hook or both ends: what was begun hides the other.
void drawHooks(Session& session, Screen& screen, std::size_t i) {
  const Reading& reading = session.boat().log[i];
  if (reading.laid_mass > 0) return;  // then she floated
  heading(screen.ui, "She sank: the pull on a spring scale");
  if (!reading.bow_pull) {
    paragraph(screen.ui,
              "By one hook: hold her just under water where she hangs about level; read pull, trim and heel.",
              theme::kQuietInk);
    dipRow(session, screen, i, Dip::Pull);
    if (session.boat().log[i].pull) {
      fieldRow(session, screen, heldField(session, i, "Hook from aft"));
      return;
    }
  }
  paragraph(screen.ui, "Or by both ends at once, a scale at each.", theme::kQuietInk);
  dipRow(session, screen, i, Dip::BowPull);
  dipRow(session, screen, i, Dip::SternPull);
  if (session.boat().log[i].bow_pull) drawEnds(session, screen, i);
}

void drawLaidLead(Session& session, Screen& screen, std::size_t i) {
  const Reading& reading = session.boat().log[i];
  if (reading.pull || reading.bow_pull) return;  // she sank
  heading(screen.ui, "She floats too high: lead laid on deck");
  paragraph(
      screen.ui,
      "Lay lead on her until she lies about as wanted, then read. It presses her down for this dip only; "
      "the log allows for it.",
      theme::kQuietInk);
  NumberField mass{path(i, "laid_mass"), "Lead laid on", Quantity::Mass, i};
  mass.find = [](Boat& b, std::size_t n) -> double& { return b.log[n].laid_mass; };
  mass.set = &withLaidLead;
  fieldRow(session, screen, mass);
  if (session.boat().log[i].laid_mass > 0) fieldRow(session, screen, heldField(session, i, "Lead from aft"));
}

void drawInclining(Session& session, Screen& screen, std::size_t i) {
  heading(screen.ui, "Weight moved to one side");
  paragraph(screen.ui, "Read the heel before and after: it shows how high G is.", theme::kQuietInk);
  NumberField mass{path(i, "shifted_mass"), "A weight on board", Quantity::Mass, i};
  mass.find = [](Boat& b, std::size_t n) -> double& { return b.log[n].shifted_mass; };
  fieldRow(session, screen, mass);
  NumberField way{path(i, "shifted_by"), "moved to port by", Quantity::Length, i};
  way.find = [](Boat& b, std::size_t n) -> double& { return b.log[n].shifted_by; };
  way.negative = true;
  fieldRow(session, screen, way);
}

void drawSpreads(Session& session, Screen& screen, std::size_t i) {
  bool first = true;
  for (std::size_t k = 0; k < kDips; ++k) {
    const Dip dip = static_cast<Dip>(k);
    const DipKind& kind = dipKind(dip);
    if (!(session.boat().log[i].*kind.member)) continue;
    if (first) heading(screen.ui, "How far each may be off (\u00b1)");
    first = false;
    NumberField field{path(i, (std::string(kind.field) + "_spread").c_str()), kind.label, kind.quantity,
                      dipIndex(i, dip)};
    field.find = [](Boat& b, std::size_t n) -> double& {
      return (b.log[n / kDips].*dipKind(static_cast<Dip>(n % kDips)).member)->spread;
    };
    field.step = kind.spread / 3;
    fieldRow(session, screen, field);
  }
}

void drawWater(Session& session, Screen& screen, std::size_t i) {
  heading(screen.ui, "Water and notes");
  NumberField warmth{path(i, "water.temperature"), "Temperature", Quantity::Temperature, i};
  warmth.find = [](Boat& b, std::size_t n) -> double& { return b.log[n].water.temperature; };
  warmth.negative = true;
  fieldRow(session, screen, warmth);
  NumberField salt{path(i, "water.salinity"), "Salt", Quantity::Salinity, i};
  salt.find = [](Boat& b, std::size_t n) -> double& { return b.log[n].water.salinity; };
  fieldRow(session, screen, salt);
  const auto text = [&](const char* name, const char* label, std::string Reading::*member) {
    std::string words = session.boat().log[i].*member;
    if (!textField(screen.ui, path(i, name), label, words)) return;
    Boat changed = session.boat();
    changed.log[i].*member = words;
    (void)session.edit(changed);
  };
  text("note", "Note", &Reading::note);
  text("date", "Date", &Reading::date);
}

void drawRest(Session& session, Screen& screen, std::size_t i) {
  const bool dived = session.boat().log[i].tank == TankState::Full;
  if (dived) {
    dipRow(session, screen, i, Dip::Bow);
    dipRow(session, screen, i, Dip::Stern);
  } else {
    dipRow(session, screen, i, Dip::Sail);
    dipRow(session, screen, i, Dip::Trim);
  }
  drawHooks(session, screen, i);
  drawLaidLead(session, screen, i);
  drawInclining(session, screen, i);
  drawWater(session, screen, i);
  drawSpreads(session, screen, i);
}

void drawFoot(Session& session, Screen& screen, std::size_t i) {
  Ui& ui = screen.ui;
  const bool used = session.boat().log[i].used;
  if (button(ui, path(i, "used"), used ? "Leave it out" : "Use it again")) {
    Boat changed = session.boat();
    changed.log[i].used = !used;
    (void)session.edit(changed);
  }
  if (!buttonBeside(ui, path(i, "remove"), "Delete this dip")) return;
  screen.pond.open.reset();
  if (session.edit(withoutReading(session.boat(), i)))
    session.say("The dip is deleted; undo brings it back.");
}

}  // namespace

void drawReading(Session& session, Screen& screen, std::size_t i) {
  Ui& ui = screen.ui;
  const float width = ImGui::GetContentRegionAvail().x / ui.ratio;
  drawTankState(session, screen, i);
  const Reading reading = session.boat().log[i];
  const Condition condition{reading.water,
                            fillOf(reading, session.model().tank_capacity) * session.model().tank_capacity};
  const auto expected = evaluate(session.model(), condition);
  if (!expected) return paragraph(ui, session.inWords(expected.error()), theme::kWarning);
  const bool dived = reading.tank == TankState::Full;
  drawStepper(session, screen, i, dived ? Dip::Sail : Dip::Bow, *expected);
  drawStepper(session, screen, i, dived ? Dip::Trim : Dip::Stern, *expected);
  if (button(ui, "pond.done", "That is what I read", width, Look::Primary)) screen.pond.open.reset();
  drawStepper(session, screen, i, Dip::Heel, *expected);
  bool& more = screen.pond.more;
  if (button(ui, "pond.more", more ? "Less" : "More: she sank, lead laid on, weight moved\u2026", width))
    more = !more;
  if (more) drawRest(session, screen, i);
  drawFoot(session, screen, i);
}

}  // namespace pondtrim
