#include "contacts.hpp"

#include "contact_loads.hpp"
#include "motor_loads.hpp"
#include "rated_voltage.hpp"

namespace levelswap::families::contacts {

namespace {

using namespace switching;
using enum From;
using A = Attribute;

/// So that a reader can work the figures again.
template <class T>
void note_held(T& t, Load const& load, Interval lamps) {
    if (load.amperes.hi > 0) t.note("current of the coils at their rated voltage, x 1.1 at +10 % volts", Current::from_si(load.amperes));
    if (lamps.hi > 0) t.note("current of lamps and heaters, x 1.1 at +10 % volts", Current::from_si(lamps));
}

struct VoltageRule {
    using Scope = Reads<Slot{output, A::most_voltage}, Slot{circuit, A::supply}, Slot{output, A::acts}, Slot{output, A::poles}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!carries_current(in)) return t.not_applicable();
        t.at_least("highest voltage of the contact", in.measure<output, A::most_voltage>(),
                   in.measure<circuit, A::supply>());
        if (in.cell<output, A::poles>().hi < 1) t.require("poles of the contact", Truth::fails, "none", "at least one");
    }
};

struct Carry {
    using Scope = Reads<LEVELSWAP_LOAD_SLOTS, Slot{output, A::pilot_duty}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const load = load_of(in);
        auto const lamps = lamps_on_output(in);
        if (!carries_current(in) || (load.holding.quanta.hi == 0 && lamps.hi == 0)) return t.not_applicable();
        auto const supply = in.measure<circuit, A::supply>();
        auto const limits = limits_of(in.cell<output, A::pilot_duty>(), in.cell<circuit, A::current_kind>(), supply);
        note_held(t, load, lamps);
        t.at_least("continuous current of the contact", limits.carry, held_current(margin_of(in), load, lamps));
    }
};

struct Make {
    using Scope = Reads<LEVELSWAP_LOAD_SLOTS, Slot{output, A::pilot_duty}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const load = load_of(in);
        if (!carries_current(in) || load.inrush.quanta.hi == 0) return t.not_applicable();
        makes(t, limits_of(in.cell<output, A::pilot_duty>(), in.cell<circuit, A::current_kind>(), in.measure<circuit, A::supply>()),
              margin_of(in), load, "make rating of the contact", "current that the contact makes at low voltage");
    }
};

struct Break {
    using Scope = Reads<LEVELSWAP_LOAD_SLOTS, Slot{output, A::pilot_duty}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const load = load_of(in);
        if (!carries_current(in) || load.holding.quanta.hi == 0) return t.not_applicable();
        breaks(t, limits_of(in.cell<output, A::pilot_duty>(), in.cell<circuit, A::current_kind>(), in.measure<circuit, A::supply>()),
               margin_of(in), load, "break rating of the contact", "current that the contact breaks at low voltage");
    }
};

template <class In>
bool has_logic_input(In const& in) {
    return !in.template none<circuit, A::load_signal>() && in.template cell<circuit, A::load_signal>().hi > 0;
}

/// Coils and lamps draw with their supply.
template <class In>
Current least_drawn(In const& in, Load const& load, Interval lamps) {
    Interval const of_lamps = lamps / max(rated_in_band(in).si(), Interval{1});
    return Current::from_si((load.amperes_per_volt + of_lamps) * in.template measure<circuit, A::supply>().si());
}

struct MinimumLoad {
    using Scope = Reads<LEVELSWAP_LOAD_SLOTS, Slot{output, A::least_current}, Slot{circuit, A::load_signal}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!carries_current(in)) return t.not_applicable();
        auto const least = in.measure<output, A::least_current>();
        if (in.has<relay, A::coil_inrush>())  // then the logic input hangs on the relay's contact
            return t.at_least("current that holds the relay's coil", least_drawn(in, load_of(in), {0}), least);
        if (has_logic_input(in)) return t.at_least("current of the logic input", in.measure<circuit, A::load_signal>(), least);
        auto const load = load_of(in);
        auto const lamps = lamps_on_output(in);
        if (load.holding.quanta.hi == 0 && lamps.hi == 0) return t.not_applicable();
        t.at_least("current that holds the coil", least_drawn(in, load, lamps), least);
    }
};

