#include "input/pointer_router.hpp"

#include <cmath>
#include <glm/geometric.hpp>

namespace pondtrim {
namespace {
constexpr float kSlop = 8;           // CSS px that a resting wet thumb may wander
constexpr float kTakeOver = 14;      // CSS px along a panel that a pressed key gives way to
constexpr double kRestTime = 110;    // ms after which a resting finger is a press (so that nudges can repeat)
constexpr double kHoldTime = 550;    // ms on the picture
constexpr float kFlickSpeed = 0.2f;  // px/ms
constexpr double kFlickPause = 60;   // ms of rest before lifting that stop a flick

float along(glm::vec2 v, ScrollAxis axis) { return std::abs(axis == ScrollAxis::Horizontal ? v.x : v.y); }
float athwart(glm::vec2 v, ScrollAxis axis) { return std::abs(axis == ScrollAxis::Horizontal ? v.y : v.x); }
}  // namespace

void PointerRouter::down(int id, glm::vec2 at, double time, bool finger) {
  fingers_[id] = at;
  if (fingers_.size() == 2) return twoFingers();
  if (fingers_.size() > 2) return;
  finger_ = finger;
  start_ = last_ = at;
  start_time_ = last_time_ = time;
  velocity_ = glm::vec2(0.0f);
  travelled_ = rested_ = false;
  target_ = sink_.targetAt(at);
  if (target_.picture) {
    mode_ = Mode::Picture;
  } else if (!finger) {
    mode_ = Mode::Widget;
    sink_.press(at, finger);
  } else {
    mode_ = Mode::Undecided;
  }
}

void PointerRouter::twoFingers() {
  if (mode_ == Mode::Widget) sink_.cancelPress();
  const bool on_picture = mode_ == Mode::Picture;
  mode_ = on_picture ? Mode::TwoFingers : Mode::Spent;
  const glm::vec2 a = fingers_.begin()->second, b = fingers_.rbegin()->second;
  spread_ = glm::length(a - b);
  middle_ = 0.5f * (a + b);
}

void PointerRouter::decide(glm::vec2 at, double time) {
  const glm::vec2 way = at - start_;
  if (glm::length(way) < kSlop) {
    if (time - start_time_ >= kRestTime) {
      mode_ = Mode::Widget;
      rested_ = true;
      sink_.press(start_, finger_);
    }
    return;
  }
  const bool scrolls =
      target_.axis != ScrollAxis::None && along(way, target_.axis) > athwart(way, target_.axis);
  mode_ = scrolls ? Mode::Scroll : Mode::Widget;
  if (scrolls) {
    // A browser may hand over a flick's whole way as one move: all of it but the slop is scrolled now.
    last_ = start_ + way * (kSlop / glm::length(way));
    return scrollTo(at, time);
  }
  sink_.press(start_, finger_);
  sink_.move(at, finger_);
  last_ = at;
}

void PointerRouter::scrollTo(glm::vec2 at, double time) {
  const glm::vec2 by = at - last_;
  const double passed = time - last_time_;
  if (passed > 0) {
    const glm::vec2 now = by / static_cast<float>(passed);
    velocity_ = velocity_ == glm::vec2(0.0f) ? now : 0.5f * (velocity_ + now);
  }
  sink_.scroll(start_, by);
  last_ = at;
  last_time_ = time;
}

/// A finger that rested on a key before it went on means the panel, not the key.
bool PointerRouter::takesOver(glm::vec2 at) const {
  const glm::vec2 way = at - start_;
  return rested_ && target_.axis != ScrollAxis::None && along(way, target_.axis) > kTakeOver &&
         along(way, target_.axis) > athwart(way, target_.axis) && !sink_.slides();
}

void PointerRouter::moved(int id, glm::vec2 at, double time, bool finger) {
  if (fingers_.count(id) == 0) {
    if (!finger) sink_.move(at, finger);  // a mouse hovers
    return;
  }
  fingers_[id] = at;
  const glm::vec2 by = at - last_;
  switch (mode_) {
    case Mode::Undecided:
      return decide(at, time);
    case Mode::Widget:
      if (!takesOver(at)) {
        sink_.move(at, finger);
        break;
      }
      sink_.cancelPress();
      mode_ = Mode::Scroll;
      return scrollTo(at, time);
    case Mode::Scroll:
      return scrollTo(at, time);
    case Mode::Picture:
      travelled_ = travelled_ || glm::length(at - start_) > kSlop;
      if (travelled_) sink_.turn(by);
      break;
    case Mode::TwoFingers: {
      if (fingers_.size() != 2) break;
      const glm::vec2 a = fingers_.begin()->second, b = fingers_.rbegin()->second;
      const float spread = glm::length(a - b);
      if (spread_ > 1 && spread > 1) sink_.zoom(spread / spread_);
      sink_.pan(0.5f * (a + b) - middle_);
      spread_ = spread;
      middle_ = 0.5f * (a + b);
      break;
    }
    case Mode::Idle:
    case Mode::Spent:
      break;
  }
  last_ = at;
  last_time_ = time;
}

void PointerRouter::up(int id, glm::vec2 at, double time, bool finger) {
  if (fingers_.count(id) == 0) return;
  // The last of the way may come with the lifting only.
  if (mode_ == Mode::Undecided ? glm::length(at - start_) >= kSlop : mode_ == Mode::Scroll && at != last_)
    moved(id, at, time, finger);
  fingers_.erase(id);
  switch (mode_) {
    case Mode::Undecided:  // a tap
      sink_.press(start_, finger);
      sink_.release(start_, finger);
      break;
    case Mode::Widget:
      sink_.release(at, finger);
      break;
    case Mode::Scroll:
      if (time - last_time_ < kFlickPause && glm::length(velocity_) > kFlickSpeed) sink_.flick(velocity_);
      break;
    case Mode::Picture:
      if (!travelled_) sink_.tapPicture(at);
      break;
    case Mode::TwoFingers:
      mode_ = Mode::Spent;  // the finger that stays does nothing more
      break;
    case Mode::Idle:
    case Mode::Spent:
      break;
  }
  forget();
}

void PointerRouter::cancelled(int id) {
  if (fingers_.erase(id) == 0) return;
  if (mode_ == Mode::Widget) sink_.cancelPress();
  if (!fingers_.empty()) mode_ = Mode::Spent;
  forget();
}

void PointerRouter::forget() {
  if (fingers_.empty()) mode_ = Mode::Idle;
}

void PointerRouter::tick(double time) {
  if (mode_ == Mode::Undecided) decide(last_, time);
  if (mode_ == Mode::Picture && !travelled_ && time - start_time_ >= kHoldTime) {
    mode_ = Mode::Spent;
    sink_.holdPicture(start_);
  }
}

}  // namespace pondtrim
