#include "feed.hpp"

#include "feed_window.hpp"

#include <algorithm>

namespace levelswap::families::feed {

namespace {

using enum From;
using A = Attribute;

bool feeds(Duty d) { return d == Duty::pump || d == Duty::make_up || d == Duty::modulating_feed; }

/// The valves of the line, fully open, pass the demand.
struct ValveCapacity {
    using Scope = Reads<LEVELSWAP_LINE_SLOTS, LEVELSWAP_VALVE_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!has_line_valve(in)) return t.not_applicable();
        compare_capacity(in, t, line_coefficient(in), line_recovery(in));
    }
};

#define LEVELSWAP_OPENING_SLOTS                                                                                       \
    LEVELSWAP_WINDOW_SLOTS, Slot{feed_valve, A::characteristic}, Slot{feed_valve, A::rangeability}

/// What `f` says of the feed valve, for every characteristic that it may have.
template <class In, class F>
std::optional<Interval> over_characteristics(In const& in, F f) {
    using physics::Characteristic;
    auto const may = in.template cell<feed_valve, A::characteristic>().may;
    std::optional<Interval> all;
    auto add = [&](std::uint64_t word, Characteristic c) {
        if (may & word) all = all ? hull(*all, f(c)) : f(c);
    };
    add(bits<A::characteristic>("linear"), Characteristic::linear);
    add(bits<A::characteristic>("equal_percentage"), Characteristic::equal_percentage);
    return all;
}

/// The opening of the feed valve at which it passes the demand, with so much pressure before the valves.
template <class In>
Interval opening_of(In const& in, Interval before) {
    auto const flow = demand_of(in);
    auto const drop = before - back_pressure(in) - solenoid_drop(in);
    auto const wanted = physics::required_coefficient(flow, PressureDifference::from_si(drop), line_water(in));
    auto const rated = in.template measure<feed_valve, A::flow_coefficient>();
    auto const range = in.template measure<feed_valve, A::rangeability>().si();
    auto const opening = over_characteristics(in, [&](auto c) { return physics::opening_for(c, range, rated, wanted); });
    // A valve that passes nothing, or nothing to pass: kept to figures that can be printed.
    return min(max(opening.value_or(Interval{-1, 10}), Interval{-1}), Interval{10});
}

/// The set pressure at which the feed valve stands at an opening while the demand flows.
template <class In>
GaugePressure set_for_opening(In const& in, Interval opening) {
    auto const rated = in.template measure<feed_valve, A::flow_coefficient>();
    auto const range = in.template measure<feed_valve, A::rangeability>().si();
    auto const drop = over_characteristics(in, [&](auto c) {
        return feed_valve_drop(in, physics::coefficient_at(c, rated, range, opening));
    });
    return GaugePressure::from_si(set_for_flow(in, back_pressure(in) + solenoid_drop(in) + drop.value_or(Interval{0, no_limit.hi})));
}

/// Asked at the highest set pressure at which everything shuts.
struct ValveOpening {
    using Scope = Reads<LEVELSWAP_OPENING_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<feed_valve, A::flow_coefficient>()) return t.not_applicable();
        auto const most = in.figure<Dimension::ratio>();
        auto before = flowing_pressure(in);
        if (reduced(in)) {
            before = flowing_at(in, highest_set(in, shuts_in_line(in)));
            t.note("lowest set pressure that leaves the feed valve travel", set_for_opening(in, most.si()), Step::End::least);
        }
        t.at_most("opening of the feed valve at full demand", Ratio::from_si(opening_of(in, before)), most);
    }
};

/// Asked at the lowest set pressure that feeds enough.
struct ValveNearlyShut {
    using Scope = Reads<LEVELSWAP_OPENING_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<feed_valve, A::flow_coefficient>()) return t.not_applicable();
        auto const least = in.figure<Dimension::ratio>();
        auto before = flowing_pressure(in);
        if (reduced(in)) {
            before = flowing_at(in, lowest_set(in, needed_in_line(in)));
            t.note("highest set pressure at which the feed valve is not nearly shut", set_for_opening(in, least.si()), Step::End::most);
        }
        t.at_least("opening of the feed valve at full demand", Ratio::from_si(opening_of(in, before)), least);
    }
};

