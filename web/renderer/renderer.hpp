#pragma once
// The only code that calls GL: draws a Scene into its part of the canvas, then the panels over it.
#include <cstdint>
#include <memory>

#include "scene/scene.hpp"

struct ImDrawData;

namespace pondtrim {

/// Part of the canvas [device px, from the top left].
struct PixelRect {
  int left = 0, top = 0, width = 0, height = 0;
};

class Renderer {
 public:
  /// Begins to make its programs, which the browser does beside other work: the earlier, the better.
  Renderer();
  ~Renderer();
  Renderer(Renderer&&) noexcept;

  /// Call before Dear ImGui's NewFrame.
  void beginFrame();
  /// The atlas has been rebuilt.
  void renewFonts();
  /// All of GL was lost; make everything again.
  void restore();

  /// `revision` tells when `geometry` has changed. `canvas_height` in device px.
  void drawScene(const Scene& scene, const BoatGeometry& geometry, std::uint64_t revision, PixelRect where,
                 int canvas_height);
  void clear(int width, int height);
  void drawPanels(ImDrawData* data);

 private:
  struct Device;
  std::unique_ptr<Device> device_;
};

}  // namespace pondtrim
