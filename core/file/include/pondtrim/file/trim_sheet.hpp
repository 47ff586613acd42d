#pragma once
// The trim sheet: what one wants on paper or in a forum post. Put together once, written out in several
// forms.
#include <pondtrim/boat.hpp>
#include <pondtrim/file/units.hpp>
#include <pondtrim/model.hpp>
#include <pondtrim/plan.hpp>
#include <pondtrim/report.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace pondtrim::file {

/// Rows of equal length under their heads. Columns of numbers are set to the right.
struct SheetTable {
  std::vector<std::string> heads;
  std::vector<bool> numbers;  ///< of each column
  std::vector<std::vector<std::string>> rows;
};

struct SheetSection {
  std::string heading;
  std::vector<std::string> sentences;
  SheetTable table;    ///< no heads: no table
  bool items = false;  ///< the sentences are a list, not prose
};

struct TrimSheet {
  std::string title;
  std::vector<SheetSection> sections;
};

/// Text that is safe as content and as a quoted attribute of HTML.
[[nodiscard]] std::string escapedHtml(std::string_view text);

/// A plan made for the boat, or what stands in its way.
[[nodiscard]] SheetSection planSection(const Boat& boat, const Plan& plan,
                                       const UnitSet& units = kMetricUnits);

/// Boat, both conditions, all weights, places and cautions. `empty` and `full`: tank empty and full.
[[nodiscard]] TrimSheet makeTrimSheet(const Boat& boat, const Model& model, const Report& empty,
                                      const Report& full, const UnitSet& units = kMetricUnits);

/// For a forum post. Names cannot make markup: every character that means something to Markdown or HTML is
/// escaped.
[[nodiscard]] std::string sheetMarkdown(const TrimSheet& sheet);

/// Content as HTML, to stand in a page's `<article>`; escaped likewise. `drawing` is markup of the caller's
/// own, put below the title.
[[nodiscard]] std::string sheetHtml(const TrimSheet& sheet, const std::string& drawing = {});

/// For a message or a printer with one width of letters.
[[nodiscard]] std::string sheetText(const TrimSheet& sheet);

}  // namespace pondtrim::file
