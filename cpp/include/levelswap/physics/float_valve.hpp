#pragma once

#include "levelswap/base/dimension.hpp"
#include "levelswap/physics/swing.hpp"

namespace levelswap::physics {

/// The lever of a tank's float valve as it stands when the valve just closes:
/// moments round its hinge. Arms are horizontal distances in that position (a
/// textbook's sin of the angle is already in them). Each result encloses the
/// value over the given ranges.
struct FloatValve {
    FloatForm form = FloatForm::sphere;
    Length diameter;
    Length height;         ///< of an upright cylinder; ignored for a sphere
    Mass mass;             ///< of the float
    Length float_arm;      ///< hinge to the float's centre
    Moment lever;          ///< the lever's own weight, positive when it opens the valve
    Area seat;             ///< on which the water presses, unbalanced
    Length seat_arm;       ///< hinge to the seat's axis
};

/// What closes it with the float under water to a draught:
/// (ρ·V − m)·g·b − lever; negative when the float hangs on the lever.
Moment closing_moment(FloatValve const& valve, Density water, Length draught);

/// What opens it: k·Δp·A·a; k for friction and a tight seat, about 1.15
/// (common practice, no source).
Moment opening_moment(FloatValve const& valve, PressureDifference across, Interval margin);

/// The largest pressure across the seat against which it shuts, with the float
/// allowed to sink to a draught: (closing moment)/(k·A·a). Zero when it does not
/// close at all.
PressureDifference largest_shut_off_pressure(FloatValve const& valve, Density water, Length draught, Interval margin);
/// The same with a volume of it allowed under water.
PressureDifference largest_shut_off_pressure(FloatValve const& valve, Density water, Volume under, Interval margin);

/// The draught at which it shuts against a pressure; at most the whole float,
/// and then `shut_off_reserve` says whether that is enough.
Length shut_off_draught(FloatValve const& valve, Density water, PressureDifference across, Interval margin);

/// The level at which it shuts: the draught above the float's lowest point, with
/// the float's centre at the elevation where the valve is closed.
Length shut_off_level(FloatValve const& valve, Density water, PressureDifference across, Interval margin, Length centre);

/// Closing less opening moment with the whole float under water: below zero the
/// valve bleeds through at any level. Equality shuts.
Moment shut_off_reserve(FloatValve const& valve, Density water, PressureDifference across, Interval margin);

}  // namespace levelswap::physics
