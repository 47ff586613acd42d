#include "renderer/renderer.hpp"

#include <GLES3/gl3.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <glm/gtc/type_ptr.hpp>

#include "embedded.hpp"
#include "widgets/letters.hpp"
#include "widgets/palette.hpp"

// What Dear ImGui's drawing asks of OpenGL (imgui_left_out.hpp), answered without waiting: nothing is bound
// or enabled when it begins, and its own shaders compile.
extern "C" {
GL_APICALL void pondtrimGetIntegerv(GLenum name, GLint* out) {
  switch (name) {
    case GL_ACTIVE_TEXTURE:
      *out = GL_TEXTURE0;
      break;
    case GL_BLEND_EQUATION_RGB:
    case GL_BLEND_EQUATION_ALPHA:
      *out = GL_FUNC_ADD;
      break;
    case GL_MAJOR_VERSION:
      *out = 3;
      break;
    case GL_VIEWPORT:
    case GL_SCISSOR_BOX:
      for (int i = 0; i < 4; ++i) out[i] = 0;
      break;
    default:
      *out = 0;
  }
}
GL_APICALL GLboolean pondtrimIsEnabled(GLenum) { return GL_FALSE; }
GL_APICALL void pondtrimGetShaderiv(GLuint, GLenum name, GLint* out) { *out = name == GL_COMPILE_STATUS; }
GL_APICALL void pondtrimGetProgramiv(GLuint, GLenum name, GLint* out) { *out = name == GL_LINK_STATUS; }
}

// Dear ImGui's own would read the letters from its atlas, which has none: the page painted them.
bool ImGui_ImplOpenGL3_CreateFontsTexture() {
  GLuint texture = 0;
  glGenTextures(1, &texture);
  glBindTexture(GL_TEXTURE_2D, texture);
  for (const GLenum side : {GL_TEXTURE_WRAP_S, GL_TEXTURE_WRAP_T})
    glTexParameteri(GL_TEXTURE_2D, side, GL_CLAMP_TO_EDGE);
  for (const GLenum filter : {GL_TEXTURE_MIN_FILTER, GL_TEXTURE_MAG_FILTER})
    glTexParameteri(GL_TEXTURE_2D, filter, GL_LINEAR);
  pondtrim::LetterAtlas::upload();
  ImGui::GetIO().Fonts->SetTexID(reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(texture)));
  return true;
}

void ImGui_ImplOpenGL3_DestroyFontsTexture() {
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  const auto texture = static_cast<GLuint>(reinterpret_cast<std::uintptr_t>(atlas.TexID));
  glDeleteTextures(1, &texture);
  atlas.SetTexID(nullptr);
}

namespace pondtrim {
namespace {

const char* shaderText(const char* name) {
  for (const EmbeddedFile* f = kShaders; f->name != nullptr; ++f)
    if (std::strcmp(f->name, name) == 0) return reinterpret_cast<const char*>(f->data);
  return "";
}

GLuint compile(GLenum type, const char* name) {
  const GLuint shader = glCreateShader(type);
  const char* text = shaderText(name);
  glShaderSource(shader, 1, &text, nullptr);
  glCompileShader(shader);
  return shader;
}

struct Program {
  GLuint id = 0, vertex = 0, fragment = 0;
};

/// Begins to link; asking how that went would wait for it.
Program link(const char* vertex, const char* fragment) {
  const Program out{glCreateProgram(), compile(GL_VERTEX_SHADER, vertex),
                    compile(GL_FRAGMENT_SHADER, fragment)};
  glAttachShader(out.id, out.vertex);
  glAttachShader(out.id, out.fragment);
  glLinkProgram(out.id);
  return out;
}

/// Waits for it. A contributor's mistake in a shader is told in the browser's words.
void finish(const Program& program) {
  for (const GLuint shader : {program.vertex, program.fragment}) {
    GLint good = 0;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &good);
    if (good == 0) {
      char log[512];
      glGetShaderInfoLog(shader, sizeof log, nullptr, log);
      std::fprintf(stderr, "%s\n", log);
    }
    glDeleteShader(shader);
  }
}

/// A vertex buffer with its layout.
struct Buffer {
  GLuint array = 0, buffer = 0;
  GLsizei count = 0;

  void create() {
    glGenVertexArrays(1, &array);
    glGenBuffers(1, &buffer);
    glBindVertexArray(array);
    glBindBuffer(GL_ARRAY_BUFFER, buffer);
  }
  template <class T>
  void fill(const std::vector<T>& data) {
    count = static_cast<GLsizei>(data.size());
    glBindBuffer(GL_ARRAY_BUFFER, buffer);
    glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(data.size() * sizeof(T)), data.data(),
                 GL_DYNAMIC_DRAW);
  }
  void draw() const {
    if (count == 0) return;
    glBindVertexArray(array);
    glDrawArrays(GL_TRIANGLES, 0, count);
  }
};

