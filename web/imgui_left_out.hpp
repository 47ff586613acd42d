#pragma once
// Comes before each source of Dear ImGui. Its functions become weak, so that ours in
// widgets/imgui_left_out.cpp take the place of those that would only make the page larger. And the C
// library's sscanf stays out: of all that Dear ImGui would read with it, the app has only the shaders'
// "#version 300 es".
#include <cstdio>
#include <cstdlib>

inline int readVersion(const char* text, const char*, void* version, ...) {
  *static_cast<int*>(version) = std::atoi(text + sizeof "#version");
  return 1;
}
#define IMGUI_API __attribute__((weak))
#define sscanf readVersion
