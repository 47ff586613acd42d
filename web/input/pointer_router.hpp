#pragma once
// Decides what a finger or the mouse means: a press on a widget, a scrolling panel, or a turn, pan or zoom of
// the picture. Positions in CSS px, times in ms. No UI library, so that tests can play fingers.
#include <glm/vec2.hpp>
#include <map>

namespace pondtrim {

enum class ScrollAxis { None, Horizontal, Vertical };

/// What lies under a point.
struct PointerTarget {
  bool picture = false;
  ScrollAxis axis = ScrollAxis::None;  ///< of the panel there
};

/// Who carries it out.
class PointerSink {
 public:
  virtual ~PointerSink() = default;
  virtual PointerTarget targetAt(glm::vec2 at) = 0;
  virtual void press(glm::vec2 at, bool finger) = 0;
  virtual void move(glm::vec2 at, bool finger) = 0;
  virtual void release(glm::vec2 at, bool finger) = 0;
  virtual void cancelPress() = 0;
  /// Whether what is pressed is dragged along by the finger (a slider, a plot), not just pressed.
  [[nodiscard]] virtual bool slides() const = 0;
  virtual void scroll(glm::vec2 from, glm::vec2 by) = 0;  ///< the panel that was under `from`
  virtual void flick(glm::vec2 px_per_ms) = 0;            ///< the panel just scrolled goes on by itself
  virtual void turn(glm::vec2 by) = 0;                    ///< one finger on the picture
  virtual void pan(glm::vec2 by) = 0;                     ///< two fingers
  virtual void zoom(float factor) = 0;
  virtual void tapPicture(glm::vec2 at) = 0;
  virtual void holdPicture(glm::vec2 at) = 0;  ///< a finger that stays where it came down
};

class PointerRouter {
 public:
  explicit PointerRouter(PointerSink& sink) : sink_(sink) {}

  void down(int id, glm::vec2 at, double time, bool finger);
  void moved(int id, glm::vec2 at, double time, bool finger);
  void up(int id, glm::vec2 at, double time, bool finger);
  void cancelled(int id);
  /// Call each frame while `waiting`: a finger that rests on a widget becomes a press, one that rests on
  /// the picture a hold.
  void tick(double time);
  [[nodiscard]] bool waiting() const {
    return mode_ == Mode::Undecided || (mode_ == Mode::Picture && !travelled_);
  }

 private:
  enum class Mode { Idle, Undecided, Widget, Scroll, Picture, TwoFingers, Spent };
  void decide(glm::vec2 at, double time);
  void scrollTo(glm::vec2 at, double time);
  [[nodiscard]] bool takesOver(glm::vec2 at) const;
  void twoFingers();
  void forget();

  PointerSink& sink_;
  Mode mode_ = Mode::Idle;
  std::map<int, glm::vec2> fingers_;
  PointerTarget target_;
  glm::vec2 start_{0.0f}, last_{0.0f}, velocity_{0.0f};
  double start_time_ = 0, last_time_ = 0;
  bool finger_ = true, travelled_ = false;
  bool rested_ = false;  ///< pressed because the finger rested, not by where it went
  float spread_ = 0;
  glm::vec2 middle_{0.0f};
};

}  // namespace pondtrim