void attribute(GLuint place, GLint size, GLenum type, std::size_t stride, std::size_t offset) {
  glEnableVertexAttribArray(place);
  const GLboolean normalised = type == GL_UNSIGNED_BYTE ? GL_TRUE : GL_FALSE;
  glVertexAttribPointer(place, size, type, normalised, static_cast<GLsizei>(stride),
                        reinterpret_cast<const void*>(offset));
}

struct LineCorner {
  glm::vec3 from, to;
  glm::vec2 corner;
  Colour colour;
  glm::vec2 width_dash;
};

std::vector<LineCorner> lineCorners(const std::vector<Line>& lines, float ratio) {
  constexpr glm::vec2 kCorners[] = {{0, -1}, {1, -1}, {1, 1}, {0, -1}, {1, 1}, {0, 1}};
  std::vector<LineCorner> corners;
  corners.reserve(lines.size() * 6);
  for (const Line& line : lines)
    for (const glm::vec2& corner : kCorners)
      corners.push_back({line.from, line.to, corner, line.colour, glm::vec2(line.width, line.dash) * ratio});
  return corners;
}

using Corners = std::vector<glm::vec3>;

void addQuad(Corners& out, glm::vec3 a, glm::vec3 b, glm::vec3 c, glm::vec3 d) {
  out.insert(out.end(), {a, b, c, a, c, d});
}

/// The upright sides of the pond that face the viewer, or those that do not.
Corners pondSides(const Pond& pond, const glm::vec3& towards_viewer, bool facing) {
  const glm::vec3 l = pond.low, h = pond.high;
  Corners out;
  const auto side = [&](float outward, glm::vec2 a, glm::vec2 b) {
    if ((outward > 0.01f) != facing) return;
    addQuad(out, {a, l.z}, {b, l.z}, {b, h.z}, {a, h.z});
  };
  side(-towards_viewer.x, {l.x, l.y}, {l.x, h.y});
  side(towards_viewer.x, {h.x, l.y}, {h.x, h.y});
  side(-towards_viewer.y, {l.x, l.y}, {h.x, l.y});
  side(towards_viewer.y, {l.x, h.y}, {h.x, h.y});
  return out;
}

}  // namespace

struct Renderer::Device {
  GLuint hull = 0, water = 0, line = 0;
  std::vector<Program> begun;
  Buffer parts, cylinders, skins, tank_water, lines, pond;
  std::uint64_t revision = 0;

  Device() {
    begun = {link("hull.vert", "hull.frag"), link("water.vert", "water.frag"),
             link("line.vert", "line.frag")};
    hull = begun[0].id, water = begun[1].id, line = begun[2].id;
    for (Buffer* b : {&parts, &cylinders, &skins, &tank_water}) {
      b->create();
      attribute(0, 3, GL_FLOAT, sizeof(Vertex), offsetof(Vertex, position));
      attribute(1, 3, GL_FLOAT, sizeof(Vertex), offsetof(Vertex, normal));
      attribute(2, 4, GL_UNSIGNED_BYTE, sizeof(Vertex), offsetof(Vertex, colour));
    }
    pond.create();
    attribute(0, 3, GL_FLOAT, sizeof(glm::vec3), 0);
    lines.create();
    attribute(0, 3, GL_FLOAT, sizeof(LineCorner), offsetof(LineCorner, from));
    attribute(1, 3, GL_FLOAT, sizeof(LineCorner), offsetof(LineCorner, to));
    attribute(2, 2, GL_FLOAT, sizeof(LineCorner), offsetof(LineCorner, corner));
    attribute(3, 4, GL_UNSIGNED_BYTE, sizeof(LineCorner), offsetof(LineCorner, colour));
    attribute(4, 2, GL_FLOAT, sizeof(LineCorner), offsetof(LineCorner, width_dash));
    glBindVertexArray(0);
  }

  void finishPrograms() {
    for (const Program& program : begun) finish(program);
    begun.clear();
  }

  static void matrices(GLuint program, const Projection& p) {
    glUseProgram(program);
    glUniformMatrix4fv(glGetUniformLocation(program, "u_boat_to_world"), 1, GL_FALSE,
                       glm::value_ptr(p.boat_to_world));
    glUniformMatrix4fv(glGetUniformLocation(program, "u_world_to_clip"), 1, GL_FALSE,
                       glm::value_ptr(p.world_to_clip));
  }

  void drawFaces(const Corners& corners, float sky, float surface, float opacity) {
    glUniform1f(glGetUniformLocation(water, "u_sky"), sky);
    glUniform1f(glGetUniformLocation(water, "u_surface"), surface);
    glUniform1f(glGetUniformLocation(water, "u_opacity"), opacity);
    pond.fill(corners);
    pond.draw();
  }

  void useWater(const Scene& scene) {
    matrices(water, scene.projection);
    const float seen = 0.5f * (scene.projection.world_max.y - scene.projection.world_min.y);
    glUniform1f(glGetUniformLocation(water, "u_depth"), seen);
  }

