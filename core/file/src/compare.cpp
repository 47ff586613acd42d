#include <algorithm>
#include <cmath>
#include <map>
#include <pondtrim/file/compare.hpp>
#include <utility>

#include "decimal.hpp"
#include "field_lister.hpp"

namespace pondtrim::file {
namespace {

std::vector<Listed> listed(Boat boat) {
  std::vector<Listed> out;
  boat.notes.clear();
  boat.origin.clear();
  FieldLister lister(out, "", "");
  fields(lister, boat);
  return out;
}

/// Where each thing's field stands in a list.
class Index {
 public:
  explicit Index(const std::vector<Listed>& list) {
    for (const Listed& l : list)
      at_.emplace(std::pair<std::string_view, std::string_view>(l.thing, l.field), &l);
  }
  [[nodiscard]] const Listed* find(std::string_view thing, std::string_view field) const {
    const auto found = at_.find({thing, field});
    return found == at_.end() ? nullptr : found->second;
  }
  [[nodiscard]] bool has(std::string_view thing) const { return thing.empty() || find(thing, "") != nullptr; }

 private:
  std::map<std::pair<std::string_view, std::string_view>, const Listed*> at_;
};

/// What the panels call it.
std::string fieldText(std::string_view field) {
  struct Plain {
    std::string_view field, words;
  };
  constexpr Plain kPlain[] = {
      {"position.x", "place along"},   {"position.y", "place to port"}, {"position.z", "height of place"},
      {"shape.size.x", "length"},      {"shape.size.y", "width"},       {"shape.size.z", "height"},
      {"form.kind", "form"},           {"shape.kind", "shape"},         {"marks.bow_x", "bow mark"},
      {"marks.stern_x", "stern mark"}, {"tank_full", "tank full"}};
  for (const Plain& plain : kPlain)
    if (field == plain.field) return std::string(plain.words);
  std::string words(field);
  for (const std::string_view prefix : {"form.", "shape.", "marks.", "aims.", "water."})
    if (words.compare(0, prefix.size(), prefix) == 0) words.erase(0, prefix.size());
  std::replace(words.begin(), words.end(), '_', ' ');
  std::replace(words.begin(), words.end(), '.', ' ');
  return words;
}

std::string valueText(const Listed& value, const UnitSet& units, int digits) {
  if (!value.number) return value.text;
  const Unit unit = unitFor(quantityOf(value.field).value_or(Quantity::Number), units);
  const std::string gap = unit.quantity == Quantity::Angle || *unit.symbol == '\0' ? "" : " ";
  return roundedDecimal(fromSi(*value.number, unit), digits) + gap + unit.symbol;
}

/// With as few digits as tell them apart.
Difference between(const Listed& mine, const Listed& theirs, const UnitSet& units) {
  constexpr int kFewest = 4, kMost = 17;
  Difference d{mine.thing, fieldText(mine.field), {}, {}};
  for (int digits = kFewest; digits <= kMost && d.mine == d.theirs; ++digits) {
    d.mine = valueText(mine, units, digits);
    d.theirs = valueText(theirs, units, digits);
  }
  return d;
}

bool same(const Listed& a, const Listed& b) { return a.number == b.number && a.text == b.text; }

}  // namespace

std::vector<Difference> compareBoats(const Boat& mine, const Boat& theirs, const UnitSet& units) {
  const std::vector<Listed> ours = listed(mine), others = listed(theirs);
  const Index in_ours(ours), in_others(others);
  std::vector<Difference> found;
  if (mine.name != theirs.name) found.push_back({"", "name", mine.name, theirs.name});
  if (mine.notes != theirs.notes) found.push_back({"", "notes", mine.notes, theirs.notes});
  for (const Listed& here : ours) {
    const Listed* there = in_others.find(here.thing, here.field);
    if (there != nullptr) {
      if (!same(here, *there)) found.push_back(between(here, *there, units));
    } else if (here.field.empty()) {
      found.push_back({here.thing, "", "there", ""});
    } else if (in_others.has(here.thing)) {
      found.push_back({here.thing, fieldText(here.field), valueText(here, units, 4), ""});
    }
  }
  for (const Listed& there : others) {
    if (in_ours.find(there.thing, there.field) != nullptr) continue;
    if (there.field.empty())
      found.push_back({there.thing, "", "", "there"});
    else if (in_ours.has(there.thing))
      found.push_back({there.thing, fieldText(there.field), "", valueText(there, units, 4)});
  }
  const bool readings_differ = mine.log.size() == theirs.log.size() && !(mine.log == theirs.log);
  if (readings_differ) found.push_back({"", "readings", "others", "others"});
  return found;
}

std::string differenceSentence(const Difference& d) {
  if (d.what.empty()) return "\"" + d.thing + "\" is only in " + (d.mine.empty() ? "theirs." : "mine.");
  const std::string what = d.thing.empty() ? d.what : d.thing + ": " + d.what;
  const auto side = [](const std::string& value) { return value.empty() ? std::string("nothing") : value; };
  return what + ": mine " + side(d.mine) + ", theirs " + side(d.theirs) + ".";
}

}  // namespace pondtrim::file
