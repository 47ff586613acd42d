#include "scene/scene.hpp"

#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include "scene/solids.hpp"
#include "session/edits.hpp"
#include "session/words.hpp"

namespace pondtrim {
namespace {

constexpr Colour kWaterline = colour(0x06407a);
constexpr Colour kGhostLine = colour(0x5a6b76);
constexpr Colour kPaintedLine = colour(0xc1121f);
constexpr float kDiscRadius = 12;  // of G and B [CSS px]
constexpr Colour kRuling = colour(0x33454f);
constexpr Colour kMarkLine = colour(0xffffff);
constexpr Colour kTankWater = colour(0x2f7fc1);
constexpr Colour kTankSurface = colour(0x8cc6f0);

void addCrossing(std::vector<Line>& out, const Model& model, const Plane& plane, Line like) {
  for (const SkinBody& skin : model.skins) {
    const std::vector<Vec3> ends = meshMeetsPlane(*skin.mesh, plane);
    for (std::size_t i = 0; i + 1 < ends.size(); i += 2) {
      like.from = glm::vec3(ends[i]);
      like.to = glm::vec3(ends[i + 1]);
      out.push_back(like);
    }
  }
}

/// A vertical stroke on the hull at a mark's station, from a little under the line to a little over it.
void addMarkStroke(std::vector<Line>& out, const Model& model, double x) {
  const Plane station{{1, 0, 0}, x};
  const double line = model.marks.line_height, reach = 0.12 * model.marks.deck_height + 0.004;
  for (const SkinBody& skin : model.skins) {
    const std::vector<Vec3> ends = meshMeetsPlane(*skin.mesh, station);
    for (std::size_t i = 0; i + 1 < ends.size(); i += 2)
      if (std::abs(0.5 * (ends[i].z + ends[i + 1].z) - line) < reach)
        out.push_back({glm::vec3(ends[i]), glm::vec3(ends[i + 1]), kMarkLine, 3, 0});
  }
}

double heightAbove(const Plane& water, const Vec3& point) { return glm::dot(point, water.up) - water.level; }

/// True of two waters that a ruler could not tell apart on this boat.
bool lookAlike(const Plane& a, const Plane& b, const Model& model) {
  constexpr double kSeen = 0.0003;  // m
  const double z = model.marks.line_height, half_beam = 0.05 * (model.marks.bow_x - model.marks.stern_x);
  for (const Vec3& p : {Vec3(model.marks.bow_x, 0, z), Vec3(model.marks.stern_x, 0, z),
                        Vec3(model.marks.sail_top.x, half_beam, z)})
    if (std::abs(heightAbove(a, p) - heightAbove(b, p)) > kSeen) return false;
  return true;
}

/// The other waterline, dashed; none where it would lie on the water's.
std::optional<Plane> ghostWater(const Session& session, const SceneChoice& choice) {
  if (choice.planned) return choice.planned;
  if (!session.before()) return std::nullopt;
  const Plane before = session.before()->rest.plane;
  return lookAlike(before, session.atFill().rest.plane, session.model()) ? std::nullopt
                                                                         : std::optional(before);
}

/// The stations of a lines plan, as rulings on its skin.
void addRulings(std::vector<Line>& out, const Model& model) {
  for (const SkinBody& skin : model.skins) {
    const auto* table = std::get_if<OffsetsForm>(&skin.skin.form);
    if (table == nullptr) continue;
    for (const OffsetStation& station : table->stations) {
      // A hair off the station: its ring of the mesh lies right in that plane.
      const std::vector<Vec3> ends =
          meshMeetsPlane(*skin.mesh, {{1, 0, 0}, skin.skin.position.x + station.at_x + 1e-7});
      for (std::size_t i = 0; i + 1 < ends.size(); i += 2)
        out.push_back({glm::vec3(ends[i]), glm::vec3(ends[i + 1]), kRuling, 1, 0});
    }
  }
}

std::vector<Line> linesOf(const Session& session, const SceneChoice& choice,
                          const std::optional<Plane>& ghost) {
  std::vector<Line> lines;
  const Model& model = session.model();
  const Plane water = session.atFill().rest.plane;
  addCrossing(lines, model, {{0, 0, 1}, model.marks.line_height}, {{}, {}, kPaintedLine, 2.5f, 0});
  addRulings(lines, model);
  if (choice.camera.view != Camera::View::End) {  // end on, the strokes would only look like scratches
    addMarkStroke(lines, model, model.marks.bow_x);
    addMarkStroke(lines, model, model.marks.stern_x);
  }
  if (ghost) addCrossing(lines, model, *ghost, {{}, {}, kGhostLine, 2, 5});
  addCrossing(lines, model, water, {{}, {}, kWaterline, 2.5f, 0});
  return lines;
}

std::vector<Vertex> tankWaterOf(const Session& session) {
  std::vector<Vertex> water;
  const Model& model = session.model();
  const TankWater& tank = session.atFill().rest.tank;
  const Vec3 up = session.atFill().rest.plane.up;
  for (std::size_t i = 0; i < model.tank_cells.size() && i < tank.levels.size(); ++i) {
    CylinderSolid bore = model.tank_cells[i].bore;
    bore.radius *= 0.97;  // clear of the cylinder's own wall
    if (tank.volume > 0) addWaterInCylinder(water, bore, {up, tank.levels[i]}, kTankWater, kTankSurface);
  }
  return water;
}

Vec3 boatSize(const Session& session) {
  const Model& model = session.model();
  double half_breadth = 0.02 * model.length, top = model.marks.sail_top.z;
  for (const SkinBody& skin : model.skins)
    for (const Vec3& v : skin.mesh->vertices) {
      half_breadth = std::max(half_breadth, std::abs(v.y));
      top = std::max(top, v.z);
    }
  return {model.length, 2 * half_breadth, top};
}

/// The water as shown. A sinking boat has no level of her own: she is shown just under the surface.
Plane shownWater(const Session& session, const Vec3& size) {
  Plane plane = session.atFill().rest.plane;
  if (session.atFill().rest.outcome != Outcome::Sinks) return plane;
  plane.level = -1e9;
  for (const SkinBody& skin : session.model().skins)
    for (const Vec3& v : skin.mesh->vertices) plane.level = std::max(plane.level, glm::dot(plane.up, v));
  plane.level = std::max(plane.level, glm::dot(plane.up, session.model().marks.sail_top)) + 0.15 * size.z;
  return plane;
}

Pond pondOf(const Projection& p, const Camera& camera, const Vec3& size) {
  const glm::vec3 middle(p.boat_to_world * glm::vec4(0.5f * float(size.x), 0, 0, 1));
  const float reach = 3.0f * float(size.x);
  if (camera.view != Camera::View::Around) {  // beyond the picture's edges
    const glm::vec3 far = camera.view == Camera::View::Side ? glm::vec3(reach, 0.6f * float(size.x), 0)
                                                            : glm::vec3(0.6f * float(size.x), reach, 0);
    return {{middle.x - far.x, middle.y - far.y, -reach}, {middle.x + far.x, middle.y + far.y, 0}};
  }
  const float wide = 0.24f * float(size.x), half = 0.56f * float(size.x);
  return {{middle.x - half, middle.y - wide, -1.25f * float(size.z)}, {middle.x + half, middle.y + wide, 0}};
}

std::string markText(const char* where, const std::optional<MarkReading>& mark, const UnitSet& units) {
  const MarkWords words = markWords(mark, units);
  if (words.side == 0) return std::string(where) + " " + words.word;
  return std::string(where) + " " + words.number + "\u00a0" + units.length.symbol + " " + words.word;
}

void addMarkLabels(std::vector<Label>& out, const Session& session, const Projection& p) {
  const Report& now = session.atFill();
  if (now.rest.outcome == Outcome::Sinks) return;
  const Marks& marks = session.model().marks;
  const auto add = [&](const char* where, double x, const std::optional<MarkReading>& mark) {
    if (!mark) return;
    out.push_back({markText(where, mark, session.units()),
                   p.boatToPicture({x, 0, marks.line_height}),
                   true,
                   kPaintedLine,
                   {},
                   {}});
  };
  add("Stern", marks.stern_x, now.stern);
  add("Bow", marks.bow_x, now.bow);
}

/// How much a part matters to the trim: the larger of its weight and of the water it displaces [kg].
std::vector<double> weightOfParts(const Session& session) {
  std::vector<double> matter(session.boat().parts.size(), 0.0);
  for (const Weight& w : session.model().weights)
    if (w.source.owner == Owner::Part) matter[w.source.index] = std::max(matter[w.source.index], w.mass);
  const double density = session.empty().rest.density;
  for (const Displacer& d : session.model().displacers)
    if (d.source.owner == Owner::Part)
      matter[d.source.index] = std::max(matter[d.source.index], d.whole.volume * density);
  return matter;
}

/// The selected part's name, and all others if wanted, those that matter most first.
void addPartNames(std::vector<Label>& out, const Session& session, const Projection& p, bool all) {
  const Boat& boat = session.boat();
  std::vector<double> matter = weightOfParts(session);
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < boat.parts.size(); ++i) {
    const bool chosen = session.selection() == Selection{Owner::Part, i};
    if (chosen) matter[i] = 1e9;
    if (all || chosen) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return matter[a] > matter[b]; });
  for (const std::size_t i : order) {
    const Part& part = boat.parts[i];
    const bool above = part.position.z > 0.5 * boat.marks.deck_height;
    out.push_back({part.name, p.boatToPicture(part.position), above, colour(kindRgb(kindOf(part))), {}, {}});
  }
}

