#include "app.hpp"

#include <imgui_internal.h>

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <pondtrim/file/boat_file.hpp>
#include <pondtrim/file/offsets_csv.hpp>
#include <pondtrim/file/weights_csv.hpp>
#include <utility>
#include <vector>

#include "browser/browser.hpp"
#include "session/described_store.hpp"
#include "session/drafts.hpp"
#include "session/edits.hpp"
#include "session/guests.hpp"
#include "session/shelf.hpp"
#include "session/store.hpp"
#include "session/structure.hpp"
#include "session/words.hpp"

namespace pondtrim {
namespace {

constexpr int kSettleFrames = 4;        // Dear ImGui spreads one tap over several frames
constexpr float kGlideStop = 0.02f;     // CSS px/ms
constexpr double kGlideHalfTime = 160;  // ms
constexpr float kAway = -1e6f;

std::vector<std::string> wordsOf(std::string_view text) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    if (end > at) words.emplace_back(text.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

double numberAt(const std::vector<std::string>& words, std::size_t i) {
  return i < words.size() ? std::strtod(words[i].c_str(), nullptr) : 0.0;
}
float floatAt(const std::vector<std::string>& words, std::size_t i) {
  return static_cast<float>(numberAt(words, i));
}

/// The window under a point, topmost first; nullptr: none.
ImGuiWindow* windowAt(ImVec2 at) {
  const auto& windows = ImGui::GetCurrentContext()->Windows;
  for (int i = windows.Size - 1; i >= 0; --i) {
    ImGuiWindow* w = windows[i];
    const bool there = w->WasActive && !w->Hidden && !(w->Flags & ImGuiWindowFlags_NoInputs);
    if (there && !w->IsFallbackWindow && w->Rect().Contains(at)) return w;
  }
  return nullptr;
}

struct KeyName {
  const char* name;
  ImGuiKey key;
};
constexpr KeyName kKeys[] = {{"Tab", ImGuiKey_Tab},
                             {"Enter", ImGuiKey_Enter},
                             {"Escape", ImGuiKey_Escape},
                             {"Backspace", ImGuiKey_Backspace},
                             {"Delete", ImGuiKey_Delete},
                             {"ArrowLeft", ImGuiKey_LeftArrow},
                             {"ArrowRight", ImGuiKey_RightArrow},
                             {"ArrowUp", ImGuiKey_UpArrow},
                             {"ArrowDown", ImGuiKey_DownArrow},
                             {"Home", ImGuiKey_Home},
                             {"End", ImGuiKey_End},
                             {"PageUp", ImGuiKey_PageUp},
                             {"PageDown", ImGuiKey_PageDown},
                             {"Space", ImGuiKey_Space}};

}  // namespace

App::App(Renderer renderer, Session session, void (*set_canvas_size)(int, int), void (*wake)())
    : session_(std::move(session)),
      renderer_(std::move(renderer)),
      set_canvas_size_(set_canvas_size),
      wake_(wake) {
  screen_.ui.ratio = 0;  // the first resize builds style and fonts
  history_.restore(session_);
  resumeDraft(session_);
  resumeDescribed(session_);
  kept_rough_ = session_.rough();
  kept_full_size_ = session_.fullSize();
  kept_revision_ = session_.revision();
  kept_depth_ = session_.depth();
}

std::string App::handle(std::string_view message) {
  const std::size_t line = std::min(message.find('\n'), message.size());
  const std::string_view head = message.substr(0, line);
  const std::string_view body = line < message.size() ? message.substr(line + 1) : std::string_view();
  const std::size_t space = std::min(head.find(' '), head.size());
  const std::string_view verb = head.substr(0, space);
  const std::string_view words = space < head.size() ? head.substr(space + 1) : std::string_view();
  if (verb == "state") return stateJson();
  if (verb == "keep") {
    keepIfChanged();
    return {};
  }
  if (verb == "mesh-bytes") {
    session_.meshImport().add(body);
    owe(1);  // there are many of them
    return {};
  }
  owe(kSettleFrames);
  if (verb == "pointer") return pointer(words);
  if (verb == "resize") resize(words);
  if (verb == "wheel") wheel(words);
  if (verb == "key") key(words);
  if (verb == "text") ImGui::GetIO().AddInputCharactersUTF8(std::string(body).c_str());
  if (verb == "do") return work(words, body);
  if (verb == "let-go") screen_.ui.held.clear();
  if (verb == "picture") workPicture(words);
  if (verb == "file") openFile(words, body);
  if (verb == "table") return takeOffsets(body);
  if (verb == "mesh") return beginMesh(words);
  if (verb == "mesh-unread") {
    session_.meshImport().drop();
    session_.refuseFile(words, {"file", "", "", "", "the browser could not read it."});
    screen_.hull.to_top = true;
  }
  if (verb == "link") {
    (void)receiveFragment(session_, body, words);
    screen_.section = Section::PassOn;
  }
  if (verb == "copied") session_.say(words == "1" ? "Copied." : "This browser does not let the page copy.");
  if (verb == "file-too-large")
    session_.refuse({"file", std::string(words) + " bytes", "at most 5,000,000 bytes", "",
                     "That file has " + std::string(words) +
                         " bytes, too many for a boat file: at most 5,000,000 are read."});
  if (verb == "motion") still_ = words == "reduced";
  if (verb == "no-one-file")
    session_.say(
        "The app is not to be had as a file here: you are using one already, or it was not loaded whole.");
  if (verb == "not-kept") tellNotKept();
  if (verb == "loose-store") screen_.loose_store = true;
  if (verb == "renewed")
    session_.say("A newer version has arrived: close Pondtrim and open it again. Boats and drafts stay.");
  if (verb == "context") {
    lost_ = words == "lost";
    if (lost_) return {};
    renderer_.restore();
    owe(kSettleFrames);  // what was owed while it was lost has woken nobody
  }
  return {};
}

void App::owe(int frames) {
  owed_ = std::max(owed_, frames);
  resting_ = false;
  if (!lost_) wake_();
}

void App::resize(std::string_view text) {
  const auto words = wordsOf(text);
  screen_.window = {floatAt(words, 0), floatAt(words, 1), floatAt(words, 3),
                    floatAt(words, 4), floatAt(words, 5), floatAt(words, 6)};
  const float ratio = floatAt(words, 2);
  set_canvas_size_(static_cast<int>(std::lround(screen_.window.width * ratio)),
                   static_cast<int>(std::lround(screen_.window.height * ratio)));
  if (ratio == screen_.ui.ratio) return;
  screen_.ui.ratio = ratio;
  dress();
  renderer_.renewFonts();
}

/// Colours, sizes and letters as the person wants them.
void App::dress() {
  dressed_ = session_.preferences();
  theme::chooseColours(dressed_.night);
  screen_.ui.text_scale = 1 + 0.5f * static_cast<float>(dressed_.letters);
  screen_.ui.fonts = theme::apply(screen_.ui.ratio, screen_.ui.text_scale);
}

std::string App::pointer(std::string_view text) {
  const auto words = wordsOf(text);
  if (words.size() < 6) return {};
  const std::string& phase = words[0];
  const bool finger = words[1] == "touch";
  const int id = std::atoi(words[2].c_str());
  const glm::vec2 at(floatAt(words, 3), floatAt(words, 4));
  const double time = numberAt(words, 5);
  if (phase == "down") router_.down(id, at, time, finger);
  if (phase == "move") router_.moved(id, at, time, finger);
  if (phase == "cancel") router_.cancelled(id);
  if (phase != "up") return {};
  router_.up(id, at, time, finger);
  return settle(kSettleFrames);
}

/// Lets the widgets settle now, within the gesture: only then may the page open keyboard or file chooser.
std::string App::settle(int frames) {
  for (int i = 0; i < frames; ++i) {
    drawWidgets(last_time_ + 16);
    ImGui::EndFrame();
  }
  if (std::exchange(screen_.wants_file, false)) browser::chooseFile(browser::FileKind::Boat);
  if (std::exchange(screen_.wants_mesh, false)) browser::chooseFile(browser::FileKind::Mesh);
  return ImGui::GetIO().WantTextInput ? "keyboard" : "";
}

void App::wheel(std::string_view text) {
  const auto words = wordsOf(text);
  const glm::vec2 at(floatAt(words, 3), floatAt(words, 4));
  const float dy = floatAt(words, 2);
  if (targetAt(at).picture) return zoom(std::exp(-dy * 0.002f));
  move(at, false);
  ImGui::GetIO().AddMouseWheelEvent(-floatAt(words, 1) / 60, -dy / 60);
}

void App::key(std::string_view text) {
  const auto words = wordsOf(text);
  if (words.size() < 3) return;
  const bool down = words[0] == "down";
  const int modifiers = std::atoi(words[2].c_str());
  const bool control = modifiers & 1, shift = modifiers & 2;
  if (control && down && words[1] == "z") shift ? shown().redo() : shown().undo();
  if (control && down && words[1] == "y") shown().redo();
  ImGuiIO& io = ImGui::GetIO();
  io.AddKeyEvent(ImGuiMod_Shift, shift);
  ++screen_.ui.gesture;
  for (const KeyName& k : kKeys)
    if (words[1] == k.name) io.AddKeyEvent(k.key, down);
}

void App::openFile(std::string_view name, std::string_view text) {
  constexpr std::string_view kTable = ".csv";
  if (name.size() > kTable.size() && name.substr(name.size() - kTable.size()) == kTable)
    return openTable(name, text);
  auto document = file::readBoatFile(text);
  if (!document) return session_.refuseFile(name, document.error());
  (void)welcome(session_, std::move(*document), "the file " + std::string(name));
}

std::string App::beginMesh(std::string_view text) {
  const auto words = wordsOf(text);
  const std::string name = words.empty() ? "" : words[0];
  screen_.section = Section::Hull;
  screen_.pad.close();
  session_.dismissNotice();
  const auto begun = session_.meshImport().begin(name, static_cast<std::size_t>(numberAt(words, 1)));
  if (begun) return {};
  session_.refuseFile(name, begun.error());
  screen_.hull.to_top = true;
  return "stop";
}

void App::openTable(std::string_view name, std::string_view text) {
  const auto changed = file::readWeightsCsv(text, session_.boat());
  if (!changed) return session_.refuseFile(name, changed.error());
  const std::size_t count = file::compareBoats(session_.boat(), *changed).size();
  if (!session_.edit(*changed)) return;
  session_.say("The table changed " + std::to_string(count) + (count == 1 ? " number" : " numbers") +
               " of this boat; undo takes them back.");
}

/// The table of offsets that was typed for a hull piece; what is wrong with it, or nothing.
std::string App::takeOffsets(std::string_view text) {
  const std::size_t at = screen_.hull.asked_skin;
  if (at >= session_.boat().skins.size()) return "That hull piece is not there any more.";
  auto table = file::readOffsetsCsv(text, session_.units());
  if (!table) return table.error().message;
  if (session_.edit(withOffsets(session_.boat(), at, std::move(*table)))) return {};
  const std::string fault = session_.notice()->text;
  session_.dismissNotice();
  return fault;
}

// ---- The mirror: controls worked by name
// ------------------------------------------------------------------------------------------------

std::string App::work(std::string_view what, std::string_view body) {
  const std::size_t line = std::min(body.find('\n'), body.size());
  const std::string name(body.substr(0, line));
  const std::string text(line < body.size() ? body.substr(line + 1) : std::string_view());
  Ui& ui = screen_.ui;
  if (what == "draft") {
    ui.draft_name = name;
    ui.draft = text;
    return {};
  }
  ui.draft_name.clear();
  ui.held = name;
  if (name == "picture") ImGui::GetCurrentContext()->NavId = 0;
  using What = Deed::What;
  ui.deed = {what == "press" ? What::Press : what == "set" ? What::Set : What::Focus, name, text};
  if (what != "focus") ++ui.gesture;
  settle(what == "focus" ? 1 : kSettleFrames);
  reflect(last_time_, true);
  return {};
}

void App::workPicture(std::string_view key) {
  constexpr float kStep = 24;  // CSS px
  if (key == "ArrowLeft") turn({-kStep, 0});
  if (key == "ArrowRight") turn({kStep, 0});
  if (key == "ArrowUp") turn({0, -kStep});
  if (key == "ArrowDown") turn({0, kStep});
  if (key == "+") zoom(1.2f);
  if (key == "-") zoom(1 / 1.2f);
}

/// Shows the page what is on the screen: when all is still, or now and then while it is not.
void App::reflect(double time, bool settled) {
  constexpr double kPause = 250;  // ms
  if (!settled && time - mirrored_at_ < kPause) return;
  mirrored_at_ = time;
  std::string now = mirrorJson();
  if (now != mirrored_) browser::mirror(mirrored_ = std::move(now));
  if (!settled) return;
  const auto& notice = session_.notice();
  std::string words = (notice ? notice->text + " " : std::string()) + liesSentence(shown());
  if (words != announced_) browser::announce(announced_ = std::move(words));
}

// ---- Fingers
// ------------------------------------------------------------------------------------------------

PointerTarget App::targetAt(glm::vec2 at) {
  glide_ = glm::vec2(0.0f);
  const float r = screen_.ui.ratio;
  ImGuiWindow* window = windowAt({at.x * r, at.y * r});
  if (window == nullptr) return {screen_.layout.picture.contains(at), ScrollAxis::None};
  scrolled_window_ = window->ID;
  if (window->ScrollMax.y > 0) return {false, ScrollAxis::Vertical};
  if (window->ScrollMax.x > 0) return {false, ScrollAxis::Horizontal};
  return {false, ScrollAxis::None};
}

void App::press(glm::vec2 at, bool finger) {
  ++screen_.ui.gesture;
  screen_.ui.held.clear();
  move(at, finger);
  ImGui::GetIO().AddMouseButtonEvent(0, true);
}

void App::move(glm::vec2 at, bool finger) {
  ImGuiIO& io = ImGui::GetIO();
  io.AddMouseSourceEvent(finger ? ImGuiMouseSource_TouchScreen : ImGuiMouseSource_Mouse);
  io.AddMousePosEvent(at.x * screen_.ui.ratio, at.y * screen_.ui.ratio);
}

void App::release(glm::vec2 at, bool finger) {
  move(at, finger);
  ImGui::GetIO().AddMouseButtonEvent(0, false);
  if (finger) ImGui::GetIO().AddMousePosEvent(-FLT_MAX, -FLT_MAX);  // a lifted finger hovers nowhere
}

void App::cancelPress() {
  ImGui::GetIO().AddMousePosEvent(kAway, kAway);
  ImGui::GetIO().AddMouseButtonEvent(0, false);
}

bool App::slides() const {
  const ImGuiID active = ImGui::GetActiveID();
  const auto& controls = screen_.ui.controls;
  const auto pressed =
      std::find_if(controls.begin(), controls.end(), [active](const Control& c) { return c.item == active; });
  return active != 0 && pressed != controls.end() && std::strcmp(pressed->role, "button") != 0;
}

void App::scroll(glm::vec2, glm::vec2 by) {
  ImGuiWindow* window = ImGui::FindWindowByID(scrolled_window_);
  if (window == nullptr) return;
  const float r = screen_.ui.ratio;
  // Several moves may come before the next frame carries out the first.
  const auto from = [](float now, float asked) { return asked < FLT_MAX ? asked : now; };
  if (window->ScrollMax.y > 0)
    ImGui::SetScrollY(window, std::clamp(from(window->Scroll.y, window->ScrollTarget.y) - by.y * r, 0.0f,
                                         window->ScrollMax.y));
  else
    ImGui::SetScrollX(window, std::clamp(from(window->Scroll.x, window->ScrollTarget.x) - by.x * r, 0.0f,
                                         window->ScrollMax.x));
}

void App::flick(glm::vec2 px_per_ms) { glide_ = still_ ? glm::vec2(0.0f) : px_per_ms; }

void App::glide(double passed) {
  if (glide_ == glm::vec2(0.0f)) return;
  scroll({}, glide_ * static_cast<float>(passed));
  glide_ *= static_cast<float>(std::exp2(-passed / kGlideHalfTime));
  if (std::abs(glide_.x) + std::abs(glide_.y) < kGlideStop) glide_ = glm::vec2(0.0f);
}

void App::turn(glm::vec2 by) {
  if (screen_.camera.view == Camera::View::Around) return screen_.camera.turn(by.x, by.y);
  pan(by);
}

void App::pan(glm::vec2 by) {
  const float r = screen_.ui.ratio;
  screen_.camera.pan += panFor(screen_.scene.projection, by.x * r, by.y * r);
}

void App::zoom(float factor) { screen_.camera.zoom = std::clamp(screen_.camera.zoom * factor, 0.5f, 12.0f); }

void App::tapPicture(glm::vec2 at) {
  if (screen_.showsDescribed()) return;  // nothing of her can be edited yet
  const Rect& r = screen_.layout.picture;
  const float ratio = screen_.ui.ratio;
  const glm::vec2 point((at.x - r.left) * ratio, (at.y - r.top) * ratio);
  const auto hit = partAt(session_.boat(), screen_.scene.projection, point, 14 * ratio);
  session_.select(hit);
  if (!hit) return;
  const Role role = session_.boat().parts[hit->index].role;
  screen_.section = role == Role::Dry || role == Role::Solid ? Section::Weights : Section::FoamLead;
  screen_.to_selected = true;
}

/// A trial weight where the finger rests, or the one there is put there.
void App::holdPicture(glm::vec2 at) {
  if (screen_.showsDescribed()) return;
  const Rect& r = screen_.layout.picture;
  const float ratio = screen_.ui.ratio;
  const auto place = placeAt(session_.boat(), screen_.scene.projection,
                             glm::vec2((at.x - r.left) * ratio, (at.y - r.top) * ratio));
  if (!place) return;
  const std::size_t before = session_.boat().parts.size();
  std::size_t index = 0;
  if (!session_.edit(withTrialWeight(session_.boat(), *place, index))) return;
  session_.say(session_.boat().parts.size() > before ? "A trial weight lies there now. Undo takes it away."
                                                     : "The trial weight lies there now. Undo puts it back.");
  session_.select(Selection{Owner::Part, index});
  screen_.section = Section::Weights;
  screen_.to_selected = true;
}

// ---- Frames
// -------------------------------------------------------------------------------------------------

/// The controls over the picture, as last drawn.
std::vector<Obstacle> App::obstacles() const {
  std::vector<Obstacle> found;
  const Rect& p = screen_.layout.picture;
  const float r = screen_.ui.ratio;
  for (const Control& c : screen_.ui.controls)
    if (std::strcmp(c.role, "picture") != 0 && p.contains({c.seen.x, c.seen.y}))
      found.push_back({{(c.seen.x - p.left) * r, (c.seen.y - p.top) * r},
                       {(c.seen.z - p.left) * r, (c.seen.w - p.top) * r}});
  return found;
}

void App::drawWidgets(double time) {
  ImGuiIO& io = ImGui::GetIO();
  const float r = screen_.ui.ratio;
  io.DisplaySize = {std::round(screen_.window.width * r), std::round(screen_.window.height * r)};
  io.DeltaTime = static_cast<float>(std::clamp((time - last_time_) / 1000, 0.001, 0.1));
  renderer_.beginFrame();
  io.UserData = &screen_.ui;
  ImGui::GetCurrentContext()->TestEngineHookItems = true;
  ImGui::NewFrame();

  const Layout& l = screen_.layout;
  const PictureSize size{l.picture.width * r, l.picture.height * r, r, l.covered_above * r,
                         l.covered_below * r};
  const MeasureText measure = [](const std::string& text) {
    const ImVec2 extent = ImGui::CalcTextSize(text.c_str());
    return glm::vec2(extent.x, extent.y);
  };
  std::optional<Plane> planned;
  if (screen_.section == Section::Plan) planned = screen_.planner.plannedWater(session_);
  const HandleDrag& drag = screen_.handle_drag;
  const auto held = drag.name.empty() ? std::nullopt : std::optional(drag.boat_size);
  if (size.width > 1)
    screen_.scene =
        makeScene(shown(), {screen_.camera, size, screen_.names, obstacles(), measure, planned, held});
  drawScreen(session_, screen_);
}

void App::renewGeometry() {
  const Session& s = shown();
  const std::uint64_t described = screen_.showsDescribed() ? screen_.start.made : 0;
  if (drawn_boat_ == s.revision() && drawn_described_ == described && drawn_selection_ == s.selection())
    return;
  geometry_ = makeGeometry(s.boat(), s.model(), s.selection());
  drawn_boat_ = s.revision();
  drawn_described_ = described;
  drawn_selection_ = s.selection();
  ++geometry_revision_;
  owe(2);  // the picture was laid out before the widgets changed the boat
}

bool App::frame(double time) {
  if (lost_ || screen_.ui.ratio == 0) return false;
  router_.tick(time);
  if (dressed_ != session_.preferences()) {
    dress();
    renderer_.renewFonts();
  }
  glide(std::clamp(time - last_time_, 0.0, 50.0));
  if (!ImGui::GetIO().MouseDown[0] && shown_owed_) workOff(session_, screen_);
  if (frames_ == 0) {  // what lies where is known once it was laid out: the first picture is a right one
    drawWidgets(time);
    ImGui::EndFrame();
  }
  drawWidgets(time);
  shown_owed_ = screen_.owed != Screen::Owed::Nothing;
  last_time_ = time;
  ImGui::Render();

  renewGeometry();
  const float r = screen_.ui.ratio;
  const Rect& p = screen_.layout.picture;
  const int height = static_cast<int>(std::lround(screen_.window.height * r));
  renderer_.clear(static_cast<int>(std::lround(screen_.window.width * r)), height);
  const auto pixels = [r](float css) { return static_cast<int>(std::lround(css * r)); };
  renderer_.drawScene(screen_.scene, geometry_, geometry_revision_,
                      {pixels(p.left), pixels(p.top), pixels(p.width), pixels(p.height)}, height);
  renderer_.drawPanels(ImGui::GetDrawData());
  ++frames_;

  if (owed_ > 0) --owed_;
  const bool queued = ImGui::GetCurrentContext()->InputEventsQueue.Size > 0;
  // A held button repeats, a resting finger becomes a press, a flicked panel glides: time alone moves these.
  const bool held = ImGui::IsAnyItemActive() && ImGui::GetIO().MouseDown[0];
  const bool more = owed_ > 0 || queued || held || (shown_owed_ && !ImGui::GetIO().MouseDown[0]) ||
                    router_.waiting() || glide_ != glm::vec2(0.0f);
  reflect(time, !more);
  // Keeping writes all of the boat, which takes as long as a frame: when all is still, or now and then while
  // it is not.
  constexpr double kPause = 500;  // ms
  if (!more || time - kept_at_ > kPause) {
    kept_at_ = time;
    keepIfChanged();
  }
  resting_ = !more && owed_ == 0;
  return !resting_;
}

void App::keepIfChanged() {
  if (kept_depth_ != session_.depth() && !ImGui::GetIO().MouseDown[0]) {
    kept_depth_ = session_.depth();
    (void)keepDepth(session_);  // a page that keeps nothing says so for the boat
  }
  if ((kept_rough_ != session_.rough() || kept_full_size_ != session_.fullSize()) &&
      !ImGui::GetIO().MouseDown[0]) {
    kept_rough_ = session_.rough();
    kept_full_size_ = session_.fullSize();
    if (!keepDescribed(session_)) tellNotKept();
  }
  if (kept_revision_ == session_.revision() || ImGui::GetIO().MouseDown[0]) return;
  kept_revision_ = session_.revision();
  followName(session_);
  const bool boat_kept = keepBoat(session_), history_kept = history_.keep(session_) && storeDraft(session_);
  const bool kept = boat_kept && history_kept;
  if (!kept) tellNotKept();
  if (kept) keep_failed_ = false;
}

/// Once, until keeping has worked again.
void App::tellNotKept() {
  if (std::exchange(keep_failed_, true)) return;
  session_.say(
      "This browser does not keep the boat (its storage is full or switched off). Save it as a file.");
  owe(2);
}

}  // namespace pondtrim
