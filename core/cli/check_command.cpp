#include <cstdio>
#include <pondtrim/file/error_terms.hpp>
#include <pondtrim/model.hpp>

#include "input.hpp"

namespace pondtrim::cli {

int runCheck(Words words) {
  if (words.size() != 1) return complainUsage("check", "needs one FILE.");
  const auto document = readBoat(words[0]);
  if (!document) return complain(document.error());
  if (const auto model = buildModel(document->boat); !model)
    return complain(file::inFileTerms(model.error()));
  for (const std::string& notice : document->notices) std::printf("notice: %s\n", notice.c_str());
  std::printf("%s: no fault found.\n", document->boat.name.c_str());
  return kSolved;
}

}  // namespace pondtrim::cli
