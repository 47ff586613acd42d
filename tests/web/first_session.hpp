#pragma once
#include <doctest/doctest.h>

#include "session/presets.hpp"
#include "session/session.hpp"

namespace pondtrim::test {

/// The app as it starts for the first time: the first preset.
inline Session firstSession() {
  auto document = preset(0);
  REQUIRE(document);
  auto session = Session::start(std::move(*document));
  REQUIRE(session);
  return std::move(*session);
}

}  // namespace pondtrim::test