Obstacle around(glm::vec2 disc, const PictureSize& size) {
  const glm::vec2 reach(kDiscRadius * size.ratio);
  return {disc - reach, disc + reach};
}

bool free(const Obstacle& wanted, const PictureSize& size, const std::vector<Obstacle>& taken) {
  if (wanted.low.x < 0 || wanted.low.y < 0 || wanted.high.x > size.width || wanted.high.y > size.height)
    return false;
  return std::none_of(taken.begin(), taken.end(), [&](const Obstacle& o) {
    return wanted.low.x < o.high.x && o.low.x < wanted.high.x && wanted.low.y < o.high.y &&
           o.low.y < wanted.high.y;
  });
}

/// A place near the point for its letter: first on the wanted side (`down` +1 below, `right` +1 to the
/// right).
glm::vec2 discPlace(glm::vec2 point, float down, float right, const PictureSize& size,
                    const std::vector<Obstacle>& taken) {
  constexpr glm::vec2 kPlaces[] = {{22, 30},  {34, 18},  {38, 2},    {-34, 18}, {-22, 30},
                                   {34, -18}, {22, -30}, {-22, -30}, {-34, -18}};
  for (const glm::vec2& place : kPlaces) {
    const glm::vec2 disc = point + place * glm::vec2(right, down) * size.ratio;
    if (free(around(disc, size), size, taken)) return disc;
  }
  return point + kPlaces[0] * glm::vec2(right, down) * size.ratio;
}

}  // namespace

