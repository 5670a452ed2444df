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

/// How far the level rises in it when a volume comes in; no limit where it has no floor.
Length upright_rise(Area floor, Volume volume);

/// A horizontal cylinder with flat ends, such as a drum: its length times the
/// segment of the circle, r²·acos((r − h)/r) − (r − h)·√(2rh − h²).
Volume horizontal_cylinder_volume(Length diameter, Length length, Length low, Length high);

/// Free surface in a horizontal cylinder, 2·length·√(h·(d − h)); zero above and below it.
Area horizontal_cylinder_surface(Length diameter, Length length, Length level);

/// How far above `from` (or, falling, below it) the level is when the drum has taken in (given out) a volume. No limit
/// where it has not the room. The result encloses the value over the given ranges.
Length horizontal_cylinder_rise(Length diameter, Length length, Length from, Volume volume);
Length horizontal_cylinder_fall(Length diameter, Length length, Length from, Volume volume);

}  // namespace levelswap::physics