/// Beyond the choked drop the water flashes in the valve: more drop brings wear and noise and no more flow.
struct Choked {
    using Scope = Reads<LEVELSWAP_LINE_SLOTS, LEVELSWAP_VALVE_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!has_line_valve(in)) return t.not_applicable();
        auto const inlet = flowing_pressure(in);
        t.note("drop at the valve while it flows", drop_at(in, inlet));
        t.note("drop beyond which the flow is choked", physics::choked_drop(stream_at(in, inlet), line_recovery(in)));
        // At one inlet pressure after the other: the share turns nowhere between them.
        t.at_most("drop at the valve as a share of the choked drop",
                  Ratio::from_si(hull(share(in, Interval{inlet.lo}), share(in, Interval{inlet.hi}))), Ratio::from_si(Interval{1}));
    }

private:
    static PressureDifference drop_at(Scope const& in, Interval inlet) {
        return PressureDifference::from_si(max(inlet - back_pressure(in), 0.0));
    }
    static Interval share(Scope const& in, Interval inlet) {
        auto const choked = physics::choked_drop(stream_at(in, inlet), line_recovery(in));
        return min(drop_at(in, inlet).si() / max(choked.si(), Interval{1}), Interval{100});
    }
};

struct FloatValveCapacity {
    using Scope = Reads<LEVELSWAP_LINE_SLOTS, Slot{solenoid_valve, A::flow_coefficient},
                        Slot{float_valve, A::flow_coefficient}, Slot{float_valve, A::recovery}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<float_valve, A::flow_coefficient>()) return t.not_applicable();
        auto own = in.measure<float_valve, A::flow_coefficient>();
        if (in.has<solenoid_valve, A::flow_coefficient>()) own = in_series(own, in.measure<solenoid_valve, A::flow_coefficient>());
        compare_capacity(in, t, own, in.measure<float_valve, A::recovery>().si());
    }
};

#define LEVELSWAP_FLOAT_VALVE_SLOTS                                                                                   \
    Slot{float_valve, A::seat_diameter}, Slot{float_valve, A::seat_lever}, Slot{float_valve, A::float_lever},         \
        Slot{float_valve, A::float_diameter}, Slot{float_valve, A::float_mass}, Slot{float_valve, A::float_share},    \
        Slot{float_valve, A::lever_moment}, Slot{vessel, A::water_temperature}

/// The pressure across the seat against which the float shuts it, as deep in the water as it may be. The tank's water
/// carries the float; its pressure hardly changes the density.
template <class In>
PressureDifference shut_off_pressure(In const& in, Interval factor) {
    physics::FloatValve valve;
    valve.diameter = in.template measure<float_valve, A::float_diameter>();
    valve.mass = in.template measure<float_valve, A::float_mass>();
    valve.float_arm = in.template measure<float_valve, A::float_lever>();
    valve.lever = in.template measure<float_valve, A::lever_moment>();
    auto const seat = in.template measure<float_valve, A::seat_diameter>();
    valve.seat = Area::from_si(physics::full_volume(physics::FloatForm::cylinder, seat.si(), Interval{1}));
    valve.seat_arm = in.template measure<float_valve, A::seat_lever>();
    auto const whole = physics::full_volume(valve.form, valve.diameter.si(), Interval{0});
    auto const under = Volume::from_si(in.template measure<float_valve, A::float_share>().si() * whole);
    auto const water = physics::liquid_density(in.template measure<vessel, A::water_temperature>(),
                                               in.template measure<vessel, A::atmosphere>());
    return physics::largest_shut_off_pressure(valve, water, under, factor);
}

