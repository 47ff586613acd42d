#pragma once
// Comes before each source of Dear ImGui. Its functions become weak, so that ours in
// widgets/imgui_left_out.cpp take the place of those that would only make the page larger. And the C
// library's sscanf stays out: of all that Dear ImGui would read with it, the app has only the shaders'
// "#version 300 es". Before drawing, it asks the browser for all that it is going to change, and each such
// question waits until the graphics process has drawn what it was given; the renderer answers instead, who
// sets all it needs anew in every frame (renderer/renderer.cpp).
#include <cstdio>
#include <cstdlib>

inline int readVersion(const char* text, const char*, void* version, ...) {
  *static_cast<int*>(version) = std::atoi(text + sizeof "#version");
  return 1;
}
#define IMGUI_API __attribute__((weak))
#define sscanf readVersion
#define glGetIntegerv pondtrimGetIntegerv
#define glIsEnabled pondtrimIsEnabled
#define glGetShaderiv pondtrimGetShaderiv
#define glGetProgramiv pondtrimGetProgramiv