std::vector<Vec3> meshMeetsPlane(const Mesh& mesh, const Plane& plane) {
  std::vector<Vec3> ends;
  std::vector<double> depth(mesh.vertices.size());
  for (std::size_t i = 0; i < depth.size(); ++i)
    depth[i] = plane.level - glm::dot(plane.up, mesh.vertices[i]);
  for (std::size_t t = 0; t + 2 < mesh.triangles.size(); t += 3) {
    int found = 0;
    Vec3 crossing[2];
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t a = mesh.triangles[t + k], b = mesh.triangles[t + (k + 1) % 3];
      if ((depth[a] >= 0) == (depth[b] >= 0) || found == 2) continue;
      const double share = depth[a] / (depth[a] - depth[b]);
      crossing[found++] = mesh.vertices[a] + (mesh.vertices[b] - mesh.vertices[a]) * share;
    }
    if (found == 2) ends.insert(ends.end(), {crossing[0], crossing[1]});
  }
  return ends;
}

std::optional<Selection> partAt(const Boat& boat, const Projection& p, glm::vec2 point, float reach) {
  std::optional<Selection> nearest;
  for (std::size_t i = 0; i < boat.parts.size(); ++i) {
    const Part& part = boat.parts[i];
    const Vec3 half = 0.5 * shapeSize(part.shape);
    glm::vec2 low(1e9f), high(-1e9f);
    for (unsigned k = 0; k < 8; ++k) {
      const Vec3 corner = part.position + half * Vec3(k & 1 ? 1 : -1, k & 2 ? 1 : -1, k & 4 ? 1 : -1);
      const glm::vec2 at = p.boatToPicture(corner);
      low = glm::min(low, at);
      high = glm::max(high, at);
    }
    const float away = glm::length(glm::max(glm::max(low - point, point - high), glm::vec2(0.0f)));
    if (away >= reach) continue;
    reach = std::max(away, 1e-3f);  // the first of several under the finger stays
    nearest = Selection{Owner::Part, i};
  }
  return nearest;
}

