// Passing the boat on: code, link, file, table, sheet; and what came aboard from others.
#include <pondtrim/file/compare.hpp>
#include <pondtrim/file/link.hpp>
#include <pondtrim/file/weights_csv.hpp>

#include "browser/browser.hpp"
#include "panels/screen.hpp"
#include "session/file_name.hpp"
#include "session/qr_codes.hpp"
#include "session/shelf.hpp"
#include "session/trim_sheet.hpp"

namespace pondtrim {
namespace {

constexpr std::size_t kMostDifferences = 60;

bool yesNo(Ui& ui, const char* name, const char* label, bool value) {
  paragraph(ui, label);
  const std::string id(name);
  return chooser(ui, id, {{"yes", "Yes"}, {"no", "No"}}, value ? 0 : 1) == 0;
}

constexpr const char* kNoAddress =
    "This is the app as one file: it has no address that another phone could open. Send the file of the "
    "boat.";

/// What link and codes carry, worked out once for each boat and choice.
void packLinks(const Session& session, PassOnView& view, const std::string& address) {
  if (view.link_revision == session.revision() && view.link_contents == view.contents) return;
  view.link_revision = session.revision();
  view.link_contents = view.contents;
  const file::BoatDocument document = file::withContents(session.document(), view.contents);
  view.link = linkBoat(document, kMostLinkCharacters);
  view.in_codes = hasMesh(document.boat) ? linkBoat(document, kMostCodes * codeRoom(address)) : view.link;
}

void sendLink(Session& session, Screen& screen) {
  const std::string address = browser::pageAddress();
  if (address.empty()) return session.say(kNoAddress);
  packLinks(session, screen.pass_on, address);
  const LinkBoat& link = screen.pass_on.link;
  if (link.fragment.empty()) return session.say(linkSentence(link, "A link", session.units()));
  browser::shareLink(session.boat().name, address + "#" + link.fragment);
}

void showCodes(Session& session, Screen& screen) {
  const std::string address = browser::pageAddress();
  if (address.empty()) return session.say(kNoAddress);
  packLinks(session, screen.pass_on, address);
  const LinkBoat& in_codes = screen.pass_on.in_codes;
  if (in_codes.fragment.empty()) return session.say(linkSentence(in_codes, "A code", session.units()));
  const auto links = linksForCodes(address, in_codes.fragment);
  if (links.empty())
    return session.say("This boat is too long even for many codes. Leave the log out, or send the file.");
  screen.pass_on.codes.clear();
  for (const std::string& link : links) screen.pass_on.codes.push_back(qrPicture(link));
  screen.pass_on.code = 0;
}

/// What link and codes leave away of a hull from a file.
void drawSimpler(const Session& session, Screen& screen) {
  if (!hasMesh(session.boat())) return;
  PassOnView& view = screen.pass_on;
  packLinks(session, view, browser::pageAddress());
  std::string words = linkSentence(view.link, "The link", session.units());
  const std::string in_codes = linkSentence(view.in_codes, "The code", session.units());
  if (in_codes != words) words += (words.empty() ? "" : " ") + in_codes;
  if (words.empty()) return;
  words += " The file carries her as she is.";
  paragraph(screen.ui, words);
  screen.ui.record("pass-on.simpler", "status", "What a link carries", words);
}

void drawSending(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const float width = ImGui::GetContentRegionAvail().x / ui.ratio, half = (width - 8) / 2;
  if (button(ui, "pass-on.code", "Show the code", width, Look::Accent, 54)) showCodes(session, screen);
  paragraph(ui,
            "Another phone's camera reads it from your screen. No signal is needed where Pondtrim was opened "
            "before.",
            theme::kQuietInk);
  if (button(ui, "pass-on.link", "Send the link", half)) sendLink(session, screen);
  ImGui::SameLine(0, ui.px(8));
  if (button(ui, "pass-on.file", "Send the file", half))
    browser::shareFile(fileName(session.boat().name, ".boat.json"),
                       file::writeBoatFile(file::withContents(session.document(), screen.pass_on.contents)));
  drawSimpler(session, screen);
  file::LinkContents& contents = screen.pass_on.contents;
  contents.notes = yesNo(ui, "pass-on.notes", "Let my notes go along", contents.notes);
  contents.log = yesNo(ui, "pass-on.log", "Let the pond log go along", contents.log);
}

void drawPaper(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const std::string& name = session.boat().name;
  const float width = ImGui::GetContentRegionAvail().x / ui.ratio, half = (width - 8) / 2;
  if (button(ui, "sheet", "Trim sheet to print or read", width, Look::Plain, 54)) showTrimSheet(session);
  if (button(ui, "pass-on.copy-text", "Copy as text", half))
    browser::copyText(file::sheetText(trimSheet(session)));
  ImGui::SameLine(0, ui.px(8));
  if (button(ui, "pass-on.copy-markdown", "Copy for a forum", half))
    browser::copyText(file::sheetMarkdown(trimSheet(session)));
  paragraph(ui,
            "The table of weights opens in a spreadsheet. Changed there, it comes back by Open a file: rows "
            "find their "
            "part by its name.",
            theme::kQuietInk);
  if (button(ui, "pass-on.csv", "Save the table", half))
    browser::download(fileName(name, ".weights.csv"), file::writeWeightsCsv(session.boat(), session.units()));
  ImGui::SameLine(0, ui.px(8));
  if (button(ui, "pass-on.open", "Open a file", half)) screen.wants_file = true;
}

/// What differs, worked out once for each boat and each entry.
void drawComparison(const Session& session, Screen& screen, const std::string& name) {
  PassOnView& view = screen.pass_on;
  const std::string text = textOnShelf(name).value_or("");
  if (view.compared_revision != session.revision() || view.compared_text != text) {
    view.compared_revision = session.revision();
    view.compared_text = text;
    view.differences.clear();
    if (const auto other = file::readBoatFile(text))
      view.differences = file::compareBoats(other->boat, session.boat(), session.units());
  }
  Ui& ui = screen.ui;
  if (view.differences.empty()) return paragraph(ui, "No number differs.");
  paragraph(ui, std::to_string(view.differences.size()) +
                    (view.differences.size() == 1 ? " thing differs. " : " things differ. ") +
                    "Left: " + name + ". Right: the boat in hand.");
  const float width = ImGui::GetContentRegionAvail().x;
  std::string thing;
  for (std::size_t i = 0; i < std::min(view.differences.size(), kMostDifferences); ++i) {
    const file::Difference& d = view.differences[i];
    if (d.thing != thing) heading(ui, d.thing.c_str());
    thing = d.thing;
    if (d.what.empty()) {
      paragraph(ui, d.mine.empty() ? "Only in the boat in hand." : "Only in " + name + ".");
      continue;
    }
    paragraph(ui, d.what, theme::kQuietInk);
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + width / 2 - ui.px(6));
    const float y = ImGui::GetCursorPosY();
    ImGui::TextUnformatted(d.mine.empty() ? "\u2013" : d.mine.c_str());
    ImGui::PopTextWrapPos();
    const float below = ImGui::GetCursorPosY();
    ImGui::SetCursorPos({ImGui::GetStyle().WindowPadding.x + width / 2, y});
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + width / 2 - ui.px(6));
    ImGui::TextUnformatted(d.theirs.empty() ? "\u2013" : d.theirs.c_str());
    ImGui::PopTextWrapPos();
    ImGui::SetCursorPosY(std::max(below, ImGui::GetCursorPosY()));
  }
  if (view.differences.size() > kMostDifferences)
    paragraph(ui, "... and " + std::to_string(view.differences.size() - kMostDifferences) + " more.");
}

