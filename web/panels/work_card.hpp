#pragma once
// A thing to do, as a plate that can be read aloud at arm's length.
#include <string>

#include "widgets/ui.hpp"

namespace pondtrim {

struct WorkCard {
  std::string name;  ///< of the control
  std::string sign;  ///< in its disc: the number in working order, or a tick
  std::string words;
  bool chosen = false;
  bool done = false;  ///< the disc is filled
};
/// True when tapped.
bool workCard(Ui& ui, const WorkCard& card);

/// The usual caution where lead and foam are cut and glued.
void cuttingCaution(Ui& ui);

}  // namespace pondtrim