struct FloatValveShutoff {
    using Scope = Reads<LEVELSWAP_LINE_SLOTS, LEVELSWAP_FLOAT_VALVE_SLOTS, Slot{float_valve, A::most_inlet}, Slot{float_valve, A::rating}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<float_valve, A::seat_diameter>()) return t.not_applicable();
        auto const standing = standing_pressure(in);
        auto const across = standing - back_pressure(in);
        auto const shuts = shut_off_pressure(in, in.figure<Dimension::ratio>().si());
        auto const diameter = in.measure<float_valve, A::float_diameter>().si();
        auto const water = physics::liquid_density(in.measure<vessel, A::water_temperature>(), in.measure<vessel, A::atmosphere>());
        auto const seat = physics::full_volume(physics::FloatForm::cylinder, in.measure<float_valve, A::seat_diameter>().si(), Interval{1});
        t.note("force of the water on the seat", Force::from_si(across * seat));
        t.note("lift of the float, as deep as it may be",
               Force::from_si(in.measure<float_valve, A::float_share>().si() *
                              physics::largest_buoyancy(physics::FloatForm::sphere, diameter, Interval{0}, water.si())));
        t.note("float's lever over seat's lever", Ratio::from_si(in.measure<float_valve, A::float_lever>().si() /
                                                                 max(in.measure<float_valve, A::seat_lever>().si(), Interval{1e-3})));
        t.at_least("pressure against which the float valve shuts", shuts, PressureDifference::from_si(across));
        if (!in.none<float_valve, A::most_inlet>())
            t.at_most("highest pressure at its inlet", GaugePressure::from_si(standing), in.measure<float_valve, A::most_inlet>());
        auto const& rating = in.cell<float_valve, A::rating>();
        constexpr auto domain = row_of(A::rating);
        Interval const rated = rating.none ? Interval{0} : rating.curve ? rating.curve->at(in.measure<line, A::water_temperature>().quanta)
                                                                        : Interval{domain.least, domain.most};
        t.at_least("pressure rating of the float valve, at the water's temperature", GaugePressure{rated}, GaugePressure::from_si(standing));
    }
};

/// One set pressure lets enough through while it flows and lets everything shut while it stands.
struct RegulatorWindow {
    using Scope = Reads<LEVELSWAP_WINDOW_SLOTS, LEVELSWAP_FLOAT_VALVE_SLOTS, Slot{float_valve, A::flow_coefficient},
                        Slot{float_valve, A::recovery}, Slot{float_valve, A::most_inlet}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!feeds(in.duty()) || !reduced(in)) return t.not_applicable();
        auto const lowest = lowest_set(in, needed(in)), highest = highest_set(in, shuts(in));
        t.note("pressure that the rise behind the reducing valve takes", PressureDifference::from_si(rise_after(in)));
        t.note("lowest set pressure that feeds enough", GaugePressure::from_si(lowest), Step::End::least);
        t.note("highest set pressure at which everything shuts", GaugePressure::from_si(highest), Step::End::most);
        t.at_least("highest set pressure over the lowest that feeds enough", GaugePressure::from_si(highest), GaugePressure::from_si(lowest));
    }

private:
    static Interval needed(Scope const& in) {
        auto const in_line = needed_in_line(in);
        if (!in.has<float_valve, A::flow_coefficient>()) return in_line;
        auto const own = physics::drop_at(demand_of(in), in.measure<float_valve, A::flow_coefficient>(), line_water(in)).si();
        return max(in_line + own, unchoked_inlet(in, solenoid_drop(in) + own, in.measure<float_valve, A::recovery>().si()));
    }
    static Interval shuts(Scope const& in) {
        auto const in_line = shuts_in_line(in);
        if (!in.has<float_valve, A::seat_diameter>()) return in_line;
        auto const against = shut_off_pressure(in, in.figure<Dimension::ratio>().si()).si() + back_pressure(in);
        return min(min(in_line, against), in.measure<float_valve, A::most_inlet>().si());
    }
};

/// What stands before the reducing valve while nothing flows.
struct RegulatorInlet {
    using Scope = Reads<LEVELSWAP_LINE_SLOTS, Slot{reducing_valve, A::most_inlet}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!reduced(in)) return t.not_applicable();
        t.at_most("highest pressure at the inlet of the reducing valve", GaugePressure::from_si(upstream_standing(in)),
                  in.measure<reducing_valve, A::most_inlet>());
    }
};

