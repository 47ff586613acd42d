#pragma once
// The only error type of the core. Nothing throws across the core's edge: a wrong *input* comes back as an
// Error, an unwelcome *physical result* (a boat that sinks) is an ordinary value, and a broken promise of
// ours is an assert.
#include <string>
#include <tl/expected.hpp>
#include <utility>

namespace pondtrim {

/// A wrong input. `field` is the path of the value at fault as the boat file spells it without the unit
/// suffix ("cylinders[0].wall_thickness"); where two values disagree, `other_field` names the second one.
/// `was` and `allowed` are in SI when they are numbers; the edge (file, screen) puts in the person's units.
struct Error {
  std::string field;
  std::string was;
  std::string allowed;
  std::string other_field;
  std::string message;  ///< one plain sentence, complete without the other members

  bool operator==(const Error&) const = default;
};

template <class T>
using Result = tl::expected<T, Error>;

[[nodiscard]] inline tl::unexpected<Error> fail(Error e) { return tl::unexpected<Error>(std::move(e)); }

}  // namespace pondtrim
