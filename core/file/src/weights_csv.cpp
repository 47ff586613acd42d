#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <pondtrim/estimate.hpp>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/error_terms.hpp>
#include <pondtrim/file/weights_csv.hpp>

#include "boat_fields.hpp"
#include "csv_table.hpp"
#include "decimal.hpp"

namespace pondtrim::file {
namespace {

constexpr std::size_t kMostRows = 2000;

enum Column {
  kName,
  kRole,
  kMass,
  kVolume,
  kDensity,
  kX,
  kY,
  kZ,
  kLength,
  kWidth,
  kHeight,
  kMirrored,
  kInside,
  kMaterial,
  kPlace,
  kLeast,
  kMost,
  kStep,
  kColumns
};

struct ColumnName {
  const char* name;
  Quantity quantity;
};
constexpr std::array<ColumnName, kColumns> kNames{{{"name", Quantity::Number},
                                                   {"role", Quantity::Number},
                                                   {"mass", Quantity::Mass},
                                                   {"volume", Quantity::Volume},
                                                   {"density", Quantity::Density},
                                                   {"x", Quantity::Length},
                                                   {"y", Quantity::Length},
                                                   {"z", Quantity::Length},
                                                   {"length", Quantity::Length},
                                                   {"width", Quantity::Length},
                                                   {"height", Quantity::Length},
                                                   {"mirrored", Quantity::Number},
                                                   {"inside", Quantity::Number},
                                                   {"material", Quantity::Number},
                                                   {"place", Quantity::Number},
                                                   {"least", Quantity::Number},
                                                   {"most", Quantity::Number},
                                                   {"step", Quantity::Number}}};

std::string headOf(int column, const Unit& unit) {
  const std::string name = kNames[static_cast<std::size_t>(column)].name;
  return *unit.suffix == '\0' ? name : name + "_" + unit.suffix;
}

/// What a spreadsheet takes for a formula when a cell starts with it.
bool looksLikeFormula(std::string_view text) {
  return !text.empty() && std::string_view("=+-@\t\r'").find(text.front()) != std::string_view::npos;
}

// ---- Out
// -------------------------------------------------------------------------------------------------------------

class RowWriter {
 public:
  explicit RowWriter(const UnitSet& units) : units_(units) {}

  void text(int column, const std::string& value) {
    cells_[static_cast<std::size_t>(column)] = looksLikeFormula(value) ? "'" + value : value;
  }
  void number(int column, double si) {
    number(column, si, unitFor(kNames[static_cast<std::size_t>(column)].quantity, units_));
  }
  void number(int column, double si, const Unit& unit) {
    cells_[static_cast<std::size_t>(column)] = decimalFromSi(si, unit);
  }
  void optional(int column, const std::optional<double>& si) {
    if (si) number(column, *si);
  }
  void position(const Vec3& p) {
    number(kX, p.x);
    number(kY, p.y);
    number(kZ, p.z);
  }
  [[nodiscard]] std::string line() const {
    std::string line;
    for (std::size_t i = 0; i < cells_.size(); ++i) line += (i > 0 ? "," : "") + csvCell(cells_[i]);
    return line + "\r\n";
  }

