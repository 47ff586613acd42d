// The boat as a whole: choose, open, save, name, marks and aims.
#include "browser/browser.hpp"
#include "panels/screen.hpp"
#include "session/file_name.hpp"
#include "session/presets.hpp"
#include "session/shelf.hpp"
#include "session/store.hpp"
#include "session/trim_sheet.hpp"

namespace pondtrim {
namespace {

void drawMarkRows(Session& session, Screen& screen) {
  const auto row = [&](const char* field_path, const char* label, NumberField::Find find, double high) {
    NumberField field{field_path, label, Quantity::Length, 0};
    field.find = find;
    field.high = high;
    fieldRow(session, screen, field);
  };
  const Boat& boat = session.boat();
  row(
      "marks.line_height", "Painted line over baseline",
      [](Boat& b, std::size_t) -> double& { return b.marks.line_height; }, boat.marks.deck_height);
  row(
      "marks.bow_x", "Bow mark, from aft", [](Boat& b, std::size_t) -> double& { return b.marks.bow_x; }, 0);
  row(
      "marks.stern_x", "Stern mark, from aft",
      [](Boat& b, std::size_t) -> double& { return b.marks.stern_x; }, 0);
  row(
      "marks.deck_height", "Deck over baseline",
      [](Boat& b, std::size_t) -> double& { return b.marks.deck_height; }, 0);
  row(
      "marks.sail_top.x", "Sail top, from aft",
      [](Boat& b, std::size_t) -> double& { return b.marks.sail_top.x; }, 0);
  row(
      "marks.sail_top.z", "Sail top over baseline",
      [](Boat& b, std::size_t) -> double& { return b.marks.sail_top.z; }, 0);
  row(
      "aims.sail_showing", "Wanted: sail out when dived",
      [](Boat& b, std::size_t) -> double& { return b.aims.sail_showing; }, 0);
  row(
      "length", "Hull length over all", [](Boat& b, std::size_t) -> double& { return b.length; }, 0);
}

void drawFileButtons(Session& session, Screen& screen) {
  if (button(screen.ui, "file.open", "Open a file")) screen.wants_file = true;
  if (buttonBeside(screen.ui, "file.save", "Save as a file"))
    browser::download(fileName(session.boat().name, ".boat.json"), file::writeBoatFile(session.document()));
  if (button(screen.ui, "sheet", "Trim sheet to print")) showTrimSheet(session);
  if (button(screen.ui, "file.app", "The app as one file")) browser::saveApp();
  int number = 0;
  for (const std::string& text : setAsideTexts()) {
    const std::string tail = number == 0 ? "" : "-" + std::to_string(number + 1);
    ++number;
    if (button(screen.ui, "file.set-aside" + tail,
               "Save the boat set aside (" + std::to_string(number) + ")"))
      browser::download("set-aside" + tail + ".boat.json", text);
  }
}

void drawUnits(Session& session, Screen& screen) {
  Preferences chosen = session.preferences();
  Ui& ui = screen.ui;
  chosen.inches =
      chooser(ui, "units", {{"metric", "mm, g, mL"}, {"inches", "inches, oz"}}, chosen.inches) == 1;
  if (chosen.inches) {
    chosen.sixteenths = chooser(ui, "units.lengths", {{"decimal", "0.31 in"}, {"sixteenths", "5/16 in"}},
                                chosen.sixteenths) == 1;
    chosen.cubic_inches = chooser(ui, "units.volumes", {{"fluid-ounces", "fl oz"}, {"cubic-inches", "in³"}},
                                  chosen.cubic_inches) == 1;
  }
  chosen.night = chooser(ui, "theme", {{"day", "Daylight"}, {"night", "Night"}}, chosen.night ? 1 : 0) == 1;
  chosen.letters = static_cast<Preferences::Letters>(
      chooser(ui, "text-size", {{"usual", "Text 1\u00d7"}, {"large", "1.5\u00d7"}, {"largest", "2\u00d7"}},
              static_cast<int>(chosen.letters)));
  if (chosen == session.preferences()) return;
  session.setPreferences(chosen);
  (void)keepPreferences(chosen);
}

void drawShelf(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const float room = ImGui::GetContentRegionAvail().x / ui.ratio;
  const float remove_width = ui.large() ? room : 118;
  const float width = ui.large() ? room : room - remove_width - 8;
  for (const std::string& name : boatsOnShelf()) {
    if (button(ui, "shelf." + name, shortened(name, ui.px(width - 12)), width)) {
      (void)openFromShelf(session, name);
      screen.leaving_shelf.clear();
    }
    besideIfRoom(ui, remove_width);
    const bool sure = screen.leaving_shelf == name;
    if (button(ui, "shelf." + name + ".remove", sure ? "Really?" : "Remove", remove_width,
               sure ? Look::Accent : Look::Plain)) {
      if (sure) removeFromShelf(name);
      screen.leaving_shelf = sure ? "" : name;
    }
  }
  if (screen.loose_store)
    paragraph(
        ui,
        "This browser may clear what it holds when the phone runs short of room, or after weeks without a "
        "visit. Save boats that matter as files, or put the app on the home screen.");
  if (button(ui, "shelf.keep", "Keep this boat here")) {
    const std::string name = putOnShelf(session);
    session.say(name.empty() ? "This browser could not keep her. Save her as a file."
                             : "Kept among your boats as " + name + ".");
  }
}

void drawPresets(Session& session, Screen& screen) {
  static const std::vector<PresetName> kNames = presetNames();
  const float width = ImGui::GetContentRegionAvail().x / screen.ui.ratio;
  for (const PresetName& entry : kNames) {
    const bool here = entry.name == session.boat().name;
    if (button(screen.ui, "preset." + entry.name, entry.name, width, here ? Look::Accent : Look::Plain)) {
      if (auto document = preset(entry.index)) (void)openAnother(session, std::move(*document));
    }
    paragraph(screen.ui, entry.notes, theme::kQuietInk);
  }
}

}  // namespace

void drawBoatPanel(Session& session, Screen& screen) {
  std::string name = session.boat().name;
  if (textField(screen.ui, "name", "Name of the boat", name)) {
    Boat changed = session.boat();
    changed.name = name;
    (void)session.edit(changed);
  }
  if (button(screen.ui, "start", "Start a boat of your own", 0, Look::Primary))
    screen.section = Section::Start;
  drawFileButtons(session, screen);
  heading(screen.ui, "Units and light");
  drawUnits(session, screen);
  heading(screen.ui, "Marks and aim");
  drawMarkRows(session, screen);
  heading(screen.ui, "Your boats");
  drawShelf(session, screen);
  heading(screen.ui, "Boats to start from (invented)");
  drawPresets(session, screen);
  paragraph(
      screen.ui,
      "Results are estimates. Try her in shallow water, on a line; a little positive buoyancy is the safety "
      "margin. Local rules and people who know the water come first.",
      theme::kQuietInk);
  if (button(screen.ui, "trust", "How far to trust this")) browser::go("trust.html");
}

}  // namespace pondtrim
