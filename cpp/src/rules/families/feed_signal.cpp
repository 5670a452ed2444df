// Rules of the feed family on what drives the valve: signal, actuator and marks.

#include "feed.hpp"

#include "feed_direction.hpp"
#include "feed_line.hpp"

namespace levelswap::families::feed {

namespace {

using enum From;
using A = Attribute;

/// Families of signals first, ohms second.
struct Actuator {
    using Scope = Reads<LEVELSWAP_LINE_SLOTS, Slot{output, A::resistance}, Slot{converter, A::takes}, Slot{converter, A::takes_resistance}, Slot{converter, A::gives},
                        Slot{actuator, A::takes}, Slot{actuator, A::takes_resistance}, Slot{actuator, A::most_differential},
                        Slot{feed_valve, A::most_differential}, Slot{output, A::direction}, Slot{actuator, A::opens_with}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (in.duty() != Duty::modulating_feed || !in.has<actuator, A::takes>()) return t.not_applicable();
        bool const converted = in.has<converter, A::takes>();
        auto const& takes = in.cell<actuator, A::takes>();
        if (converted) family(t, "signal after the converter", in.cell<converter, A::gives>().may, takes.may);
        auto const given = given_by(in);
        auto const& first = converted ? in.cell<converter, A::takes>() : takes;
        family(t, converted ? "signal before the converter" : "signal", given, first.may);
        if ((given & first.may & wire) && first.may == wire && given == wire) {
            auto const wanted = converted ? in.measure<converter, A::takes_resistance>() : in.measure<actuator, A::takes_resistance>();
            Interval const off = abs(in.measure<output, A::resistance>().quanta - wanted.quanta);
            // A bridge balances on the ratio; ten per cent of the nominal resistance is common practice, no source.
            t.at_most("difference in slide-wire resistance", Resistance{off}, Interval{0.1} * wanted);
        }
        opens_as_water_falls(in, t, in.cell<actuator, A::opens_with>());
        auto const across = PressureDifference::from_si(standing_pressure(in) - back_pressure(in));
        t.at_least("highest pressure difference the actuator shuts against", in.measure<actuator, A::most_differential>(), across);
        if (in.has<feed_valve, A::most_differential>())
            t.at_least("highest pressure difference of the feed valve", in.measure<feed_valve, A::most_differential>(), across);
    }

private:
    static constexpr auto wire = bits<A::takes>("slide_wire");
    static constexpr auto loop = bits<A::takes>("current_loop");

    /// A slide-wire has a resistance; what has none gives a current.
    static std::uint64_t given_by(Scope const& in) {
        if (in.all().output_kind == Owner::transmitter || in.none<output, A::resistance>()) return loop;
        return in.cell<output, A::resistance>().lo > 0 ? wire : wire | loop;
    }
    template <class T>
    static void family(T& t, char const* label, std::uint64_t given, std::uint64_t taken) {
        Truth const same = (given & taken) == 0                                ? Truth::fails
                           : given == taken && (given & (given - 1)) == 0 ? Truth::holds
                                                                            : Truth::undecided;
        t.require(label, same, Say(A::takes, given), Say(A::takes, taken));
    }
};

/// A valve that opens when its signal is lost floods the boiler, and no cut-off stops water. An actuator that the site
/// does not list is known only by what is said of the broken wire; where nothing is said of a transmitter's, a broken
/// loop is the lowest signal, 0 mA.
struct LostSignal {
    using Scope = Reads<Slot{output, A::broken_wire}, Slot{actuator, A::on_failure}, Slot{circuit, A::opens_with}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const moved = in.has<actuator, A::on_failure>(), said = !in.none<output, A::broken_wire>();
        bool const loop = !moved && !said && in.all().output_kind == Owner::transmitter;
        if (in.duty() != Duty::modulating_feed || in.all().figure > 0 || (!moved && !said && !loop)) return t.not_applicable();
        if (moved)
            t.require("valve when its supply or signal is lost", in.is<actuator, A::on_failure>(bits<A::on_failure>("closes", "holds")),
                      Say(A::on_failure, in.cell<actuator, A::on_failure>().may), "closes or holds");
        if (said)
            t.require("valve when the wire breaks", in.is<output, A::broken_wire>(bits<A::broken_wire>("closes_valve", "holds_valve")),
                      Say(A::broken_wire, in.cell<output, A::broken_wire>().may), "closes valve or holds valve");
        if (loop)
            t.require("what opens the valve, when a broken loop is the lowest signal", in.is<circuit, A::opens_with>(bits<A::opens_with>("rising")),
                      Say(A::opens_with, in.cell<circuit, A::opens_with>().may), "rising, or a valve that is said to close or hold");
    }
};

/// On/off feeding lifts the level from one mark to the other: a remark where that is much of what the glass shows.
struct Swing {
    using Scope = Reads<Slot{output, A::trip_at_mark}, Slot{output, A::reset_at_mark}, Slot{glass, A::visible_low}, Slot{glass, A::visible_high}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const on_off = in.duty() == Duty::pump || in.duty() == Duty::make_up;
        bool const stated = !in.none<output, A::trip_at_mark>() && !in.none<output, A::reset_at_mark>();
        if (!on_off || !stated || !in.has<glass, A::visible_low>()) return t.not_applicable();
        auto const swing = in.measure<output, A::reset_at_mark>() - in.measure<output, A::trip_at_mark>();
        auto const shown = in.measure<glass, A::visible_high>() - in.measure<glass, A::visible_low>();
        t.note("swing of the level", swing);
        t.at_most("swing of the level as a share of the visible glass",
                  Ratio::from_si(max(swing.si(), Interval{0}) / max(shown.si(), Interval{1e-3})), Ratio::from_si(Interval{0.5}));
    }
};

}  // namespace

RuleFunctions actuator() { return functions_of<Actuator>(); }
RuleFunctions lost_signal() { return functions_of<LostSignal>(); }
RuleFunctions swing() { return functions_of<Swing>(); }

}  // namespace levelswap::families::feed