/// A fuse lets through what it is rated for: more than the contact carries, and the contact goes first. Of a motor
/// straight on the contact it is the motor's start that sizes the fuse, so nothing is said.
struct Fuse {
    using Scope = Reads<Slot{circuit, A::fuse}, Slot{circuit, A::supply}, Slot{circuit, A::current_kind},
                        Slot{circuit, A::load_motor_power}, Slot{contactor, A::poles}, Slot{relay, A::pilot_duty},
                        Slot{output, A::pilot_duty}, Slot{output, A::acts}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const motor = in.cell<circuit, A::load_motor_power>().lo > 0 && !in.has<contactor, A::poles>();
        bool const behind_relay = in.has<relay, A::pilot_duty>();
        constexpr auto no_code = bits<A::pilot_duty>("none");  // contacts.carry refuses that
        if (!in.has<circuit, A::fuse>() || !carries_current(in) || (motor && !behind_relay) ||
            in.cell<output, A::pilot_duty>().may == no_code)
            return t.not_applicable();
        if (in.none<circuit, A::fuse>()) return t.require("fuse or breaker", Truth::fails, "none", "one that protects the contact");
        auto carry = [&](Cell const& code) {
            return limits_of(code, in.cell<circuit, A::current_kind>(), in.measure<circuit, A::supply>()).carry;
        };
        auto const fuse = in.measure<circuit, A::fuse>();
        t.at_most("fuse or breaker, to the continuous current of the contact", fuse, carry(in.cell<output, A::pilot_duty>()));
        if (behind_relay)
            t.at_most("fuse or breaker, to the continuous current of the relay's contact", fuse, carry(in.cell<relay, A::pilot_duty>()));
    }
};

/// A motor that starts by itself is protected against overload (NEC 430.32, from memory): by a relay at its contactor, or
/// by what is built into it.
template <class In>
Truth protects_itself(In const& in) {
    return in.template is<circuit, A::load_motor_protected>(bits<A::load_motor_protected>("yes"));
}

struct MotorDirect {
    using Scope = Reads<LEVELSWAP_MOTOR_SLOTS, LEVELSWAP_LOAD_SLOTS, Slot{contactor, A::poles}, Slot{relay, A::poles},
                        Slot{output, A::motor_running}, Slot{output, A::motor_locked}, Slot{output, A::motor_volts},
                        Slot{output, A::motor_rated_power}, Slot{output, A::poles}, Slot{circuit, A::load_motor_protected}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!may_have_a_motor(in) || in.has<contactor, A::poles>() || !carries_current(in)) return t.not_applicable();
        if (in.has<relay, A::poles>())  // whether there is a motor at all may be unknown
            return t.require("motor", in.cell<circuit, A::load_motor_power>().lo > 0 ? Truth::fails : Truth::undecided,
                             "a relay's pilot contact", "a contactor, with overload");
        judge_motor<MotorDirect>(in, t);
    }
    template <class T>
    static void compare(Scope const& in, T& t) {
        auto const needs = motor_currents(in, t);
        auto const load = load_of(in);
        auto const lamps = lamps_on_output(in);
        auto const held = held_current({1}, load, lamps);
        auto const inrush = Current::from_si(load.inrush_amperes + lamps);
        if (held.quanta.hi > 0) t.note("coils and lamps beside the motor, held at +10 % volts", held);
        if (inrush.quanta.hi > 0) t.note("coils and lamps beside the motor, as they are switched on", inrush);
        t.at_least("poles", in.measure<output, A::poles>(), poles_wanted(in));
        auto const rated = rated_currents<output>(in, t);
        t.at_least("motor full-load current the contact is rated for", rated.running, needs.running + held);
        t.at_least("motor locked-rotor current the contact is rated for", rated.locked, needs.locked + inrush);
        if (!in.none<output, A::motor_rated_power>())
            t.at_least("motor power the contact is rated for", in.measure<output, A::motor_rated_power>(),
                       in.measure<circuit, A::load_motor_power>());
        t.at_least("motor voltage the contact is rated for", in.measure<output, A::motor_volts>(),
                   in.measure<circuit, A::load_motor_voltage>());
        t.require("motor overload protection", protects_itself(in), Say(A::load_motor_protected, in.cell<circuit, A::load_motor_protected>().may), "yes");
    }
};

