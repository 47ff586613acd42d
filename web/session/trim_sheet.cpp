#include "session/trim_sheet.hpp"

#include <pondtrim/plan.hpp>

#include "browser/browser.hpp"
#include "session/words.hpp"

namespace pondtrim {

file::TrimSheet trimSheet(const Session& session) {
  const Boat& boat = session.boat();
  file::TrimSheet sheet =
      file::makeTrimSheet(boat, session.model(), session.empty(), session.full(), session.units());
  sheet.sections.front().sentences.insert(sheet.sections.front().sentences.begin(), liesSentence(session));
  if (boat.places.empty() || session.model().tank_capacity <= 0) return sheet;
  PlanRequest least_work = session.planWish();  // what is still to do, not what could be done better
  least_work.goal = Goal::FewestChanges;
  const auto plan = makePlan(boat, least_work);
  if (plan) sheet.sections.insert(sheet.sections.end() - 1, file::planSection(boat, *plan, session.units()));
  return sheet;
}

void showTrimSheet(const Session& session) {
  const file::TrimSheet sheet = trimSheet(session);
  browser::showSheet(file::sheetHtml(sheet, sideDrawing(session)), file::sheetText(sheet));
}

}  // namespace pondtrim
