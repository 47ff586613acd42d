#include "widgets/number_pad.hpp"

#include <algorithm>
#include <cstring>

#include "session/quantities.hpp"

namespace pondtrim {
namespace {
constexpr std::size_t kLongestNumber = 10;
constexpr float kGap = 6;  // CSS px
constexpr const char* kErase = "\u2190";
constexpr const char* kSign = "+/\u2212";
struct FractionKey {
  const char* label;
  int sixteenths;
};
constexpr FractionKey kFractions[] = {{"1/2", 8}, {"1/4", 4}, {"1/8", 2}, {"1/16", 1}};
constexpr const char* kKeys[4][3] = {{"7", "8", "9"}, {"4", "5", "6"}, {"1", "2", "3"}, {kSign, "0", "."}};
}  // namespace

void NumberPad::ask(Question question) {
  question_ = std::move(question);
  typed_.clear();
  fault_.clear();
  open_ = true;
}

void NumberPad::nowIs(std::string value) {
  question_.now = std::move(value);
  typed_.clear();
  fault_.clear();
}

void NumberPad::press(const char* key) {
  fault_.clear();
  const bool has_fraction = typed_.find('/') != std::string::npos;
  for (const FractionKey& part : kFractions) {
    if (std::strcmp(key, part.label) != 0) continue;
    typed_ = withSixteenths(typed_, part.sixteenths);
    return;
  }
  if (std::strcmp(key, kErase) == 0) {
    if (has_fraction)  // as a whole
      typed_.erase(std::min(typed_.find(' '), typed_.find_first_not_of('-')));
    else if (!typed_.empty())
      typed_.pop_back();
  } else if (std::strcmp(key, kSign) == 0) {
    if (!typed_.empty() && typed_[0] == '-')
      typed_.erase(0, 1);
    else
      typed_.insert(0, "-");
  } else if (typed_.size() < kLongestNumber &&
             (*key != '.' || typed_.find_first_of("./") == std::string::npos) &&
             (*key != '/' || !has_fraction)) {
    typed_ += key;
  }
}

void NumberPad::type(char c) {
  const char key[] = {c == ',' ? '.' : c, '\0'};
  if ((c >= '0' && c <= '9') || c == '.' || c == ',') press(key);
  if (c == '-' && question_.negative) press(kSign);
  const bool first_space = c == ' ' && !typed_.empty() && typed_.find(' ') == std::string::npos;
  if (question_.fractions && (c == '/' || first_space)) press(key);
}

void NumberPad::readKeyboard(Answer& answer) {
  ImGuiIO& io = ImGui::GetIO();
  for (const ImWchar c : io.InputQueueCharacters)
    if (c < 0x80) type(static_cast<char>(c));
  io.InputQueueCharacters.clear();
  if (ImGui::IsKeyPressed(ImGuiKey_Backspace)) press(kErase);
  if (ImGui::IsKeyPressed(ImGuiKey_Enter, false)) answer.what = Answer::What::Set;
  if (ImGui::IsKeyPressed(ImGuiKey_Escape, false)) answer.what = Answer::What::Cancelled;
}

void NumberPad::drawNow(Ui& ui, Answer& answer) {
  if (!fault_.empty()) return paragraph(ui, fault_, theme::kWarning);
  if (question_.step.empty()) return paragraph(ui, "now " + question_.now, theme::kQuietInk);
  // − 5 g   now 380 g   + 5 g
  const float room = ImGui::GetContentRegionAvail().x / ui.ratio, wide = (room - 3 * kGap) / 4;
  ImGui::PushButtonRepeat(true);
  if (button(ui, "pad.down", "\u2212\u00a0" + question_.step, wide)) answer.what = Answer::What::Down;
  const ImVec2 low = ImGui::GetItemRectMax();
  ImGui::SameLine(ui.px(14 + room - wide));
  if (button(ui, "pad.up", "+\u00a0" + question_.step, wide)) answer.what = Answer::What::Up;
  ImGui::PopButtonRepeat();
  const std::string now = "now " + question_.now;
  const ImVec2 high = ImGui::GetItemRectMin(), size = ImGui::CalcTextSize(now.c_str());
  ImGui::GetWindowDrawList()->AddText({(low.x + high.x - size.x) / 2, (low.y + high.y - size.y) / 2},
                                      theme::kQuietInk, now.c_str());
}

void NumberPad::drawTyped(Ui& ui) {
  const ImVec2 low = ImGui::GetCursorScreenPos();
  const ImVec2 size(ImGui::GetContentRegionAvail().x, ui.px(50));
  ImGui::Dummy(size);
  if (const auto set = ui.takeSet("pad.typed")) {
    typed_.clear();
    for (const char c : *set) type(c);
  }
  ui.record("pad.typed", "entry", question_.label + ", " + question_.unit, typed_);
  ui.speak(question_.label + ", " + question_.unit + ", now " + question_.now);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(low, {low.x + size.x, low.y + size.y}, theme::kPlate, ui.px(10));
  draw->AddRect(low, {low.x + size.x, low.y + size.y}, theme::kAccent, ui.px(10), 0, ui.px(2));
  std::string shown = typed_;
  if (!shown.empty() && shown[0] == '-') shown.replace(0, 1, "\u2212");
  ImGui::PushFont(ui.fonts.number);
  const float shown_width = ImGui::CalcTextSize(shown.c_str()).x, line = ImGui::GetFontSize();
  draw->AddText({low.x + ui.px(14), low.y + (size.y - line) / 2}, theme::kInk, shown.c_str());
  const float caret = low.x + ui.px(16) + shown_width;
  draw->AddRectFilled({caret, low.y + ui.px(11)}, {caret + ui.px(2), low.y + size.y - ui.px(11)},
                      theme::kAccent);
  ImGui::PopFont();
  const ImVec2 unit = ImGui::CalcTextSize(question_.unit.c_str());
  draw->AddText({low.x + size.x - unit.x - ui.px(14), low.y + (size.y - unit.y) / 2}, theme::kInk,
                question_.unit.c_str());
}

/// Parts of an inch, if asked for; digits on the left three columns, deeds on the right one.
void NumberPad::drawKeys(Ui& ui, Answer& answer) {
  const float rows = question_.fractions ? 5 : 4;
  const float wide = (ImGui::GetContentRegionAvail().x / ui.ratio - 3 * kGap) / 4;
  const float tall =
      std::clamp((ImGui::GetContentRegionAvail().y / ui.ratio - rows * kGap) / rows, theme::kTouch, 60.0f);
  if (question_.fractions)
    for (const FractionKey& part : kFractions) {
      if (part.sixteenths != 8) ImGui::SameLine();
      if (button(ui, std::string("pad.") + part.label, part.label, wide, Look::Quiet, tall))
        press(part.label);
    }
  for (int r = 0; r < 4; ++r) {
    for (const char* key : kKeys[r]) {
      if (std::strcmp(key, kSign) == 0 && !question_.negative) {
        ImGui::Dummy({ui.px(wide), ui.px(tall)});
      } else if (button(ui, std::string("pad.") + (std::strcmp(key, kSign) == 0 ? "sign" : key), key, wide,
                        Look::Plain, tall)) {
        press(key);
      }
      ImGui::SameLine();
    }
    if (r == 0 && button(ui, "pad.erase", kErase, wide, Look::Plain, tall)) press(kErase);
    if (r == 0) ui.speak("Erase");
    if (r == 1) {
      if (question_.empty_key.empty())
        ImGui::Dummy({ui.px(wide), ui.px(tall)});
      else if (button(ui, "pad.empty", question_.empty_key, wide, Look::Plain, tall))
        answer.what = Answer::What::Empty;
    }
    if (r == 2 && button(ui, "pad.cancel", "Cancel", wide, Look::Plain, tall))
      answer.what = Answer::What::Cancelled;
    if (r == 3 && button(ui, "pad.set", "Set", wide, Look::Primary, tall)) answer.what = Answer::What::Set;
  }
}

NumberPad::Answer NumberPad::draw(Ui& ui) {
  Answer answer, keyed;
  readKeyboard(keyed);
  const std::string typed = typed_;
  paragraph(ui, question_.label);
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(ui.px(kGap), ui.px(kGap)));
  drawNow(ui, answer);
  drawTyped(ui);
  drawKeys(ui, answer);
  ImGui::PopStyleVar();
  answer.typed = typed_;
  if (keyed.what == Answer::What::Nothing) return answer;
  // Enter and Escape are the pad's own, not also those of the key that Dear ImGui's navigation stands on.
  keyed.typed = typed;
  return keyed;
}

}  // namespace pondtrim
