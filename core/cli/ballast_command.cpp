#include <cstdio>
#include <pondtrim/file/ballast_json.hpp>
#include <pondtrim/file/error_terms.hpp>

#include "input.hpp"

namespace pondtrim::cli {
namespace {

constexpr double kDepth = 1.0;  ///< a pond [m]

int solve(const std::string& path, double depth) {
  const auto document = readBoat(path);
  if (!document) return complain(document.error());
  const auto model = buildModel(document->boat);
  if (!model) return complain(file::inFileTerms(model.error()));
  const auto answer = file::answerBallast(document->boat, *model, document->boat.water, depth);
  if (!answer) return complain(file::inFileTerms(answer.error()));
  std::fputs(file::ballastJson(document->boat, *answer).c_str(), stdout);
  return kSolved;
}

}  // namespace

int runBallast(Words words) {
  std::string path;
  double depth = kDepth;
  for (WordReader reader(words); !reader.atEnd();) {
    const std::string& word = reader.next();
    if (word == "--depth-m") {
      const std::string given = reader.value();
      const auto number = numberFrom(given);
      if (!number)
        return complainUsage("ballast", "--depth-m needs a number of metres, not \"" + given + "\".");
      depth = *number;
    } else if (word != "-" && word.rfind('-', 0) == 0) {
      return complainUsage("ballast", "does not know the option " + word + ".");
    } else if (!path.empty() || word.empty()) {
      return complainUsage("ballast", "needs one FILE.");
    } else {
      path = word;
    }
  }
  if (path.empty()) return complainUsage("ballast", "needs a FILE.");
  return solve(path, depth);
}

}  // namespace pondtrim::cli
