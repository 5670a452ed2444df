#pragma once

// How hot the water gets that a part of the vessel meets.

#include "levelswap/physics/water.hpp"
#include "levelswap/rules/rule.hpp"

#include <algorithm>

namespace levelswap::families {

#define LEVELSWAP_HOT_WATER_SLOTS                                                                                     \
    Slot{From::vessel, Attribute::mawp}, Slot{From::vessel, Attribute::atmosphere},                                   \
        Slot{From::vessel, Attribute::vessel_kind}, Slot{From::vessel, Attribute::vessel_service},                        \
        Slot{From::vessel, Attribute::water_temperature}

/// A tank and a hot-water boiler keep a temperature of their own; a steam boiler stands at saturation.
template <class In>
Truth keeps_its_temperature(In const& in) {
    if (in.template none<From::vessel, Attribute::water_temperature>()) return Truth::fails;
    return std::max(in.template is<From::vessel, Attribute::vessel_kind>(bits<Attribute::vessel_kind>("tank")),
                    in.template is<From::vessel, Attribute::vessel_service>(bits<Attribute::vessel_service>("hot_water")));
}

/// The temperature of a steam boiler at saturation at MAWP; of a tank and a hot-water boiler their own, as far as
/// saturation where that is not known.
template <class In>
Temperature hottest_water(In const& in) {
    auto const saturation = physics::saturation_temperature(
        absolute(in.template measure<From::vessel, Attribute::mawp>(), in.template measure<From::vessel, Attribute::atmosphere>()));
    Truth const tank = keeps_its_temperature(in);
    if (tank == Truth::fails) return saturation;
    Interval const own = min(in.template measure<From::vessel, Attribute::water_temperature>().quanta, saturation.quanta);
    return {tank == Truth::holds ? own : hull(own, saturation.quanta)};
}

/// The density of that water.
template <class In>
Density hot_density(In const& in) {
    auto const pressure = absolute(in.template measure<From::vessel, Attribute::mawp>(), in.template measure<From::vessel, Attribute::atmosphere>());
    auto const boiling = physics::saturated_liquid_density(pressure);
    Truth const tank = keeps_its_temperature(in);
    if (tank == Truth::fails) return boiling;
    auto const own = physics::liquid_density(hottest_water(in), pressure);
    return tank == Truth::holds ? own : Density{hull(own.quanta, boiling.quanta)};
}

}  // namespace levelswap::families
