#include <cstdio>
#include <optional>
#include <pondtrim/file/error_terms.hpp>
#include <pondtrim/file/plan_json.hpp>
#include <pondtrim/plan.hpp>

#include "input.hpp"

namespace pondtrim::cli {
namespace {

struct PlanOptions {
  std::string path;
  PlanRequest request;
  bool goal_given = false;
  bool propose = false;
  bool diagrams = false;
};

std::string takeGoal(PlanOptions& options, const std::string& option, const std::string& word) {
  if (options.goal_given) return "the goal is given twice.";
  options.goal_given = true;
  if (option == "--most") {
    if (word != "stability") return "--most needs stability, not \"" + word + "\".";
    options.request.goal = Goal::MostStability;
    return "";
  }
  if (word != "weight" && word != "changes") return "--least needs weight or changes, not \"" + word + "\".";
  options.request.goal = word == "weight" ? Goal::LeastWeight : Goal::FewestChanges;
  return "";
}

std::string takeOption(PlanOptions& options, const std::string& option, WordReader& reader) {
  if (option == "--least" || option == "--most") return takeGoal(options, option, reader.value());
  const std::pair<const char*, bool*> flags[] = {{"--whole-pieces", &options.request.whole_pieces},
                                                 {"--propose-places", &options.propose},
                                                 {"--diagrams", &options.diagrams}};
  for (const auto& [name, flag] : flags) {
    if (option != name) continue;
    *flag = true;
    return "";
  }
  if (option == "--lead-budget-g") {
    const std::string word = reader.value();
    const auto mass = numberFrom(word);
    if (!mass) return "--lead-budget-g needs a number of grams, not \"" + word + "\".";
    options.request.lead_budget = file::toSi(*mass, file::kGram);
    return "";
  }
  if (option != "-" && option[0] == '-') return "does not know the option " + option + ".";
  if (!options.path.empty()) return "needs one FILE, not two.";
  options.path = option;
  return "";
}

Result<file::PlanDiagrams> diagramsOf(const Boat& boat, const PlanRequest& request) {
  auto curve = stabilityCurve(boat, request);
  if (!curve) return fail(curve.error());
  auto balance = balanceDiagrams(boat);
  if (!balance) return fail(balance.error());
  return file::PlanDiagrams{std::move(*curve), std::move(*balance)};
}

int plan(const PlanOptions& options) {
  const auto document = readBoat(options.path);
  if (!document) return complain(document.error());
  const Boat boat = options.propose ? proposePlaces(document->boat) : document->boat;
  const auto made = makePlan(boat, options.request);
  if (!made) return complain(file::inFileTerms(made.error()));
  std::optional<file::PlanDiagrams> diagrams;
  if (options.diagrams) {
    auto drawn = diagramsOf(boat, options.request);
    if (!drawn) return complain(file::inFileTerms(drawn.error()));
    diagrams = std::move(*drawn);
  }
  for (const std::string& notice : document->notices) std::fprintf(stderr, "notice: %s\n", notice.c_str());
  std::fputs(file::planJson(boat, *made, diagrams ? &*diagrams : nullptr).c_str(), stdout);
  return kSolved;
}

}  // namespace

int runPlan(Words words) {
  PlanOptions options;
  for (WordReader reader(words); !reader.atEnd();) {
    const std::string& word = reader.next();
    if (const std::string fault = word.empty() ? "an empty word." : takeOption(options, word, reader);
        !fault.empty())
      return complainUsage("plan", fault);
  }
  if (options.path.empty()) return complainUsage("plan", "needs a FILE.");
  return plan(options);
}

}  // namespace pondtrim::cli
