// Where a plan may put foam and lead, how much of it, in which steps.
#include "panels/screen.hpp"

namespace pondtrim {
namespace {

std::string path(std::size_t i, const char* field) { return "places[" + std::to_string(i) + "]." + field; }

/// What the place holds when no limit is given: its part's shape full [m^3, kg].
double shapeHolds(const Part& part) {
  const double room = shapeVolume(part);
  return part.role == Role::Foam ? room : room * part.density.value_or(0);
}

void drawPlace(Session& session, Screen& screen, std::size_t i) {
  const Place& place = session.boat().places[i];
  const auto part = partOf(session.boat(), place);
  if (!part) return;
  Ui& ui = screen.ui;
  const Quantity quantity = amountQuantity(session.boat(), place);
  const Part& holder = session.boat().parts[*part];
  ImGui::Separator();
  paragraph(ui, place.part + (holder.mirrored ? " (each side)" : ""));
  const auto row = [&](const char* name, const char* label, NumberField::Find find) {
    NumberField field{path(i, name), label, quantity, i};
    field.find = find;
    fieldRow(session, screen, field);
  };
  const auto limit = [&](const char* name, const char* label, NumberField::FindOptional find,
                         double stand_in) {
    NumberField field{path(i, name), label, quantity, i};
    field.find_optional = find;
    field.stand_in = stand_in;
    fieldRow(session, screen, field);
  };
  if (place.rail) {
    row("rail.from_x", "Rail from",
        [](Boat& b, std::size_t n) -> double& { return b.places[n].rail->from_x; });
    row("rail.to_x", "Rail to", [](Boat& b, std::size_t n) -> double& { return b.places[n].rail->to_x; });
  } else {
    limit(
        "most", "At most", [](Boat& b, std::size_t n) -> std::optional<double>& { return b.places[n].most; },
        shapeHolds(holder));
    limit(
        "least", "At least",
        [](Boat& b, std::size_t n) -> std::optional<double>& { return b.places[n].least; }, 0);
  }
  row("step", "In steps of (0: any)", [](Boat& b, std::size_t n) -> double& { return b.places[n].step; });
  if (button(ui, path(i, "remove"), "Leave this as it is"))
    (void)session.edit(withoutPlace(session.boat(), i));
}

bool isPlace(const Boat& boat, const std::string& part) {
  for (const Place& place : boat.places)
    if (place.part == part) return true;
  return false;
}

void drawCandidates(Session& session, Screen& screen) {
  bool first = true;
  for (std::size_t i = 0; i < session.boat().parts.size(); ++i) {
    const Part& part = session.boat().parts[i];
    const bool fits = part.role == Role::Foam || part.role == Role::Lead;
    if (!fits || isPlace(session.boat(), part.name)) continue;
    if (first) paragraph(screen.ui, "The plan may also change:", theme::kQuietInk);
    first = false;
    if (button(screen.ui, "places.allow." + std::to_string(i), "+ " + part.name))
      (void)session.edit(withPlace(session.boat(), i));
  }
}

/// Weights that might slide along a rail: a battery, say.
void drawRailCandidates(Session& session, Screen& screen) {
  bool first = true;
  for (std::size_t i = 0; i < session.boat().parts.size(); ++i) {
    const Part& part = session.boat().parts[i];
    if (part.role != Role::Dry || !part.mass || isPlace(session.boat(), part.name)) continue;
    if (first) paragraph(screen.ui, "May slide along a rail:", theme::kQuietInk);
    first = false;
    if (button(screen.ui, "places.rail." + std::to_string(i), "+ " + part.name))
      (void)session.edit(withRail(session.boat(), i));
  }
}

}  // namespace

void drawPlaces(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  heading(ui, "Where foam and lead may go");
  if (button(ui, "places.propose", "Look for places", 0,
             session.boat().places.empty() ? Look::Accent : Look::Plain)) {
    const Boat proposed = proposePlaces(session.boat());
    if (proposed == session.boat())
      session.say("No more room was found in the hull: add foam or lead where you can fit some.");
    else
      (void)session.edit(proposed);
  }
  drawCandidates(session, screen);
  bool& open = screen.places_open;
  const std::size_t count = session.boat().places.size();
  if (count == 0) return;
  const std::string label =
      (open ? "Hide the " : "Limits and steps of the ") + std::to_string(count) + " places";
  if (button(ui, "places.open", label)) open = !open;
  // A place may go while it is drawn: ask anew each time.
  for (std::size_t i = 0; open && i < session.boat().places.size(); ++i) drawPlace(session, screen, i);
  if (open) drawRailCandidates(session, screen);
}

}  // namespace pondtrim
