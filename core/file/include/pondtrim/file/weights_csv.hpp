#pragma once
// Weights and places as a table for a spreadsheet (CSV, RFC 4180), out and in again.
#include <pondtrim/boat.hpp>
#include <pondtrim/file/units.hpp>
#include <pondtrim/result.hpp>
#include <string>
#include <string_view>

namespace pondtrim::file {

/// One row for each skin, cylinder and part:
///   name, role, mass_g, volume_mL, density_kg_per_m3, x_mm, y_mm, z_mm, length_mm, width_mm, height_mm,
///   mirrored, inside, material, place, least, most, step
/// Role is "skin", "cylinder" or the part's. Length, width and height are those of a box. Place is "yes" for
/// a part that a plan may change, its least, most and step in the unit of volume for foam, else of mass;
/// "rail" for one that moves, with least and most along the boat. Units as chosen (mass_oz, x_in...). Numbers
/// read back to the same bits. A text that a spreadsheet could take for a formula gets an apostrophe before
/// it, which is taken off again.
[[nodiscard]] std::string writeWeightsCsv(const Boat& boat, const UnitSet& units = kMetricUnits);

/// `onto` with what the table says: rows find their thing by its name and change the cells' numbers in it (an
/// empty cell takes an optional number away; a column that is not there changes nothing); a name that is new
/// adds a part, a box where the row has a size, else a point. Rows that are missing change nothing. Columns
/// in any order, separated by comma, semicolon or tab (then a decimal comma is understood); heads in metric
/// or inch units. Error: `field` is "row 5, mass_g", or as checkBoat. Tables over kMaxFileBytes or 2,000 rows
/// are refused unread.
[[nodiscard]] Result<Boat> readWeightsCsv(std::string_view text, const Boat& onto);

}  // namespace pondtrim::file
