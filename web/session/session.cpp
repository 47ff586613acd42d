#include "session/session.hpp"

#include <algorithm>
#include <cstdio>
#include <pondtrim/file/error_terms.hpp>
#include <utility>

#include "session/words.hpp"

namespace pondtrim {
namespace {

constexpr std::size_t kLongestHistory = 200;

/// The boat with `share` of its tank full, started from where it lay (empty or full, whichever is nearer).
Result<Report> reportAt(const SolvedBoat& solved, double share) {
  if (share <= 0.0) return solved.empty;
  if (share >= 1.0) return solved.full;
  const Condition condition{solved.document.boat.water, share * solved.model.tank_capacity};
  return evaluate(solved.model, condition);
}

bool selectionExists(const Selection& selection, const Boat& boat) {
  switch (selection.owner) {
    case Owner::Skin:
      return selection.index < boat.skins.size();
    case Owner::Cylinder:
      return selection.index < boat.cylinders.size();
    case Owner::Part:
      return selection.index < boat.parts.size();
    case Owner::Correction:
      return false;  // nothing to point at
  }
  return false;
}

}  // namespace

Result<std::shared_ptr<const SolvedBoat>> solveBoat(file::BoatDocument document, const Model* previous) {
  auto model = buildModel(document.boat, previous);
  if (!model) return fail(model.error());
  auto empty = evaluate(*model, {document.boat.water, 0.0});
  if (!empty) return fail(empty.error());
  auto full = evaluate(*model, {document.boat.water, model->tank_capacity});
  if (!full) return fail(full.error());
  return std::make_shared<const SolvedBoat>(
      SolvedBoat{std::move(document), std::move(*model), std::move(*empty), std::move(*full)});
}

UnitSet Preferences::units() const {
  if (!inches) return file::kMetricUnits;
  UnitSet set = file::kInchUnits;
  if (cubic_inches) set.volume = file::kCubicInch;
  set.sixteenths = sixteenths;
  return set;
}

void Session::setPreferences(const Preferences& preferences) {
  preferences_ = preferences;
  units_ = preferences.units();
}

Result<Session> Session::start(file::BoatDocument document, Preferences preferences) {
  auto solved = solveBoat(std::move(document));
  if (!solved) return fail(solved.error());
  Session session;
  session.setPreferences(preferences);
  session.show(std::move(*solved), nullptr);
  return session;
}

void Session::show(Solved solved, Solved before) {
  const bool same_step = before && before == before_boat_;  // a gesture that goes on
  if (!same_step) dive_before_ = before && before == now_ ? studies_.knownSweep() : std::nullopt;
  now_ = std::move(solved);
  before_boat_ = std::move(before);
  studies_ = Studies(now_);
  ++revision_;
  if (now_->model.tank_capacity <= 0.0) fill_share_ = 0.0;
  if (selection_ && !selectionExists(*selection_, boat())) selection_.reset();
  solveAtFill();
}

void Session::solveAtFill() {
  if (auto report = reportAt(*now_, fill_share_))
    at_fill_ = std::move(*report);
  else
    refuse(report.error());
  before_.reset();
  const Solved& before = draft_ ? draft_->base : before_boat_;
  if (!before) return;
  if (auto report = reportAt(*before, fill_share_)) before_ = std::move(*report);
}

void Session::setFillShare(double share) {
  fill_share_ = now_->model.tank_capacity > 0.0 ? std::clamp(share, 0.0, 1.0) : 0.0;
  solveAtFill();
}

Result<void> Session::take(double& into, double value, const char* field, double low, double high) {
  if (!(value >= low && value <= high)) {
    char was[32], allowed[64];
    std::snprintf(was, sizeof was, "%.9g", value);
    std::snprintf(allowed, sizeof allowed, "%.9g to %.9g", low, high);
    const Error error{field, was, allowed, "", ""};
    refuse(error);
    return fail(error);
  }
  into = value;
  return {};
}

Result<void> Session::setDepth(double depth) {
  return take(depth_, depth, "depth", 0.0, 100.0);  // as evaluateBallast and estimateStrength
}

Result<void> Session::setScope(double diameter) { return take(scope_, diameter, "scope", 0.0005, 0.1); }

Result<void> Session::edit(const Boat& changed, std::uint64_t gesture) {
  if (changed == boat()) return {};
  file::BoatDocument document = now_->document;
  document.boat = changed;
  auto solved = solveBoat(std::move(document), &now_->model);
  if (!solved) {
    refuse(solved.error(), &changed);
    return fail(solved.error());
  }
  notice_.reset();
  const bool goes_on = gesture != 0 && gesture == gesture_ && !past_.empty();
  if (!goes_on) past_.push_back({now_, {}, number_, shelf_place_});
  number_ = ++last_number_;
  if (past_.size() > kLongestHistory) past_.erase(past_.begin());
  gesture_ = gesture;
  future_.clear();
  show(std::move(*solved), past_.back().solved);
  return {};
}

Result<void> Session::open(file::BoatDocument document) {
  const std::vector<std::string> notices = document.notices;
  auto solved = solveBoat(std::move(document));
  if (!solved) {
    refuse(solved.error());
    return fail(solved.error());
  }
  if (draft_) leaveDraft();
  past_.push_back({now_, {}, number_, shelf_place_});
  number_ = ++last_number_;
  future_.clear();
  gesture_ = 0;
  shelf_place_.clear();
  selection_.reset();
  notice_.reset();
  fill_share_ = 0.0;
  show(std::move(*solved), nullptr);
  if (!notices.empty()) say(notices.front());
  return {};
}

void Session::beginDraft(std::string name) {
  if (draft_) return;
  draft_ = Draft{std::move(name), now_, std::move(past_), std::move(future_), number_};
  past_.clear();
  future_.clear();
  gesture_ = 0;
  number_ = ++last_number_;
  show(now_, nullptr);
}

void Session::keepDraft() {
  Draft draft = std::move(*draft_);
  draft_.reset();
  past_ = std::move(draft.past);
  past_.push_back({draft.base, {}, draft.number, shelf_place_});
  future_.clear();
  gesture_ = 0;
  number_ = ++last_number_;
  show(now_, draft.base);
}

void Session::leaveDraft() {
  Draft draft = std::move(*draft_);
  draft_.reset();
  past_ = std::move(draft.past);
  future_ = std::move(draft.future);
  gesture_ = 0;
  number_ = draft.number;
  show(std::move(draft.base), nullptr);
}

std::string Step::boatFile() const { return solved ? file::writeBoatFile(solved->document) : text; }

void Session::undo() { walk(past_, future_); }
void Session::redo() { walk(future_, past_); }

void Session::walk(std::vector<Step>& from, std::vector<Step>& to) {
  if (from.empty()) return;
  gesture_ = 0;
  notice_.reset();
  Step next = std::move(from.back());
  from.pop_back();
  if (!next.solved) {
    auto document = file::readBoatFile(next.text);
    if (!document) return refuseFile("That step", document.error());
    auto solved = solveBoat(std::move(*document));
    if (!solved) return refuseFile("That step", solved.error());  // the steps beyond it are still there
    next.solved = std::move(*solved);
  }
  to.push_back({now_, {}, number_, shelf_place_});
  number_ = next.number;
  shelf_place_ = std::move(next.shelf_place);
  show(std::move(next.solved), to.back().solved);
}

void Session::restoreHistory(std::vector<Step> past, std::vector<Step> future) {
  if (!past_.empty() || !future_.empty()) return;
  for (const std::vector<Step>* steps : {&past, &future})
    for (const Step& step : *steps) last_number_ = std::max(last_number_, step.number);
  number_ = ++last_number_;
  past_ = std::move(past);
  future_ = std::move(future);
}

std::string Session::inWords(const Error& error, const Boat* about) const {
  const Error told = file::inUnits(error, units());
  std::string text = told.message;
  for (const std::string& path : {told.field, told.other_field}) {
    const std::size_t at = path.empty() ? std::string::npos : text.find(path);
    if (at != std::string::npos)
      text.replace(at, path.size(), fieldWords(about != nullptr ? *about : boat(), path));
  }
  return text;
}

void Session::refuse(const Error& error, const Boat* about) {
  notice_ = Notice{Notice::Kind::Refused, inWords(error, about), error.field};
}

void Session::refuseWhatWasAsked(const std::string& asked, const std::string& field) {
  if (!notice_ || notice_->kind != Notice::Kind::Refused || notice_->field == field) return;
  notice_ = Notice{Notice::Kind::Refused, asked + " cannot be: " + notice_->text, field};
}

void Session::refuseFile(std::string_view name, const Error& error) {
  notice_ = Notice{Notice::Kind::Refused, std::string(name) + " was not opened: " + error.message, {}};
}

}  // namespace pondtrim
