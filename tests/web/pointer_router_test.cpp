// Fingers: what is a tap, a scroll, a slide, a turn, a pinch.
#include "input/pointer_router.hpp"

#include <doctest/doctest.h>

#include <string>

using namespace pondtrim;

namespace {
struct Recorder final : PointerSink {
  PointerTarget target;
  std::string told;
  float zoomed = 1;
  bool on_slider = false;
  glm::vec2 scrolled{0.0f}, turned{0.0f};

  PointerTarget targetAt(glm::vec2) override { return target; }
  void press(glm::vec2, bool) override { told += "press "; }
  void move(glm::vec2, bool) override {}
  void release(glm::vec2, bool) override { told += "release "; }
  void cancelPress() override { told += "cancel "; }
  [[nodiscard]] bool slides() const override { return on_slider; }
  void scroll(glm::vec2, glm::vec2 by) override { scrolled += by; }
  void flick(glm::vec2) override { told += "flick "; }
  void turn(glm::vec2 by) override { turned += by; }
  void pan(glm::vec2) override {}
  void zoom(float factor) override { zoomed *= factor; }
  void tapPicture(glm::vec2) override { told += "tap "; }
  void holdPicture(glm::vec2) override { told += "hold "; }
};

struct Hand {
  Recorder sink;
  PointerRouter router{sink};
  void drag(glm::vec2 from, glm::vec2 to, double duration = 100) {
    router.down(1, from, 0, true);
    for (int i = 1; i <= 10; ++i)
      router.moved(1, from + (to - from) * (static_cast<float>(i) / 10), duration * i / 10, true);
    router.up(1, to, duration + 5, true);
  }
};
}  // namespace

TEST_CASE("a short touch is one press and one release") {
  Hand hand;
  hand.router.down(1, {10, 10}, 0, true);
  hand.router.up(1, {12, 11}, 5, true);
  CHECK(hand.sink.told == "press release ");
}

TEST_CASE("a finger along a panel scrolls it and presses nothing") {
  Hand hand;
  hand.sink.target = {false, ScrollAxis::Vertical};
  hand.drag({100, 300}, {104, 200});
  CHECK(hand.sink.told == "flick ");
  CHECK(hand.sink.scrolled.y < -80);
}

TEST_CASE("a finger across a scrolling panel moves the slider under it") {
  Hand hand;
  hand.sink.target = {false, ScrollAxis::Vertical};
  hand.drag({100, 300}, {200, 304});
  CHECK(hand.sink.told == "press release ");
  CHECK(hand.sink.scrolled.y == 0);
}

TEST_CASE("a finger that rests on the picture holds it: no tap, no turn follows") {
  Hand hand;
  hand.sink.target = {true, ScrollAxis::None};
  hand.router.down(1, {10, 10}, 0, true);
  CHECK(hand.router.waiting());
  hand.router.tick(300);
  CHECK(hand.sink.told.empty());
  hand.router.tick(600);
  hand.router.moved(1, {80, 10}, 650, true);
  hand.router.up(1, {80, 10}, 700, true);
  CHECK(hand.sink.told == "hold ");
}

TEST_CASE("a finger that has turned the picture does not hold it") {
  Hand hand;
  hand.sink.target = {true, ScrollAxis::None};
  hand.router.down(1, {10, 10}, 0, true);
  hand.router.moved(1, {80, 10}, 100, true);
  CHECK_FALSE(hand.router.waiting());
  hand.router.tick(900);
  CHECK(hand.sink.told.find("hold") == std::string::npos);
}

TEST_CASE("a finger that rests is a press, so that a held button can repeat") {
  Hand hand;
  hand.sink.target = {false, ScrollAxis::Vertical};
  hand.router.down(1, {10, 10}, 0, true);
  hand.router.tick(50);
  CHECK(hand.sink.told.empty());
  CHECK(hand.router.waiting());
  hand.router.tick(150);
  CHECK(hand.sink.told == "press ");
  CHECK_FALSE(hand.router.waiting());
  hand.router.up(1, {10, 10}, 900, true);
  CHECK(hand.sink.told == "press release ");
}

