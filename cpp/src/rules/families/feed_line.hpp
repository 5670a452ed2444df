#pragma once

// What the rules on the feed side share: the pressures of a feed line while it flows and while it stands, and what it
// must pass. Pressures are pascals over the atmosphere.
//
// A line is taken in this order: supply, pump, losses, reducing valve, losses behind it, the valves that open and shut.
// The reducing valve stands where it is said to stand, so far below the vessel; its set pressure is what a gauge beside
// it shows. Set pressures are a setting: a rule asks at the one that suits it, feed.regulator_window asks for one that
// suits all (feed_window.hpp).

#include "levelswap/physics/float_valve.hpp"
#include "levelswap/physics/make_up.hpp"
#include "levelswap/physics/statics.hpp"
#include "levelswap/physics/valve_sizing.hpp"
#include "levelswap/physics/water.hpp"
#include "levelswap/rules/rule.hpp"

#include <cmath>

namespace levelswap::families {

#define LEVELSWAP_LINE_SLOTS                                                                                          \
    Slot{From::line, Attribute::supply_pressure}, Slot{From::line, Attribute::line_losses},                           \
        Slot{From::line, Attribute::losses_after}, Slot{From::line, Attribute::lift},                                 \
        Slot{From::line, Attribute::lift_after}, Slot{From::line, Attribute::water_temperature},                      \
        Slot{From::vessel, Attribute::atmosphere}, Slot{From::vessel, Attribute::working_pressure},                   \
        Slot{From::pump, Attribute::pump_pressure}, Slot{From::pump, Attribute::shut_off},                            \
        Slot{From::reducing_valve, Attribute::set_low}, Slot{From::reducing_valve, Attribute::set_high},              \
        Slot{From::reducing_valve, Attribute::droop}, Slot{From::reducing_valve, Attribute::lock_up},                 \
        Slot{From::reducing_valve, Attribute::flow_coefficient}, Slot{From::line, Attribute::demand},                 \
        Slot{From::line, Attribute::into}, Slot{From::vessel, Attribute::evaporation},                                \
        Slot{From::vessel, Attribute::blowdown}

/// The valves of the line that open and shut, in series.
#define LEVELSWAP_VALVE_SLOTS                                                                                         \
    Slot{From::solenoid_valve, Attribute::flow_coefficient}, Slot{From::solenoid_valve, Attribute::recovery},         \
        Slot{From::feed_valve, Attribute::flow_coefficient}, Slot{From::feed_valve, Attribute::recovery}

template <class In>
bool reduced(In const& in) {
    return in.template has<From::reducing_valve, Attribute::set_low>();
}

template <class In>
Density line_water(In const& in) {
    return physics::liquid_density(in.template measure<From::line, Attribute::water_temperature>(),
                                   absolute(in.template measure<From::line, Attribute::supply_pressure>(),
                                            in.template measure<From::vessel, Attribute::atmosphere>()));
}

/// What the line must pass. A boiler takes its evaporation and the blowdown, unless the line is said to pass less or
/// more; where the two lie apart the larger counts.
template <class In>
MassFlow demand_of(In const& in) {
    auto const stated = in.template measure<From::line, Attribute::demand>();
    auto const boiler = in.template is<From::line, Attribute::into>(bits<Attribute::into>("boiler"));
    if (boiler == Truth::fails) return stated;
    auto const taken = physics::feed_demand(in.template measure<From::vessel, Attribute::evaporation>(),
                                            in.template measure<From::vessel, Attribute::blowdown>());
    Interval const x = stated.quanta, y = taken.quanta;
    Interval const both_hold = x.lo > y.hi || y.lo > x.hi ? max(x, y) : Interval{std::max(x.lo, y.lo), std::min(x.hi, y.hi)};
    return {boiler == Truth::holds ? both_hold : hull(x, both_hold)};
}

/// The weight of the water that stands over a height.
template <class In>
Interval rise(In const& in, Length height) {
    return physics::column_pressure(height, line_water(in)).si();
}

/// From the reducing valve up to the valves.
template <class In>
Interval rise_after(In const& in) {
    return rise(in, in.template measure<From::line, Attribute::lift_after>());
}
template <class In>
Interval losses_after(In const& in) {
    return in.template measure<From::line, Attribute::losses_after>().si();
}

/// All losses of the line, whether or not its place for a reducing valve is filled.
template <class In>
PressureDifference all_losses(In const& in) {
    auto const before = in.template measure<From::line, Attribute::line_losses>();
    if (!in.template has_place<From::reducing_valve, Attribute::set_low>()) return before;
    return before + in.template measure<From::line, Attribute::losses_after>();
}

/// Height over the supply of the reducing valve, or of the valves where there is none.
template <class In>
Length upstream_height(In const& in) {
    auto const whole = in.template measure<From::line, Attribute::lift>();
    return reduced(in) ? whole - in.template measure<From::line, Attribute::lift_after>() : whole;
}

/// Before the reducing valve, or before the valves where there is none.
template <class In>
Interval upstream_flowing(In const& in) {
    auto const losses = reduced(in) ? in.template measure<From::line, Attribute::line_losses>() : all_losses(in);
    return in.template measure<From::line, Attribute::supply_pressure>().si() - rise(in, upstream_height(in)) +
           in.template measure<From::pump, Attribute::pump_pressure>().si() - losses.si();
}
template <class In>
Interval upstream_standing(In const& in) {
    return in.template measure<From::line, Attribute::supply_pressure>().si() - rise(in, upstream_height(in)) +
           in.template measure<From::pump, Attribute::shut_off>().si();
}

template <class In>
Interval reducing_drop(In const& in) {
    return physics::drop_at(demand_of(in), in.template measure<From::reducing_valve, Attribute::flow_coefficient>(),
                            line_water(in)).si();
}

/// What the supply leaves at the height of the valves while nothing but height takes from it: where on the way the
/// reducing valve stands is the same to a line that is wide open.
template <class In>
Interval supply_at_the_valves(In const& in) {
    return in.template measure<From::line, Attribute::supply_pressure>().si() - rise(in, in.template measure<From::line, Attribute::lift>());
}

/// At the valves while the demand flows, with the reducing valve at a set pressure, or wide open.
template <class In>
Interval flowing_at(In const& in, Interval set) {
    auto const droop = in.template measure<From::reducing_valve, Attribute::droop>().si();
    auto const wide_open = supply_at_the_valves(in) + in.template measure<From::pump, Attribute::pump_pressure>().si() -
                           in.template measure<From::line, Attribute::line_losses>().si() - reducing_drop(in);
    return min(set - droop - rise_after(in), wide_open) - losses_after(in);
}

/// At the valves while the demand flows, with the reducing valve set as high as it goes.
template <class In>
Interval flowing_pressure(In const& in) {
    if (!reduced(in)) return upstream_flowing(in);
    return flowing_at(in, in.template measure<From::reducing_valve, Attribute::set_high>().si());
}

/// At the valves while they are shut, with the reducing valve set as low as it goes.
template <class In>
Interval standing_pressure(In const& in) {
    if (!reduced(in)) return upstream_standing(in);
    auto const set = in.template measure<From::reducing_valve, Attribute::set_low>().si() +
                     in.template measure<From::reducing_valve, Attribute::lock_up>().si();
    return min(set - rise_after(in), supply_at_the_valves(in) + in.template measure<From::pump, Attribute::shut_off>().si());
}

template <class In>
Interval back_pressure(In const& in) {
    return in.template measure<From::vessel, Attribute::working_pressure>().si();
}

/// Two coefficients in series: 1/C² adds up.
inline FlowCoefficient in_series(FlowCoefficient x, FlowCoefficient y) {
    auto at = [](double a, double b) { return a <= 0 || b <= 0 ? 0.0 : a * b / std::hypot(a, b); };
    return {widened({at(x.quanta.lo, y.quanta.lo), at(x.quanta.hi, y.quanta.hi)}, 4)};
}

template <class In>
bool has_line_valve(In const& in) {
    return in.template has<From::solenoid_valve, Attribute::flow_coefficient>() ||
           in.template has<From::feed_valve, Attribute::flow_coefficient>();
}

/// Solenoid valve and feed valve, as one.
template <class In>
FlowCoefficient line_coefficient(In const& in) {
    auto const solenoid = in.template measure<From::solenoid_valve, Attribute::flow_coefficient>();
    auto const feed = in.template measure<From::feed_valve, Attribute::flow_coefficient>();
    if (!in.template has<From::feed_valve, Attribute::flow_coefficient>()) return solenoid;
    return in.template has<From::solenoid_valve, Attribute::flow_coefficient>() ? in_series(solenoid, feed) : feed;
}

template <class In>
Interval line_recovery(In const& in) {
    return (in.template has<From::feed_valve, Attribute::recovery>()
                ? in.template measure<From::feed_valve, Attribute::recovery>()
                : in.template measure<From::solenoid_valve, Attribute::recovery>()).si();
}

template <class In>
physics::ValveStream stream_at(In const& in, Interval inlet) {
    auto const atmosphere = in.template measure<From::vessel, Attribute::atmosphere>().si();
    return {AbsolutePressure::from_si(inlet + atmosphere), AbsolutePressure::from_si(back_pressure(in) + atmosphere),
            physics::saturation_pressure(in.template measure<From::line, Attribute::water_temperature>()), line_water(in)};
}

/// What passes a valve fully open while the line flows, after IEC 60534-2-1.
template <class In, class T>
void compare_capacity(In const& in, T& t, FlowCoefficient coefficient, Interval recovery) {
    auto const stream = stream_at(in, flowing_pressure(in));
    auto const choked = physics::choked_drop(stream, recovery);
    auto const drop = physics::sizing_drop(stream, choked);
    t.note("pressure difference across the valve while it flows", PressureDifference::from_si(flowing_pressure(in) - back_pressure(in)));
    t.note("drop beyond which the flow is choked", choked);
    t.at_least("flow that passes fully open", physics::mass_through(coefficient, drop, stream.density), demand_of(in));
}

}  // namespace levelswap::families
