#include <algorithm>
#include <cmath>
#include <pondtrim/estimate.hpp>
#include <pondtrim/file/hull_words.hpp>
#include <pondtrim/file/plan_json.hpp>
#include <pondtrim/file/report_json.hpp>
#include <pondtrim/file/trim_sheet.hpp>

#include "number_words.hpp"

namespace pondtrim::file {
namespace {

constexpr const char* kNone = "–";

std::string markText(const std::optional<MarkReading>& mark, const UnitSet& units) {
  if (!mark) return kNone;
  const double line = mark->line_above_water;
  const std::string amount = sayLength(std::abs(line), units);
  if (amount == sayLength(0.0, units)) return "on the line";
  return amount + (line > 0 ? " high" : " low");
}

std::string leanText(double angle, const char* positive, const char* negative, const char* none) {
  const std::string amount = sayAngle(std::abs(angle));
  if (amount == sayAngle(0.0)) return none;
  return amount + (angle > 0 ? positive : negative);
}

using Row = std::vector<std::string>;

template <class Cell>
Row conditionRow(const char* label, const Report& empty, const Report& full, const Cell& cell) {
  const auto text = [&](const Report& r) {
    return r.rest.outcome == Outcome::Sinks ? std::string(kNone) : std::string(cell(r));
  };
  return {label, text(empty), text(full)};
}

SheetSection liesSection(const Model& model, const Report& empty, const Report& full, const UnitSet& units) {
  SheetSection section{"How she lies", {}, {{"", "Tank empty", "Tank full"}, {false, true, true}, {}}};
  auto& rows = section.table.rows;
  rows.push_back({"Outcome", outcomeWord(empty.rest.outcome), outcomeWord(full.rest.outcome)});
  const auto row = [&](const char* label, const auto& cell) {
    rows.push_back(conditionRow(label, empty, full, cell));
  };
  row("Painted line at the stern mark", [&](const Report& r) { return markText(r.stern, units); });
  row("Painted line at the bow mark", [&](const Report& r) { return markText(r.bow, units); });
  row("Sail out of the water", [&](const Report& r) { return sayLength(r.sail_showing, units); });
  row("Trim",
      [](const Report& r) { return leanText(r.rest.attitude.trim, " bow up", " bow down", "level"); });
  row("Heel",
      [](const Report& r) { return leanText(r.rest.attitude.heel, " to starboard", " to port", "upright"); });
  row("GM across", [&](const Report& r) { return sayLength(r.gm_transverse, units); });
  row("BG with all under water", [&](const Report& r) { return sayLength(r.bg_submerged, units); });
  rows.push_back({"Buoyancy left with all under water", sayMass(empty.net_buoyancy_submerged, units),
                  sayMass(full.net_buoyancy_submerged, units)});
  rows.push_back(
      {"Weight, tank water included", sayMass(empty.total_mass, units), sayMass(full.total_mass, units)});
  if (model.tank_capacity > 0)
    section.sentences.push_back("The tank takes " + sayVolume(model.tank_capacity, units) + ".");
  section.sentences.push_back("To carry: " + sayMass(empty.carry_mass, units) + ".");
  return section;
}

SheetSection boatSection(const Boat& boat, const UnitSet& units) {
  SheetSection section{"The boat", {}, {}};
  if (!boat.notes.empty()) section.sentences.push_back(boat.notes);
  if (!boat.origin.empty()) section.sentences.push_back("Came from " + boat.origin + ".");
  section.sentences.push_back("Length over all " + sayLength(boat.length, units) + "; painted line " +
                              sayLength(boat.marks.line_height, units) + " above the baseline; marks " +
                              sayLength(boat.marks.stern_x, units) + " and " +
                              sayLength(boat.marks.bow_x, units) + " from the aft end.");
  const bool salt = boat.water.salinity > 0;
  section.sentences.push_back(
      "Water " + say(boat.water.temperature, unitFor(Quantity::Temperature, units), 1) +
      (salt ? ", " + say(boat.water.salinity, kGramPerKilogram, 1) + " of salt." : std::string(", fresh.")));
  return section;
}

/// What one entry of the file weighs and displaces, both of a pair together.
struct Sum {
  double mass = 0, volume = 0;
  Vec3 moment{0.0};
};

Sum sumOf(const Model& model, Owner owner, std::size_t index) {
  const auto here = [&](const Source& s) { return s.owner == owner && s.index == index; };
  Sum sum;
  for (const Weight& w : model.weights) {
    if (!here(w.source)) continue;
    sum.mass += w.mass;
    sum.moment += w.mass * w.position;
  }
  for (const Displacer& d : model.displacers)
    if (here(d.source)) sum.volume += d.whole.volume;
  if (owner == Owner::Skin) sum.volume += model.skins[index].cut.whole().volume;
  return sum;
}

const char* roleWord(Role role) {
  constexpr const char* kWords[] = {"wet", "foam", "lead", "dry", "trapped air"};
  return kWords[static_cast<int>(role)];
}

class WeightRows {
 public:
  WeightRows(const Model& model, const UnitSet& units, SheetSection& section)
      : model_(model), units_(units), section_(section) {}