TEST_CASE("a flick that comes as one move, or with the lifting only, scrolls by its way and glides on") {
  for (const bool moved : {true, false}) {
    CAPTURE(moved);
    Hand hand;
    hand.sink.target = {false, ScrollAxis::Vertical};
    hand.router.down(1, {100, 300}, 0, true);
    if (moved) hand.router.moved(1, {100, 180}, 40, true);
    hand.router.up(1, {100, 180}, 42, true);
    CHECK(hand.sink.scrolled.y == doctest::Approx(-112));  // all but the 8 px that a resting thumb may wander
    CHECK(hand.sink.told == "flick ");
  }
}

TEST_CASE("a finger that rested on a key and goes on scrolls the panel; one on a slider slides") {
  for (const bool on_slider : {false, true}) {
    CAPTURE(on_slider);
    Hand hand;
    hand.sink.target = {false, ScrollAxis::Vertical};
    hand.sink.on_slider = on_slider;
    hand.router.down(1, {100, 300}, 0, true);
    hand.router.tick(150);
    hand.router.moved(1, {100, 290}, 160, true);
    CHECK(hand.sink.told == "press ");  // a thumb may tremble
    hand.router.moved(1, {100, 250}, 180, true);
    hand.router.moved(1, {100, 200}, 200, true);
    hand.router.up(1, {100, 200}, 600, true);
    CHECK(hand.sink.told == (on_slider ? "press release " : "press cancel "));
    CHECK(hand.sink.scrolled.y == doctest::Approx(on_slider ? 0 : -90));
  }
}

TEST_CASE("a flick stops when the finger pauses before lifting") {
  Hand hand;
  hand.sink.target = {false, ScrollAxis::Vertical};
  hand.router.down(1, {100, 300}, 0, true);
  for (int i = 1; i <= 10; ++i)
    hand.router.moved(1, {100.0f, 300.0f - 10.0f * static_cast<float>(i)}, 10 * i, true);
  hand.router.up(1, {100, 200}, 400, true);
  CHECK(hand.sink.told.empty());
}

TEST_CASE("on the picture one finger turns, two fingers zoom, a tap picks") {
  Hand hand;
  hand.sink.target = {true, ScrollAxis::None};
  hand.drag({100, 100}, {160, 100});
  CHECK(hand.sink.turned.x > 40);
  CHECK(hand.sink.told.empty());
  hand.drag({100, 100}, {101, 100});
  CHECK(hand.sink.told == "tap ");
  hand.router.down(1, {100, 100}, 0, true);
  hand.router.down(2, {200, 100}, 0, true);
  hand.router.moved(2, {300, 100}, 20, true);
  CHECK(hand.sink.zoomed == doctest::Approx(2));
  hand.router.up(2, {300, 100}, 30, true);
  hand.router.up(1, {100, 100}, 40, true);
  CHECK(hand.sink.told == "tap ");  // no tap from a pinch
}

TEST_CASE("a second finger takes back the press of the first") {
  Hand hand;
  hand.router.down(1, {10, 10}, 0, true);
  hand.router.tick(200);
  hand.router.down(2, {50, 50}, 210, true);
  CHECK(hand.sink.told == "press cancel ");
  hand.router.up(1, {10, 10}, 300, true);
  hand.router.up(2, {50, 50}, 310, true);
  CHECK(hand.sink.told == "press cancel ");
}

TEST_CASE("a cancelled touch is forgotten") {
  Hand hand;
  hand.router.down(1, {10, 10}, 0, true);
  hand.router.cancelled(1);
  CHECK_FALSE(hand.router.waiting());
  hand.router.up(1, {10, 10}, 20, true);
  CHECK(hand.sink.told.empty());
}
