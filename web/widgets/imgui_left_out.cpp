// Stands in for parts of Dear ImGui that no screen uses, so that they stay out of the page: see
// web/imgui_left_out.hpp.
#include <imgui.h>
#include <imgui_internal.h>

/// Would bring the built-in font, 12 kB of it.
ImFont* ImFontAtlas::AddFontDefault(const ImFontConfig*) { return nullptr; }

// There are no tables.
void ImGui::TableSettingsAddSettingsHandler() {}
void ImGui::TableGcCompactSettings() {}
void ImGui::TableGcCompactTransientBuffers(ImGuiTable*) {}
void ImGui::TableGcCompactTransientBuffers(ImGuiTableTempData*) {}
