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
    std::string now;        ///< value in hand, as text
    bool negative = true;   ///< offer the sign key
    std::string empty_key;  ///< label of a key that takes the value away ("estimate"), empty: no such key
  };
  struct Answer {
    enum class What { Nothing, Set, Empty, Cancelled } what = What::Nothing;
    std::string typed;  ///< ASCII digits, "-", "."
  };

  void ask(Question question);
  void close() { open_ = false; }
  [[nodiscard]] bool isOpen() const { return open_; }
  /// Shown until the next key.
  void complain(std::string fault) { fault_ = std::move(fault); }

  /// Draws into the current window; call while open.
  [[nodiscard]] Answer draw(Ui& ui);

 private:
  void press(const char* key);
  void readKeyboard(Answer& answer);

  bool open_ = false;
  Question question_;
  std::string typed_, fault_;
};

}  // namespace pondtrim