void drawOwnBoats(Session& session, Screen& screen) {
  PassOnView& view = screen.pass_on;
  Ui& ui = screen.ui;
  const auto names = boatsOnShelf();
  if (names.empty()) return;
  heading(ui, "Side by side with your boats");
  const float width = ImGui::GetContentRegionAvail().x / ui.ratio;
  for (const std::string& name : names) {
    const bool open = view.compared == name;
    if (button(ui, "compare." + name, name, width, open ? Look::Accent : Look::Plain))
      view.compared = open ? "" : name;
    if (open) drawComparison(session, screen, name);
  }
}

}  // namespace

void drawPassOnPanel(Session& session, Screen& screen) {
  const bool guest = !session.boat().origin.empty();
  if (guest) {
    paragraph(screen.ui, session.boat().name + " came from " + session.boat().origin + ".");
    drawOwnBoats(session, screen);
    heading(screen.ui, "Pass her on");
  }
  drawSending(session, screen);
  if (!guest) drawOwnBoats(session, screen);
  heading(screen.ui, "Trim sheet and table of weights");
  drawPaper(session, screen);
}

void drawCode(Screen& screen) {
  PassOnView& view = screen.pass_on;
  Ui& ui = screen.ui;
  const WindowSize& w = screen.window;
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({ui.px(w.width), ui.px(w.height)});
  ImGui::PushStyleColor(ImGuiCol_WindowBg, colour(0xffffff));
  ImGui::Begin("code", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings);
  const QrPicture& code = view.codes[static_cast<std::size_t>(view.code)];
  const float bar = theme::kTouch + 20;
  const bool wide = w.width > w.height;
  // Whole device pixels for each module, four modules of white all round (ISO/IEC 18004).
  const float room_x = w.width - w.inset_left - w.inset_right - (wide ? 180 : 0);
  const float room_y = w.height - w.inset_top - w.inset_bottom - (wide ? 0 : 2 * bar);
  const float module =
      std::max(1.0f, std::floor(ui.px(std::min(room_x, room_y)) / static_cast<float>(code.size + 8)));
  const float side = module * static_cast<float>(code.size);
  const float left = std::floor(ui.px(w.inset_left) + (ui.px(room_x) - side) / 2);
  const float top = std::floor(ui.px(w.inset_top + (wide ? 0 : bar)) + (ui.px(room_y) - side) / 2);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  for (int y = 0; y < code.size; ++y) {
    for (int x = 0; x < code.size; ++x) {
      if (!code.at(x, y)) continue;
      const int from = x;
      while (x + 1 < code.size && code.at(x + 1, y)) ++x;
      draw->AddRectFilled(
          {left + module * static_cast<float>(from), top + module * static_cast<float>(y)},
          {left + module * static_cast<float>(x + 1), top + module * static_cast<float>(y + 1)},
          colour(0x000000));
    }
  }
  const int count = static_cast<int>(view.codes.size());
  const std::string words = count == 1
                                ? "Point the other phone's camera here."
                                : "Code " + std::to_string(view.code + 1) + " of " + std::to_string(count);
  const float column = wide ? w.width - w.inset_right - 170 : w.inset_left + 14;
  ImGui::SetCursorPos({ui.px(column), ui.px(w.inset_top + 14)});
  ImGui::PushTextWrapPos(ui.px(w.width - w.inset_right - 8));
  ImGui::TextUnformatted(words.c_str());
  ImGui::PopTextWrapPos();
  ui.record("code.words", "status", "Code", words);
  ImGui::SetCursorPos({ui.px(column), ui.px(w.height - w.inset_bottom - bar + 8)});
  const bool close = button(ui, "code.close", "Close", wide ? 150 : 120);
  if (count > 1) {
    if (wide)
      ImGui::SetCursorPos({ui.px(column), ui.px(w.height - w.inset_bottom - 2 * bar + 8)});
    else
      ImGui::SameLine(0, ui.px(10));
    if (button(ui, "code.next", view.code + 1 < count ? "Next code" : "First code", 150, Look::Accent))
      view.code = (view.code + 1) % count;
  }
  ImGui::End();
  ImGui::PopStyleColor();
  if (close) view.codes.clear();
}

}  // namespace pondtrim
