// A hull drawn elsewhere comes into the boat: what was found, its unit and axes, its place.
#include <array>
#include <pondtrim/file/mesh_words.hpp>

#include "panels/screen.hpp"

namespace pondtrim {
namespace {

/// How far the work is, in words and as a bar.
void drawShare(Ui& ui, const char* name, const char* label, const std::string& doing, double share) {
  const std::string words = doing + ": " + std::to_string(static_cast<int>(100 * share)) + "\u00a0%";
  paragraph(ui, words);
  const ImVec2 low = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x, height = ui.px(16), r = height / 2;
  ImGui::Dummy({width, height});
  ui.record(name, "status", label, words);
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(low, {low.x + width, low.y + height}, theme::kTrack, r);
  const float done = height + (width - height) * static_cast<float>(share);
  draw->AddRectFilled(low, {low.x + done, low.y + height}, theme::kAccent, r);
}

void drawProgress(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  const MeshImport& import = session.meshImport();
  using Stage = MeshImport::Stage;
  const Stage stage = import.stage();
  const std::string doing = stage == Stage::Loading    ? "Loading "
                            : stage == Stage::Reading  ? "Reading "
                            : stage == Stage::Checking ? "Checking "
                                                       : "Thinning ";
  drawShare(ui, "mesh.progress", "Opening a hull", doing + import.name(), import.share());
  paragraph(ui, "The boat in hand stays as she is.", theme::kQuietInk);
  if (button(ui, "mesh.stop", "Stop")) session.meshImport().drop();
}

void drawUnits(const Session& session, Ui& ui, MeshImport& import) {
  heading(ui, "One step of the drawing is");
  const MeshChoices& now = import.choices();
  std::vector<std::string> labels;
  for (std::size_t i = 0; i < kMeshUnits.size(); ++i)
    labels.push_back(std::string("1 ") + kMeshUnits[i].label + ": " +
                     sizeWords(import.sizeIn(i), session.units()));
  std::vector<Choice> choices;
  for (std::size_t i = 0; i < kMeshUnits.size(); ++i)
    choices.push_back({kMeshUnits[i].id, labels[i].c_str()});
  const int unit = static_cast<int>(now.unit);
  const int chosen = chooser(ui, "mesh.unit", choices, now.scale == 1 ? unit : -1);
  if (chosen >= 0 && (chosen != unit || now.scale != 1)) import.setUnit(static_cast<std::size_t>(chosen));
}

struct Axis {
  Choice choice;
  Facing facing;
};
constexpr std::array<Axis, 6> kAxes{{{{"x", "+x"}, Facing::PlusX},
                                     {{"minus-x", "\u2212x"}, Facing::MinusX},
                                     {{"y", "+y"}, Facing::PlusY},
                                     {{"minus-y", "\u2212y"}, Facing::MinusY},
                                     {{"z", "+z"}, Facing::PlusZ},
                                     {{"minus-z", "\u2212z"}, Facing::MinusZ}}};

/// The chosen one of the file's axes, all of them or those across `not_along`.
Facing drawAxes(Ui& ui, const char* name, Facing now, std::optional<Facing> not_along = {}) {
  std::vector<Choice> choices;
  std::vector<Facing> facings;
  int at = -1;
  for (const Axis& axis : kAxes) {
    if (not_along && axisOf(axis.facing) == axisOf(*not_along)) continue;
    if (axis.facing == now) at = static_cast<int>(choices.size());
    choices.push_back(axis.choice);
    facings.push_back(axis.facing);
  }
  return facings[static_cast<std::size_t>(chooser(ui, name, choices, at))];
}

void drawTurning(Ui& ui, MeshImport& import) {
  const MeshChoices& now = import.choices();
  heading(ui, "Her bow points along the drawing's");
  if (const Facing forward = drawAxes(ui, "mesh.forward", now.forward); forward != now.forward)
    import.setForward(forward);
  heading(ui, "Up is the drawing's");
  if (const Facing up = drawAxes(ui, "mesh.up", now.up, now.forward); up != now.up) import.setUp(up);
  if (button(ui, "mesh.mirrored",
             now.mirrored ? "Port and starboard swapped \u2713" : "Swap port and starboard", 0,
             now.mirrored ? Look::Accent : Look::Quiet))
    import.setMirrored(!now.mirrored);
}

void drawFound(const Session& session, Ui& ui, const MeshImport& import) {
  heading(ui, "What was found");
  const auto sentences = file::meshSentences(import.found(), import.done());
  std::string all = std::string(file::meshFormatWords(import.format())) + ".";
  for (const std::string& s : sentences) {
    paragraph(ui, s, &s == &sentences.front() && !import.found().closed ? theme::kWarning : theme::kInk);
    all += " " + s;
  }
  const std::string thinned = thinnedSentence(import, session.units());
  paragraph(ui, thinned, theme::kQuietInk);
  ui.record("mesh.found", "status", "What was found", all + " " + thinned);
}

/// What the triangles that the boat does not keep would change, when asked for.
void drawTrial(Session& session, Ui& ui, MeshImport& import) {
  const std::size_t drawn = import.found().triangles;
  if (import.kept().mesh.triangles.size() / 3 == drawn) return;
  if (import.trial() && !import.trial()->isOf(session.boat())) import.endTrial();
  const std::string all = "all " + std::to_string(drawn) + " triangles";
  if (!import.trial()) {
    if (!button(ui, "mesh.try-all", ("Float her with " + all).c_str())) return;
    if (auto begun = import.tryDrawn(session.boat()); !begun) session.refuse(begun.error());
  } else if (import.trial()->owes()) {
    drawShare(ui, "mesh.trying-all", "Floating her with all triangles", "Floating her with " + all,
              import.trial()->share());
    if (button(ui, "mesh.stop-trying", "Stop")) import.endTrial();
  } else {
    const std::string words = trialSentence(*import.trial(), session.units());
    paragraph(ui, words);
    ui.record("mesh.tried-all", "status", "Floated with all triangles", words);
  }
}

/// A number that cannot be is said so.
Result<void> told(Session& session, Result<void> done) {
  if (!done) session.refuse(done.error());
  return done;
}

template <int axis>
double placeOf(const Session& session) {
  const MeshImport& import = session.meshImport();
  return import.position()[axis];
}
template <int axis>
Result<void> setPlace(Session& session, double value) {
  session.meshImport().setPosition(axis, value);
  return {};
}

void drawNumber(Session& session, Screen& screen, const char* path, const char* label, NumberField::Read read,
                NumberField::Write write, bool negative = false, double step = 0) {
  NumberField field{path, label, Quantity::Length, 0};
  field.read = read;
  field.write = write;
  field.negative = negative;
  field.step = step;
  fieldRow(session, screen, field);
}

void drawSizeAndPlace(Session& session, Screen& screen, MeshImport& import) {
  heading(screen.ui, "Size and place");
  drawNumber(
      session, screen, "mesh.length", "Length", [](const Session& s) { return s.meshImport().size().x; },
      [](Session& s, double v) { return told(s, s.meshImport().setLength(v)); });
  if (import.choices().scale != 1)
    paragraph(screen.ui,
              "The drawing times " +
                  numberText(import.choices().scale, Quantity::Number, session.units(), 4) + ": " +
                  sizeWords(import.size(), session.units()) + ".",
              theme::kQuietInk);
  drawNumber(session, screen, "mesh.position.x", "Aft end at", placeOf<0>, setPlace<0>, true);
  drawNumber(session, screen, "mesh.position.z", "Lowest point at", placeOf<2>, setPlace<2>, true);
  const bool as_in_file = import.choices().as_in_file;
  if (button(screen.ui, "mesh.as-in-file",
             as_in_file ? "Where the drawing has it \u2713" : "Where the drawing has it", 0,
             as_in_file ? Look::Accent : Look::Quiet))
    import.setAsInFile(!as_in_file);
}

void drawWall(Session& session, Screen& screen, MeshImport& import) {
  Ui& ui = screen.ui;
  heading(ui, "Her wall");
  const bool solid = import.choices().solid;
  if (import.found().closed) {
    const int chosen = chooser(ui, "mesh.wall", {{"skin", "A skin"}, {"solid", "Solid"}}, solid ? 1 : 0);
    if (chosen != (solid ? 1 : 0)) import.setSolid(chosen == 1);
  }
  if (import.choices().solid) {
    paragraph(
        ui,
        "All that the drawing encloses pushes water aside. So choose it for a wall that is drawn with both "
        "its sides, as for printing.",
        theme::kQuietInk);
    return;
  }
  drawNumber(
      session, screen, "mesh.thickness", "Skin thickness",
      [](const Session& s) { return s.meshImport().choices().thickness; },
      [](Session& s, double v) { return told(s, s.meshImport().setThickness(v)); }, false, 0.0001);
}

void drawInstead(const Session& session, Ui& ui, MeshImport& import) {
  const Boat& boat = session.boat();
  if (import.choices().replaces && *import.choices().replaces >= boat.skins.size())
    import.setReplaces(boat, {});
  heading(ui, "She comes");
  std::vector<std::string> ids, labels;
  int now = 0;
  for (std::size_t i = 0; i < boat.skins.size(); ++i) {
    if (import.choices().replaces == i) now = static_cast<int>(i);
    ids.push_back(std::to_string(i));
    labels.push_back("in place of " + boat.skins[i].name);
  }
  if (!import.choices().replaces) now = static_cast<int>(ids.size());
  ids.emplace_back("more");
  labels.emplace_back("as one piece more");
  std::vector<Choice> choices;
  for (std::size_t i = 0; i < ids.size(); ++i) choices.push_back({ids[i].c_str(), labels[i].c_str()});
  const int chosen = chooser(ui, "mesh.instead", choices, now);
  if (chosen == now) return;
  const auto skin = static_cast<std::size_t>(chosen);
  import.setReplaces(boat, skin < boat.skins.size() ? std::optional(skin) : std::nullopt);
}

/// Into the boat: one step of undo.
void use(Session& session, Screen& screen) {
  MeshImport& import = session.meshImport();
  const auto changed = import.boatWith(session.boat());
  if (!changed) session.refuse(changed.error());
  const bool done = changed && session.edit(*changed);
  if (!done) return ImGui::SetScrollY(0);  // where it is said why
  const std::size_t index = import.choices().replaces.value_or(changed->skins.size() - 1);
  screen.hull.to_top = true;
  session.select(Selection{Owner::Skin, index});
  session.say(import.name() + " is in the boat now, as " + changed->skins[index].name +
              ". Undo takes it back. " + thinnedSentence(import, session.units()));
  import.drop();
}

}  // namespace

void drawMeshPanel(Session& session, Screen& screen) {
  Ui& ui = screen.ui;
  MeshImport& import = session.meshImport();
  if (import.owes()) screen.owed = Screen::Owed::Mesh;
  if (import.stage() != MeshImport::Stage::Ready) return drawProgress(session, screen);
  paragraph(ui, import.name() + " as she would lie: " + sizeWords(import.size(), session.units()));
  drawMeshSketch(session, screen);
  drawUnits(session, ui, import);
  drawTurning(ui, import);
  drawFound(session, ui, import);
  drawTrial(session, ui, import);
  drawWall(session, screen, import);
  drawInstead(session, ui, import);
  drawSizeAndPlace(session, screen, import);
  const float width = ImGui::GetContentRegionAvail().x / ui.ratio;
  if (button(ui, "mesh.use", "Put her into the boat", width, Look::Primary, 54)) return use(session, screen);
  if (button(ui, "mesh.drop", "Leave her", width)) import.drop();
}

}  // namespace pondtrim
