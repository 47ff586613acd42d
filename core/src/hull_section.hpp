#pragma once
// The cross-sections of the hull's forms, station by station: shared by their meshes and by what is fitted
// inside them. x from the form's aft end, z from its axis [m].
#include <optional>
#include <pondtrim/hull.hpp>
#include <vector>

#include "fair_hull.hpp"

namespace pondtrim {

/// Size of a section, 0 to 1, at t from the shoulder (0) to the tip (1).
double taper(double t, double power, double root);

/// Radius at x; 0 outside. Formulas and their sources: boat.hpp.
double radiusAt(const SuboffForm& f, double x);
double radiusAt(const MyringForm& f, double x);

/// How much of a SUBOFF's tail is its cap: 0.3125 ft of 3.645833.
inline constexpr double kSuboffCapShare = 3.0 / 35;

double lengthOf(const MyringForm& f);

/// Sections of a hull; of any other form there are none.
class HullSections {
 public:
  explicit HullSections(const SkinForm& form);

  /// The port side from keel to deck at x; outside: empty. Of a mesh, which need not have two like sides, the
  /// greatest half breadth at each height.
  [[nodiscard]] std::vector<Vec3> outline(double x) const;
  /// Half breadth at x and z; 0 outside.
  [[nodiscard]] double halfBreadth(double x, double z) const;

 private:
  const SkinForm& form_;
  std::optional<FairHull> fair_;
  [[nodiscard]] std::vector<Vec3> meshOutline(double x) const;
  std::optional<Mesh> mesh_;
  mutable double last_x_ = -1e300;  ///< most ask again at the same place
  mutable std::vector<Vec3> last_;
};

}  // namespace pondtrim