 private:
  const UnitSet& units_;
  std::array<std::string, kColumns> cells_;
};

template <class Thing>
std::string thingRow(const Thing& thing, const char* role, const UnitSet& units) {
  RowWriter row(units);
  row.text(kName, thing.name);
  row.text(kRole, role);
  row.optional(kMass, thing.mass);
  row.optional(kDensity, thing.density);
  row.position(thing.position);
  row.text(kMaterial, thing.material);
  return row.line();
}

void putPlace(RowWriter& row, const Place& place, const Part& part, const UnitSet& units) {
  const Unit unit = place.rail ? units.length : part.role == Role::Foam ? units.volume : units.mass;
  row.text(kPlace, place.rail ? "rail" : "yes");
  const auto limit = [&](int column, const std::optional<double>& si) {
    if (si) row.number(column, *si, unit);
  };
  limit(kLeast, place.rail ? std::optional(place.rail->from_x) : place.least);
  limit(kMost, place.rail ? std::optional(place.rail->to_x) : place.most);
  if (place.step != 0) row.number(kStep, place.step, unit);
}

std::string partRow(const Boat& boat, const Part& part, const UnitSet& units) {
  RowWriter row(units);
  row.text(kName, part.name);
  row.text(kRole, kRoleWords[static_cast<std::size_t>(part.role)]);
  row.optional(kMass, part.mass);
  row.optional(kVolume, part.volume);
  row.optional(kDensity, part.density);
  row.position(part.position);
  if (const auto* box = std::get_if<BoxShape>(&part.shape)) {
    row.number(kLength, box->size.x);
    row.number(kWidth, box->size.y);
    row.number(kHeight, box->size.z);
  }
  if (part.mirrored) row.text(kMirrored, "yes");
  row.text(kInside, part.inside);
  row.text(kMaterial, part.material);
  for (const Place& place : boat.places)
    if (place.part == part.name) putPlace(row, place, part, units);
  return row.line();
}

// ---- In
// --------------------------------------------------------------------------------------------------------------

Error csvError(std::string field, std::string was, std::string allowed) {
  Error e{std::move(field), std::move(was), std::move(allowed), "", ""};
  e.message = sentence(e);
  return e;
}

/// A head's column and unit.
struct Head {
  int column = -1;  ///< not one of ours
  Unit unit;
};

Head headFrom(std::string_view text) {
  for (int column = 0; column < kColumns; ++column) {
    for (const UnitSet& set : {kMetricUnits, kInchUnits, UnitSet{kInch, kCubicInch, kOunce}}) {
      const Unit unit = unitFor(kNames[static_cast<std::size_t>(column)].quantity, set);
      if (text == headOf(column, unit)) return {column, unit};
    }
  }
  return {};
}

/// The units of least, most and step follow from the other heads.
struct TableUnits {
  Unit length = kMillimetre, volume = kMillilitre, mass = kGram;
};

class RowReader {
 public:
  RowReader(const CsvTable& table, const std::vector<Head>& heads, std::size_t row)
      : table_(table), heads_(heads), row_(row) {}

  /// The cell, without an apostrophe that was put before it; nothing when the table has no such column.
  [[nodiscard]] std::optional<std::string> text(int column) const {
    for (std::size_t i = 0; i < heads_.size(); ++i) {
      if (heads_[i].column != column) continue;
      std::string cell = i < table_.rows[row_].size() ? table_.rows[row_][i] : std::string();
      if (cell.size() > 1 && cell[0] == '\'' && looksLikeFormula(std::string_view(cell).substr(1)))
        cell.erase(0, 1);
      return cell;
    }
    return std::nullopt;
  }

  /// Changes `value` when the table has the column; an empty cell empties it.
  void optional(int column, std::optional<double>& value) {
    const auto cell = text(column);
    if (!cell) return;
    if (cell->empty())
      value.reset();
    else
      value = read(column, *cell, unitOf(column), value);
  }
  /// An empty cell changes nothing.
  void number(int column, double& value) {
    const auto cell = text(column);
    if (cell && !cell->empty()) value = read(column, *cell, unitOf(column), value);
  }
  [[nodiscard]] std::optional<double> limit(int column, const Unit& unit,
                                            const std::optional<double>& before) {
    const auto cell = text(column);
    if (!cell || cell->empty()) return std::nullopt;
    return read(column, *cell, unit, before);
  }
  void refuse(int column, std::string was, std::string allowed) {
    if (!error_) error_ = csvError(place(column), std::move(was), std::move(allowed));
  }
  [[nodiscard]] const std::optional<Error>& error() const { return error_; }