/// Other valves in series take their share before a pilot has any.
struct Solenoid {
    using Scope = Reads<LEVELSWAP_LINE_SLOTS, Slot{solenoid_valve, A::acts_by}, Slot{solenoid_valve, A::most_differential},
                        Slot{solenoid_valve, A::least_differential}, Slot{feed_valve, A::flow_coefficient}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<solenoid_valve, A::acts_by>()) return t.not_applicable();
        t.at_least("highest pressure difference it opens against", in.measure<solenoid_valve, A::most_differential>(),
                   PressureDifference::from_si(standing_pressure(in) - back_pressure(in)));
        Truth const pilot = in.is<solenoid_valve, A::acts_by>(bits<A::acts_by>("pilot"));
        if (pilot == Truth::fails) return;
        if (in.has<feed_valve, A::flow_coefficient>())
            t.note("drop in the feed valve, fully open, at full demand", PressureDifference::from_si(feed_valve_drop(in)));
        auto const available = PressureDifference::from_si(flowing_pressure(in) - back_pressure(in) - feed_valve_drop(in));
        auto const least = in.measure<solenoid_valve, A::least_differential>();
        if (pilot == Truth::holds) t.at_least("pressure difference left to hold a pilot-operated valve open", available, least);
        else if (available.quanta.lo < least.quanta.hi)
            t.require("how the valve is moved", Truth::undecided, "direct or by a pilot", "direct, or enough difference for a pilot");
    }
};

struct PumpFlow {
    using Scope = Reads<Slot{pump, A::pump_flow}, Slot{line, A::demand}, Slot{line, A::into}, Slot{vessel, A::evaporation},
                        Slot{vessel, A::blowdown}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<pump, A::pump_flow>()) return t.not_applicable();
        t.at_least("flow that the pump delivers", in.measure<pump, A::pump_flow>(), in.figure<Dimension::ratio>().si() * demand_of(in));
    }
};

/// The source of feed works against the highest safety-valve setting, not against the pressure of the day.
struct PumpPressure {
    using Scope = Reads<LEVELSWAP_LINE_SLOTS, Slot{vessel, A::safety_valve}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<pump, A::pump_pressure>()) return t.not_applicable();
        auto const set = in.figure<Dimension::ratio>().si() * in.measure<vessel, A::safety_valve>();
        auto const losses = reduced(in) ? all_losses(in) + PressureDifference::from_si(reducing_drop(in)) : all_losses(in);
        auto const against = physics::feed_pressure({max(set.quanta, in.measure<vessel, A::working_pressure>().quanta)},
                                                    losses, in.measure<line, A::lift>(), line_water(in));
        t.at_least("pressure that supply and pump give", GaugePressure::from_si(in.measure<line, A::supply_pressure>().si() + in.measure<pump, A::pump_pressure>().si()),
                   against);
    }
};

struct Npsh {
    using Scope = Reads<Slot{pump, A::npsh}, Slot{line, A::supply_pressure}, Slot{line, A::water_temperature},
                        Slot{line, A::suction_head}, Slot{line, A::suction_losses}, Slot{vessel, A::atmosphere}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<pump, A::npsh>()) return t.not_applicable();
        auto const vapour = physics::saturation_pressure(in.measure<line, A::water_temperature>());
        t.note("vapour pressure of the water", vapour);
        auto const available = physics::npsh_available(absolute(in.measure<line, A::supply_pressure>(), in.measure<vessel, A::atmosphere>()), vapour,
                                                       in.measure<line, A::suction_losses>(), in.measure<line, A::suction_head>(), line_water(in));
        t.at_least("net positive suction head at the pump", available, in.measure<pump, A::npsh>() + in.figure<Dimension::length>());
    }
};

