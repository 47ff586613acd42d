// What if: a draft over the boat, her numbers before and after, and the other drafts.
#include <algorithm>

#include "panels/screen.hpp"
#include "session/drafts.hpp"
#include "session/words.hpp"

namespace pondtrim {
namespace {

/// "Bow mark, empty: 3 mm low → on line".
void drawBeforeAfter(Ui& ui, const char* label, const std::string& before, const std::string& after) {
  const float width = ImGui::GetContentRegionAvail().x, left = ImGui::GetCursorPosX();
  ImGui::TextUnformatted(label);
  const std::string words = before == after ? after : before + " \u2192 " + after;
  ImGui::SameLine();
  const float wide = ImGui::CalcTextSize(words.c_str()).x;
  if (ImGui::GetCursorPosX() + wide > left + width) ImGui::NewLine();
  ImGui::SetCursorPosX(left + std::max(0.0f, width - wide));
  if (wide > width)
    paragraph(ui, words);
  else
    ImGui::TextUnformatted(words.c_str());
  ui.record(std::string("before-after.") + label, "status", label, words);
}

std::string markText(const std::optional<MarkReading>& mark, const UnitSet& units) {
  const MarkWords words = markWords(mark, units);
  return words.side == 0 ? words.word : words.number + "\u00a0" + units.length.symbol + " " + words.word;
}

void drawNumbers(const Session& session, Ui& ui) {
  const UnitSet& units = session.units();
  const SolvedBoat& base = session.base();
  const auto row = [&](const char* label, const Report& before, const Report& after, const auto& text) {
    drawBeforeAfter(ui, label, text(before), text(after));
  };
  const auto length = [&](double value) { return valueText(value, Quantity::Length, units, 1); };
  const auto mass = [&](double value) { return valueText(value, Quantity::Mass, units, 0); };
  heading(ui, "Tank empty");
  row("Stern mark", base.empty, session.empty(), [&](const Report& r) { return markText(r.stern, units); });
  row("Bow mark", base.empty, session.empty(), [&](const Report& r) { return markText(r.bow, units); });
  row("Heel", base.empty, session.empty(),
      [&](const Report& r) { return heelWords(r.rest.attitude.heel, units); });
  row("GM", base.empty, session.empty(), [&](const Report& r) { return length(r.gm_transverse); });
  row("To carry", base.empty, session.empty(), [&](const Report& r) { return mass(r.carry_mass); });
  if (session.model().tank_capacity <= 0) return;
  heading(ui, "Tank full");
  row("Sail", base.full, session.full(), [&](const Report& r) {
    const SailWords words = sailWords(r, units);
    return words.number + "\u00a0" + words.unit + " " + words.word;
  });
  row("Trim", base.full, session.full(),
      [&](const Report& r) { return trimWords(r.rest.attitude.trim, units); });
  row("BG", base.full, session.full(), [&](const Report& r) { return length(r.bg_submerged); });
  row("Lift left, all under", base.full, session.full(),
      [&](const Report& r) { return mass(r.net_buoyancy_submerged); });
}

void drawDraftInHand(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  std::string name = session.draftName();
  if (textField(ui, "draft.name", "This draft", name)) renameDraft(session, name);
  constexpr float kGap = 8;
  const float third = (ImGui::GetContentRegionAvail().x / ui.ratio - 2 * kGap) / 3;
  const bool keep = button(ui, "draft.keep", "Keep it", third, Look::Primary);
  ImGui::SameLine(0, ui.px(kGap));
  const bool aside = button(ui, "draft.aside", "Put aside", third);
  ImGui::SameLine(0, ui.px(kGap));
  const bool drop = button(ui, "draft.drop", "Drop it", third);
  if (keep) {
    keepDraft(session);
    session.say("The draft is the boat now; undo leads back.");
  } else if (aside) {
    putAside(session);
  } else if (drop) {
    dropDraft(session);
  }
  if (!session.inDraft()) return;
  if (button(ui, "draft.foam-lead", "Foam and lead")) screen.section = Section::FoamLead;
  if (buttonBeside(ui, "draft.weights", "Battery and weights")) screen.section = Section::Weights;
  drawNumbers(session, ui);
  paragraph(ui, "In the picture: the water now as a full line, on the boat as she is as a broken one.",
            theme::kQuietInk);
}

void drawOthers(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const auto names = draftsOf(session);
  if (names.empty()) return;
  heading(ui, session.inDraft() ? "Other drafts" : "Drafts put aside");
  const float room = ImGui::GetContentRegionAvail().x / ui.ratio;
  const float remove = ui.large() ? room : 118, width = ui.large() ? room : room - remove - 8;
  for (const std::string& name : names) {
    if (button(ui, "drafts." + name, shortened(name, ui.px(width - 12)), width))
      (void)takeUpDraft(session, name);
    besideIfRoom(ui, remove);
    const bool sure = screen.leaving_shelf == "draft " + name;
    if (button(ui, "drafts." + name + ".remove", sure ? "Really?" : "Remove", remove,
               sure ? Look::Accent : Look::Plain)) {
      if (sure) removeDraft(session, name);
      screen.leaving_shelf = sure ? "" : "draft " + name;
    }
  }
}

}  // namespace

void drawWhatIfPanel(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  if (session.inDraft())
    drawDraftInHand(session, screen);
  else
    paragraph(
        ui,
        "Try lead, foam, another battery on a draft. The boat stays as she is until you keep it; before "
        "and after stand side by side. A finger held on the hull puts a trial weight there.");
  if (button(ui, "draft.start", session.inDraft() ? "Another draft" : "Start a draft", 0,
             session.inDraft() ? Look::Plain : Look::Primary))
    startDraft(session);
  drawOthers(session, screen);
}

}  // namespace pondtrim
