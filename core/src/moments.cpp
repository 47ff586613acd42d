#include "moments.hpp"

namespace pondtrim {

Cut& Cut::operator+=(const Cut& o) {
  volume += o.volume;
  moment += o.moment;
  plane_area += o.plane_area;
  plane_moment += o.plane_moment;
  addScaled(plane_second, o.plane_second, 1.0);
  return *this;
}

Cut& Cut::operator*=(double k) {
  volume *= k;
  moment *= k;
  plane_area *= k;
  plane_moment *= k;
  addScaled(plane_second, plane_second, k - 1.0);
  return *this;
}

Cut shifted(const Cut& cut, const Vec3& shift) {
  Cut out = cut;
  out.moment += shift * cut.volume;
  addSymmetric(out.plane_second, cut.plane_moment, shift, 1.0);
  addOuter(out.plane_second, shift, cut.plane_area);
  out.plane_moment += shift * cut.plane_area;
  return out;
}

Cut SolidGatherer::cut() const {
  Cut plane;
  plane.plane_area = plane_.area;
  plane.plane_moment = plane_.first;
  plane.plane_second = plane_.second;
  Cut out = shifted(plane, foot_);
  out.volume = volume_;
  out.moment = moment_ + u_ * depth_;
  return out;
}

}  // namespace pondtrim
