// Stands in for parts of Dear ImGui that no screen uses, so that they stay out of the page: see
// web/imgui_left_out.hpp.
#include <imgui.h>
#include <imgui_internal.h>

/// Would bring the built-in font and all that reads fonts: the page draws the letters (letters.hpp).
bool ImFontAtlas::Build() { return true; }

// There are no tables.
void ImGui::TableSettingsAddSettingsHandler() {}
void ImGui::TableGcCompactSettings() {}
void ImGui::TableGcCompactTransientBuffers(ImGuiTable*) {}
void ImGui::TableGcCompactTransientBuffers(ImGuiTableTempData*) {}
