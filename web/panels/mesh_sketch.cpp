// A hull from a file as it would lie in the boat: from the side and from astern, with the boat in hand as an
// outline to compare with.
#include <algorithm>
#include <array>
#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include "panels/screen.hpp"

namespace pondtrim {
namespace {

constexpr float kRim = 12, kMostSide = 130, kAstern = 120;  // CSS px

Colour mixed(Colour a, Colour b, double share) {
  Colour out = 0;
  for (int shift = 0; shift < 32; shift += 8) {
    const double from = (a >> shift) & 255, to = (b >> shift) & 255;
    out |= static_cast<Colour>(from + share * (to - from) + 0.5) << shift;
  }
  return out;
}

/// Looking along the boat: `across` to the right, z up, what has the greater `depth` in front.
struct View {
  Vec3 across, depth;
  Vec3 low{0.0}, high{0.0};
  ImVec2 corner{0, 0}, size{0, 0};
  double scale = 1;

  [[nodiscard]] ImVec2 at(const Vec3& p) const {
    const Vec3 middle = (low + high) / 2.0;
    return {corner.x + size.x / 2 + static_cast<float>(scale * glm::dot(p - middle, across)),
            corner.y + size.y / 2 - static_cast<float>(scale * (p.z - middle.z))};
  }
};

struct Facet {
  std::array<Vec3, 3> corners;
  double depth = 0, lit = 0;
};

std::vector<Facet> facetsOf(const MeshImport& import, const View& view) {
  const Mesh& mesh = import.sketch();
  const Vec3 light = glm::normalize(view.depth + 0.8 * Vec3(0, 0, 1) + 0.4 * view.across);
  std::vector<Facet> out;
  for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
    Facet f;
    for (std::size_t k = 0; k < 3; ++k) {
      f.corners[k] = import.inBoat(mesh.vertices[mesh.triangles[i + k]]);
      f.depth += glm::dot(f.corners[k], view.depth);
    }
    const Vec3 n = glm::cross(f.corners[1] - f.corners[0], f.corners[2] - f.corners[0]);
    const double length = glm::length(n);
    if (length <= 0) continue;
    const double facing = glm::dot(n, view.depth) < 0 ? -1 : 1;  // an open skin is seen from inside too
    f.lit = std::max(0.0, facing * glm::dot(n, light) / length);
    out.push_back(f);
  }
  std::sort(out.begin(), out.end(), [](const Facet& a, const Facet& b) { return a.depth < b.depth; });
  return out;
}

void drawBody(const MeshImport& import, const View& view) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;  // neighbours would show a seam
  const Colour dark = mixed(theme::kAccent, colour(0x000000), 0.4),
               pale = mixed(theme::kAccent, colour(0xffffff), 0.5);
  for (const Facet& f : facetsOf(import, view))
    draw->AddTriangleFilled(view.at(f.corners[0]), view.at(f.corners[1]), view.at(f.corners[2]),
                            mixed(dark, pale, f.lit));
  draw->Flags = flags;
}

void drawBoat(const Ui& ui, const Session& session, const View& view, const Plane& cut) {
  for (const SkinBody& skin : session.model().skins) {
    const std::vector<Vec3> ends = meshMeetsPlane(*skin.mesh, cut);
    for (std::size_t i = 0; i + 1 < ends.size(); i += 2)
      ImGui::GetWindowDrawList()->AddLine(view.at(ends[i]), view.at(ends[i + 1]), theme::kQuietInk,
                                          ui.px(1.5f));
  }
}

void drawView(const Ui& ui, const Session& session, const View& view, const Plane& cut) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const ImVec2 end(view.corner.x + view.size.x, view.corner.y + view.size.y);
  draw->AddRectFilled(view.corner, end, theme::kPlate, ui.px(10));
  draw->PushClipRect(view.corner, end, true);
  drawBody(session.meshImport(), view);
  drawBoat(ui, session, view, cut);
  const double line = session.boat().marks.line_height;
  const float y = view.at({0, 0, line}).y;
  draw->AddLine({view.corner.x, y}, {end.x, y}, theme::kLine, ui.px(1.5f));
  draw->PopClipRect();
}

}  // namespace

void drawMeshSketch(const Session& session, Screen& screen) {
  const Ui& ui = screen.ui;
  const MeshImport& import = session.meshImport();
  Vec3 low(1e300), high(-1e300);
  const auto take = [&](const Vec3& p) { low = glm::min(low, p), high = glm::max(high, p); };
  take(import.inBoat(import.found().low));
  take(import.inBoat(import.found().high));
  const Vec3 body = (low + high) / 2.0;
  for (const SkinBody& skin : session.model().skins)
    for (const Vec3& v : skin.mesh->vertices) take(v);
  const Vec3 size = glm::max(high - low, Vec3(1e-6));
  const float width = ImGui::GetContentRegionAvail().x, rim = ui.px(kRim);

  View side{{1, 0, 0}, {0, -1, 0}, low, high};
  side.scale = std::min((width - 2 * rim) / size.x, (ui.px(kMostSide) - 2 * rim) / size.z);
  side.corner = ImGui::GetCursorScreenPos();
  side.size = {width, static_cast<float>(side.scale * size.z) + 2 * rim};
  ImGui::Dummy(side.size);
  drawView(ui, session, side, {{0, 1, 0}, 1e-6});

  View astern{{0, -1, 0}, {-1, 0, 0}, low, high};
  const float room = ui.px(kAstern);
  astern.scale = std::min((room - 2 * rim) / size.z, (0.5 * width - 2 * rim) / size.y);
  astern.corner = ImGui::GetCursorScreenPos();
  astern.size = {static_cast<float>(astern.scale * size.y) + 2 * rim, room};
  astern.size.x = std::max(astern.size.x, ui.px(90));
  drawView(ui, session, astern, {{1, 0, 0}, body.x + 1e-6});
  ImGui::Dummy({astern.size.x, 0});
  ImGui::SameLine(0, ui.px(10));
  ImGui::BeginGroup();
  paragraph(
      screen.ui,
      "From the side, bow to the right; and from astern. Lines: the boat in hand, red her painted line.",
      theme::kQuietInk);
  ImGui::EndGroup();
  ImGui::SetCursorScreenPos(
      {astern.corner.x, std::max(ImGui::GetCursorScreenPos().y, astern.corner.y + astern.size.y + ui.px(4))});
  ImGui::Dummy({0, 0});
}

}  // namespace pondtrim
