#pragma once

#include "levelswap/base/interval.hpp"

#include <cstdint>

namespace levelswap::physics {

/// A float swinging on its arm inside a chamber: where it is, what it clears,
/// and how far it can go.
///
/// Frame: origin at the centre of the chamber's mounting face, x into the
/// chamber, z up. The tilt is positive when the inward normal of the face
/// rises. The pivot sits `along` the normal and `across` it; theta is the arm's
/// angle from the normal, so the float stands at
///     x = along·cos(tilt) − across·sin(tilt) + arm·cos(theta + tilt)
///     z = along·sin(tilt) + across·cos(tilt) + arm·sin(theta + tilt).
/// Every member encloses the true value; lengths in metres, angles in radians.
/// Results enclose the answer for every choice of facts in the box. A clearance
/// of exactly zero passes.
enum class FloatForm : std::uint8_t { sphere, cylinder };

struct SwingFacts {
    Interval along;      ///< pivot from the face, along the inward normal; may be negative
    Interval across;     ///< pivot across the normal, upward positive
    Interval arm;        ///< pivot to float centre, positive
    Interval tilt;
    Interval arm_width;  ///< thickness of the arm where it passes the throat
    FloatForm form = FloatForm::sphere;
    Interval diameter;
    Interval height;       ///< of a cylinder, which turns with the arm; ignored for a sphere
    Interval ceiling;      ///< elevation from the face centre
    Interval floor;        ///< elevation from the face centre, negative below it
    Interval bore;         ///< inside diameter of the chamber
    Interval axis;         ///< face to the vertical axis of the bore
    Interval throat_at;    ///< narrowest place of the opening, from the face
    Interval throat_half;  ///< half its height
    Interval stop_low;     ///< the head's own stops
    Interval stop_high;
    Interval rest;         ///< a position the float certainly takes, e.g. hanging
};

/// Elevation of the float's centre at the arm angle `theta`.
Interval float_height(SwingFacts const& facts, Interval theta);

/// Distance of the float's centre from the face, level with the ground.
Interval float_distance(SwingFacts const& facts, Interval theta);

enum class Obstacle : std::uint8_t { none, stop, ceiling, floor, far_wall, near_wall, throat };

/// Signed clearances in metres; negative means interference.
struct Gaps {
    Interval ceiling;
    Interval floor;
    Interval side;    ///< the nearer of far and near wall
    Interval throat;  ///< of the arm, not of the float
};
Gaps gaps(SwingFacts const& facts, Interval theta);

/// The connected set of arm angles that holds the rest position and where
/// nothing touches. Angles from low.hi to high.lo are reached whatever the
/// facts in the box are; no angle below low.lo or above high.hi ever is.
/// Bounds are resolved to about a microradian.
struct Reach {
    Interval low;
    Interval high;
    Obstacle low_by = Obstacle::none;   ///< what first stops the float downward
    Obstacle high_by = Obstacle::none;  ///< and upward
    bool possible = true;  ///< false: the rest position is impossible for all facts; bounds mean nothing
    bool certain = true;   ///< the rest position is free for all facts
};
Reach reach(SwingFacts const& facts);

/// The least clearance at the walls and in the throat over the whole arc
/// between the head's own stops. Uncertain stops: the widest arc counts for
/// the lower bound and the narrowest for the upper (infinite when the stops are
/// too uncertain to leave an arc in every case).
Interval side_clearance(SwingFacts const& facts);

}  // namespace levelswap::physics
