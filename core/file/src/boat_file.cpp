#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/error_terms.hpp>

#include "boat_fields.hpp"
#include "field_reader.hpp"
#include "field_writer.hpp"

namespace pondtrim::file {
namespace {

constexpr const char* kVersionKey = "pondtrim_boat";

Error notAnObject(const json::Value& root) {
  Error e;
  e.field = "file";
  e.was = json::excerpt(root);
  e.allowed = json::kindWords(json::Kind::Object);
  e.message = "A boat file is an object { }; this one is " + e.was + ".";
  return e;
}

std::string notice(const UnknownPart& part) {
  return part.path() + " is unknown to this version of Pondtrim. It has no effect; it is kept in the file.";
}

/// The value at a path such as "parts[2].position_mm[0]"; null when there is none.
const json::Value* locate(const json::Value& root, std::string_view path) {
  const json::Value* at = &root;
  while (at && !path.empty()) {
    const std::size_t end = std::min(path.find_first_of(".[", 1), path.size());
    std::string_view step = path.substr(0, end);
    path.remove_prefix(end);
    if (step.front() == '[') {
      const std::size_t index = std::strtoul(std::string(step.substr(1)).c_str(), nullptr, 10);
      at = index < at->items.size() ? &at->items[index] : nullptr;
    } else {
      at = at->find(step.substr(step.front() == '.' ? 1 : 0));
    }
  }
  return at;
}

/// The core's error with the number as it was typed, and its line.
Error inTermsOf(const json::Value& root, const Error& core_error) {
  Error e = inFileTerms(core_error);
  const json::Value* value = locate(root, e.field);
  if (!value) return e;
  if (value->kind == json::Kind::Number) e.was = value->text;
  Error with_line = e;
  with_line.field += " (line " + std::to_string(value->line) + ")";
  e.message = sentence(with_line);
  return e;
}

template <class Named>
std::optional<std::size_t> indexOf(const std::vector<Named>& list, const UnknownPart& part,
                                   std::size_t index_read) {
  for (std::size_t i = 0; i < list.size(); ++i)
    if (list[i].name == part.owner) return i;
  if (list.size() == part.siblings) return index_read;  // renamed
  return std::nullopt;
}

/// A reading has a date instead of a name, and several may share it.
std::optional<std::size_t> indexOf(const std::vector<Reading>& log, const UnknownPart& part,
                                   std::size_t index_read) {
  if (index_read < log.size() && log[index_read].date == part.owner) return index_read;
  for (std::size_t i = 0; i < log.size() && !part.owner.empty(); ++i)
    if (log[i].date == part.owner) return i;
  if (log.size() == part.siblings) return index_read;
  return std::nullopt;
}

/// The path of the unknown part's object in the boat as it is now; nothing when its owner is gone.
std::optional<std::string> presentParent(const Boat& boat, const UnknownPart& part) {
  const std::size_t open = part.parent.find('['), close = part.parent.find(']');
  if (part.siblings == 0 || close == std::string::npos) return part.parent;
  const std::string list = part.parent.substr(0, open);
  const std::size_t index_read = std::strtoul(part.parent.c_str() + open + 1, nullptr, 10);
  std::optional<std::size_t> index;
  if (list == "skins") index = indexOf(boat.skins, part, index_read);
  if (list == "cylinders") index = indexOf(boat.cylinders, part, index_read);
  if (list == "parts") index = indexOf(boat.parts, part, index_read);
  if (list == "aims.further") index = indexOf(boat.aims.further, part, index_read);
  if (list == "places" && boat.places.size() == part.siblings) index = index_read;
  if (list == "log") index = indexOf(boat.log, part, index_read);
  if (!index) return std::nullopt;
  return list + "[" + std::to_string(*index) + part.parent.substr(close);
}

FieldWriter::Extras placeUnknown(const BoatDocument& document) {
  FieldWriter::Extras extras;
  for (const UnknownPart& part : document.unknown) {
    auto value = json::parse(part.json);
    assert(value && "UnknownPart::json comes from a file that was read");
    if (const auto parent = presentParent(document.boat, part); parent && value)
      extras.emplace(*parent, std::pair(part.key, std::move(*value)));
  }
  return extras;
}

}  // namespace

Result<BoatDocument> readBoatFile(std::string_view text) {
  const auto root = json::parse(text);
  if (!root) return fail(root.error());
  if (root->kind != json::Kind::Object) return fail(notAnObject(*root));

  ReadState state;
  BoatDocument document;
  FieldReader reader(state, *root, "");
  reader.version(kVersionKey, kBoatFileVersion);
  fields(reader, document.boat);
  reader.finish();
  if (state.error) return fail(std::move(*state.error));
  if (const auto checked = checkBoat(document.boat); !checked)
    return fail(inTermsOf(*root, inRecordTerms(checked.error(), document.boat)));

  document.unknown = std::move(state.unknown);
  for (const UnknownPart& part : document.unknown) document.notices.push_back(notice(part));
  return document;
}

namespace {
json::Value treeOf(const BoatDocument& document) {
  const FieldWriter::Extras extras = placeUnknown(document);
  FieldWriter writer(extras, "");
  writer.version(kVersionKey, kBoatFileVersion);
  Boat boat = document.boat;  // the fields are described once, for reading too, so they are not const
  fields(writer, boat);
  return writer.finish();
}
}  // namespace

std::string writeBoatFile(const BoatDocument& document) { return json::print(treeOf(document)); }
std::string writeCompactBoatFile(const BoatDocument& document) {
  return json::printCompact(treeOf(document));
}

}  // namespace pondtrim::file
