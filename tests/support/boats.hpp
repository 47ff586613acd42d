#pragma once
// Boats for the tests. Invented.
#include <pondtrim/boat.hpp>
#include <string>
#include <vector>

namespace pondtrim::test {

/// A metre-long boat with one of everything: two skins, domed cylinder, tank with a bulkhead and a measured
/// capacity, mirrored parts, every role and every shape. Floats upright; dives to a little buoyancy.
Boat fullBoat();
/// A bare cylinder with flat ends, a tank and a keel: nothing but closed forms.
Boat plainBoat();

/// The full boat with every other form of skin on it.
Boat formsBoat();

struct NamedBoat {
  std::string name;
  Boat boat;
};
/// Those above, and every boat in presets/boats.
std::vector<NamedBoat> allBoats();

}  // namespace pondtrim::test
