#include <pondtrim/file/materials.hpp>

#include "field_reader.hpp"

namespace pondtrim::file {

template <class Io>
void fields(Io& io, Material& m) {
  io.requiredText("name", m.name);
  io.number("density", m.density);
  io.number("density_low", m.low);
  io.number("density_high", m.high);
  io.requiredText("source", m.source);
  io.text("note", m.note);
}

namespace {

Error outOfRange(std::size_t index) {
  Error e;
  e.field = "materials[" + std::to_string(index) + "].density_kg_per_m3";
  e.was = "outside its own range";
  e.allowed = "0 < density_low <= density <= density_high";
  e.message = e.field + " is " + e.was + "; allowed: " + e.allowed + ".";
  return e;
}

}  // namespace

Result<std::vector<Material>> readMaterials(std::string_view text) {
  const auto root = json::parse(text);
  if (!root) return fail(root.error());
  ReadState state;
  std::vector<Material> materials;
  FieldReader reader(state, *root, "");
  reader.version("pondtrim_materials", 1);
  reader.list("materials", materials);
  if (state.error) return fail(std::move(*state.error));
  for (std::size_t i = 0; i < materials.size(); ++i) {
    const Material& m = materials[i];
    if (!(m.low > 0.0 && m.low <= m.density && m.density <= m.high)) return fail(outOfRange(i));
  }
  return materials;
}

}  // namespace pondtrim::file
