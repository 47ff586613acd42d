#pragma once
// A place as the file spells it: foam by volume, weights by mass, a rail by length, so that each key has its
// unit.
#include <optional>
#include <pondtrim/boat.hpp>
#include <string>
#include <vector>

namespace pondtrim::file {

struct AmountLimits {
  std::optional<double> least, most, step;
};
struct RailRecord {
  double from_x = 0.0, to_x = 0.0, step = 0.0;
};
struct PlaceRecord {
  std::string part;
  AmountLimits volume, mass;
  std::optional<RailRecord> rail;
};

[[nodiscard]] std::vector<PlaceRecord> placeRecords(const Boat& boat);
/// Fills boat.places; an Error when a limit is of the wrong kind for the part (a mass for foam).
[[nodiscard]] std::optional<Error> readPlaces(const std::vector<PlaceRecord>& records, Boat& boat);
/// The core's error about a place's limit with the field as the file spells it ("most" -> "most_volume").
[[nodiscard]] Error inRecordTerms(const Error& error, const Boat& boat);

}  // namespace pondtrim::file
