#pragma once
// Wrong numbers become Errors here, so that every message has the same form.
#include <optional>
#include <pondtrim/result.hpp>
#include <string>

namespace pondtrim {

/// "%.9g": enough to recognise what was typed.
std::string numberText(double v);

/// An Error when `v` is not finite or not within [least, most].
std::optional<Error> outside(const std::string& field, double v, double least, double most);

}  // namespace pondtrim