/// A motor straight on a contact has the supply of its circuit for its own: within 10 % of its plate voltage.
struct MotorSupply {
    using Scope = Reads<LEVELSWAP_MOTOR_SLOTS, Slot{contactor, A::poles}, Slot{relay, A::poles}, Slot{output, A::acts},
                        Slot{circuit, A::supply}, Slot{circuit, A::current_kind}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        // Behind a contactor or a relay the motor's supply is another one; contacts.motor_direct refuses the relay.
        if (!may_have_a_motor(in) || in.has<contactor, A::poles>() || in.has<relay, A::poles>() || !carries_current(in))
            return t.not_applicable();
        judge_motor<MotorSupply>(in, t);
    }
    template <class T>
    static void compare(Scope const& in, T& t) {
        auto const supply = in.measure<circuit, A::supply>(), plate = in.measure<circuit, A::load_motor_voltage>();
        t.at_least("lowest supply voltage at the motor", supply, share_of(plate, {-tolerance}));
        t.at_most("highest supply voltage at the motor", supply, share_of(plate, {tolerance}));
        if (in.none<circuit, A::load_motor_phases>()) return;  // phases are of alternating current
        auto const& kind = in.cell<circuit, A::current_kind>();
        t.require("current of the motor's supply", in.is<circuit, A::current_kind>(bits<A::current_kind>("ac")),
                  Say(A::current_kind, kind.may), "ac");
    }
    static constexpr double tolerance = 0.1 * detail::quanta_per_si(Dimension::ratio);
};

/// A rating for three phases (AC-3) says nothing of what one pole breaks alone, nor of the start of a single-phase motor.
template <class In>
Truth suits_phases(In const& in) {
    auto const& rated = in.template cell<contactor, A::motor_rated_phases>();
    auto const motor = phases_of_motor(in);
    if ((rated.must & motor) == motor) return Truth::holds;
    return (rated.may & motor) == 0 ? Truth::fails : Truth::undecided;
}

struct ContactorRule {
    using Scope = Reads<LEVELSWAP_MOTOR_SLOTS, Slot{contactor, A::poles}, Slot{contactor, A::motor_running},
                        Slot{contactor, A::motor_locked}, Slot{contactor, A::motor_volts}, Slot{contactor, A::overload},
                        Slot{contactor, A::motor_rated_power}, Slot{contactor, A::motor_rated_phases}, Slot{circuit, A::load_motor_protected}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!may_have_a_motor(in) || !in.has<contactor, A::poles>()) return t.not_applicable();
        judge_motor<ContactorRule>(in, t);
    }
    template <class T>
    static void compare(Scope const& in, T& t) {
        auto const needs = motor_currents(in, t);
        t.at_least("poles", in.measure<contactor, A::poles>(), poles_wanted(in));
        auto const rated = rated_currents<contactor>(in, t);
        t.at_least("motor full-load current the contactor is rated for", rated.running, needs.running);
        t.at_least("motor locked-rotor current the contactor is rated for", rated.locked, needs.locked);
        t.at_least("motor voltage the contactor is rated for", in.measure<contactor, A::motor_volts>(),
                   in.measure<circuit, A::load_motor_voltage>());
        t.require("phases of the motors the contactor is rated for", suits_phases(in),
                  Say(A::motor_rated_phases, in.cell<contactor, A::motor_rated_phases>().may), Say(A::motor_rated_phases, phases_of_motor(in)));
        if (!in.none<contactor, A::motor_rated_power>())
            t.at_least("motor power the contactor is rated for", in.measure<contactor, A::motor_rated_power>(),
                       in.measure<circuit, A::load_motor_power>());
        t.require("motor overload protection", std::max(protects_itself(in), in.is<contactor, A::overload>(bits<A::overload>("yes"))),
                  Say(A::overload, in.cell<contactor, A::overload>().may), "yes");
    }
};

