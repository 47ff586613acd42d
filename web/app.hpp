#pragma once
// The app: messages of the page in, frames out. Ties session, screen, touch and renderer together.
#include <string>
#include <string_view>

#include "input/pointer_router.hpp"
#include "panels/screen.hpp"
#include "renderer/renderer.hpp"
#include "session/history_store.hpp"
#include "session/session.hpp"

namespace pondtrim {

class App final : private PointerSink {
 public:
  App(Renderer renderer, Session session, void (*set_canvas_size)(int width, int height), void (*wake)());

  /// Messages, first word the verb:
  ///   resize WIDTH HEIGHT RATIO LEFT TOP RIGHT BOTTOM    CSS px, device px per CSS px, insets
  ///   pointer down|move|up|cancel touch|mouse ID X Y MS  answers "keyboard" when text is to be typed
  ///   wheel CTRL DX DY X Y       key down|up NAME MODIFIERS       text\nTEXT
  ///   file NAME\nTEXT            file-too-large BYTES
  ///   mesh NAME BYTES            a mesh of so many bytes is coming; answers "stop" if it is not wanted
  ///   mesh-bytes\nBYTES          the next of them       mesh-unread NAME    the page cannot read it
  ///   motion reduced|usual       no-one-file
  ///   loose-store              the browser may throw away what is kept
  ///   not-kept                   the page could not write what it was given to keep
  ///   do focus|press|set|draft\nCONTROL\nTEXT   let-go   picture KEY    what the page's mirror of the
  ///   controls asks
  ///   context lost|restored      wake       state (answers JSON)
  ///   keep                       what has changed, now: the page is going out of sight
  std::string handle(std::string_view message);

  /// Draws; false when nothing more is owed. `time` in ms.
  bool frame(double time);

 private:
  // What fingers mean (PointerSink).
  PointerTarget targetAt(glm::vec2 at) override;
  void press(glm::vec2 at, bool finger) override;
  void move(glm::vec2 at, bool finger) override;
  void release(glm::vec2 at, bool finger) override;
  void cancelPress() override;
  [[nodiscard]] bool slides() const override;
  void scroll(glm::vec2 from, glm::vec2 by) override;
  void flick(glm::vec2 px_per_ms) override;
  void turn(glm::vec2 by) override;
  void pan(glm::vec2 by) override;
  void zoom(float factor) override;
  void tapPicture(glm::vec2 at) override;
  void holdPicture(glm::vec2 at) override;

  void owe(int frames);
  void resize(std::string_view words);
  void dress();
  std::string pointer(std::string_view words);
  void wheel(std::string_view words);
  void key(std::string_view words);
  std::string takeOffsets(std::string_view text);
  void openTable(std::string_view name, std::string_view text);
  void openFile(std::string_view name, std::string_view text);
  std::string beginMesh(std::string_view words);
  void drawWidgets(double time);
  [[nodiscard]] Session& shown() { return screen_.shown(session_); }
  void renewGeometry();
  [[nodiscard]] std::vector<Obstacle> obstacles() const;
  void glide(double passed);
  void keepIfChanged();
  void tellNotKept();
  [[nodiscard]] std::string stateJson();
  [[nodiscard]] std::string mirrorJson() const;
  std::string settle(int frames);
  std::string work(std::string_view deed, std::string_view body);
  void workPicture(std::string_view key);
  void reflect(double time, bool settled);

  Session session_;
  Screen screen_;
  HistoryStore history_;
  Renderer renderer_;
  PointerRouter router_{*this};
  BoatGeometry geometry_;
  std::uint64_t geometry_revision_ = 0, drawn_boat_ = 0, kept_revision_ = 0;
  std::uint64_t drawn_described_ = 0;  ///< StartView::made, 0: the boat in hand was drawn
  std::optional<Selection> drawn_selection_;
  void (*set_canvas_size_)(int, int);
  void (*wake_)();
  int owed_ = 0;
  bool resting_ = false;  ///< nothing more is owed until the page sends word
  unsigned frames_ = 0;
  bool still_ = false;  ///< the person wants no motion that goes on by itself
  double kept_depth_ = -1.0, kept_at_ = 0;
  RoughBoat kept_rough_;
  FullSize kept_full_size_;
  Preferences dressed_;  ///< those that colours and letters were made for
  bool lost_ = false, keep_failed_ = false;
  bool shown_owed_ = false;  ///< the screen in sight says that something is being worked out
  double last_time_ = 0, mirrored_at_ = 0;
  std::string mirrored_, announced_;
  unsigned scrolled_window_ = 0;
  glm::vec2 glide_{0.0f};  ///< of the scrolled window [CSS px/ms]
};

}  // namespace pondtrim
