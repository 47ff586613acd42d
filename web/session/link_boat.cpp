#include "session/link_boat.hpp"

#include <algorithm>
#include <glm/common.hpp>
#include <pondtrim/hull_mesh.hpp>
#include <pondtrim/thin_mesh.hpp>

namespace pondtrim {
namespace {

const MeshForm* meshOf(const Skin& skin) { return std::get_if<MeshForm>(&skin.form); }

/// False: she cannot be made so simple.
bool makeSimpler(Skin& skin, std::size_t most, LinkBoat& told) {
  const MeshForm& form = *meshOf(skin);
  const ThinnedMesh thin = thinMesh(unpackMesh(form), most);
  auto packed = packMesh(thin.mesh, {1.0, Facing::PlusX, Facing::PlusZ, false});
  if (!packed || (form.solid && !packed->mesh->closed())) return false;
  packed->solid = form.solid;
  Vec3 low(1e300), high(-1e300);
  for (const Vec3& v : thin.mesh.vertices) {
    low = glm::min(low, v);
    high = glm::max(high, v);
  }
  skin.position += Vec3(low.x, (low.y + high.y) / 2, low.z);  // its box may have become a little smaller
  told.triangles += packed->mesh->triangles().size() / 3;
  told.farthest = std::max(told.farthest, thin.farthest);
  skin.form = std::move(*packed);
  return true;
}

}  // namespace

bool hasMesh(const Boat& boat) {
  return std::any_of(boat.skins.begin(), boat.skins.end(),
                     [](const Skin& s) { return meshOf(s) != nullptr; });
}

LinkBoat linkBoat(const file::BoatDocument& document, std::size_t most) {
  LinkBoat whole{file::boatFragment(document)};
  if (!hasMesh(document.boat) || whole.fragment.size() <= most) return whole;
  for (const std::size_t triangles : {4000, 2800, 2000, 1400, 1000, 700, 500, 350, 250}) {
    LinkBoat simpler;
    file::BoatDocument copy = document;
    bool good = true;
    for (Skin& skin : copy.boat.skins)
      if (meshOf(skin) != nullptr) good = good && makeSimpler(skin, triangles, simpler);
    if (!good) break;
    simpler.fragment = file::boatFragment(copy);
    if (simpler.fragment.size() <= most) return simpler;
  }
  return {};
}

std::string linkSentence(const LinkBoat& boat, const std::string& what, const UnitSet& units) {
  if (boat.fragment.empty())
    return what + " cannot carry this hull, however simple it is made: send the file.";
  if (boat.triangles == 0) return {};
  return what + " carries a simpler hull: " + std::to_string(boat.triangles) + " triangles, within " +
         valueText(boat.farthest, Quantity::Length, units, 1) + " of hers.";
}

}  // namespace pondtrim
