#include <cstdio>
#include <pondtrim/file/error_terms.hpp>
#include <pondtrim/file/hull_words.hpp>

#include "input.hpp"

namespace pondtrim::cli {

int runHull(Words words) {
  if (words.size() != 1 || words[0].empty()) return complainUsage("hull", "needs one FILE.");
  const auto document = readBoat(words[0]);
  if (!document) return complain(document.error());
  const auto model = buildModel(document->boat);
  if (!model) return complain(file::inFileTerms(model.error()));
  const auto json = file::hullJson(document->boat, *model);
  if (!json) return complain(file::inFileTerms(json.error()));
  std::fputs(json->c_str(), stdout);
  return kSolved;
}

}  // namespace pondtrim::cli
