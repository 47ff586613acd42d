#include "place_amount.hpp"

#include <algorithm>
#include <cmath>

#include "amounts.hpp"
#include "faults.hpp"

namespace pondtrim {

std::size_t partNamed(const Boat& boat, const std::string& name) {
  const auto found =
      std::find_if(boat.parts.begin(), boat.parts.end(), [&](const Part& p) { return p.name == name; });
  return std::size_t(found - boat.parts.begin());
}

PlaceKind kindOf(const Place& place, const Part& part) {
  if (place.rail) return PlaceKind::Slide;
  return part.role == Role::Foam ? PlaceKind::Foam : PlaceKind::Weight;
}

double amountIn(PlaceKind kind, const Part& part) {
  return kind == PlaceKind::Slide ? part.position.x : amountOf(part);
}

void setAmount(PlaceKind kind, Part& part, double amount) {
  if (kind == PlaceKind::Slide) {
    part.position.x = amount;
  } else {
    setAmount(part, amount);
  }
}

double roomIn(PlaceKind kind, const Part& part) {
  const bool shaped = part.density && !std::holds_alternative<PointShape>(part.shape);
  const bool fills = kind == PlaceKind::Foam || (kind == PlaceKind::Weight && shaped);
  return fills ? roomFor(part) : std::numeric_limits<double>::infinity();
}

double massOfUnit(PlaceKind kind, const Part& part) {
  if (kind == PlaceKind::Weight) return 1.0;
  if (kind == PlaceKind::Slide) return amountIn(PlaceKind::Weight, part);
  return part.mass ? *part.mass / amountIn(kind, part) : *part.density;
}

namespace {

Error fault(const std::string& field, const std::string& was, const std::string& allowed,
            const std::string& other, const std::string& message) {
  return {field, was, allowed, other, message};
}

std::string quoted(const std::string& text) { return "\"" + text + "\""; }

std::string usableParts(const Boat& boat) {
  std::string out;
  for (const Part& p : boat.parts) {
    if (p.role == Role::Foam || p.role == Role::Lead || p.role == Role::Dry)
      out += (out.empty() ? "" : ", ") + quoted(p.name);
  }
  return out.empty() ? "the name of a foam, lead or dry part; the boat has none" : out;
}

std::optional<Error> checkPart(const Boat& boat, const Place& place, const std::string& at) {
  const std::size_t index = partNamed(boat, place.part);
  if (index == boat.parts.size())
    return fault(at + ".part", quoted(place.part), usableParts(boat), "parts",
                 at + ".part names the part " + quoted(place.part) + ", which does not exist");
  const Part& part = boat.parts[index];
  const std::string where = "parts[" + std::to_string(index) + "]";
  const bool weight = part.role == Role::Lead || part.role == Role::Dry;
  if (!weight && (part.role != Role::Foam || place.rail))
    return fault(at + ".part", quoted(place.part), place.rail ? "a lead or dry part" : usableParts(boat),
                 where + ".role",
                 at + ".part names " + quoted(place.part) + ", whose role lets no plan change it");
  if (part.role == Role::Foam && part.mass && amountIn(PlaceKind::Foam, part) <= 0)
    return fault(where + ".mass", numberText(*part.mass), "a density instead", at,
                 where + " has a mass and no volume: a plan cannot know what more of it weighs");
  if (part.role == Role::Lead && !place.rail && part.volume)
    return fault(where + ".volume", numberText(*part.volume), "a density instead", at,
                 where + " has a fixed volume: a plan cannot know how much more of it displaces");
  if (part.role == Role::Lead && !place.rail && !part.density &&
      !std::holds_alternative<PointShape>(part.shape))
    return fault(where + ".density", "missing", "the density of the lead", at,
                 where + " has no density: a plan cannot know how much more of it displaces");
  return std::nullopt;
}

std::optional<Error> checkRail(const Place& place, const std::string& at) {
  const Rail& rail = *place.rail;
  for (const auto& [name, v] : {std::pair{".rail.from_x", rail.from_x}, {".rail.to_x", rail.to_x}}) {
    if (auto e = outside(at + name, v, -10, 10)) return e;
  }
  if (rail.from_x > rail.to_x)
    return fault(at + ".rail.from_x", numberText(rail.from_x), "at most " + numberText(rail.to_x),
                 at + ".rail.to_x", at + ".rail.from_x lies before " + at + ".rail.to_x");
  if (place.least || place.most)
    return fault(at + (place.least ? ".least" : ".most"),
                 numberText(place.least ? *place.least : *place.most), "none with a rail", at + ".rail",
                 at + " has a rail, where the weight stays as it is");
  return std::nullopt;
}

std::optional<Error> checkAmounts(const Boat& boat, const Place& place, const std::string& at) {
  const std::size_t index = partNamed(boat, place.part);
  const Part& part = boat.parts[index];
  const double room = roomIn(kindOf(place, part), part);
  constexpr double kMost = 2000;  // [kg], and far above any volume: the limits of parts
  if (place.least) {
    if (auto e = outside(at + ".least", *place.least, 0, kMost)) return e;
  }
  if (place.most) {
    if (auto e = outside(at + ".most", *place.most, 0, kMost)) return e;
    if (*place.most > room * (1 + 1e-9))
      return fault(at + ".most", numberText(*place.most), "at most " + numberText(room),
                   "parts[" + std::to_string(index) + "].shape",
                   at + ".most is more than the shape of the part holds");
  } else if (std::isinf(room)) {
    return fault(at + ".most", "missing", "the most that may go there",
                 "parts[" + std::to_string(index) + "].shape",
                 at + " has no limit: give its most, or the part a shape and a density");
  }
  const double least = place.least.value_or(0.0), most = place.most.value_or(room);
  if (least > most * (1 + 1e-9))
    return fault(at + ".least", numberText(least), "at most " + numberText(most),
                 place.most ? at + ".most" : "parts[" + std::to_string(index) + "].shape",
                 at + ".least is " + numberText(least) + ", more than the most, " + numberText(most));
  return std::nullopt;
}

std::optional<Error> checkPlace(const Boat& boat, std::size_t i) {
  const Place& place = boat.places[i];
  const std::string at = "places[" + std::to_string(i) + "]";
  if (auto e = checkPart(boat, place, at)) return e;
  for (std::size_t k = 0; k < i; ++k) {
    if (boat.places[k].part == place.part)
      return fault(at + ".part", quoted(place.part), "a part that is not a place yet",
                   "places[" + std::to_string(k) + "].part", at + " and an earlier place are the same part");
  }
  if (auto e = outside(at + ".step", place.step, 0, 10)) return e;
  return place.rail ? checkRail(place, at) : checkAmounts(boat, place, at);
}

std::optional<Error> checkFurther(const Boat& boat, std::size_t i) {
  const FurtherAim& aim = boat.aims.further[i];
  const std::string at = "aims.further[" + std::to_string(i) + "]";
  if (aim.name.empty())
    return fault(at + ".name", "empty", "a name", "", at + ".name is empty, it needs a name");
  if (aim.water) {
    if (auto density = waterDensity(*aim.water); !density) {
      Error e = density.error();
      e.field = at + "." + e.field;
      return e;
    }
  }
  if (!aim.part.empty() && partNamed(boat, aim.part) == boat.parts.size())
    return fault(at + ".part", quoted(aim.part), "the name of a part", "parts",
                 at + ".part names the part " + quoted(aim.part) + ", which does not exist");
  if (auto e = outside(at + ".mass", aim.mass, 0, 2000)) return e;
  for (const Place& place : boat.places) {
    if (!aim.part.empty() && place.part == aim.part)
      return fault(at + ".part", quoted(aim.part), "a part that is no place", "places",
                   at + ".part is also a place, whose amount the plan sets");
  }
  if (auto e = outside(at + ".mark_tolerance", aim.mark_tolerance, 0.001, 1)) return e;
  return outside(at + ".trim_tolerance", aim.trim_tolerance, 0.001, 1);
}

}  // namespace

Result<void> checkPlaces(const Boat& boat) {
  for (const auto& [field, count] :
       {std::pair{"places", boat.places.size()}, {"aims.further", boat.aims.further.size()}}) {
    if (count > 100)
      return fail(fault(field, std::to_string(count), "at most 100", "",
                        std::string(field) + " has too many entries"));
  }
  for (std::size_t i = 0; i < boat.places.size(); ++i) {
    if (auto e = checkPlace(boat, i)) return fail(*e);
  }
  if (boat.aims.net_buoyancy) {
    if (auto e = outside("aims.net_buoyancy", *boat.aims.net_buoyancy, 0.001, 2000)) return fail(*e);
  }
  if (auto e = outside("aims.least_gm", boat.aims.least_gm, 0, 10)) return fail(*e);
  if (auto e = outside("aims.least_bg", boat.aims.least_bg, 0, 10)) return fail(*e);
  for (std::size_t i = 0; i < boat.aims.further.size(); ++i) {
    if (auto e = checkFurther(boat, i)) return fail(*e);
  }
  return {};
}

}  // namespace pondtrim
