#pragma once
// Numbers of the boat as rows on a panel: shown, nudged, slid and typed; each change is an edit of the
// session.
#include <optional>
#include <pondtrim/boat.hpp>
#include <string>

#include "session/session.hpp"
#include "widgets/ui.hpp"

namespace pondtrim {

struct Screen;

/// One number of the boat. `path` is that of core's errors, so that a refusal shows under its row. Plain
/// functions, not closures: the pad keeps a field while the boat changes under it.
struct NumberField {
  using Find = double& (*)(Boat& boat, std::size_t index);
  using FindOptional = std::optional<double>& (*)(Boat& boat, std::size_t index);
  using Read = double (*)(const Session& session);
  using ReadOptional = std::optional<double> (*)(const Session& session);
  using Write = Result<void> (*)(Session& session, double value);
  using Set = Boat (*)(const Boat& boat, std::size_t index, double value);

  std::string path;
  std::string label;
  Quantity quantity = Quantity::Length;
  std::size_t index = 0;
  Find find = nullptr;                   ///< one of these two
  FindOptional find_optional = nullptr;  ///< a number that may be absent
  Read read = nullptr;                   ///< a number of the session, not of the boat: instead of the two...
  ReadOptional read_optional = nullptr;  ///< the same for one that may be absent: 0 is written for none
  Write write = nullptr;                 ///< ...with this
  Set set = nullptr;                     ///< when more than the number itself changes
  using Look = std::optional<double> (*)(const Boat& boat, std::size_t index);
  using Put = Boat (*)(const Boat& boat, std::size_t index, std::optional<double> value);
  Look look = nullptr;  ///< a number that may be absent and is found by its index: these two alone
  Put put = nullptr;
  double stand_in = 0.0;         ///< what holds while an optional number is absent
  double low = 0.0, high = 0.0;  ///< ends of the slider [SI]; equal: no slider
  double step = 0.0;             ///< of the nudges [SI]; 0: usual for the quantity
  bool negative = false;         ///< may be below zero
  bool estimated = false;        ///< nobody has measured it yet: shown with a sign of about
};

/// The range of a slider stays put while it is held.
struct SliderHold {
  std::string path;
  double low = 0.0, high = 0.0;
};

/// Extras of a row that opens more rows below.
struct RowHead {
  bool opens = false, open = false;
  Colour chip = 0;
};

/// True when the row's label was tapped.
bool fieldRow(Session& session, Screen& screen, const NumberField& field, const RowHead& head = {});

/// Opens the pad for a number of the boat.
void askFor(Session& session, Screen& screen, const NumberField& field, const std::string& now);
/// The number nudged by one step, in whole steps, as an edit.
void nudge(Session& session, Screen& screen, const NumberField& field, double from, int way);

/// An end for a slider that starts at 0: a round number well above `value`.
[[nodiscard]] double roundAbove(double value, double least);

/// Draws the pad while it is open and carries out its answer.
void drawPad(Session& session, Screen& screen);

}  // namespace pondtrim
