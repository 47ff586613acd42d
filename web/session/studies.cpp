#include "session/studies.hpp"

#include <algorithm>
#include <iterator>

#include "session/session.hpp"

namespace pondtrim {
namespace {

constexpr int kSteps = 40;              // of the dive: 2.5 % of the tank each
constexpr int kHeels = 37;              // every 5 degrees
constexpr std::size_t kKeptHeels = 12;  // righting curves at different fills
constexpr double kLeastDeepest = 10.0;  // metres
constexpr int kDepths = 41;

}  // namespace

const Result<DiveSweep>& Studies::sweep() {
  if (!sweep_) sweep_ = sweepDive(about_->model, about_->document.boat.water, kSteps);
  return *sweep_;
}

std::optional<DiveSweep> Studies::knownSweep() const {
  if (!sweep_ || !*sweep_) return std::nullopt;
  return **sweep_;
}

std::optional<std::vector<HelpTried>> Studies::knownHelps() {
  const auto& dive = sweep();
  if (!dive || dive->findings.empty()) return std::vector<HelpTried>();
  if (!helps_ || !helps_->done()) return std::nullopt;
  return helps_->helps();
}

void Studies::tryOneHelp() {
  const auto& dive = sweep();
  if (!dive) return;
  const Boat& boat = about_->document.boat;
  if (!helps_) {
    auto search = HelpSearch::start(boat, *dive, boat.water);
    if (!search) return;  // a boat that was solved can be built
    helps_ = std::move(*search);
  }
  if (!helps_->done()) (void)helps_->step();  // a change that cannot be solved ends the search
}

const Result<std::optional<HoverAnswer>>& Studies::hover() {
  const Boat& boat = about_->document.boat;
  if (!hover_) hover_ = hoverAt(about_->model, boat.water, boat.aims.sail_showing);
  return *hover_;
}

const Result<RightingCurve>& Studies::righting(double share) {
  const auto found = righting_.find(share);
  if (found != righting_.end()) return found->second;
  if (righting_.size() >= kKeptHeels)  // empty and full stay
    righting_.erase(std::next(righting_.begin(), static_cast<long>(righting_.size() / 2)));
  const Condition condition{about_->document.boat.water, share * about_->model.tank_capacity};
  return righting_.emplace(share, rightingCurve(about_->model, condition, kHeels)).first->second;
}

double Studies::deepestFor(double depth) { return std::max(kLeastDeepest, 2 * depth); }

void Studies::forDepth(double depth) {
  if (depth == depth_) return;
  depth_ = depth;
  ballast_.reset();
  depth_curve_.reset();
  waters_.reset();
  strengths_.reset();
}

const Result<BallastReport>& Studies::ballast(double depth) {
  forDepth(depth);
  const Boat& boat = about_->document.boat;
  if (!ballast_) ballast_ = evaluateBallast(boat, about_->model, boat.water, depth);
  return *ballast_;
}

const Result<DepthCurve>& Studies::depthCurve(double depth) {
  forDepth(depth);
  const Boat& boat = about_->document.boat;
  const Condition full{boat.water, about_->model.tank_capacity};
  if (!depth_curve_)
    depth_curve_ = pondtrim::depthCurve(boat, about_->model, full, deepestFor(depth), kDepths);
  return *depth_curve_;
}

const Result<std::array<WaterAnswer, kNamedWaters>>& Studies::waters(double depth) {
  forDepth(depth);
  const Boat& boat = about_->document.boat;
  const Condition full{boat.water, about_->model.tank_capacity};
  if (!waters_) waters_ = depthInWaters(boat, about_->model, full, deepestFor(depth));
  return *waters_;
}

const file::Strengths& Studies::strengths(double depth) {
  forDepth(depth);
  if (strengths_) return *strengths_;
  const Boat& boat = about_->document.boat;
  const BallastReport* report = nullptr;
  if (boat.ballast && boat.tank)
    if (const auto& answer = ballast(depth)) report = &*answer;
  strengths_ = file::estimateStrengths(boat, boat.water, depth, report);
  return *strengths_;
}

}  // namespace pondtrim
