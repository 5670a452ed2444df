#pragma once

// What bounds the set pressure of a reducing valve: below, that enough flows after droop, losses and lift; above, that
// everything shuts after lock-up. feed.regulator_window asks for one set pressure that suits every valve of the line;
// feed.valve_opening and feed.valve_nearly_shut ask at an end of that window, so that the three together hold where one
// set pressure suits all.

#include "feed_line.hpp"

namespace levelswap::families {

/// What the valves of a line ask of the pressure before them.
#define LEVELSWAP_WINDOW_SLOTS                                                                                        \
    LEVELSWAP_LINE_SLOTS, LEVELSWAP_VALVE_SLOTS, Slot{From::solenoid_valve, Attribute::acts_by},                      \
        Slot{From::solenoid_valve, Attribute::most_differential},                                                     \
        Slot{From::solenoid_valve, Attribute::least_differential},                                                    \
        Slot{From::feed_valve, Attribute::most_differential}, Slot{From::actuator, Attribute::most_differential}

inline constexpr Interval no_limit{1e9};   // Pa: above every pressure of the table

/// What a pilot-operated solenoid valve keeps for itself while it is open.
template <class In>
Interval pilot_share(In const& in) {
    auto const pilot = in.template is<From::solenoid_valve, Attribute::acts_by>(bits<Attribute::acts_by>("pilot"));
    auto const least = in.template measure<From::solenoid_valve, Attribute::least_differential>().si();
    if (pilot == Truth::fails) return {0};
    return pilot == Truth::holds ? least : hull(Interval{0}, least);
}

/// What the demand takes in the solenoid valve, and in the feed valve at a coefficient.
template <class In>
Interval solenoid_drop(In const& in) {
    if (!in.template has<From::solenoid_valve, Attribute::flow_coefficient>()) return {0};
    auto const open = physics::drop_at(demand_of(in), in.template measure<From::solenoid_valve, Attribute::flow_coefficient>(),
                                       line_water(in)).si();
    return max(open, pilot_share(in));
}
template <class In>
Interval feed_valve_drop(In const& in, FlowCoefficient coefficient) {
    if (!in.template has<From::feed_valve, Attribute::flow_coefficient>()) return {0};
    return physics::drop_at(demand_of(in), coefficient, line_water(in)).si();
}
template <class In>
Interval feed_valve_drop(In const& in) {
    return feed_valve_drop(in, in.template measure<From::feed_valve, Attribute::flow_coefficient>());
}

/// The pressure before a valve below which a drop is more than the choked one: p1 >= drop / FL^2 + FF * pv.
template <class In>
Interval unchoked_inlet(In const& in, Interval drop, Interval recovery) {
    auto const vapour = physics::saturation_pressure(in.template measure<From::line, Attribute::water_temperature>());
    return drop / square(max(recovery, Interval{0.01})) + physics::critical_pressure_ratio_factor(vapour) * vapour.si() -
           in.template measure<From::vessel, Attribute::atmosphere>().si();
}

/// Before the valves of the line, for the demand.
template <class In>
Interval needed_in_line(In const& in) {
    if (!has_line_valve(in)) return back_pressure(in);
    auto const drop = solenoid_drop(in) + feed_valve_drop(in);
    return max(back_pressure(in) + drop, unchoked_inlet(in, drop, line_recovery(in)));
}

/// The highest pressure before the valves of the line at which each of them shuts, or opens again.
template <class In>
Interval shuts_in_line(In const& in) {
    Interval limit = no_limit;
    auto const back = back_pressure(in);
    auto add = [&](bool there, PressureDifference most) { if (there) limit = min(limit, most.si() + back); };
    add(in.template has<From::solenoid_valve, Attribute::most_differential>(), in.template measure<From::solenoid_valve, Attribute::most_differential>());
    add(in.template has<From::feed_valve, Attribute::most_differential>(), in.template measure<From::feed_valve, Attribute::most_differential>());
    add(in.template has<From::actuator, Attribute::most_differential>(), in.template measure<From::actuator, Attribute::most_differential>());
    return limit;
}

/// The set pressure that leaves so much before the valves while the demand flows.
template <class In>
Interval set_for_flow(In const& in, Interval at_valves) {
    return at_valves + in.template measure<From::reducing_valve, Attribute::droop>().si() + losses_after(in) + rise_after(in);
}

/// The set pressure that lets no more stand before the valves. A supply that everything shuts against needs no
/// reducing valve to keep it down.
template <class In>
Interval set_for_standing(In const& in, Interval at_valves) {
    auto const at_outlet = at_valves + rise_after(in);
    if (upstream_standing(in).hi <= at_outlet.lo) return no_limit;
    Interval const set = at_outlet - in.template measure<From::reducing_valve, Attribute::lock_up>().si();
    return upstream_standing(in).lo <= at_outlet.hi ? Interval{set.lo, no_limit.hi} : set;
}

template <class In>
Interval lowest_set(In const& in, Interval needed_at_valves) {
    return max(in.template measure<From::reducing_valve, Attribute::set_low>().si(), set_for_flow(in, needed_at_valves));
}
template <class In>
Interval highest_set(In const& in, Interval shuts_at_valves) {
    return min(in.template measure<From::reducing_valve, Attribute::set_high>().si(), set_for_standing(in, shuts_at_valves));
}

}  // namespace levelswap::families