  void add(const std::string& name, const std::string& kind, bool weighed, Owner owner, std::size_t index) {
    const Sum sum = sumOf(model_, owner, index);
    if (sum.mass == 0 && sum.volume == 0) return;  // a place with nothing in it
    guessed_ = guessed_ || (!weighed && sum.mass != 0);
    section_.table.rows.push_back({name, kind,
                                   (weighed || sum.mass == 0 ? "" : "\u2248 ") + sayMass(sum.mass, units_),
                                   sum.volume > 0 ? sayVolume(sum.volume, units_) : kNone,
                                   sum.mass != 0 ? place(sum.moment.x / sum.mass) : kNone,
                                   sum.mass != 0 ? place(sum.moment.z / sum.mass) : kNone});
  }
  [[nodiscard]] std::string place(double si) const {
    return fixedText(fromSi(si, units_.length), units_.length.suffix == std::string_view("mm") ? 0 : 2);
  }
  [[nodiscard]] bool guessed() const { return guessed_; }

 private:
  const Model& model_;
  const UnitSet& units_;
  SheetSection& section_;
  bool guessed_ = false;
};

SheetSection weightsSection(const Boat& boat, const Model& model, const UnitSet& units) {
  const std::string in = std::string(" [") + units.length.symbol + "]";
  SheetSection section{"Weights", {}, {}};
  section.table.heads = {"What", "Kind", "Weight", "Displaces", "Along" + in, "Up" + in};
  section.table.numbers = {false, false, true, true, true, true};
  WeightRows rows(model, units, section);
  for (std::size_t i = 0; i < boat.skins.size(); ++i)
    rows.add(boat.skins[i].name, "skin", boat.skins[i].mass.has_value(), Owner::Skin, i);
  for (std::size_t i = 0; i < boat.cylinders.size(); ++i)
    rows.add(boat.cylinders[i].name, "cylinder", boat.cylinders[i].mass.has_value(), Owner::Cylinder, i);
  for (std::size_t i = 0; i < boat.parts.size(); ++i) {
    const Part& part = boat.parts[i];
    rows.add(part.name, std::string(roleWord(part.role)) + (part.mirrored ? ", pair" : ""),
             part.mass.has_value() && !isEstimate(part), Owner::Part, i);
  }
  if (boat.correction) rows.add("found at the pond", "correction", true, Owner::Correction, 0);
  const Vec3& g = model.centre_of_gravity;
  section.table.rows.push_back({"All, tank empty", "", sayMass(model.mass, units),
                                sayVolume(model.whole_volume, units), rows.place(g.x), rows.place(g.z)});
  section.sentences.push_back(
      std::string("Along is from the aft end of the hull, up from the baseline; a pair counts together.") +
      (rows.guessed() ? " \u2248 not weighed: estimated, or worked out from size and density." : ""));
  return section;
}

SheetSection placesSection(const Boat& boat, const UnitSet& units) {
  SheetSection section{"Foam and lead that may be changed", {}, {{"Place", "In it now"}, {false, true}, {}}};
  for (const Place& place : boat.places) {
    const auto part = std::find_if(boat.parts.begin(), boat.parts.end(),
                                   [&](const Part& p) { return p.name == place.part; });
    if (part == boat.parts.end()) continue;
    std::string now = kNone;
    if (place.rail)
      now = sayLength(part->position.x, units) + " from aft";
    else if (part->role == Role::Foam)
      now = sayVolume(part->volume.value_or(shapeVolume(*part)), units);
    else if (part->mass)
      now = sayMass(*part->mass, units);
    section.table.rows.push_back({place.part + (part->mirrored ? ", each side" : ""), now});
  }
  return section;
}

/// For masking tape: the way along the skin.
SheetSection lineSection(const Boat& boat, const UnitSet& units) {
  const std::string in = std::string(" [") + units.length.symbol + "]";
  SheetSection section{
      "Painted line round the hull",
      {"Along is from the aft end of the hull; the other ways go along the skin with a tape."},
      {{"Along" + in, "Down from deck" + in, "Up from keel" + in}, {true, true, true}, {}}};
  const int decimals = units.length.suffix == std::string_view("mm") ? 1 : 2;
  const auto text = [&](double si) { return fixedText(fromSi(si, units.length), decimals); };
  for (const LinePoint& p : paintedLine(boat, lineStep(boat, units)))
    section.table.rows.push_back({text(p.x), text(p.from_deck), text(p.from_keel)});
  return section;
}

SheetSection cautions(const Report& empty, const UnitSet& units) {
  SheetSection section{"Take care", {}, {}, true};
  section.sentences = {
      "These are estimates. Try her in shallow water, on a line; a little positive buoyancy is the safety "
      "margin.",
      "Lead: gloves, wash your hands, no melting or sanding indoors. Batteries and gas: as their makers say.",
      "Never raise a cylinder's pressure on the strength of a calculator; test under water, behind cover.",
      "She weighs " + sayMass(empty.carry_mass, units) +
          " drained, more with water in her: lift with care. Cold or deep water is dangerous; do not go in "
          "after her.",
      "Local rules, makers' limits and qualified people come first."};
  return section;
}

// ---- Writing it out
// --------------------------------------------------------------------------------------------------

/// Nothing in a name or a note may become markup: neither Markdown's nor HTML's, and no line of its own.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n' || c == '\r' || c == '\t') {
      out += ' ';
      continue;
    }
    if (c == '<') {
      out += "&lt;";
      continue;
    }
    if (c == '&') {
      out += "&amp;";
      continue;
    }
    if (std::string_view("\\`*_{}[]>#|~!$@").find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

std::string element(const std::string& tag, std::string_view text) {
  return "<" + tag + ">" + escapedHtml(text) + "</" + tag.substr(0, tag.find(' ')) + ">";
}

std::string htmlRow(const SheetTable& table, const Row& cells, bool head) {
  std::string html = "<tr>";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::string kind = table.numbers[i] ? " class=\"n\"" : "";
    if (head)
      html += cells[i].empty() ? "<td></td>" : element("th scope=\"col\"" + kind, cells[i]);
    else
      html += element(i == 0 ? "th scope=\"row\"" : "td" + kind, cells[i]);
  }
  return html + "</tr>";
}

std::string htmlRows(const SheetTable& table, const std::string& caption, std::size_t from, std::size_t to) {
  std::string html = "<table>" + element("caption", caption) + "<thead>" + htmlRow(table, table.heads, true) +
                     "</thead><tbody>";
  for (; from < to; ++from) html += htmlRow(table, table.rows[from], false);
  return html + "</tbody></table>";
}

/// Side by side on paper when it is long.
std::string htmlTable(const SheetSection& section) {
  constexpr std::size_t kVeryLong = 44;
  const std::size_t long_one =
      section.table.heads.size() > 2 ? 12 : 20;  // rows; long names keep the whole width
  const std::size_t count = section.table.rows.size(), half = count > long_one ? (count + 1) / 2 : count;
  std::string html = std::string("<div class=\"table") + (count > kVeryLong ? " many" : "") +
                     "\" tabindex=\"0\" role=\"group\" aria-label=\"" + escapedHtml(section.heading) + "\">" +
                     htmlRows(section.table, section.heading, 0, half);
  if (half < count) html += htmlRows(section.table, section.heading + ", continued", half, count);
  return html + "</div>";
}

std::string oneLine(std::string_view text) {
  std::string out(text);
  std::replace_if(
      out.begin(), out.end(), [](unsigned char c) { return c < 0x20; }, ' ');
  return out;
}

/// Characters, not bytes.
std::size_t widthOf(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

void appendPadded(std::string& out, const std::string& text, std::size_t width, bool to_the_right) {
  const std::string gap(width - widthOf(text), ' ');
  out += to_the_right ? gap + text : text + gap;
}

void appendMarkdownTable(std::string& out, const SheetTable& table) {
  const auto row = [&](const Row& cells) {
    out += "|";
    for (const std::string& cell : cells) out += " " + escaped(cell) + " |";
    out += "\n";
  };
  row(table.heads);
  out += "|";
  for (const bool number : table.numbers) out += number ? " ---: |" : " --- |";
  out += "\n";
  for (const Row& cells : table.rows) row(cells);
  out += "\n";
}

void appendTextTable(std::string& out, const SheetTable& table) {
  std::vector<std::size_t> widths(table.heads.size(), 0);
  const auto widen = [&](const Row& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i)
      widths[i] = std::max(widths[i], widthOf(oneLine(cells[i])));
  };
  widen(table.heads);
  for (const Row& cells : table.rows) widen(cells);
  const auto row = [&](const Row& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      if (i > 0) line += "  ";
      appendPadded(line, oneLine(cells[i]), widths[i], table.numbers[i]);
    }
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  };
  row(table.heads);
  for (const Row& cells : table.rows) row(cells);
  out += "\n";
}

}  // namespace

