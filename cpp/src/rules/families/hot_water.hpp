#pragma once

// How hot the water gets that a part of the vessel meets.

#include "levelswap/physics/water.hpp"
#include "levelswap/rules/rule.hpp"

namespace levelswap::families {

#define LEVELSWAP_HOT_WATER_SLOTS                                                                                     \
    Slot{From::vessel, Attribute::mawp}, Slot{From::vessel, Attribute::atmosphere},                                   \
        Slot{From::vessel, Attribute::vessel_kind}, Slot{From::vessel, Attribute::water_temperature}

/// A tank keeps its own temperature; everything else is taken at saturation.
template <class In>
Truth is_tank(In const& in) {
    if (in.template none<From::vessel, Attribute::water_temperature>()) return Truth::fails;
    return in.template is<From::vessel, Attribute::vessel_kind>(bits<Attribute::vessel_kind>("tank"));
}

/// The temperature of a boiler at saturation at MAWP; of a tank its own, as far as saturation where that is not known.
template <class In>
Temperature hottest_water(In const& in) {
    auto const saturation = physics::saturation_temperature(
        absolute(in.template measure<From::vessel, Attribute::mawp>(), in.template measure<From::vessel, Attribute::atmosphere>()));
    Truth const tank = is_tank(in);
    if (tank == Truth::fails) return saturation;
    Interval const own = min(in.template measure<From::vessel, Attribute::water_temperature>().quanta, saturation.quanta);
    return {tank == Truth::holds ? own : hull(own, saturation.quanta)};
}

/// The density of that water.
template <class In>
Density hot_density(In const& in) {
    auto const pressure = absolute(in.template measure<From::vessel, Attribute::mawp>(), in.template measure<From::vessel, Attribute::atmosphere>());
    auto const boiling = physics::saturated_liquid_density(pressure);
    Truth const tank = is_tank(in);
    if (tank == Truth::fails) return boiling;
    auto const own = physics::liquid_density(hottest_water(in), pressure);
    return tank == Truth::holds ? own : Density{hull(own.quanta, boiling.quanta)};
}

}  // namespace levelswap::families