 private:
  [[nodiscard]] Unit unitOf(int column) const {
    for (const Head& head : heads_)
      if (head.column == column) return head.unit;
    return kNumber;
  }
  [[nodiscard]] std::string place(int column) const {
    return "row " + std::to_string(table_.lines[row_]) + ", " + headOf(column, unitOf(column));
  }
  /// A cell that says what the table was written with leaves the number as it was: not every inch comes back
  /// to the last bit.
  double read(int column, const std::string& cell, const Unit& unit, const std::optional<double>& before) {
    if (before && decimalFromSi(*before, unit) == cell) return *before;
    const auto si = csvNumber(cell, table_, unit);
    if (!si) refuse(column, "\"" + cell + "\"", "a number");
    return si.value_or(0.0);
  }

  const CsvTable& table_;
  const std::vector<Head>& heads_;
  std::size_t row_;
  std::optional<Error> error_;
};

void readPosition(RowReader& row, Vec3& position) {
  row.number(kX, position.x);
  row.number(kY, position.y);
  row.number(kZ, position.z);
}

template <class Thing>
void readThing(RowReader& row, Thing& thing) {
  row.optional(kMass, thing.mass);
  row.optional(kDensity, thing.density);
  readPosition(row, thing.position);
  if (const auto material = row.text(kMaterial)) thing.material = *material;
}

void readRole(RowReader& row, Part& part) {
  const auto word = row.text(kRole);
  if (!word) return;
  const auto found = std::find(kRoleWords.begin(), kRoleWords.end(), *word);
  if (found == kRoleWords.end())
    return row.refuse(kRole, "\"" + *word + "\"", "solid, foam, lead, dry, trapped air, skin or cylinder");
  part.role = static_cast<Role>(found - kRoleWords.begin());
}

void readBox(RowReader& row, Part& part, bool is_new) {
  const auto length = row.text(kLength);
  const bool sized = length && !length->empty();
  auto* box = std::get_if<BoxShape>(&part.shape);
  if (box == nullptr && !(is_new && sized)) return;  // another shape keeps its own sizes
  BoxShape shape = box != nullptr ? *box : BoxShape{};
  row.number(kLength, shape.size.x);
  row.number(kWidth, shape.size.y);
  row.number(kHeight, shape.size.z);
  part.shape = shape;
}

void readPlace(RowReader& row, Boat& boat, const Part& part, const TableUnits& units) {
  const auto word = row.text(kPlace);
  if (!word) return;
  const auto is_it = [&](const Place& p) { return p.part == part.name; };
  auto at = std::find_if(boat.places.begin(), boat.places.end(), is_it);
  if (word->empty() || *word == "no") {
    if (at != boat.places.end()) boat.places.erase(at);
    return;
  }
  if (*word != "yes" && *word != "rail")
    return row.refuse(kPlace, "\"" + *word + "\"", "yes, rail, no or nothing");
  const Place before = at != boat.places.end() ? *at : Place{};
  Place place;
  place.part = part.name;
  const bool rail = *word == "rail";
  const Unit unit = rail ? units.length : part.role == Role::Foam ? units.volume : units.mass;
  const auto least = row.limit(kLeast, unit, rail && before.rail ? before.rail->from_x : before.least);
  const auto most = row.limit(kMost, unit, rail && before.rail ? before.rail->to_x : before.most);
  place.step = row.limit(kStep, unit, before.step).value_or(0.0);
  if (rail) {
    if (!least || !most) return row.refuse(least ? kMost : kLeast, "empty", "both ends of the rail");
    place.rail = Rail{*least, *most};
  } else {
    place.least = least;
    place.most = most;
  }
  if (at != boat.places.end())
    *at = place;
  else
    boat.places.push_back(place);
}

void readPart(RowReader& row, Boat& boat, Part& part, bool is_new, const TableUnits& units) {
  readRole(row, part);
  const auto before = part.mass;
  row.optional(kMass, part.mass);
  if (part.mass != before && isEstimate(part)) part.material.clear();
  row.optional(kVolume, part.volume);
  row.optional(kDensity, part.density);
  readPosition(row, part.position);
  readBox(row, part, is_new);
  if (const auto word = row.text(kMirrored)) {
    if (!word->empty() && *word != "yes" && *word != "no")
      row.refuse(kMirrored, "\"" + *word + "\"", "yes, no or nothing");
    part.mirrored = *word == "yes";
  }
  if (const auto inside = row.text(kInside)) part.inside = *inside;
  if (const auto material = row.text(kMaterial)) part.material = *material;
  readPlace(row, boat, part, units);
}

template <class Thing>
Thing* named(std::vector<Thing>& things, const std::string& name) {
  const auto found =
      std::find_if(things.begin(), things.end(), [&](const Thing& t) { return t.name == name; });
  return found == things.end() ? nullptr : &*found;
}

void readRow(RowReader& row, Boat& boat, const TableUnits& units) {
  const std::string name = row.text(kName).value_or("");
  if (name.empty()) return row.refuse(kName, "empty", "a name");
  if (Skin* skin = named(boat.skins, name)) return readThing(row, *skin);
  if (SealedCylinder* cylinder = named(boat.cylinders, name)) return readThing(row, *cylinder);
  if (Part* part = named(boat.parts, name)) {
    Part changed = *part;
    readPart(row, boat, changed, false, units);
    *part = changed;
    return;
  }
  Part part;
  part.name = name;
  part.shape = PointShape{};
  readPart(row, boat, part, true, units);
  boat.parts.push_back(part);
}

TableUnits unitsOf(const std::vector<Head>& heads) {
  TableUnits units;
  for (const Head& head : heads) {
    if (head.column == kX) units.length = head.unit;
    if (head.column == kVolume) units.volume = head.unit;
    if (head.column == kMass) units.mass = head.unit;
  }
  return units;
}

/// Its name column must be there, and none twice.
Result<std::vector<Head>> headsOf(const CsvTable& table) {
  std::vector<Head> heads;
  std::array<bool, kColumns> seen{};
  for (const std::string& cell : table.rows.front()) {
    const Head head = headFrom(cell);
    if (head.column >= 0 && std::exchange(seen[static_cast<std::size_t>(head.column)], true))
      return fail(csvError("row 1", "\"" + cell + "\" twice", "each column once"));
    heads.push_back(head);
  }
  if (!seen[kName])
    return fail(
        csvError("row 1", "no column \"name\"",
                 "heads such as name, role, mass_g, x_mm, y_mm, z_mm (save a table to see them all)"));
  return heads;
}

}  // namespace

std::string writeWeightsCsv(const Boat& boat, const UnitSet& units) {
  std::string out;
  for (int column = 0; column < kColumns; ++column)
    out += (column > 0 ? "," : "") +
           headOf(column, unitFor(kNames[static_cast<std::size_t>(column)].quantity, units));
  out += "\r\n";
  for (const Skin& skin : boat.skins) out += thingRow(skin, "skin", units);
  for (const SealedCylinder& cylinder : boat.cylinders) out += thingRow(cylinder, "cylinder", units);
  for (const Part& part : boat.parts) out += partRow(boat, part, units);
  return out;
}

Result<Boat> readWeightsCsv(std::string_view text, const Boat& onto) {
  if (text.size() > kMaxFileBytes)
    return fail(csvError("table", std::to_string(text.size()) + " bytes",
                         "at most " + std::to_string(kMaxFileBytes) + " bytes"));
  const auto table = parseCsv(text, kMostRows);
  if (!table)
    return fail(csvError("table", "a quotation mark that is not closed, or too many rows",
                         "a table of at most " + std::to_string(kMostRows) + " rows"));
  if (table->rows.empty())
    return fail(csvError("table", "empty", "a row of heads, then a row for each thing"));
  const auto heads = headsOf(*table);
  if (!heads) return fail(heads.error());
  Boat boat = onto;
  const TableUnits units = unitsOf(*heads);
  for (std::size_t i = 1; i < table->rows.size(); ++i) {
    RowReader row(*table, *heads, i);
    readRow(row, boat, units);
    if (row.error()) return fail(*row.error());
  }
  if (const auto checked = checkBoat(boat); !checked) return fail(inFileTerms(checked.error()));
  return boat;
}

}  // namespace pondtrim::file
