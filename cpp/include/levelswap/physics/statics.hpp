#pragma once

#include "levelswap/base/interval.hpp"
#include "levelswap/physics/swing.hpp"

namespace levelswap::physics {

/// How deep a float sits and what it displaces; metres and cubic metres, each
/// result an enclosure over the given ranges.
///
/// The draught is measured from the float's lowest point; it is cut to what the
/// float has (its diameter, or the height of an upright cylinder). `height` is
/// ignored for a sphere.
Interval submerged_volume(FloatForm form, Interval diameter, Interval height, Interval draught);

/// The whole float under water: times density and gravity, the largest buoyancy.
Interval full_volume(FloatForm form, Interval diameter, Interval height);

/// The draught at which `volume` is displaced; at most the whole float, since
/// one that needs more than its own volume sinks.
Interval draught_for(FloatForm form, Interval diameter, Interval height, Interval volume);

/// The largest upward force [N] on a float wholly under water of the density [kg/m³].
Interval largest_buoyancy(FloatForm form, Interval diameter, Interval height, Interval density);

/// The draught at which buoyancy balances a downward force [N]: weight less
/// what the arm carries, plus what the switch asks for.
Interval draught_carrying(FloatForm form, Interval diameter, Interval height, Interval force, Interval density);

/// Height of the waterline above the float's centre; negative when less than
/// half of the float is under water.
Interval waterline_above_centre(FloatForm form, Interval diameter, Interval height, Interval draught);

/// Standard gravity [m/s²], exact by definition (3rd CGPM, 1901).
inline constexpr double standard_gravity = 9.80665;

}  // namespace levelswap::physics