/// The relay's own contact carries what the output no longer does.
struct RelayContact {
    using Scope = Reads<LEVELSWAP_COIL_SLOTS, Slot{circuit, A::load_resistive}, Slot{circuit, A::load_signal},
                        Slot{circuit, A::current_kind}, Slot{relay, A::pilot_duty}, Slot{relay, A::most_voltage},
                        Slot{relay, A::least_current}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<relay, A::most_voltage>()) return t.not_applicable();
        auto const supply = in.measure<circuit, A::supply>();
        t.at_least("highest voltage of the relay's contact", in.measure<relay, A::most_voltage>(), supply);
        auto const load = coils_of(in);
        auto const lamps = in.measure<circuit, A::load_resistive>().si();
        bool const coils = load.holding.quanta.hi > 0;
        auto const limits = limits_of(in.cell<relay, A::pilot_duty>(), in.cell<circuit, A::current_kind>(), supply);
        auto const margin = margin_of(in);
        if (coils) {
            makes(t, limits, margin, load, "make rating of the relay's contact", "current that the relay's contact makes at low voltage");
            breaks(t, limits, margin, load, "break rating of the relay's contact", "current that the relay's contact breaks at low voltage");
        }
        if (coils || lamps.hi > 0) {
            note_held(t, load, lamps);
            t.at_least("continuous current of the relay's contact", limits.carry, held_current(margin, load, lamps));
        }
        auto const least = in.measure<relay, A::least_current>();
        if (has_logic_input(in)) t.at_least("current of the logic input", in.measure<circuit, A::load_signal>(), least);
        else if (coils || lamps.hi > 0) t.at_least("current that holds the coil", least_drawn(in, load, lamps), least);
    }
};

/// Beside a transformer, `supply` of the circuit is what the meter shows behind it. Without the one that was there
/// nobody knows what the coils see: nothing, or what fed the transformer.
struct TransformerRule {
    using Scope = Reads<Slot{transformer, A::capacity}, Slot{transformer, A::gives_voltage}, LEVELSWAP_COIL_SLOTS,
                        Slot{circuit, A::load_resistive}, Slot{relay, A::coil_holding}, LEVELSWAP_MOTOR_SLOTS,
                        Slot{contactor, A::poles}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (in.emptied<transformer, A::capacity>())
            return t.require("supply of the circuit", Truth::fails, "stated behind the transformer, which is taken out",
                             "a transformer, or a site file that states the supply as it is without one");
        if (!in.has<transformer, A::capacity>()) return t.not_applicable();
        auto coils = coils_of(in).holding;
        if (in.has<relay, A::coil_holding>()) coils = coils + in.measure<relay, A::coil_holding>();
        auto const gives = in.measure<transformer, A::gives_voltage>();
        auto const lamps = ApparentPower::from_si(in.measure<circuit, A::load_resistive>().si() * gives.si());
        t.note("holding load of the coils at their rated voltage, x 1.21 at +10 % volts", coils);
        if (lamps.quanta.hi > 0) t.note("load of lamps and heaters, x 1.21 at +10 % volts", lamps);
        t.at_least("capacity of the transformer", in.measure<transformer, A::capacity>(),
                   Interval{high_load} * (margin_of(in) * coils + lamps) + motor_load(in, t));
        t.at_most("secondary voltage", gives, in.band_high<circuit, A::supply>());
        t.at_least("secondary voltage", gives, in.band_low<circuit, A::supply>());
    }
    /// A motor straight on the contact draws through the transformer; one behind a contactor does not.
    template <class T>
    static ApparentPower motor_load(Scope const& in, T& t) {
        if (!may_have_a_motor(in) || in.has<contactor, A::poles>()) return {Interval{0}};
        auto const running = motor_currents(in, t).running;
        auto drawn = ApparentPower::from_si(running.si() * in.measure<circuit, A::load_motor_voltage>().si());
        if (may_have_no_motor(in)) drawn = {hull(drawn.quanta, Interval{0})};
        t.note("load of the motor that is straight on the contact", drawn);
        return drawn;
    }
};

