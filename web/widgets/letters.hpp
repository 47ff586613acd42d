#pragma once
// Letters as the browser draws them, in the system's own face: no font travels with the page, and any that
// the phone's owner reads well serves here too.
#include <imgui.h>

#include <vector>

namespace pondtrim {

/// Dear ImGui's fonts, laid out in one texture whose texels the page paints.
class LetterAtlas {
 public:
  enum class Weight { Normal, Bold };

  /// Forgets the fonts that there were.
  LetterAtlas();

  /// Letters for lines `height` texels high; `ranges`: pairs of first and last Unicode point, ended by 0.
  /// They can be used after draw().
  [[nodiscard]] ImFont* add(float height, Weight weight, const ImWchar* ranges);

  /// Lays out and paints what was added; upload() hands it on.
  void draw();

  /// Gives the painted letters to the OpenGL texture that is bound. Call it again for a new context.
  static void upload();

 private:
  /// One letter: what the page measures, in texels about its pen on the baseline (`left` and `top` away from
  /// it), and where its pen goes. The page reads and writes these as floats.
  struct Letter {
    float advance, left, top, right, bottom, x, y;
  };
  struct Face {
    ImFont* font;
    float em;
    float baseline;  // below a line's top
    Weight weight;
    std::vector<int> points;
    std::vector<Letter> letters;
  };

  void place(Letter& letter);
  void give(const Face& face, float width, float height) const;

  std::vector<Face> faces_;
  int pen_x_ = 0, shelf_ = 0, shelf_height_ = 0;
};

}  // namespace pondtrim
