#include <algorithm>
#include <cmath>
#include <pondtrim/file/hull_words.hpp>
#include <pondtrim/report.hpp>

#include "boat_fields.hpp"
#include "number_words.hpp"
#include "report_object.hpp"

namespace pondtrim::file {
namespace {

constexpr std::size_t kSections = 41;

json::Value pieceObject(const SkinBody& body) {
  const SkinMass mass = skinMass(body);
  const Room room = roomInside(body.skin);
  ReportObject out;
  out.put("name", json::string(body.skin.name));
  out.put("form", json::string(kFormWords[body.skin.form.index()]));
  out.put("area", mass.area, kSquareCentimetre);
  out.put("displaces", mass.volume, kMillilitre);
  out.put("reckoned_mass", mass.reckoned, kGram);
  out.put("weighed_mass", mass.weighed, kGram);
  if (room.volume > 0) out.put("room", room.volume, kMillilitre);
  if (room.volume > 0) out.put("room_centroid_x", room.centroid.x, kMillimetre);
  if (const auto* table = std::get_if<OffsetsForm>(&body.skin.form)) {
    const Fairing fairing = fairingOf(*table);
    out.put("room_spread", fairing.volume_spread, kMillilitre);
    out.put("typical_distance", fairing.typical, kMillimetre);
    out.put("farthest_distance", fairing.farthest, kMillimetre);
    out.put("farthest_station_x", table->stations[fairing.station].at_x, kMillimetre);
  }
  const auto areas = sectionalAreas(body.skin, kSections);
  if (!areas.empty())
    out.put("sectional_areas", listOf(areas, [](const SectionArea& s) {
              ReportObject section;
              section.put("x", s.x, kMillimetre);
              section.put("area", s.area, kSquareCentimetre);
              return section;
            }));
  return out.take();
}

json::Value airList(const Boat& boat, const std::vector<AirPocket>& pockets) {
  return listOf(pockets, [&](const AirPocket& pocket) {
    ReportObject out;
    out.put("skin", json::string(boat.skins[pocket.skin].name));
    out.put("volume", pocket.volume, kMillilitre);
    out.put("highest_x", pocket.highest.x, kMillimetre);
    out.put("highest_z", pocket.highest.z, kMillimetre);
    return out;
  });
}

}  // namespace

std::string skinMassSentence(const SkinMass& m, const UnitSet& units) {
  std::string out = "Skin of " + say(m.area, unitFor(Quantity::Area, units), 0) + ", displaces " +
                    sayVolume(m.volume, units) + ".";
  if (m.weighed && m.reckoned && *m.reckoned > 0) {
    const double more = *m.weighed - *m.reckoned;
    out += " By area, thickness and density it should weigh " + sayMass(*m.reckoned, units) +
           "; weighed: " + sayMass(*m.weighed, units) + ", " + sayMass(std::abs(more), units) +
           (more < 0 ? " less (" : " more (") + fixedText(100 * std::abs(more) / *m.reckoned, 0) + " %).";
    if (std::abs(more) > 0.25 * *m.reckoned) out += " Check the thickness: the skin displaces by it.";
  } else if (m.weighed && m.volume > 0) {
    out += " Weighed, it comes to " + say(*m.weighed / m.volume, kKilogramPerCubicMetre, 0) +
           "; give the material's density to compare.";
  } else if (m.reckoned) {
    out += " By its density it should weigh " + sayMass(*m.reckoned, units) + "; weigh it to be sure.";
  }
  return out;
}

std::string fairingSentence(const OffsetsForm& form, const Fairing& f, const UnitSet& units) {
  std::string out = "Holds " + sayVolume(f.volume, units) + ", give or take " +
                    sayVolume(f.volume_spread, units) +
                    ": what leaving out every other number changes, and a quarter more.";
  if (f.typical <= 0) return out;
  const OffsetStation& s = form.stations[f.station];
  return out + " A station's points lie " + sayLength(f.typical, units) +
         " from the hull faired without it; farthest is the point " + sayLength(s.heights[f.point], units) +
         " up at station " + sayLength(s.at_x, units) + ", by " + sayLength(f.farthest, units) + ".";
}

std::string airSentence(const Boat& boat, const AirPocket& p, const UnitSet& units) {
  return "About " + sayVolume(p.volume, units) + " of air would stay in \"" + boat.skins[p.skin].name +
         "\", above its highest way out. A vent " + sayLength(p.highest.x, units) + " from aft and " +
         sayLength(p.highest.z, units) + " up lets it out.";
}

double lineStep(const Boat& boat, const UnitSet& units) {
  const double unit = units.length.numerator / units.length.denominator, wanted = boat.length / 15 / unit;
  const double ten = std::pow(10.0, std::floor(std::log10(wanted)));
  const double first = wanted / ten;
  return unit * ten * (first < 1.5 ? 1 : first < 3.5 ? 2 : first < 7.5 ? 5 : 10);
}

Result<std::string> hullJson(const Boat& boat, const Model& model) {
  ReportObject out;
  out.put("boat", json::string(boat.name));
  out.put("pieces", listOf(model.skins, pieceObject));
  out.put("painted_line", listOf(paintedLine(boat, lineStep(boat)), [](const LinePoint& p) {
            ReportObject point;
            point.put("x", p.x, kMillimetre);
            point.put("half_breadth", p.half_breadth, kMillimetre);
            point.put("from_keel", p.from_keel, kMillimetre);
            point.put("from_deck", p.from_deck, kMillimetre);
            return point;
          }));
  for (const bool full : {false, true}) {
    const auto report = evaluate(model, {boat.water, full ? model.tank_capacity : 0.0});
    if (!report) return fail(report.error());
    out.put(full ? "air_tank_full" : "air_tank_empty",
            airList(boat, trappedAir(boat, model, report->rest.plane)));
  }
  return json::print(out.take());
}

}  // namespace pondtrim::file
