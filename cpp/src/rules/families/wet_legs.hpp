#pragma once

// The fillings of a differential-pressure transmitter's two sides, as a rule or a level sees them.

#include "levelswap/physics/water.hpp"
#include "levelswap/physics/wet_leg.hpp"
#include "levelswap/rules/rule.hpp"

namespace levelswap::families {

#define LEVELSWAP_LEG_SLOTS                                                                                                \
    Slot{From::station, Attribute::tapping_spacing}, Slot{From::station, Attribute::low_leg},                              \
        Slot{From::station, Attribute::leg_temperature}, Slot{From::station, Attribute::calibrated_low},                   \
        Slot{From::station, Attribute::calibrated_high}, Slot{From::station, Attribute::calibrated_pressure},              \
        Slot{From::vessel, Attribute::atmosphere}, Slot{From::vessel, Attribute::vessel_service},                          \
        Slot{From::vessel, Attribute::water_temperature}, Slot{From::transmitter, Attribute::range_low},                   \
        Slot{From::transmitter, Attribute::range_high}

inline constexpr auto wet_leg = bits<Attribute::low_leg>("wet");
inline constexpr auto on_steam = bits<Attribute::vessel_service>("steam");

template <class In>
Density cold_water(In const& in, AbsolutePressure p) {
    return physics::liquid_density(in.template measure<From::station, Attribute::leg_temperature>(), p);
}

/// The fillings at a pressure. A steam boiler is at saturation; over other water there is as good as nothing.
template <class In>
physics::WetLeg state_at(In const& in, GaugePressure gauge, bool leg_is_wet) {
    auto const p = absolute(gauge, in.template measure<From::vessel, Attribute::atmosphere>());
    auto const service = in.template cell<From::vessel, Attribute::vessel_service>().may;
    auto const boiling = physics::saturated_liquid_density(p), vapour = physics::saturated_vapour_density(p);
    auto const still = physics::liquid_density(in.template measure<From::vessel, Attribute::water_temperature>(), p);
    auto either = [&](Density in_steam, Density otherwise) {
        if (service == on_steam) return in_steam;
        return (service & on_steam) == 0 ? otherwise : Density{hull(in_steam.quanta, otherwise.quanta)};
    };
    auto const above = either(vapour, Density{{0}});
    return {in.template measure<From::station, Attribute::tapping_spacing>(), either(boiling, still), above,
            leg_is_wet ? cold_water(in, p) : above};
}

/// How much denser the leg is at one pressure than at the other. A temperature that varies may have changed meanwhile;
/// one that is not known exactly is the same one.
template <class In>
Density leg_gains(In const& in, GaugePressure from, GaugePressure to, bool leg_is_wet) {
    auto const before = state_at(in, from, leg_is_wet).leg, after = state_at(in, to, leg_is_wet).leg;
    auto const& leg = in.template cell<From::station, Attribute::leg_temperature>();
    if (!leg_is_wet || leg.varying) return after - before;
    auto const atmosphere = in.template measure<From::vessel, Attribute::atmosphere>();
    return physics::compression(in.template measure<From::station, Attribute::leg_temperature>(), absolute(from, atmosphere), absolute(to, atmosphere));
}

/// How much more a transmitter ranged at one pressure shows of a level at another than is there.
template <class In>
Length shows_more(In const& in, GaugePressure ranged, GaugePressure now, bool leg_is_wet, Length level) {
    return physics::level_error(state_at(in, ranged, leg_is_wet), state_at(in, now, leg_is_wet),
                                leg_gains(in, ranged, now, leg_is_wet), level);
}

/// Calls `with(wet)` for each way in which the low side may be connected and joins what it returns.
template <class In, class F>
Interval over_legs(In const& in, F with) {
    auto const may = in.template cell<From::station, Attribute::low_leg>().may;
    bool const both_ways = may != wet_leg && (may & wet_leg) != 0;
    return both_ways ? hull(with(true), with(false)) : with(may == wet_leg);
}

}  // namespace levelswap::families
