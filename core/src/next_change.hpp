#pragma once
#include "outlook.hpp"

namespace pondtrim {

/// A place as the search sees it: its unit amount as a change of the unknowns.
struct Adjustable {
  std::size_t place = 0;    ///< in Boat::places
  std::size_t part = 0;     ///< in Boat::parts
  double now = 0.0;         ///< amount, or x on a rail
  int least = 0, most = 0;  ///< allowed whole steps from `now`
  double step = 0.0;
  Unknowns effect = Unknowns::Zero();                        ///< of one step
  UnknownCovariance wrong = UnknownCovariance::Zero();       ///< covariance that one step of cutting adds
  UnknownCovariance wrong_once = UnknownCovariance::Zero();  ///< and that any number of steps adds
};

/// The boat without her correction, and what may be changed in her.
struct Bench {
  Boat plain;
  Model file;
  double density = 0.0;  ///< of her water
  std::vector<Adjustable> places;
};
/// Error: as checkBoat.
[[nodiscard]] Result<Bench> benchOf(const Boat& boat, const Model* previous);

}  // namespace pondtrim
