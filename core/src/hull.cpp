#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <pondtrim/hull.hpp>

#include "hull_section.hpp"
#include "skin_mesh.hpp"

namespace pondtrim {

namespace {

HullBox box(double length, double breadth, double height) {
  return {{0, -breadth / 2, -height / 2}, {length, breadth / 2, height / 2}};
}

HullBox box(const OffsetsForm& f) {
  HullBox out{{f.stations.front().at_x, 0, 1e9}, {f.stations.back().at_x, 0, -1e9}};
  for (const OffsetStation& s : f.stations) {
    out.low.z = std::min(out.low.z, s.heights.front());
    out.high.z = std::max(out.high.z, s.heights.back());
    for (const double y : s.half_breadths) out.high.y = std::max(out.high.y, y);
  }
  out.low.y = -out.high.y;
  return out;
}

/// Every other item; the ends stay. `from`: 0 for the even ones, 1 for the odd ones.
template <class T>
std::vector<T> thinned(const std::vector<T>& all, std::size_t from) {
  std::vector<T> out;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (i % 2 == from || i == 0 || i + 1 == all.size()) out.push_back(all[i]);
  return out;
}

OffsetsForm withFewerStations(OffsetsForm form, std::size_t from) {
  form.stations = thinned(form.stations, from);
  return form;
}
OffsetsForm withFewerPoints(OffsetsForm form, std::size_t from) {
  for (OffsetStation& s : form.stations) {
    s.heights = thinned(s.heights, from);
    s.half_breadths = thinned(s.half_breadths, from);
  }
  return form;
}

double volumeOf(const OffsetsForm& form) {
  Skin skin;
  skin.form = form;
  return enclosedVolume(skin);
}

double distanceTo(const std::vector<Vec3>& outline, const Vec3& p) {
  double nearest = 1e9;
  for (std::size_t i = 0; i + 1 < outline.size(); ++i) {
    const Vec3 along = outline[i + 1] - outline[i];
    const double length2 = glm::dot(along, along);
    const double share = length2 > 0 ? std::clamp(glm::dot(p - outline[i], along) / length2, 0.0, 1.0) : 0.0;
    nearest = std::min(nearest, glm::length(p - outline[i] - along * share));
  }
  return nearest;
}

/// How far each point of the table lies from the hull faired without its station.
void doubtPoints(const OffsetsForm& form, Fairing& out) {
  double sum = 0;
  int count = 0;
  for (std::size_t i = 1; i + 1 < form.stations.size() && form.stations.size() > 3; ++i) {
    OffsetsForm without = form;
    without.stations.erase(without.stations.begin() + static_cast<std::ptrdiff_t>(i));
    const OffsetStation& s = form.stations[i];
    const std::vector<Vec3> outline = FairHull(without).section(s.at_x);
    for (std::size_t k = 0; k < s.heights.size(); ++k) {
      const double away = distanceTo(outline, {s.at_x, s.half_breadths[k], s.heights[k]});
      sum += away * away;
      ++count;
      if (away <= out.farthest) continue;
      out.farthest = away;
      out.station = i;
      out.point = k;
    }
  }
  if (count > 0) out.typical = std::sqrt(sum / count);
}

const Skin* longestHull(const Boat& boat) {
  const Skin* hull = nullptr;
  double longest = 0;
  for (const Skin& s : boat.skins) {
    const double length = hullSize(s.form).x;
    if (length <= longest) continue;
    longest = length;
    hull = &s;
  }
  return hull;
}

/// The way along the outline up to where it last passes the height, and how far out that is.
std::optional<LinePoint> crossing(const std::vector<Vec3>& outline, double z) {
  std::optional<LinePoint> found;
  double girth = 0;
  for (std::size_t i = 0; i + 1 < outline.size(); ++i) {
    const Vec3 &a = outline[i], &b = outline[i + 1];
    const double step = glm::length(b - a);
    if (a.z <= z && b.z > z) {
      const double share = (z - a.z) / (b.z - a.z);
      found = LinePoint{a.x, a.y + share * (b.y - a.y), girth + share * step, 0};
    }
    girth += step;
  }
  if (found) found->from_deck = girth - found->from_keel;
  return found;
}

Mesh closed(const Skin& skin, Mesh mesh) { return openBelow(skin.form) ? closedMesh(std::move(mesh)) : mesh; }

/// The highest point at which air could leave the skin, along `up`; none: nothing is known.
std::optional<double> highestWayOut(const Boat& boat, const Skin& skin, const Mesh& mesh, const Vec3& up) {
  std::optional<double> highest;
  const auto take = [&](double height) { highest = std::max(highest.value_or(height), height); };
  for (const Opening& o : boat.openings)
    if (o.skin == skin.name) take(glm::dot(up, o.position) + o.diameter.value_or(0) / 2);
  if (!openBelow(skin.form)) return highest;
  for (const Vec3& v : openEdge(mesh)) take(glm::dot(up, v));
  return highest;
}

/// Of what lies in the skin: all of it that is between the two planes.
double takenUp(const Model& model, const Skin& skin, const Plane& low, const Plane& high) {
  const HullSections sections(skin.form);
  double volume = 0;
  for (const Displacer& d : model.displacers) {
    if (d.source.owner == Owner::Skin || d.source.owner == Owner::Correction || d.whole.volume <= 0) continue;
    const Vec3 at = d.whole.moment / d.whole.volume - skin.position;
    if (std::abs(at.y) >= sections.halfBreadth(at.x, at.z)) continue;
    volume += cutDisplacer(d, high).volume - cutDisplacer(d, low).volume;
  }
  return volume;
}

}  // namespace

HullBox hullBox(const SkinForm& form) {
  if (const auto* f = std::get_if<SpindleForm>(&form)) return box(f->length, f->breadth, f->height);
  if (const auto* f = std::get_if<SuboffForm>(&form)) return box(f->length, f->diameter, f->diameter);
  if (const auto* f = std::get_if<MyringForm>(&form)) return box(lengthOf(*f), f->diameter, f->diameter);
  if (const auto* f = std::get_if<OffsetsForm>(&form)) return box(*f);
  if (const auto* f = std::get_if<MeshForm>(&form))
    return {{0, -f->size.y / 2, 0}, {f->size.x, f->size.y / 2, f->size.z}};
  return {};
}

Vec3 hullSize(const SkinForm& form) {
  const HullBox b = hullBox(form);
  return b.high - b.low;
}

OffsetsForm offsetsOf(const SkinForm& hull, std::size_t stations, std::size_t points) {
  OffsetsForm out;
  const HullBox b = hullBox(hull);
  const HullSections sections(hull);
  for (std::size_t i = 0; i < stations; ++i) {
    // Closer together at the ends, where the hull is round.
    const double share = (1 - std::cos(kPi * double(i) / double(stations - 1))) / 2;
    OffsetStation s;
    s.at_x = b.low.x + share * (b.high.x - b.low.x);
    const bool end = i == 0 || i + 1 == stations;
    const double inside = (i == 0 ? 1e-9 : -1e-9) * (b.high.x - b.low.x);
    const std::vector<Vec3> outline = sections.outline(end ? s.at_x + inside : s.at_x);
    if (outline.empty() || outline.back().z - outline.front().z < 1e-3 * (b.high.z - b.low.z)) {
      s.heights = {outline.empty() ? 0.0 : outline.front().z};
      s.half_breadths = {0.0};
    } else {
      for (std::size_t k = 0; k < points; ++k) {
        const Vec3& p = outline[k * (outline.size() - 1) / (points - 1)];
        s.heights.push_back(p.z);
        s.half_breadths.push_back(k == 0 || k + 1 == points ? 0.0 : p.y);
      }
    }
    out.stations.push_back(s);
  }
  return out;
}

std::vector<SectionArea> sectionalAreas(const Skin& hull, std::size_t count) {
  std::vector<SectionArea> out;
  const HullBox b = hullBox(hull.form);
  if (b.high.x <= b.low.x) return out;
  const HullSections sections(hull.form);
  for (std::size_t i = 0; i < count; ++i) {
    const double x = b.low.x + (b.high.x - b.low.x) * double(i) / double(count - 1);
    const std::vector<Vec3> outline = sections.outline(x);
    double area = 0;
    for (std::size_t k = 0; k + 1 < outline.size(); ++k)
      area += (outline[k].y + outline[k + 1].y) * (outline[k + 1].z - outline[k].z);
    out.push_back({hull.position.x + x, area});
  }
  return out;
}

Room roomInside(const Skin& skin) {
  Room out;
  out.volume = enclosedVolume(skin);
  if (out.volume <= 0) return out;
  const Mesh mesh = closed(skin, meshSkin(skin));
  double volume = 0;
  Vec3 moment(0.0);
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {  // by tetrahedra from its place
    const auto corner = [&](std::size_t k) { return mesh.vertices[mesh.triangles[i + k]] - skin.position; };
    const Vec3 a = corner(0), b = corner(1), c = corner(2);
    const double part = glm::dot(a, glm::cross(b, c)) / 6;
    volume += part;
    moment += (a + b + c) / 4.0 * part;
  }
  if (volume > 0) out.centroid = skin.position + moment / volume;
  return out;
}

Fairing fairingOf(const OffsetsForm& form) {
  Fairing out;
  out.volume = volumeOf(form);
  // Of each kind the half that changes more: the other may happen to hold all that matters, as a shoulder.
  const auto most = [&](OffsetsForm (*fewer)(OffsetsForm, std::size_t)) {
    return std::max(std::abs(volumeOf(fewer(form, 0)) - out.volume),
                    std::abs(volumeOf(fewer(form, 1)) - out.volume));
  };
  constexpr double kSafety = 1.25;  // hull.hpp
  out.volume_spread = kSafety * (most(withFewerStations) + most(withFewerPoints));
  doubtPoints(form, out);
  return out;
}

SkinMass skinMass(const SkinBody& body) {
  SkinMass out;
  out.volume = body.cut.whole().volume;
  out.area = isSolid(body.skin.form) ? body.cut.area() : out.volume / body.skin.thickness;
  out.weighed = body.skin.mass;
  if (body.skin.density) out.reckoned = *body.skin.density * out.volume;
  return out;
}

std::vector<LinePoint> paintedLine(const Boat& boat, double step) {
  std::vector<LinePoint> out;
  const Skin* hull = longestHull(boat);
  if (hull == nullptr) return out;
  const HullBox b = hullBox(hull->form);
  const HullSections sections(hull->form);
  const double from = hull->position.x + b.low.x, to = hull->position.x + b.high.x;
  for (double k = std::ceil(from / step); k * step <= to; ++k) {
    auto point =
        crossing(sections.outline(k * step - hull->position.x), boat.marks.line_height - hull->position.z);
    if (!point) continue;
    point->x = k * step;
    out.push_back(*point);
  }
  return out;
}

std::vector<AirPocket> trappedAir(const Boat& boat, const Model& model, const Plane& water) {
  constexpr double kWorthTelling = 5e-7;  // [m^3]
  std::vector<AirPocket> out;
  for (std::size_t i = 0; i < boat.skins.size() && !boat.openings.empty(); ++i) {
    const Skin& skin = boat.skins[i];
    if (std::holds_alternative<PlateForm>(skin.form) || isSolid(skin.form)) continue;
    const Mesh& mesh = *model.skins[i].mesh;
    const auto way_out = highestWayOut(boat, skin, mesh, water.up);
    if (!way_out || *way_out >= water.level) continue;
    const CutMesh room = CutMesh::solid(closed(skin, mesh));
    const Plane from{water.up, *way_out};
    const double volume = room.cut(water).volume - room.cut(from).volume - takenUp(model, skin, from, water);
    if (volume < kWorthTelling) continue;
    const Vec3 top = *std::max_element(
        mesh.vertices.begin(), mesh.vertices.end(),
        [&](const Vec3& a, const Vec3& b) { return glm::dot(water.up, a) < glm::dot(water.up, b); });
    out.push_back({i, volume, top});
  }
  return out;
}

}  // namespace pondtrim
