#include "session/advisor.hpp"

namespace pondtrim {

void Advisor::work(const Session& session) {
  revision_ = session.revision();
  fault_.clear();
  answer_.reset();
  if (auto answer = file::answerCorrect(session.boat()))
    answer_ = std::move(*answer);
  else
    fault_ = session.inWords(answer.error());
}

}  // namespace pondtrim
