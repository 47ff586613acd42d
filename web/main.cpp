// The window and the loop: frames are drawn only while the app owes some.
#include <GLFW/glfw3.h>
#include <emscripten.h>
#include <emscripten/html5.h>
#include <imgui.h>

#include <cstdio>

#include "app.hpp"
#include "browser/browser.hpp"
#include "session/store.hpp"

namespace {

using pondtrim::App;

App* g_app = nullptr;  // lives as long as the page
bool g_looping = false;

EM_BOOL tick(double time, void*) {
  g_looping = g_app->frame(time);
  return g_looping ? EM_TRUE : EM_FALSE;
}

void wake() {
  if (g_looping) return;
  g_looping = true;
  emscripten_request_animation_frame_loop(tick, nullptr);
}

constexpr const char* kCanvas = "#canvas";

struct Size {
  int width = 0, height = 0;
};
Size canvasSize() {
  Size size;
  emscripten_get_canvas_element_size(kCanvas, &size.width, &size.height);
  return size;
}

// Not glfwSetWindowSize: with a size equal to the screen's it asks for full screen.
void setCanvasSize(int width, int height) {
  const Size was = canvasSize();
  if (was.width != width || was.height != height) emscripten_set_canvas_element_size(kCanvas, width, height);
}

/// The page has made canvas and context already (shell/index.html).
bool openWindow() {
  if (glfwInit() == 0) return false;
  glfwWindowHint(GLFW_CLIENT_API, GLFW_OPENGL_ES_API);
  const Size size = canvasSize();
  GLFWwindow* window = glfwCreateWindow(size.width, size.height, "Pondtrim", nullptr, nullptr);
  if (window == nullptr) return false;
  glfwMakeContextCurrent(window);
  return true;
}

}  // namespace

int main() {
  if (!openWindow()) {
    std::fprintf(stderr, "This browser gives no WebGL 2 picture.\n");
    return 1;
  }
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.ConfigInputTextCursorBlink = false;  // an open text field must not need frames
  io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;

  pondtrim::Renderer renderer;
  auto session = pondtrim::resumeSession();
  if (!session) {
    std::fprintf(stderr, "%s\n", session.error().message.c_str());
    return 1;
  }
  g_app = new App(std::move(renderer), std::move(*session), setCanvasSize, wake);
  pondtrim::browser::listen([](std::string_view message) { return g_app->handle(message); });
  return 0;
}
