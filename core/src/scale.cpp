#include <initializer_list>
#include <pondtrim/scale.hpp>

#include "faults.hpp"

namespace pondtrim {

namespace {

std::optional<Error> faultIn(const FullSize& f) {
  struct Limit {
    const char* field;
    double value, least, most;
  };
  const Limit limits[] = {{"scale.scale", f.scale, 1, 1000},
                          {"scale.length", f.length, 0.1, 1000},
                          {"scale.breadth", f.breadth, 0.01, 100},
                          {"scale.height", f.height, 0.01, 100},
                          {"scale.draft", f.draft, 0.01, f.height},
                          {"scale.fullness", f.fullness, 0.1, 1},
                          {"scale.displacement", f.displacement.value_or(1), 1e-3, 1e9}};
  for (const Limit& l : limits)
    if (auto error = outside(l.field, l.value, l.least, l.most)) return error;
  return std::nullopt;
}

}  // namespace

Result<ScaledModel> scaleDown(const FullSize& f, const Water& pond) {
  if (auto error = faultIn(f)) return fail(*error);
  const auto sea = waterDensity(f.sea), water = waterDensity(pond);
  if (!sea) return fail(sea.error());
  if (!water) return fail(water.error());
  const double full = f.displacement ? *f.displacement / *sea : f.fullness * f.length * f.breadth * f.draft;
  ScaledModel m{f.length / f.scale, f.breadth / f.scale, f.height / f.scale, f.draft / f.scale};
  m.volume = full / (f.scale * f.scale * f.scale);
  m.mass = m.volume * *water;
  m.estimated = !f.displacement;
  return m;
}

}  // namespace pondtrim
