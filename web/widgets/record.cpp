// The record of controls, and Dear ImGui's item hooks, which see every item whether a widget of ours drew it
// or not: what nobody has recorded still gets into the mirror, under Dear ImGui's own label.
#include <imgui_internal.h>

#include <algorithm>
#include <cstring>

#include "widgets/ui.hpp"

namespace pondtrim {
namespace {

Ui* uiOf(ImGuiContext* context) { return static_cast<Ui*>(context->IO.UserData); }

const char* partOf(ImGuiWindow* window) { return window->RootWindow->Name; }

ImVec4 inCss(const ImRect& r, float ratio) {
  return {r.Min.x / ratio, r.Min.y / ratio, r.Max.x / ratio, r.Max.y / ratio};
}

/// The keyboard comes to the item just drawn, in sight and with its ring.
void focusItem() {
  ImGuiContext& g = *ImGui::GetCurrentContext();
  if (g.LastItemData.ID == 0) return;
  ImGui::SetFocusID(g.LastItemData.ID, g.CurrentWindow);
  g.NavDisableHighlight = false;
  ImGui::ScrollToRectEx(g.CurrentWindow, g.LastItemData.NavRect, ImGuiScrollFlags_KeepVisibleCenterY);
}

}  // namespace

void Ui::record(const std::string& name, const char* role, const std::string& label,
                const std::string& value) {
  ImGuiContext& g = *ImGui::GetCurrentContext();
  const ImRect whole = g.LastItemData.Rect;
  ImRect seen = whole;
  seen.ClipWith(g.CurrentWindow->ClipRect);
  if (seen.GetWidth() <= 0 || seen.GetHeight() <= 0) seen = ImRect();
  // A status often repeats the paragraph that shows it: one of them is enough.
  const bool repeated = !value.empty() && !controls.empty() &&
                        std::strcmp(controls.back().role, "words") == 0 && controls.back().label == value;
  if (repeated) controls.pop_back();
  Control control{
      name, role, label, value, inCss(whole, ratio), inCss(seen, ratio), {}, partOf(g.CurrentWindow)};
  control.item = g.LastItemData.ID;
  control.disabled = (g.CurrentItemFlags & ImGuiItemFlags_Disabled) != 0;
  controls.push_back(std::move(control));
  if (!name.empty() && deed.what == Deed::What::Focus && deed.name == name) {
    focusItem();
    deed = {};
  }
}

bool Ui::takePress(const std::string& name) {
  if (deed.what != Deed::What::Press || deed.name != name) return false;
  deed.what = Deed::What::Focus;
  return (ImGui::GetCurrentContext()->CurrentItemFlags & ImGuiItemFlags_Disabled) == 0;
}

std::optional<std::string> Ui::takeSet(const std::string& name) {
  if (deed.what != Deed::What::Set || deed.name != name) return std::nullopt;
  deed.what = Deed::What::Focus;
  return deed.text;
}

void Ui::adoptItems() {
  for (const HookedItem& item : items) {
    const auto recorded = [&](const Control& c) { return c.item == item.id; };
    if (std::any_of(controls.begin(), controls.end(), recorded)) continue;
    const ImRect whole(item.whole.x, item.whole.y, item.whole.z, item.whole.w);
    const std::string label = item.label.substr(0, item.label.find("##"));
    Control control{"item." + std::to_string(item.id),
                    item.editable ? "text" : "button",
                    label,
                    {},
                    inCss(whole, ratio),
                    inCss(whole, ratio),
                    {},
                    item.part};
    control.item = item.id;
    control.disabled = item.disabled;
    controls.push_back(std::move(control));
  }
}

void focusRing(const Ui& ui, float radius_css) {
  if (!ImGui::IsItemFocused() || ImGui::GetCurrentContext()->NavDisableHighlight) return;
  const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const float in = ui.px(2.5f);  // light within dark: seen on every ground
  draw->AddRect(low, high, theme::kAccent, ui.px(radius_css), 0, ui.px(3));
  draw->AddRect({low.x + in, low.y + in}, {high.x - in, high.y - in}, theme::kPlate, ui.px(radius_css - 2.5f),
                0, ui.px(2));
}

}  // namespace pondtrim

void ImGuiTestEngineHook_ItemAdd(ImGuiContext* context, ImGuiID id, const ImRect& box,
                                 const ImGuiLastItemData* data) {
  pondtrim::Ui* ui = pondtrim::uiOf(context);
  ImGuiWindow* window = context->CurrentWindow;
  if (ui == nullptr || window == nullptr || data == nullptr || window->IsFallbackWindow) return;
  // Not operated by themselves: windows, and scroll bars, which follow the keyboard.
  if (id == window->ID || id == window->MoveId || (data->InFlags & ImGuiItemFlags_NoNav) != 0) return;
  ui->items.push_back({id,
                       {box.Min.x, box.Min.y, box.Max.x, box.Max.y},
                       pondtrim::partOf(window),
                       {},
                       (data->InFlags & ImGuiItemFlags_Disabled) != 0,
                       false});
}

void ImGuiTestEngineHook_ItemInfo(ImGuiContext* context, ImGuiID id, const char* label,
                                  ImGuiItemStatusFlags flags) {
  pondtrim::Ui* ui = pondtrim::uiOf(context);
  if (ui == nullptr || ui->items.empty() || ui->items.back().id != id) return;
  ui->items.back().label = label;
  ui->items.back().editable = (flags & ImGuiItemStatusFlags_Inputable) != 0;
}

void ImGuiTestEngineHook_Log(ImGuiContext*, const char*, ...) {}
const char* ImGuiTestEngine_FindItemDebugLabel(ImGuiContext*, ImGuiID) { return nullptr; }
