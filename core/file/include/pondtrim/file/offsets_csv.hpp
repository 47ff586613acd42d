#pragma once
// A lines plan's table of offsets as text for a spreadsheet or from the clipboard (CSV), in and out.
#include <pondtrim/boat.hpp>
#include <pondtrim/file/units.hpp>
#include <string>
#include <string_view>

namespace pondtrim::file {

/// One row for each station, one column for each waterline:
///   x_mm, keel, deck, 0, 20, 40
///   0,    30,   30
///   150,  12,   52,   ,  18, 22
/// x counts from the table's origin forward, keel and deck are heights on the centreline, and the heads of
/// the other columns are the waterlines' heights; a cell is the half breadth there, and an empty one says
/// nothing. A station may do without keel or deck: bottom or deck is flat there. Keel and deck at one height
/// with nothing else are a point, for the first and last station. Instead of waterlines one column
/// "half-breadth" may give elliptical sections. All in one unit: x_mm, x_in, or plain x in the unit chosen.
[[nodiscard]] std::string writeOffsetsCsv(const OffsetsForm& form, const UnitSet& units = kMetricUnits);

/// Rows in any order, separated by comma, semicolon or tab (then a decimal comma is understood).
/// Error: `field` says row and column; the message is a sentence.
[[nodiscard]] Result<OffsetsForm> readOffsetsCsv(std::string_view text, const UnitSet& units = kMetricUnits);

}  // namespace pondtrim::file