/// A pump against a shut valve heats its own water until it boils.
struct DeadHead {
    using Scope = Reads<Slot{pump, A::pump_flow}, Slot{feed_valve, A::flow_coefficient}, Slot{solenoid_valve, A::flow_coefficient},
                        Slot{float_valve, A::flow_coefficient}, Slot{line, A::bypass}, Slot{circuit, A::load_motor_running}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const by_itself = in.has<feed_valve, A::flow_coefficient>() || in.has<float_valve, A::flow_coefficient>();
        bool const shuts = by_itself || in.has<solenoid_valve, A::flow_coefficient>();
        if (in.duty() == Duty::pump || !feeds(in.duty()) || !shuts || !in.has<pump, A::pump_flow>()) return t.not_applicable();
        t.require("by-pass round the pump", std::max(in.is<line, A::bypass>(bits<A::bypass>("yes")), by_itself ? Truth::fails : stops_too(in)),
                  Say(A::bypass, in.cell<line, A::bypass>().may, "by-pass: "), "yes, because the pump runs against a valve that shuts");
    }
    /// A solenoid valve and a motor on one contact: as the valve shuts the pump stops.
    static Truth stops_too(Scope const& in) {
        auto const& motor = in.cell<circuit, A::load_motor_running>();
        return motor.none ? Truth::fails : motor.stated ? Truth::holds : Truth::undecided;
    }
};

/// The way of feeding belongs to the whole line: what senses the level and what lets the water in go together.
struct Path {
    using Scope = Reads<Slot{output, A::acts}, Slot{line, A::into}, Slot{solenoid_valve, A::acts_by}, Slot{pump, A::pump_flow},
                        Slot{feed_valve, A::flow_coefficient}, Slot{actuator, A::takes}, Slot{float_valve, A::seat_diameter}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!feeds(in.duty()) || !in.has<line, A::into>()) return t.not_applicable();
        bool const valve = in.has<solenoid_valve, A::acts_by>(), pumped = in.has<pump, A::pump_flow>();
        if (in.duty() == Duty::modulating_feed) {
            t.require("what modulates the feed", in.has<feed_valve, A::flow_coefficient>() ? Truth::holds : Truth::fails,
                      in.has<feed_valve, A::flow_coefficient>() ? "a feed valve" : "no feed valve in the line", "a feed valve");
            return t.require("what moves the feed valve", in.has<actuator, A::takes>() ? Truth::holds : Truth::fails,
                             in.has<actuator, A::takes>() ? "an actuator" : "no actuator in the line", "an actuator");
        }
        Truth const mechanical = in.is<output, A::acts>(bits<A::acts>("feeds_on_fall"));
        if (mechanical != Truth::fails)
            t.require("what lets the water in", valve ? (mechanical == Truth::holds ? Truth::fails : Truth::undecided) : Truth::holds,
                      valve ? "a float valve behind a solenoid valve that nothing opens" : "the float valve itself",
                      "the float valve, and no solenoid valve before it");
        if (mechanical == Truth::holds) return;
        Truth const fed = valve || pumped ? Truth::holds : mechanical == Truth::undecided ? Truth::undecided : Truth::fails;
        t.require("what the contact works", fed, valve ? "a solenoid valve" : pumped ? "a pump" : "neither solenoid valve nor pump in the line",
                  "a solenoid valve or a pump");
        if (in.duty() == Duty::make_up && in.has<float_valve, A::seat_diameter>())
            t.require("float valve", mechanical == Truth::undecided ? Truth::undecided : Truth::fails,
                      "a float valve that shuts as well", "none, or the level never reaches the upper probe");
    }
};

}  // namespace

RuleFunctions path() { return functions_of<Path>(); }
RuleFunctions valve_capacity() { return functions_of<ValveCapacity>(); }
RuleFunctions valve_opening() { return functions_of<ValveOpening>(); }
RuleFunctions valve_nearly_shut() { return functions_of<ValveNearlyShut>(); }
RuleFunctions choked() { return functions_of<Choked>(); }
RuleFunctions float_valve_capacity() { return functions_of<FloatValveCapacity>(); }
RuleFunctions float_valve_shutoff() { return functions_of<FloatValveShutoff>(); }
RuleFunctions regulator_window() { return functions_of<RegulatorWindow>(); }
RuleFunctions regulator_inlet() { return functions_of<RegulatorInlet>(); }
RuleFunctions solenoid() { return functions_of<Solenoid>(); }
RuleFunctions pump() { return functions_of<PumpFlow>(); }
RuleFunctions pump_pressure() { return functions_of<PumpPressure>(); }
RuleFunctions npsh() { return functions_of<Npsh>(); }
RuleFunctions dead_head() { return functions_of<DeadHead>(); }

}  // namespace levelswap::families::feed
