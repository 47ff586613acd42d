#include <cstdio>
#include <pondtrim/file/correct_json.hpp>
#include <pondtrim/file/error_terms.hpp>

#include "input.hpp"

namespace pondtrim::cli {
namespace {

int solve(const std::string& path, bool apply) {
  auto document = readBoat(path);
  if (!document) return complain(document.error());
  auto answer = file::answerCorrect(document->boat);
  if (!answer) return complain(file::inFileTerms(answer.error()));
  if (apply) {
    const bool change = answer->step == PondStep::Change;
    if (!change)
      std::fprintf(stderr, "No change is put in: the next step is \"%s\".\n", file::stepWords(answer->step));
    document->boat = std::move(change ? answer->applied : answer->corrected);
    std::fputs(file::writeBoatFile(*document).c_str(), stdout);
  } else {
    std::fputs(file::correctJson(document->boat, *answer).c_str(), stdout);
  }
  return kSolved;
}

}  // namespace

int runCorrect(Words words) {
  std::string path;
  bool apply = false;
  for (const std::string& word : words) {
    if (word == "--apply") {
      apply = true;
    } else if (word != "-" && word.rfind('-', 0) == 0) {
      return complainUsage("correct", "does not know the option " + word + ".");
    } else if (!path.empty() || word.empty()) {
      return complainUsage("correct", "needs one FILE.");
    } else {
      path = word;
    }
  }
  if (path.empty()) return complainUsage("correct", "needs a FILE.");
  return solve(path, apply);
}

}  // namespace pondtrim::cli