  void drawBehind(const Scene& scene) {
    glDisable(GL_DEPTH_TEST);
    useWater(scene);
    Corners whole;
    addQuad(whole, {-1, -1, 0}, {1, -1, 0}, {1, 1, 0}, {-1, 1, 0});
    drawFaces(whole, 1, 0, 1);
    drawFaces(pondSides(scene.pond, scene.projection.towards_viewer, false), 0, 0, 0.55f);
    glEnable(GL_DEPTH_TEST);
  }

  void drawBoat(const Scene& scene) {
    matrices(hull, scene.projection);
    const glm::vec3 v = scene.projection.towards_viewer;
    glUniform3f(glGetUniformLocation(hull, "u_towards_viewer"), v.x, v.y, v.z);
    const GLint glass = glGetUniformLocation(hull, "u_glass");
    glUniform1f(glass, 0);
    parts.draw();
    tank_water.draw();
    glDepthMask(GL_FALSE);
    glUniform1f(glass, 0.16f);
    cylinders.draw();
    glEnable(GL_CULL_FACE);
    glUniform1f(glass, 0.12f);
    glCullFace(GL_FRONT);
    skins.draw();
    glCullFace(GL_BACK);
    glDepthMask(GL_TRUE);  // from here on the hull hides what lies behind it
    glUniform1f(glass, 0.18f);
    skins.draw();
    glDisable(GL_CULL_FACE);
  }

  void drawWaterInFront(const Scene& scene) {
    useWater(scene);
    glDepthMask(GL_FALSE);
    const Pond& pond_block = scene.pond;
    const glm::vec3 l = pond_block.low, h = pond_block.high;
    Corners top;
    addQuad(top, {l.x, l.y, h.z}, {h.x, l.y, h.z}, {h.x, h.y, h.z}, {l.x, h.y, h.z});
    if (scene.projection.towards_viewer.z > 0.01f) drawFaces(top, 0, 1, 0.45f);
    drawFaces(pondSides(pond_block, scene.projection.towards_viewer, true), 0, 0, 0.28f);
    glDepthMask(GL_TRUE);
  }

  void drawLines(const Scene& scene) {
    const Projection& p = scene.projection;
    matrices(line, p);
    glUniform2f(glGetUniformLocation(line, "u_picture"), p.size.width, p.size.height);
    glUniform1f(glGetUniformLocation(line, "u_lift"), 0.002f);
    lines.fill(lineCorners(scene.lines, p.size.ratio));
    lines.draw();
  }
};

Renderer::Renderer() {
  ImGui_ImplOpenGL3_Init("#version 300 es");
  device_ = std::make_unique<Device>();
}

Renderer::~Renderer() = default;
Renderer::Renderer(Renderer&&) noexcept = default;

void Renderer::beginFrame() { ImGui_ImplOpenGL3_NewFrame(); }

void Renderer::renewFonts() {
  if (ImGui::GetIO().Fonts->TexID == nullptr) {  // nothing of Dear ImGui's is there yet
    ImGui_ImplOpenGL3_CreateDeviceObjects();
    return;
  }
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
}

void Renderer::restore() {
  ImGui_ImplOpenGL3_DestroyDeviceObjects();
  ImGui_ImplOpenGL3_CreateDeviceObjects();
  device_ = std::make_unique<Device>();
}

void Renderer::clear(int width, int height) {
  glViewport(0, 0, width, height);
  glDisable(GL_SCISSOR_TEST);
  glDepthMask(GL_TRUE);
  const auto part = [](unsigned shift) { return static_cast<float>(theme::kPaper >> shift & 255u) / 255.0f; };
  glClearColor(part(0), part(8), part(16), 1.0f);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
}

void Renderer::drawScene(const Scene& scene, const BoatGeometry& geometry, std::uint64_t revision,
                         PixelRect where, int canvas_height) {
  device_->finishPrograms();
  if (revision != device_->revision) {
    device_->revision = revision;
    device_->parts.fill(geometry.parts);
    device_->cylinders.fill(geometry.cylinders);
    device_->skins.fill(geometry.skins);
  }
  device_->tank_water.fill(scene.tank_water);
  const int bottom = canvas_height - where.top - where.height;
  glViewport(where.left, bottom, where.width, where.height);
  glScissor(where.left, bottom, where.width, where.height);
  glEnable(GL_SCISSOR_TEST);
  glEnable(GL_BLEND);
  glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
  glDepthFunc(GL_LEQUAL);
  device_->drawBehind(scene);
  device_->drawBoat(scene);
  device_->drawWaterInFront(scene);
  device_->drawLines(scene);
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_DEPTH_TEST);
  glBindVertexArray(0);
}

void Renderer::drawPanels(ImDrawData* data) { ImGui_ImplOpenGL3_RenderDrawData(data); }

}  // namespace pondtrim