std::string escapedHtml(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

SheetSection planSection(const Boat& boat, const Plan& plan, const UnitSet& units) {
  SheetSection section{"Plan", {}, {}, true};
  auto& lines = section.sentences;
  if (!plan.found) {
    lines.push_back("No change of foam and lead at her places does. In the way:");
    for (const Limit& limit : plan.blame.conflict) lines.push_back(limitSentence(boat, limit, units));
  } else if (plan.changes.empty()) {
    lines.push_back("Nothing to change: both conditions are as wanted.");
  }
  for (const Change& change : plan.changes) lines.push_back(changeSentence(boat, change, units));
  return section;
}

TrimSheet makeTrimSheet(const Boat& boat, const Model& model, const Report& empty, const Report& full,
                        const UnitSet& units) {
  TrimSheet sheet{boat.name, {}};
  sheet.sections.push_back(boatSection(boat, units));
  sheet.sections.push_back(liesSection(model, empty, full, units));
  if (!boat.places.empty()) sheet.sections.push_back(placesSection(boat, units));
  sheet.sections.push_back(weightsSection(boat, model, units));
  if (auto line = lineSection(boat, units); !line.table.rows.empty())
    sheet.sections.push_back(std::move(line));
  sheet.sections.push_back(cautions(empty, units));
  return sheet;
}

std::string sheetMarkdown(const TrimSheet& sheet) {
  std::string out = "# " + escaped(sheet.title) + "\n\n";
  for (const SheetSection& section : sheet.sections) {
    out += "## " + escaped(section.heading) + "\n\n";
    for (const std::string& sentence : section.sentences)
      out += (section.items ? "- " : "") + escaped(sentence) + (section.items ? "\n" : "\n\n");
    if (section.items) out += "\n";
    if (!section.table.heads.empty()) appendMarkdownTable(out, section.table);
  }
  out.pop_back();
  return out;
}

std::string sheetHtml(const TrimSheet& sheet, const std::string& drawing) {
  std::string out = element("h1", sheet.title.empty() ? "A boat without a name" : sheet.title) + drawing;
  bool beside = false;  // the one before leaves the right half of the paper free
  for (const SheetSection& section : sheet.sections) {
    const std::size_t columns = section.table.heads.size();
    const bool narrow = columns < 4 && (columns > 0 || beside);  // two abreast on paper
    beside = narrow && !beside;
    out += std::string(narrow ? "<section class=\"half\">" : "<section>") + element("h2", section.heading);
    if (section.items) out += "<ul>";
    for (const std::string& sentence : section.sentences)
      out += element(section.items ? "li" : "p", sentence);
    if (section.items) out += "</ul>";
    if (!section.table.heads.empty()) out += htmlTable(section);
    out += "</section>";
  }
  return out;
}

std::string sheetText(const TrimSheet& sheet) {
  std::string out = oneLine(sheet.title) + "\n" + std::string(widthOf(sheet.title), '=') + "\n\n";
  for (const SheetSection& section : sheet.sections) {
    out += section.heading + "\n" + std::string(widthOf(section.heading), '-') + "\n";
    for (const std::string& sentence : section.sentences)
      out += (section.items ? "- " : "") + oneLine(sentence) + "\n";
    if (!section.table.heads.empty())
      appendTextTable(out, section.table);
    else
      out += "\n";
  }
  out.pop_back();
  return out;
}

}  // namespace pondtrim::file
