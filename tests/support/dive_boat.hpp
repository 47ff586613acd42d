#pragma once
// An invented boat for the dive: a main cylinder, on it a slim tube that is one long ballast tank, a sail.
// Everything lies symmetric about x = 0.5 m and about the centreline. With the tank full half the sail shows.
#include <pondtrim/boat.hpp>

namespace pondtrim::test {

/// `bg`: height of the centre of buoyancy over that of gravity, tank full and all under water [m].
/// `tube_length`: of the slim tube [m]; the tank in it stays from x = 0.27 to 0.73 m.
Boat longTankBoat(double bg = 0.012, double tube_length = 0.5);

}  // namespace pondtrim::test
