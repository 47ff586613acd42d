// The app's state as JSON, for tests of the real page and for assistive text.
#include <imgui_internal.h>

#include <cmath>
#include <cstdio>

#include "app.hpp"
#include "session/words.hpp"

namespace pondtrim {
namespace {

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (static_cast<unsigned char>(c) < 0x20)
      out += ' ';
    else
      out += c;
  }
  return out + "\"";
}

std::string number(double value) {
  if (!std::isfinite(value)) return "null";
  char text[32];
  std::snprintf(text, sizeof text, "%.9g", value);
  return text;
}

std::string markJson(const std::optional<MarkReading>& mark) {
  if (!mark) return "null";
  return "{\"draft_mm\":" + number(mark->draft * 1000) +
         ",\"line_above_water_mm\":" + number(mark->line_above_water * 1000) + "}";
}

std::string reportJson(const Report& r) {
  static constexpr const char* kOutcomes[] = {"floats", "floats awash", "sinks"};
  return std::string("{\"outcome\":\"") + kOutcomes[static_cast<int>(r.rest.outcome)] +
         "\",\"bow\":" + markJson(r.bow) + ",\"stern\":" + markJson(r.stern) +
         ",\"sail_showing_mm\":" + number(r.sail_showing * 1000) +
         ",\"trim_deg\":" + number(r.rest.attitude.trim * 180 / kPi) +
         ",\"heel_deg\":" + number(r.rest.attitude.heel * 180 / kPi) +
         ",\"total_mass_g\":" + number(r.total_mass * 1000) +
         ",\"missing_buoyancy_g\":" + number(r.rest.missing_buoyancy * 1000) + "}";
}

std::string rectJson(const ImVec4& r) {
  char text[96];
  std::snprintf(text, sizeof text, "[%.1f,%.1f,%.1f,%.1f]", static_cast<double>(r.x),
                static_cast<double>(r.y), static_cast<double>(r.z), static_cast<double>(r.w));
  return text;
}

std::string controlJson(const Control& c) {
  return "{\"name\":" + quoted(c.name) + ",\"role\":\"" + c.role + "\",\"label\":" + quoted(c.label) +
         ",\"value\":" + quoted(c.value) + ",\"whole\":" + rectJson(c.whole) +
         ",\"rect\":" + rectJson(c.seen) + ",\"disabled\":" + (c.disabled ? "true" : "false") + "}";
}

/// As rows, short keys: it is sent often.
std::string mirrorRow(const Control& c) {
  return "[" + quoted(c.name) + ",\"" + c.role + "\"," + quoted(c.spoken.empty() ? c.label : c.spoken) + "," +
         quoted(c.value) + "," + quoted(c.part) + "," + (c.disabled ? "1" : "0") + "," +
         (c.chosen ? "1" : "0") + "," + number(c.share) + "," + rectJson(c.whole) + "]";
}

}  // namespace

std::string App::mirrorJson() const {
  std::string json = "{\"focus\":";
  const ImGuiContext& g = *ImGui::GetCurrentContext();
  const char* focused = "";
  for (const Control& c : screen_.ui.controls)
    if (c.item != 0 && c.item == g.NavId && !g.NavDisableHighlight) focused = c.name.c_str();
  json += quoted(focused) + ",\"controls\":[";
  const char* separator = "";
  for (const Control& c : screen_.ui.controls) {
    json += separator + mirrorRow(c);
    separator = ",";
  }
  return json + "]}";
}

std::string App::stateJson() {
  const auto& notice = session_.notice();
  std::string json =
      "{\"ready\":" + std::string(frames_ > 0 ? "true" : "false") + ",\"frames\":" + std::to_string(frames_) +
      ",\"resting\":" + (resting_ || lost_ ? "true" : "false") + ",\"boat\":" + quoted(session_.boat().name) +
      ",\"revision\":" + std::to_string(session_.revision()) +
      ",\"sentence\":" + quoted(liesSentence(shown())) + ",\"pictured\":" + quoted(shown().boat().name) +
      ",\"fill_share\":" + number(session_.fillShare()) +
      ",\"notice\":" + (notice ? quoted(notice->text) : "null") +
      ",\"zoom\":" + number(static_cast<double>(screen_.camera.zoom)) +
      ",\"yaw\":" + number(static_cast<double>(screen_.camera.yaw)) + ",\"pan\":[" +
      number(static_cast<double>(screen_.camera.pan.x)) + "," +
      number(static_cast<double>(screen_.camera.pan.y)) + "]" +
      ",\"labels\":" + std::to_string(screen_.scene.labels.size()) +
      ",\"empty\":" + reportJson(session_.empty()) + ",\"full\":" + reportJson(session_.full()) +
      ",\"now\":" + reportJson(session_.atFill()) + ",\"controls\":[";
  const char* separator = "";
  for (const Control& c : screen_.ui.controls) {
    json += separator + controlJson(c);
    separator = ",";
  }
  return json + "]}";
}

}  // namespace pondtrim
