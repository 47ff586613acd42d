#pragma once
// What a number of the boat means: one sentence, with a small picture where that helps.
#include "widgets/ui.hpp"

namespace pondtrim {

/// A point of a small picture's boat, upright: 1 is about a CSS px; x forward (from astern: to starboard)
/// from her middle, z up from the keel.
struct SketchPoint {
  signed char x = 0, z = 0;
  bool operator==(const SketchPoint&) const = default;
};

/// A boat that stands for all boats, in the water, and what is measured on her.
struct Sketch {
  enum class Seen { FromTheSide, FromAstern } seen = Seen::FromTheSide;
  enum class Shade { Nothing, Under, Over, Slice, Tank } shade = Shade::Nothing;  ///< what of her stands out
  signed char water = 0;           ///< its surface over the keel
  signed char turned = 0;          ///< degrees, bow up or to starboard
  SketchPoint from = {}, to = {};  ///< what is measured, between two heads; with neither, the angle turned
  bool pushes = false;             ///< one head only: something acts from there to there
  SketchPoint g = {}, b = {}, m = {};  ///< centres, on the boat; those at the origin are left out
};

/// The sentence, with its picture beside it, or over it where letters are large. The picture is for the eye
/// only: it says nothing that the sentence does not.
void explain(Ui& ui, const char* sentence, const Sketch* sketch = nullptr);

}  // namespace pondtrim
