#pragma once
// A number for cold wet thumbs: two keys as large as a thumb, the number between them to be read at arm's
// length.
#include <string>

#include "widgets/ui.hpp"

namespace pondtrim {

struct Stepper {
  std::string name;
  std::string label;
  std::string value;   ///< large; empty: not read yet
  std::string beside;  ///< below it: what was expected
  std::string less = "\u2212", more = "+";
};
/// Down, Up, or Type when the number was tapped.
[[nodiscard]] NumberRowAnswer::What stepper(Ui& ui, const Stepper& spec);

}  // namespace pondtrim
