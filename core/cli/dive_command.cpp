#include <cmath>
#include <cstdio>
#include <pondtrim/file/dive_json.hpp>
#include <pondtrim/file/error_terms.hpp>

#include "input.hpp"

namespace pondtrim::cli {
namespace {

constexpr int kSteps = 40;

int solve(const std::string& path, int steps, double scope) {
  const auto document = readBoat(path);
  if (!document) return complain(document.error());
  const auto model = buildModel(document->boat);
  if (!model) return complain(file::inFileTerms(model.error()));
  const auto answer = file::answerDive(document->boat, *model, document->boat.water, steps, scope);
  if (!answer) return complain(file::inFileTerms(answer.error()));
  std::fputs(file::diveJson(document->boat, *answer).c_str(), stdout);
  return kSolved;
}

}  // namespace

int runDive(Words words) {
  std::string path;
  int steps = kSteps;
  double scope = kScopeDiameter;
  for (WordReader reader(words); !reader.atEnd();) {
    const std::string& word = reader.next();
    if (word == "--steps") {
      const std::string given = reader.value();
      const auto number = numberFrom(given);
      if (!number || std::abs(*number) > 1e6 || *number != std::floor(*number))
        return complainUsage("dive", "--steps needs a whole number, not \"" + given + "\".");
      steps = static_cast<int>(*number);
    } else if (word == "--scope-mm") {
      const std::string given = reader.value();
      const auto number = numberFrom(given);
      if (!number) return complainUsage("dive", "--scope-mm needs a number, not \"" + given + "\".");
      scope = *number / 1000;
    } else if (word != "-" && word.rfind('-', 0) == 0) {
      return complainUsage("dive", "does not know the option " + word + ".");
    } else if (!path.empty() || word.empty()) {
      return complainUsage("dive", "needs one FILE.");
    } else {
      path = word;
    }
  }
  if (path.empty()) return complainUsage("dive", "needs a FILE.");
  return solve(path, steps, scope);
}

}  // namespace pondtrim::cli
