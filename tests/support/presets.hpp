#pragma once
// The files of presets, found where they are so that a new one is tested without a change here.
#include <pondtrim/file/boat_file.hpp>
#include <string>
#include <vector>

namespace pondtrim::test {

/// The whole text of a file, by its path in the checkout. Fails the test when it cannot be read.
std::string textOf(const std::string& path_in_checkout);

/// Paths in the checkout of every presets/boats/*.boat.json, sorted. Fails the test when there are none.
std::vector<std::string> presetPaths();

/// A boat that must be readable.
file::BoatDocument presetBoat(const std::string& path_in_checkout);

}  // namespace pondtrim::test
