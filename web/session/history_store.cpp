#include "session/history_store.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <string>
#include <utility>

#include "browser/browser.hpp"

namespace pondtrim {
namespace {

constexpr const char* kIndexKey = "history";
constexpr const char* kStepPrefix = "step.";
constexpr std::size_t kMostKept = 80;  // steps back; the session itself remembers more

std::string stepKey(std::uint64_t number) { return kStepPrefix + std::to_string(number); }

/// The index: a line of the steps back, one of the steps forth, and a line "number name" for each step that
/// stands on the shelf under that name.
using Places = std::map<std::uint64_t, std::string>;

std::vector<std::string> linesOf(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

Places placesOf(const std::vector<std::string>& lines) {
  Places places;
  for (std::size_t i = 2; i < lines.size(); ++i) {
    const std::size_t space = lines[i].find(' ');
    if (space != std::string::npos)
      places[std::strtoull(lines[i].c_str(), nullptr, 10)] = lines[i].substr(space + 1);
  }
  return places;
}

/// The steps named in a line of the index; one whose text is missing is left out.
std::vector<Step> stepsOf(const std::string& line, const Places& places) {
  std::vector<Step> steps;
  for (std::size_t at = 0; at < line.size();) {
    const std::size_t end = std::min(line.find(' ', at), line.size());
    const std::uint64_t number = std::strtoull(line.substr(at, end - at).c_str(), nullptr, 10);
    if (auto text = number > 0 ? browser::recall(stepKey(number)) : std::nullopt)
      steps.push_back(
          {nullptr, std::move(*text), number, places.count(number) != 0 ? places.at(number) : std::string()});
    at = end + 1;
  }
  return steps;
}

}  // namespace

void HistoryStore::restore(Session& session) {
  std::vector<std::string> lines = linesOf(browser::recall(kIndexKey).value_or(""));
  if (lines.size() < 2) lines.resize(2);
  const Places places = placesOf(lines);
  std::vector<Step> past = stepsOf(lines[0], places), future = stepsOf(lines[1], places);
  for (const std::vector<Step>* steps : {&past, &future})
    for (const Step& step : *steps) written_.insert(step.number);
  for (const std::string& key : browser::keptKeys(kStepPrefix))  // left over from a visit that broke off
    if (written_.count(std::strtoull(key.c_str() + std::string_view(kStepPrefix).size(), nullptr, 10)) == 0)
      browser::forget(key);
  session.restoreHistory(std::move(past), std::move(future));
}

bool HistoryStore::keep(const Session& session) {
  std::set<std::uint64_t> in_use;
  std::string index, places;
  bool kept = true;
  const auto add = [&](const std::vector<Step>& steps) {
    for (std::size_t i = steps.size() - std::min(steps.size(), kMostKept); i < steps.size(); ++i) {
      const Step& step = steps[i];
      if (written_.count(step.number) == 0)
        kept = browser::keep(stepKey(step.number), step.boatFile()) && kept;
      in_use.insert(step.number);
      index += std::to_string(step.number) + " ";
      if (!step.shelf_place.empty()) places += std::to_string(step.number) + " " + step.shelf_place + "\n";
    }
  };
  add(session.keptPast());
  index += '\n';
  add(session.keptFuture());
  kept = browser::keep(kIndexKey, index + '\n' + places) && kept;
  for (const std::uint64_t number : written_)
    if (in_use.count(number) == 0) browser::forget(stepKey(number));
  written_ = std::move(in_use);
  return kept;
}

}  // namespace pondtrim
