#pragma once
// What meshing a skin takes away.
#include <pondtrim/boat.hpp>

namespace pondtrim {

/// Area of the skin's form over that of its mesh (meshSkin, model.hpp), which is smaller as facets cut
/// corners: 1.0007 or so. Right to 0.002 %.
double facetFactor(const Skin& skin);

}  // namespace pondtrim
