// How she lies: the sentence, the three numbers that matter, and the tank slider.
#include <algorithm>
#include <cmath>

#include "panels/screen.hpp"
#include "session/words.hpp"

namespace pondtrim {
namespace {

struct Card {
  const char* name;
  std::string title, number, unit, word;
};

/// The hull's side at a mark, magnified: the painted line in the middle, the water in front of it.
void drawGauge(const Ui& ui, ImVec2 low, float width, float height, double line_above_water) {
  constexpr double kReach = 0.015;  // metres shown above and below the line
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImVec2 high(low.x + width, low.y + height);
  const float middle = (low.y + high.y) / 2;
  const float share = static_cast<float>(std::clamp(line_above_water / kReach, -1.0, 1.0));
  const float water = middle + share * (height / 2 - ui.px(2));
  draw->AddRectFilled(low, high, theme::kHull, ui.px(4));
  draw->AddRectFilled({low.x, water}, high, theme::kWater, ui.px(4), ImDrawFlags_RoundCornersBottom);
  draw->AddLine({low.x, water}, {high.x, water}, theme::kAccent, ui.px(2));
  draw->AddLine({low.x, middle}, {high.x, middle}, theme::kLine, ui.px(3));
  draw->AddRect(low, high, theme::kQuietInk, ui.px(4), 0, ui.px(1));
}

void drawCard(Ui& ui, const Card& card, float width, const double* line_above_water) {
  const ImVec2 low = ImGui::GetCursorScreenPos();
  ImGui::PushFont(ui.fonts.number);
  const float height = ui.px(18) + ImGui::GetFontSize() + ui.letters(theme::kTextSize);
  const float wanted = ImGui::CalcTextSize(card.number.c_str()).x;
  ImGui::PopFont();
  ImGui::Dummy({width, height});
  ui.record(card.name, "status", card.title, card.number + " " + card.unit + " " + card.word);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(low, {low.x + width, low.y + height}, theme::kPlate, ui.px(10));
  const float left = low.x + ui.px(8);
  float x = left;
  if (line_above_water != nullptr) {
    drawGauge(ui, {x, low.y + ui.px(5)}, ui.px(16), height - ui.px(12) - ui.letters(theme::kTextSize),
              *line_above_water);
    x += ui.px(23);
  }
  // A long number ("4 11/16") is set in the smaller bold face.
  const float unit_width = ui.px(4) + ImGui::CalcTextSize(card.unit.c_str()).x;
  const bool fits = x + wanted + unit_width < low.x + width;
  ImGui::PushFont(fits ? ui.fonts.number : ui.fonts.bold);
  const float number_width = ImGui::CalcTextSize(card.number.c_str()).x, line = ImGui::GetFontSize();
  const bool room_for_unit = x + number_width + unit_width < low.x + width;
  const std::string unit = !room_for_unit && card.unit == "in" ? "\u2033" : card.unit;
  draw->AddText({x, low.y + ui.px(5) + (fits ? 0 : ui.px(8))}, theme::kInk, card.number.c_str());
  ImGui::PopFont();
  const float small = ImGui::GetFontSize();
  draw->AddText({x + number_width + ui.px(4), low.y + ui.px(5) + (fits ? (line - small) * 0.8f : ui.px(8))},
                theme::kInk, unit.c_str());
  draw->AddText({left, low.y + height - small - ui.px(5)}, theme::kQuietInk,
                (card.title + card.word).c_str());
}

}  // namespace

std::size_t sentenceLines(const Session& session, const Ui& ui, float width) {
  const std::string sentence = liesSentence(session);
  return wrapLines(sentence, ui.px(width - 2 * kSentenceMargin)).size();
}

void drawSentence(const Session& session, Screen& screen) {
  const std::string sentence = liesSentence(session);
  paragraph(screen.ui, sentence);
  screen.ui.record("sentence", "status", "How she lies", sentence);
}

void drawMarks(const Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const Report& now = session.atFill();
  const UnitSet& units = session.units();
  const bool sinks = now.rest.outcome == Outcome::Sinks;
  // The marks have a gauge, so they get more of the width.
  const float gap = ui.px(6), whole = ImGui::GetContentRegionAvail().x, room = whole - 2 * gap;
  const float width = ui.large() ? whole : 0.35f * room, sail_width = ui.large() ? whole : 0.3f * room;
  const auto next = [&] {
    if (!ui.large()) ImGui::SameLine(0, gap);
  };
  const auto markCard = [&](const char* name, const char* title, const std::optional<MarkReading>& mark) {
    const MarkWords words = markWords(mark, units);
    if (sinks || !mark) return drawCard(ui, {name, title, "\u2013", "", "under"}, width, nullptr);
    drawCard(ui, {name, title, words.number, units.length.symbol, words.word}, width,
             &mark->line_above_water);
  };
  markCard("mark.stern", "Stern ", now.stern);
  next();
  const SailWords sail = sailWords(now, units);
  drawCard(ui, {"mark.sail", "", sail.number, sail.unit, sail.word}, sail_width, nullptr);
  next();
  markCard("mark.bow", "Bow ", now.bow);
}

void drawFill(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const double capacity = session.model().tank_capacity;
  if (capacity <= 0) return paragraph(ui, "No ballast tank in this boat.", theme::kQuietInk);
  double share = session.fillShare();
  const std::string amount =
      valueText(share * capacity, Quantity::Volume, session.units(), session.units().metric() ? 0 : 1);
  const std::string words = "Tank " + amount;
  if (ui.large()) paragraph(ui, words);  // no room for it over the slider
  const float empty_width = 70 * std::min(ui.text_scale, 1.6f),
              full_width = 58 * std::min(ui.text_scale, 1.4f);
  if (button(ui, "fill.empty", "Empty", empty_width, share <= 0 ? Look::Accent : Look::Quiet))
    session.setFillShare(0);
  ImGui::SameLine();
  const float slider_width = ImGui::GetContentRegionAvail().x / ui.ratio - full_width - 8;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float shown = ImGui::CalcTextSize(words.c_str()).x;
  if (!ui.large())
    ImGui::GetWindowDrawList()->AddText({at.x + (ui.px(slider_width) - shown) / 2, at.y - ui.px(2)},
                                        theme::kInk, words.c_str());
  if (slider(ui, "fill.slider", "Water in the tank", share, amount, slider_width, ui.large() ? 0.0f : 10.0f))
    session.setFillShare(share);
  ImGui::SameLine();
  if (button(ui, "fill.full", "Full", full_width, share >= 1 ? Look::Accent : Look::Quiet))
    session.setFillShare(1);
}

}  // namespace pondtrim
