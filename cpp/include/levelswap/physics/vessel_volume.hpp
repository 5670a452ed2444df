#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// What a vessel holds between two levels, and its free surface at one.
///
/// Levels are measured from the lowest point inside and cut to the vessel; two
/// levels in the wrong order hold nothing. Pass the water's own room: tubes and
/// other things inside are not taken off.

/// Floor of a round tank, π·d²/4.
Area round_floor(Length diameter);

/// A tank with vertical sides, between two levels. It has no top: cut the upper
/// level to the overflow.
Volume upright_volume(Area floor, Length low, Length high);

/// A horizontal cylinder with flat ends, such as a drum: its length times the
/// segment of the circle, r²·acos((r − h)/r) − (r − h)·√(2rh − h²).
Volume horizontal_cylinder_volume(Length diameter, Length length, Length low, Length high);

/// Free surface in a horizontal cylinder, 2·length·√(h·(d − h)); zero above and below it.
Area horizontal_cylinder_surface(Length diameter, Length length, Length level);

}  // namespace levelswap::physics
