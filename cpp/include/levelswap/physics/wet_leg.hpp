#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// A differential-pressure level transmitter on two taps: high side on the
/// lower tap, low side on a leg full of water from the upper one.
///
/// Levels are measured from the lower tap. With the level h between the taps
/// (Bernoulli at rest; common instrument textbooks):
///     Δp = g·[ρ_liquid·h + ρ_vapour·(H − h) − ρ_leg·H].
/// All results enclose the value over the given ranges. An open tank is the
/// same with ρ_vapour = ρ_leg = 0.
struct WetLeg {
    Length taps;      ///< H, distance between the taps
    Density liquid;   ///< in the vessel
    Density vapour;   ///< above it
    Density leg;      ///< in the wet leg
};

/// The difference at a level; the level lies between the taps.
PressureDifference wet_leg_difference(WetLeg const& state, Length level);

/// The difference at the lower tap, −g·H·(ρ_leg − ρ_vapour), and at the upper
/// one, −g·H·(ρ_leg − ρ_liquid). Both are signed: texts disagree on what they
/// call elevated and suppressed.
PressureDifference lower_range_value(WetLeg const& state);
PressureDifference upper_range_value(WetLeg const& state);

/// What a transmitter `below` the lower tap reads in addition, at every level:
/// g·y·(ρ_high − ρ_low) of the fillings of its two tubes below the tap.
PressureDifference mount_offset(Length below, Density high_tube, Density low_tube);

/// The level that a transmitter shows, ranged for the state `ranged`, when the
/// vessel is in the state `now`: H·(Δp − LRV)/(URV − LRV). The taps are those
/// of `ranged`, whose liquid must be denser than its vapour.
Length indicated_level(WetLeg const& ranged, WetLeg const& now, Length level);

/// Indicated less true level: positive reads high. The legs of the two states are
/// anything in their ranges, or one leg whose water is denser now by `leg_gains`.
Length level_error(WetLeg const& ranged, WetLeg const& now, Length level);
Length level_error(WetLeg const& ranged, WetLeg const& now, Density leg_gains, Length level);

/// How much higher it reads when the top of the leg has lost its water over a
/// length: lost·(ρ_leg − ρ_vapour)/(ρ_liquid − ρ_vapour of the range). Half a
/// leg makes an empty boiler look half full.
Length lost_leg_error(WetLeg const& ranged, WetLeg const& now, Length lost);

}  // namespace levelswap::physics
