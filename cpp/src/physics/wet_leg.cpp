#include "levelswap/physics/wet_leg.hpp"

#include "corners.hpp"
#include "levelswap/physics/statics.hpp"

namespace levelswap::physics {

namespace {

Interval const gravity{standard_gravity};

/// In metres of a density of 1: liquid·h + vapour·(H − h) − leg·H. Linear in
/// each of the five, as is what is made of it below.
Interval heads(Interval taps, Interval liquid, Interval vapour, Interval leg, Interval level) {
    return level * (liquid - vapour) - taps * (leg - vapour);
}

/// H·(Δp − LRV)/(URV − LRV) less `share` times the level: a quotient of functions
/// linear in each variable, so monotone along each axis. Of the leg only what it
/// has gained in density counts.
Length reading(WetLeg const& ranged, WetLeg const& now, Density leg_gains, Length level, double share) {
    std::array<Interval, 7> const box{ranged.taps.si(), ranged.liquid.si(), ranged.vapour.si(), leg_gains.si(),
                                      now.liquid.si(),  now.vapour.si(),    level.si()};
    return Length::from_si(over_corners(box, [&](auto const& at) {
        auto const& [taps, full, empty, gains, liquid, vapour, height] = at;
        Interval const above_zero = height * (liquid - vapour) + taps * ((vapour - empty) - gains);
        Interval const span = full - empty;
        return (above_zero - Interval{share} * (height * span)) / span;
    }));
}

PressureDifference leg_head(Length taps, Density heavy, Density light) {
    return PressureDifference::from_si(-(gravity * taps.si() * (heavy.si() - light.si())));
}

}  // namespace

PressureDifference wet_leg_difference(WetLeg const& state, Length level) {
    std::array<Interval, 5> const box{state.taps.si(), state.liquid.si(), state.vapour.si(), state.leg.si(), level.si()};
    return PressureDifference::from_si(over_corners(box, [](auto const& at) {
        return gravity * heads(at[0], at[1], at[2], at[3], at[4]);
    }));
}

PressureDifference lower_range_value(WetLeg const& state) { return leg_head(state.taps, state.leg, state.vapour); }

PressureDifference upper_range_value(WetLeg const& state) { return leg_head(state.taps, state.leg, state.liquid); }

PressureDifference mount_offset(Length below, Density high_tube, Density low_tube) {
    return PressureDifference::from_si(gravity * below.si() * (high_tube.si() - low_tube.si()));
}

Length indicated_level(WetLeg const& ranged, WetLeg const& now, Length level) {
    return reading(ranged, now, now.leg - ranged.leg, level, 0);
}

Length level_error(WetLeg const& ranged, WetLeg const& now, Length level) {
    return level_error(ranged, now, now.leg - ranged.leg, level);
}

Length level_error(WetLeg const& ranged, WetLeg const& now, Density leg_gains, Length level) {
    return reading(ranged, now, leg_gains, level, 1);
}

Length lost_leg_error(WetLeg const& ranged, WetLeg const& now, Length lost) {
    Interval const lighter = now.leg.si() - now.vapour.si();
    Interval const span = ranged.liquid.si() - ranged.vapour.si();
    return Length::from_si(lost.si() * lighter / span);
}

}  // namespace levelswap::physics
