#include "widgets/number_pad.hpp"

#include <algorithm>
#include <cstring>

namespace pondtrim {
namespace {
constexpr std::size_t kLongestNumber = 10;
constexpr float kGap = 6;  // CSS px
constexpr const char* kErase = "\u2190";
constexpr const char* kSign = "+/\u2212";
constexpr const char* kKeys[4][3] = {{"7", "8", "9"}, {"4", "5", "6"}, {"1", "2", "3"}, {kSign, "0", "."}};
}  // namespace

void NumberPad::ask(Question question) {
  question_ = std::move(question);
  typed_.clear();
  fault_.clear();
  open_ = true;
}

void NumberPad::press(const char* key) {
  fault_.clear();
  if (std::strcmp(key, kErase) == 0) {
    if (!typed_.empty()) typed_.pop_back();
  } else if (std::strcmp(key, kSign) == 0) {
    if (!typed_.empty() && typed_[0] == '-')
      typed_.erase(0, 1);
    else
      typed_.insert(0, "-");
  } else if (typed_.size() < kLongestNumber && (*key != '.' || typed_.find('.') == std::string::npos)) {
    typed_ += key;
  }
}

void NumberPad::readKeyboard(Answer& answer) {
  ImGuiIO& io = ImGui::GetIO();
  for (const ImWchar c : io.InputQueueCharacters) {
    const char key[] = {static_cast<char>(c == ',' ? '.' : c), '\0'};
    if ((c >= '0' && c <= '9') || c == '.' || c == ',') press(key);
    if (c == '-' && question_.negative) press(kSign);
  }
  io.InputQueueCharacters.clear();
  if (ImGui::IsKeyPressed(ImGuiKey_Backspace)) press(kErase);
  if (ImGui::IsKeyPressed(ImGuiKey_Enter, false)) answer.what = Answer::What::Set;
  if (ImGui::IsKeyPressed(ImGuiKey_Escape, false)) answer.what = Answer::What::Cancelled;
}

NumberPad::Answer NumberPad::draw(Ui& ui) {
  Answer answer;
  readKeyboard(answer);
  const float room = ImGui::GetContentRegionAvail().x / ui.ratio;
  ImGui::PushFont(ui.fonts.text);
  ImGui::TextUnformatted(question_.label.c_str());
  ImGui::PopFont();
  if (!fault_.empty())
    paragraph(ui, fault_, theme::kWarning);
  else
    paragraph(ui, "now " + question_.now, theme::kQuietInk);

  // What is being typed.
  const ImVec2 low = ImGui::GetCursorScreenPos();
  const ImVec2 size(ImGui::GetContentRegionAvail().x, ui.px(50));
  ImGui::Dummy(size);
  if (const auto set = ui.takeSet("pad.typed")) {
    typed_.clear();
    for (const char c : *set) {
      const char key[] = {c == ',' ? '.' : c, '\0'};
      if ((c >= '0' && c <= '9') || c == '.' || c == ',') press(key);
      if (c == '-' && question_.negative) press(kSign);
    }
  }
  ui.record("pad.typed", "entry", question_.label + ", " + question_.unit, typed_);
  ui.speak(question_.label + ", " + question_.unit + ", now " + question_.now);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(low, {low.x + size.x, low.y + size.y}, theme::kPlate, ui.px(10));
  draw->AddRect(low, {low.x + size.x, low.y + size.y}, theme::kAccent, ui.px(10), 0, ui.px(2));
  std::string shown = typed_.empty() ? "" : typed_;
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

  // Digits on the left three columns, deeds on the right one.
  const float wide = (room - 3 * kGap) / 4;
  const float tall =
      std::clamp((ImGui::GetContentRegionAvail().y / ui.ratio - 4 * kGap) / 4, theme::kTouch, 60.0f);
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(ui.px(kGap), ui.px(kGap)));
  for (int r = 0; r < 4; ++r) {
    for (int c = 0; c < 3; ++c) {
      const char* key = kKeys[r][c];
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
  ImGui::PopStyleVar();
  answer.typed = typed_;
  return answer;
}

}  // namespace pondtrim