struct Conductor {
    using Scope = Reads<Slot{circuit, A::breaks}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        t.require("conductor that the contact breaks", in.is<circuit, A::breaks>(bits<A::breaks>("ungrounded")),
                  Say(A::breaks, in.cell<circuit, A::breaks>().may), "ungrounded");
    }
};

/// What the cut-off opens must be the chain that holds the fuel valves: nothing may be wired round it.
struct InSeries {
    using Scope = Reads<Slot{circuit, A::in_series}, Slot{circuit, A::coil_inrush}, Slot{circuit, A::coil_holding},
                        Slot{circuit, A::load_signal}, Slot{circuit, A::load_resistive}, Slot{circuit, A::load_motor_power},
                        Slot{contactor, A::poles}, Slot{relay, A::poles}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!is_cut_off(in.duty())) return t.not_applicable();
        t.require("cut-off in the chain of limits", in.is<circuit, A::in_series>(bits<A::in_series>("yes")),
                  Say(A::in_series, in.cell<circuit, A::in_series>().may), "in series with the other limits");
        bool const switches = in.measure<circuit, A::coil_inrush>().quanta.hi > 0 || in.measure<circuit, A::coil_holding>().quanta.hi > 0 ||
                              has_logic_input(in) || in.measure<circuit, A::load_resistive>().quanta.hi > 0 ||
                              in.measure<circuit, A::load_motor_power>().quanta.hi > 0 || in.has<contactor, A::poles>() || in.has<relay, A::poles>();
        if (!switches) t.require("load of the circuit that the cut-off opens", Truth::fails, "none", "what lets the fuel through");
    }
};

/// A relay can weld, and so can a contactor whose poles carry the fuel valves; one that carries a motor is its own load.
struct RelayInFuelChain {
    using Scope = Reads<Slot{relay, A::listed_for}, Slot{contactor, A::poles}, Slot{circuit, A::load_motor_power}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const valves_on_contactor = in.has<contactor, A::poles>() && in.measure<circuit, A::load_motor_power>().quanta.lo <= 0;
        if (!is_cut_off(in.duty()) || (!in.has<relay, A::listed_for>() && !valves_on_contactor)) return t.not_applicable();
        if (valves_on_contactor)
            t.require("contactor", in.none<circuit, A::load_motor_power>() ? Truth::fails : Truth::undecided,
                      "a contactor in the fuel cut-off chain", "none, unless it carries a motor: its poles can weld");
        if (!in.has<relay, A::listed_for>()) return;
        if (in.all().figure <= 0)
            return t.require("interposing relay", Truth::fails, "a relay in the fuel cut-off chain",
                             "none: no pack in force allows one, because a relay can weld");
        t.require("listing of the relay", in.includes<relay, A::listed_for>(bits<A::listed_for>("fuel_chain")),
                  Say(A::listed_for, in.cell<relay, A::listed_for>().may), "fuel chain");
    }
};

}  // namespace

RuleFunctions voltage() { return functions_of<VoltageRule>(); }
RuleFunctions carry() { return functions_of<Carry>(); }
RuleFunctions make() { return functions_of<Make>(); }
RuleFunctions break_() { return functions_of<Break>(); }
RuleFunctions minimum_load() { return functions_of<MinimumLoad>(); }
RuleFunctions fuse() { return functions_of<Fuse>(); }
RuleFunctions motor_direct() { return functions_of<MotorDirect>(); }
RuleFunctions motor_supply() { return functions_of<MotorSupply>(); }
RuleFunctions contactor() { return functions_of<ContactorRule>(); }
RuleFunctions relay_contact() { return functions_of<RelayContact>(); }
RuleFunctions transformer() { return functions_of<TransformerRule>(); }
RuleFunctions conductor() { return functions_of<Conductor>(); }
RuleFunctions in_series() { return functions_of<InSeries>(); }
RuleFunctions relay_in_fuel_chain() { return functions_of<RelayInFuelChain>(); }

}  // namespace levelswap::families::contacts
