#include "widgets/letters.hpp"

#include <emscripten.h>

#include <algorithm>
#include <cmath>

namespace pondtrim {
namespace {

constexpr int kWidth = 1024;  // of the texture; any phone takes it
constexpr int kWide = 2048;   // for letters beyond kLarge
constexpr float kLarge = 60;  // texels
constexpr int kGap = 1;       // texels between letters
constexpr int kWhite = 4;     // texels a side, for what has one colour
constexpr float kEm = 0.86f;  // of a line's height: room for accents and tails

// clang-format off
// Measures letters into floats, seven a letter (see LetterAtlas::Letter), and answers how far the face's baseline
// lies below the middle of its line.
EM_JS(float, measureLetters, (float em, int bold, const int* points, int count, float* letters), {
  const pen = Module.letters = Module.letters || document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  pen.font = `${bold ? 'bold ' : ""}${em}px sans-serif`;
  let line;
  for (let i = 0; i < count; i++) {
    // Signs that may also be small coloured pictures are asked for as signs (Unicode's variation selector 15).
    const m = line = pen.measureText(String.fromCodePoint(HEAP32[(points >> 2) + i], 0xfe0e));
    HEAPF32.set([m.width, m.actualBoundingBoxLeft, m.actualBoundingBoxAscent, m.actualBoundingBoxRight,
      m.actualBoundingBoxDescent], (letters >> 2) + 7 * i);
  }
  // A browser that does not say (Firefox before 116, from memory): as in most faces.
  return (line.fontBoundingBoxAscent - line.fontBoundingBoxDescent) / 2 || 0.35 * em;
})

EM_JS(void, clearLetters, (int width, int height, int white), {
  Object.assign(Module.letters.canvas, { width, height });
  Module.letters.fillRect(0, 0, white, white);
})

EM_JS(void, paintLetters, (float em, int bold, const int* points, int count, const float* letters), {
  const pen = Module.letters;
  pen.font = `${bold ? 'bold ' : ""}${em}px sans-serif`;
  for (let i = 0; i < count; i++) {
    const at = (letters >> 2) + 7 * i;
    pen.fillText(String.fromCodePoint(HEAP32[(points >> 2) + i], 0xfe0e), HEAPF32[at + 5], HEAPF32[at + 6]);
  }
})

// Only their coverage is wanted: Dear ImGui gives the colour.
EM_JS(void, whitenLetters, (), {
  const pen = Module.letters;
  pen.globalCompositeOperation = 'source-in';
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, pen.canvas.width, pen.canvas.height);
})

EM_JS(void, uploadLetters, (), {
  GLctx.pixelStorei(GLctx.UNPACK_PREMULTIPLY_ALPHA_WEBGL, false);
  GLctx.texImage2D(GLctx.TEXTURE_2D, 0, GLctx.RGBA, GLctx.RGBA, GLctx.UNSIGNED_BYTE, Module.letters.canvas);
})
// clang-format on

}  // namespace

LetterAtlas::LetterAtlas() {
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  atlas.Clear();
  atlas.Flags |= ImFontAtlasFlags_NoBakedLines | ImFontAtlasFlags_NoMouseCursors;
  pen_x_ = shelf_height_ = kWhite + kGap;
}

ImFont* LetterAtlas::add(float height, Weight weight, const ImWchar* ranges) {
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  Face face{IM_NEW(ImFont)(), height * kEm, 0, weight, {}, {}};
  atlas.Fonts.push_back(face.font);
  face.font->ContainerAtlas = &atlas;
  face.font->FontSize = height;
  for (const ImWchar* range = ranges; *range != 0; range += 2)
    for (int point = range[0]; point <= range[1]; ++point) face.points.push_back(point);
  face.letters.resize(face.points.size());
  static_assert(sizeof(Letter) == 7 * sizeof(float));
  const float below_middle = measureLetters(face.em, weight == Weight::Bold, face.points.data(),
                                            static_cast<int>(face.points.size()), &face.letters[0].advance);
  face.baseline = std::round(height / 2 + below_middle);
  faces_.push_back(std::move(face));
  return faces_.back().font;
}

/// On the shelf, or on a new one. Whole texels, so that no letter is blurred.
void LetterAtlas::place(Letter& letter) {
  letter.left = std::ceil(letter.left), letter.right = std::ceil(letter.right);
  letter.top = std::ceil(letter.top), letter.bottom = std::ceil(letter.bottom);
  const int width = static_cast<int>(letter.left + letter.right) + kGap;
  const int atlas_width = ImGui::GetIO().Fonts->TexWidth;
  if (pen_x_ + width > atlas_width) {
    pen_x_ = 0;
    shelf_ += shelf_height_;
    shelf_height_ = 0;
  }
  letter.x = static_cast<float>(pen_x_) + letter.left;
  letter.y = static_cast<float>(shelf_) + letter.top;
  pen_x_ += width;
  shelf_height_ = std::max(shelf_height_, static_cast<int>(letter.top + letter.bottom) + kGap);
}

void LetterAtlas::give(const Face& face, float width, float height) const {
  // Digits all take the same room, or a number would twitch while it changes.
  float digit = 0;
  for (std::size_t i = 0; i < face.points.size(); ++i)
    if (face.points[i] >= '0' && face.points[i] <= '9') digit = std::max(digit, face.letters[i].advance);
  for (std::size_t i = 0; i < face.points.size(); ++i) {
    const Letter& l = face.letters[i];
    const bool is_digit = face.points[i] >= '0' && face.points[i] <= '9';
    const float advance = is_digit ? digit : l.advance;
    const float pen = std::round((advance - l.advance) / 2);
    face.font->AddGlyph(nullptr, static_cast<ImWchar>(face.points[i]), pen - l.left, face.baseline - l.top,
                        pen + l.right, face.baseline + l.bottom, (l.x - l.left) / width,
                        (l.y - l.top) / height, (l.x + l.right) / width, (l.y + l.bottom) / height, advance);
  }
  face.font->Ascent = face.baseline;
  face.font->Descent = face.baseline - face.font->FontSize;
  face.font->BuildLookupTable();
}

void LetterAtlas::draw() {
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  const bool large = std::any_of(faces_.begin(), faces_.end(),
                                 [](const Face& face) { return face.font->FontSize > kLarge; });
  atlas.TexWidth = large ? kWide : kWidth;
  for (Face& face : faces_)
    for (Letter& letter : face.letters) place(letter);
  atlas.TexHeight = shelf_ + shelf_height_;
  const auto width = static_cast<float>(atlas.TexWidth), height = static_cast<float>(atlas.TexHeight);
  clearLetters(atlas.TexWidth, atlas.TexHeight, kWhite);
  for (const Face& face : faces_) {
    paintLetters(face.em, face.weight == Weight::Bold, face.points.data(),
                 static_cast<int>(face.points.size()), &face.letters[0].advance);
    give(face, width, height);
  }
  whitenLetters();
  atlas.TexUvWhitePixel = ImVec2(kWhite / 2 / width, kWhite / 2 / height);
  atlas.TexReady = true;
}

void LetterAtlas::upload() { uploadLetters(); }

}  // namespace pondtrim
