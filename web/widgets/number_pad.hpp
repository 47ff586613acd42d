#pragma once
// The app's own pad for typing numbers: large keys, no system keyboard over the picture.
#include <optional>
#include <string>

#include "widgets/ui.hpp"

namespace pondtrim {

class NumberPad {
 public:
  struct Question {
    std::string label;
    std::string unit;
    std::string now;         ///< value in hand, as text
    std::string empty_key;   ///< label of a key that takes the value away ("estimate"), empty: no such key
    std::string step;        ///< "5 g": what the stepping keys add and take away; empty: no such keys
    bool negative = true;    ///< offer the sign key
    bool fractions = false;  ///< offer parts of an inch
  };
  struct Answer {
    enum class What { Nothing, Set, Empty, Cancelled, Up, Down } what = What::Nothing;
    std::string typed;  ///< ASCII: "-3.5", "3 5/16"
  };

  void ask(Question question);
  void close() { open_ = false; }
  [[nodiscard]] bool isOpen() const { return open_; }
  /// The value in hand after a step; what was typed is gone.
  void nowIs(std::string value);
  /// Shown until the next key.
  void complain(std::string fault) { fault_ = std::move(fault); }

  /// Draws into the current window; call while open.
  [[nodiscard]] Answer draw(Ui& ui);

 private:
  void press(const char* key);
  void type(char c);  ///< from a keyboard
  void readKeyboard(Answer& answer);
  void drawNow(Ui& ui, Answer& answer);
  void drawTyped(Ui& ui);
  void drawKeys(Ui& ui, Answer& answer);

  bool open_ = false;
  Question question_;
  std::string typed_, fault_;
};

}  // namespace pondtrim
