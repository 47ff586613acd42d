#include "place_record.hpp"

#include <algorithm>
#include <cstdlib>
#include <pondtrim/file/error_terms.hpp>

namespace pondtrim::file {
namespace {

bool isFoam(const Boat& boat, const std::string& part) {
  return std::any_of(boat.parts.begin(), boat.parts.end(),
                     [&](const Part& p) { return p.name == part && p.role == Role::Foam; });
}

bool exists(const Boat& boat, const std::string& part) {
  return std::any_of(boat.parts.begin(), boat.parts.end(), [&](const Part& p) { return p.name == part; });
}

bool any(const AmountLimits& limits) { return limits.least || limits.most || limits.step; }

Error wrongKind(const std::string& at, bool foam) {
  Error e;
  e.field = at + (foam ? ".least_mass_g, most_mass_g or mass_step_g"
                       : ".least_volume_mL, most_volume_mL or volume_step_mL");
  e.was = "given";
  e.allowed = foam ? "limits in mL, since the part is foam" : "limits in g, since the part is no foam";
  e.other_field = at + ".part";
  e.message = sentence(e);
  return e;
}

PlaceRecord recordOf(const Boat& boat, const Place& place) {
  PlaceRecord r;
  r.part = place.part;
  const std::optional<double> step = place.step != 0 ? std::optional(place.step) : std::nullopt;
  if (place.rail) {
    r.rail = RailRecord{place.rail->from_x, place.rail->to_x, place.step};
  } else {
    (isFoam(boat, place.part) ? r.volume : r.mass) = {place.least, place.most, step};
  }
  return r;
}

}  // namespace

std::vector<PlaceRecord> placeRecords(const Boat& boat) {
  std::vector<PlaceRecord> records;
  for (const Place& place : boat.places) records.push_back(recordOf(boat, place));
  return records;
}

std::optional<Error> readPlaces(const std::vector<PlaceRecord>& records, Boat& boat) {
  boat.places.clear();
  for (const PlaceRecord& r : records) {
    const bool foam = isFoam(boat, r.part);
    if (exists(boat, r.part) && any(foam ? r.mass : r.volume))
      return wrongKind("places[" + std::to_string(boat.places.size()) + "]", foam);
    const AmountLimits& limits = foam ? r.volume : r.mass;
    Place place{r.part, limits.least, limits.most, limits.step.value_or(0.0), std::nullopt};
    if (r.rail) {
      place.rail = Rail{r.rail->from_x, r.rail->to_x};
      place.step = r.rail->step;
    }
    boat.places.push_back(std::move(place));
  }
  return std::nullopt;
}

Error inRecordTerms(const Error& error, const Boat& boat) {
  const auto renamed = [&](const std::string& field) {
    if (field.rfind("places[", 0) != 0 || field.find("].") == std::string::npos) return field;
    const std::size_t index = std::strtoul(field.c_str() + 7, nullptr, 10), end = field.find("].") + 2;
    if (index >= boat.places.size()) return field;
    const std::string head = field.substr(0, end), name = field.substr(end);
    const std::string kind = isFoam(boat, boat.places[index].part) ? "volume" : "mass";
    if (name == "step") return head + (boat.places[index].rail ? "rail.step" : kind + "_step");
    return name == "least" || name == "most" ? head + name + "_" + kind : field;
  };
  Error e = error;
  e.field = renamed(error.field);
  e.other_field = renamed(error.other_field);
  return e;
}

}  // namespace pondtrim::file
