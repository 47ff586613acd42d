#pragma once
// The widgets' common ground: sizes, fonts, and a record of every control drawn in this frame (for tests, and
// for those who cannot see the canvas).
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "widgets/theme.hpp"

namespace pondtrim {

/// A control as drawn in this frame. `name` is stable: tests and assistive text find it by that.
struct Control {
  std::string name;  ///< empty: words that nobody operates
  const char* role;  ///< "button", "slider", "plot", "text", "entry", "picture", "status", "words", "heading"
  std::string label;
  std::string value;
  ImVec4 whole;         ///< left, top, right, bottom [CSS px]
  ImVec4 seen;          ///< the part of it in sight; all 0: none
  std::string spoken;   ///< what it is called aloud; empty: its label
  const char* part;     ///< the part of the screen that it stands in
  ImGuiID item = 0;     ///< Dear ImGui's name for it, 0: not an item
  double share = 0;     ///< of a slider or plot: where it stands, 0 to 1
  bool chosen = false;  ///< of several, the one in use
  bool disabled = false;
};

/// An item as Dear ImGui's hooks report it: whatever can be operated passes here, recorded by us or not.
struct HookedItem {
  ImGuiID id = 0;
  ImVec4 whole;  ///< device px
  const char* part = "";
  std::string label;
  bool disabled = false, editable = false;
};

/// What the page asks of a control by name: somebody works it through the mirror, by keyboard or aloud.
struct Deed {
  enum class What { None, Focus, Press, Set };
  What what = What::None;
  std::string name, text;
};

struct Ui {
  float ratio = 1;       ///< device px per CSS px
  float text_scale = 1;  ///< letters over their usual size, 1 to 2
  theme::Fonts fonts;
  std::vector<Control> controls;
  std::vector<HookedItem> items;
  Deed deed;                      ///< for this frame
  std::string held;               ///< the control that the keyboard is on, by the mirror
  std::string draft_name, draft;  ///< text being typed into a field of the mirror
  std::uint64_t gesture = 1;      ///< changes with each press: edits of one press are one step of undo

  [[nodiscard]] float px(float css) const { return css * ratio; }
  /// Of what grows with the letters [device px].
  [[nodiscard]] float letters(float css) const { return css * ratio * text_scale; }
  /// Too large for rows made for the usual letters.
  [[nodiscard]] bool large() const { return text_scale > 1.25f; }
  /// Records the item just drawn.
  void record(const std::string& name, const char* role, const std::string& label,
              const std::string& value = {});
  /// What the control just recorded is called aloud.
  void speak(const std::string& spoken) { controls.back().spoken = spoken; }
  /// True when the control about to be recorded was pressed through the mirror.
  [[nodiscard]] bool takePress(const std::string& name);
  /// What the mirror sets it to.
  [[nodiscard]] std::optional<std::string> takeSet(const std::string& name);
  /// Gives those items a control that no widget has recorded.
  void adoptItems();
};

/// A ring around the item just drawn, if the keyboard is on it.
void focusRing(const Ui& ui, float radius_css = 10);

/// Accent: the one in use of several. Primary: the deed that the others lead to.
enum class Look { Plain, Accent, Quiet, Primary };

/// A button of at least touch size; `name` is also its identity. Width 0: as wide as its label. Higher than
/// asked for if its label takes more lines.
bool button(Ui& ui, const std::string& name, const std::string& label, float width_css = 0,
            Look look = Look::Plain, float height_css = theme::kTouch);

/// What comes next, so wide [CSS px], stays on this line if there is room.
void besideIfRoom(const Ui& ui, float width_css, float gap_css = 8);
/// A button as wide as its label, on this line if there is room.
bool buttonBeside(Ui& ui, const std::string& name, const std::string& label, Look look = Look::Plain);

/// A row of buttons of one width, the chosen one in accent; `names` are "name.id". Where a word would not fit
/// they stand one over the other. The index of one tapped, or `chosen`.
struct Choice {
  const char* id;
  const char* label;
};
int chooser(Ui& ui, const std::string& name, const std::vector<Choice>& choices, int chosen);

/// A track with a thumb; drag or tap to set `share` (0 to 1). True while it changes.
/// `lower_css`: how far the track lies under the middle, to leave room for words above it.
bool slider(Ui& ui, const std::string& name, const std::string& label, double& share,
            const std::string& value, float width_css = 0, float lower_css = 0);

/// Lines no wider than `width` [device px] in the font in use, broken at spaces only (a word that is wider is
/// cut). Dear ImGui's own wrapping also breaks after a decimal point.
[[nodiscard]] std::vector<std::string_view> wrapLines(std::string_view text, float width);
/// Draws lines from the left; the height taken.
float drawLines(ImDrawList* draw, const std::vector<std::string_view>& lines, ImVec2 at, Colour ink);
/// The text, or its beginning and an ellipsis, no wider than `width` [device px].
[[nodiscard]] std::string shortened(const std::string& text, float width);

/// Text set in lines no wider than the space left.
void paragraph(Ui& ui, const std::string& text, Colour colour = theme::kInk);
/// A heading within a panel.
void heading(Ui& ui, const char* text);

/// A line of text that the system keyboard edits. True when the person is done and `text` has changed.
bool textField(Ui& ui, const std::string& name, const char* label, std::string& text);

/// One number: label, nudge down, value (tap to type), nudge up, and a slider below if `share` is given.
struct NumberRow {
  std::string name;
  std::string label;
  std::string value;
  std::string fault;   ///< a sentence under the row, empty: none
  bool opens = false;  ///< the label is a button...
  bool open = false;   ///< ...and what it opens is open
  Colour chip = 0;     ///< a patch of colour before the label, 0: none
  bool nudges = true;
  const double* share = nullptr;  ///< slider position, 0 to 1
};
struct NumberRowAnswer {
  enum class What { Nothing, Down, Up, Type, Slide, Open } what = What::Nothing;
  double share = 0;
};
[[nodiscard]] NumberRowAnswer numberRow(Ui& ui, const NumberRow& row);

}  // namespace pondtrim
