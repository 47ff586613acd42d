#include <cstdio>
#include <pondtrim/file/error_terms.hpp>
#include <pondtrim/file/report_json.hpp>
#include <pondtrim/report.hpp>

#include "input.hpp"

namespace pondtrim::cli {
namespace {

constexpr double kSeaSalinity = 35.0;  ///< for --salt when the boat's own water is fresh

struct FloatOptions {
  std::string path;
  std::optional<double> fill;  ///< [m^3]; empty: see `full`
  bool full = false, fill_given = false;
  std::optional<bool> salt;
  std::optional<double> temperature;  ///< [K]
};

/// Each of these reads what follows one option and returns what is wrong with it, or nothing.
std::string takeFillVolume(FloatOptions& options, const std::string& word) {
  const auto volume = numberFrom(word);
  if (!volume) return "--fill-mL needs a number of millilitres, not \"" + word + "\".";
  options.fill = file::toSi(*volume, file::kMillilitre);
  return "";
}

std::string takeFillWord(FloatOptions& options, const std::string& word) {
  if (word != "empty" && word != "full") return "--fill needs empty or full, not \"" + word + "\".";
  options.full = word == "full";
  return "";
}

std::string takeTemperature(FloatOptions& options, const std::string& word) {
  const auto temperature = numberFrom(word);
  if (!temperature) return "--temperature-C needs a number of degrees Celsius, not \"" + word + "\".";
  options.temperature = file::toSi(*temperature, file::kDegreeCelsius);
  return "";
}

std::string takeOption(FloatOptions& options, const std::string& option, WordReader& reader) {
  if (option == "--fill-mL" || option == "--fill") {
    if (options.fill_given) return "the fill is given twice.";
    options.fill_given = true;
    return option == "--fill" ? takeFillWord(options, reader.value())
                              : takeFillVolume(options, reader.value());
  }
  if (option == "--temperature-C") return takeTemperature(options, reader.value());
  if (option == "--fresh" || option == "--salt") {
    if (options.salt) return "--fresh or --salt is given twice.";
    options.salt = option == "--salt";
    return "";
  }
  if (option != "-" && option[0] == '-') return "does not know the option " + option + ".";
  if (!options.path.empty()) return "needs one FILE, not two.";
  options.path = option;
  return "";
}

Condition conditionOf(const FloatOptions& options, const Boat& boat, const Model& model) {
  Condition condition{boat.water, 0.0};
  if (options.temperature) condition.water.temperature = *options.temperature;
  if (options.salt && !*options.salt) condition.water.salinity = 0.0;
  if (options.salt && *options.salt && boat.water.salinity == 0.0) condition.water.salinity = kSeaSalinity;
  if (options.full) condition.tank_fill = model.tank_capacity;
  if (options.fill) condition.tank_fill = *options.fill;
  return condition;
}

int solve(const FloatOptions& options) {
  const auto document = readBoat(options.path);
  if (!document) return complain(document.error());
  const auto model = buildModel(document->boat);
  if (!model) return complain(file::inFileTerms(model.error()));
  const Condition condition = conditionOf(options, document->boat, *model);
  const auto report = evaluate(*model, condition);
  if (!report) return complain(file::inFileTerms(report.error()));
  for (const std::string& notice : document->notices) std::fprintf(stderr, "notice: %s\n", notice.c_str());
  std::fputs(file::reportJson(document->boat, *model, condition, *report).c_str(), stdout);
  return kSolved;
}

}  // namespace

int runFloat(Words words) {
  FloatOptions options;
  for (WordReader reader(words); !reader.atEnd();) {
    const std::string& word = reader.next();
    if (const std::string fault = word.empty() ? "an empty word." : takeOption(options, word, reader);
        !fault.empty())
      return complainUsage("float", fault);
  }
  if (options.path.empty()) return complainUsage("float", "needs a FILE.");
  return solve(options);
}

}  // namespace pondtrim::cli