std::optional<Vec3> placeAt(const Boat& boat, const Projection& p, glm::vec2 point) {
  // Seen from the side, a point of the middle plane; from the end, one amidships.
  const Vec3 middle(boat.length / 2, 0, boat.marks.line_height), up(0, 0, 1);
  for (const Vec3& along : {Vec3(1, 0, 0), Vec3(0, 1, 0)}) {
    const glm::vec2 o = p.boatToPicture(middle), a = p.boatToPicture(middle + along) - o,
                    b = p.boatToPicture(middle + up) - o, way = point - o;
    const float det = a.x * b.y - a.y * b.x;
    if (std::abs(det) < 0.5f * glm::length(a) * glm::length(b) || glm::length(a) < 1) continue;
    const double s = (way.x * b.y - way.y * b.x) / det, t = (a.x * way.y - a.y * way.x) / det;
    const Vec3 at = middle + along * s + up * t;
    const double top = std::max(boat.marks.sail_top.z, boat.marks.deck_height);
    if (at.x < 0 || at.x > boat.length || at.z < 0 || at.z > top) return std::nullopt;
    if (std::abs(at.y) > boat.length / 4) return std::nullopt;
    return at;
  }
  return std::nullopt;
}

std::vector<Marker> markersOf(const Report& now, const Projection& p,
                              const std::vector<Obstacle>& obstacles) {
  const glm::vec2 g = p.boatToPicture(now.centre_of_gravity), b = p.boatToPicture(now.centre_of_buoyancy);
  const float way = g.y >= b.y ? 1.0f : -1.0f;  // the lower point's letter is tried below first
  std::vector<Marker> markers{{Marker::Sign::Gravity, g, {}}, {Marker::Sign::Buoyancy, b, {}}};
  std::vector<Obstacle> taken = obstacles;
  for (Marker& m : markers) {
    const float down = m.sign == Marker::Sign::Gravity ? way : -way;
    m.disc = discPlace(m.at, down, m.sign == Marker::Sign::Gravity ? -1.0f : 1.0f, p.size, taken);
    taken.push_back(around(m.disc, p.size));
  }
  return markers;
}

Scene makeScene(const Session& session, const SceneChoice& choice) {
  Scene scene;
  const Report& now = session.atFill();
  const Vec3 size = choice.held_size.value_or(boatSize(session));
  scene.boat_size = size;
  scene.projection = project(choice.camera, choice.size, shownWater(session, size), size);
  const Projection& p = scene.projection;
  scene.tank_water = tankWaterOf(session);
  const auto ghost = ghostWater(session, choice);
  scene.lines = linesOf(session, choice, ghost);
  scene.ghost = choice.planned ? "planned" : !ghost ? "" : session.inDraft() ? "the boat" : "before";
  scene.pond = pondOf(p, choice.camera, size);
  scene.markers = markersOf(now, p, choice.obstacles);
  std::vector<Label> labels;
  if (choice.camera.view == Camera::View::Side && !choice.names) addMarkLabels(labels, session, p);
  addPartNames(labels, session, p, choice.names);
  std::vector<Obstacle> obstacles = choice.obstacles;
  for (const Marker& m : scene.markers) obstacles.push_back(around(m.disc, choice.size));
  scene.labels = placeLabels(std::move(labels), {choice.size.width, choice.size.height},
                             4 * choice.size.ratio, obstacles, choice.measure);
  return scene;
}

}  // namespace pondtrim
