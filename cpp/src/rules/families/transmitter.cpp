#include "transmitter.hpp"

#include "wet_legs.hpp"

namespace levelswap::families::transmitter {

namespace {

using enum From;
using A = Attribute;

template <class In>
bool there(In const& in) {
    return in.template has<transmitter, A::range_low>();
}

struct Range {
    using Scope = Reads<LEVELSWAP_LEG_SLOTS, Slot{station, A::below_tap}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!there(in)) return t.not_applicable();
        auto const low = in.measure<station, A::calibrated_low>(), high = in.measure<station, A::calibrated_high>();
        t.at_least("low end of the calibration, above the lower tapping", low, Length{{0}});
        t.at_most("high end of the calibration, above the lower tapping", high, in.measure<station, A::tapping_spacing>());
        t.at_least("pressure difference at the low end", difference(in, low), in.measure<transmitter, A::range_low>());
        t.at_most("pressure difference at the high end", difference(in, high), in.measure<transmitter, A::range_high>());
    }
    /// Below the lower tapping both tubes of a wet leg are full of the same cold water, and it does not count.
    static PressureDifference difference(Scope const& in, Length level) {
        auto const gauge = in.measure<station, A::calibrated_pressure>();
        auto const p = absolute(gauge, in.measure<vessel, A::atmosphere>());
        return {over_legs(in, [&](bool leg_is_wet) {
            auto const state = state_at(in, gauge, leg_is_wet);
            auto const at_tap = physics::wet_leg_difference(state, level);
            if (leg_is_wet) return at_tap.quanta;
            return (at_tap + physics::mount_offset(in.measure<station, A::below_tap>(), cold_water(in, p), state.vapour)).quanta;
        })};
    }
};

struct Span {
    using Scope = Reads<LEVELSWAP_LEG_SLOTS, Slot{transmitter, A::least_span}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!there(in)) return t.not_applicable();
        // Whatever stands in the low leg is the same at both ends.
        auto const state = state_at(in, in.measure<station, A::calibrated_pressure>(), false);
        auto const levels = in.measure<station, A::calibrated_high>() - in.measure<station, A::calibrated_low>();
        auto const span = Interval{9.80665} * levels.si() * (state.liquid.si() - state.vapour.si());
        t.at_least("span of the calibration", PressureDifference::from_si(span), in.measure<transmitter, A::least_span>());
    }
};

/// Steam condenses in a dry leg and fills it by and by, with nobody to see it.
struct DryLeg {
    using Scope = Reads<LEVELSWAP_LEG_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!there(in)) return t.not_applicable();
        Truth const no_steam = in.is<vessel, A::vessel_service>(bits<A::vessel_service>("hot_water", "feed_water", "cold_make_up"));
        t.require("low side", std::max(no_steam, in.is<station, A::low_leg>(wet_leg)),
                  Say(A::low_leg, in.cell<station, A::low_leg>().may), "wet, on steam");
    }
};

struct Error {
    using Scope = Reads<LEVELSWAP_LEG_SLOTS, Slot{vessel, A::working_pressure}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!there(in)) return t.not_applicable();
        // Linear in the level, so worst at an end of the calibration.
        auto const low = at(in, in.measure<station, A::calibrated_low>()), high = at(in, in.measure<station, A::calibrated_high>());
        if constexpr (T::recording) {
            say(t, "at the low end", low);
            say(t, "at the high end", high);
        }
        t.at_most("level error away from the calibration", Length{max(abs(low.quanta), abs(high.quanta))},
                  in.figure<Dimension::length>());
    }
    static Length at(Scope const& in, Length level) {
        return {over_legs(in, [&](bool leg_is_wet) {
            return shows_more(in, in.measure<station, A::calibrated_pressure>(), in.measure<vessel, A::working_pressure>(), leg_is_wet, level).quanta;
        })};
    }
    template <class T>
    static void say(T& t, char const* where, Length error) {
        t.note("shown less true level", error);
        t.require(where, Truth::holds, error.quanta.lo >= 0 ? "reads high" : error.quanta.hi <= 0 ? "reads low" : "reads high or low", "");
    }
};

/// With half the leg empty the transmitter shows water that is not there.
struct HalfLeg {
    using Scope = Reads<LEVELSWAP_LEG_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!there(in) || (in.cell<station, A::low_leg>().may & wet_leg) == 0) return t.not_applicable();
        auto const state = state_at(in, in.measure<station, A::calibrated_pressure>(), true);
        auto const half = Interval{0.5} * in.measure<station, A::tapping_spacing>();
        t.at_most("reads too high when the wet leg has lost half its water", physics::lost_leg_error(state, state, half),
                  in.figure<Dimension::length>());
    }
};

/// A failed signal is driven to 22.5 mA: the transmitter still needs its voltage then.
struct Loop {
    using Scope = Reads<Slot{transmitter, A::loop_least_voltage}, Slot{circuit, A::supply}, Slot{circuit, A::current_kind},
                        Slot{circuit, A::loop_resistance}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (in.all().output_kind != Owner::transmitter || in.duty() != Duty::modulating_feed) return t.not_applicable();
        t.require("supply of the loop", in.is<circuit, A::current_kind>(bits<A::current_kind>("dc")),
                  Say(A::current_kind, in.cell<circuit, A::current_kind>().may), "dc");
        auto const drop = Voltage::from_si(Interval{0.0225} * in.measure<circuit, A::loop_resistance>().si());
        t.at_least("voltage left for the transmitter at 22.5 mA", in.measure<circuit, A::supply>() - drop,
                   in.measure<transmitter, A::loop_least_voltage>());
    }
};

}  // namespace

RuleFunctions range() { return functions_of<Range>(); }
RuleFunctions span() { return functions_of<Span>(); }
RuleFunctions dry_leg() { return functions_of<DryLeg>(); }
RuleFunctions error() { return functions_of<Error>(); }
RuleFunctions half_leg() { return functions_of<HalfLeg>(); }
RuleFunctions loop() { return functions_of<Loop>(); }

}  // namespace levelswap::families::transmitter
