#include "session/described_store.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "browser/browser.hpp"

namespace pondtrim {
namespace {

constexpr const char* kKey = "described";

/// Calls visit(word, number) for each number, which is a double or may be empty.
template <class Rough, class Full, class Visit>
void eachNumber(Rough& rough, Full& full, const Visit& visit) {
  visit("length", rough.length);
  visit("breadth", rough.breadth);
  visit("height", rough.height);
  visit("line_height", rough.line_height);
  visit("sail_height", rough.sail_height);
  visit("sail_showing", rough.sail_showing);
  visit("skin_thickness", rough.skin_thickness);
  visit("skin_density", rough.skin_density);
  visit("skin_mass", rough.skin_mass);
  visit("cylinder_length", rough.cylinder_length);
  visit("cylinder_diameter", rough.cylinder_diameter);
  visit("cylinder_wall", rough.cylinder_wall);
  visit("cylinder_mass", rough.cylinder_mass);
  visit("tank_capacity", rough.tank_capacity);
  visit("battery_mass", rough.battery_mass);
  visit("temperature", rough.water.temperature);
  visit("salinity", rough.water.salinity);
  visit("full_scale", full.scale);
  visit("full_length", full.length);
  visit("full_breadth", full.breadth);
  visit("full_height", full.height);
  visit("full_draft", full.draft);
  visit("full_displacement", full.displacement);
  visit("full_fullness", full.fullness);
  visit("full_temperature", full.sea.temperature);
  visit("full_salinity", full.sea.salinity);
}

std::optional<double> numberOf(std::string_view text, std::string_view word) {
  const std::string begin = "\n" + std::string(word) + " ";
  const std::size_t at = text.find(begin);
  if (at == std::string_view::npos) return {};
  const std::string from(text.substr(at + begin.size(), 32));
  char* end = nullptr;
  const double value = std::strtod(from.c_str(), &end);
  if (end == from.c_str() || !std::isfinite(value)) return {};
  return value;
}

}  // namespace

bool keepDescribed(const Session& session) {
  std::string text;
  const auto put = [&](const char* word, const std::optional<double>& value) {
    if (!value) return;
    char line[64];
    std::snprintf(line, sizeof line, "\n%s %.17g", word, *value);
    text += line;
  };
  eachNumber(session.rough(), session.fullSize(), put);
  return browser::keep(kKey, text + "\nname " + session.rough().name);
}

void resumeDescribed(Session& session) {
  const auto kept = browser::recall(kKey);
  if (!kept) return;
  RoughBoat rough = session.rough();
  FullSize full = session.fullSize();
  // The name comes last and may hold anything.
  constexpr std::string_view kName = "\nname ";
  const std::size_t name = kept->find(kName);
  const std::string_view numbers = std::string_view(*kept).substr(0, name);
  eachNumber(rough, full, [&](const char* word, auto& number) {
    if (const auto value = numberOf(numbers, word)) number = *value;
  });
  if (name != std::string::npos) rough.name = kept->substr(name + kName.size());
  session.setRough(rough);
  session.setFullSize(full);
}

}  // namespace pondtrim
