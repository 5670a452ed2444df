#include "contacts.hpp"

#include "line_coils.hpp"

#include "levelswap/physics/contact_codes.hpp"
#include "levelswap/physics/motor_tables.hpp"

namespace levelswap::families::contacts {

namespace {

using enum From;
using A = Attribute;

#define LEVELSWAP_COIL_SLOTS                                                                                    \
    Slot{circuit, A::supply}, Slot{circuit, A::coil_inrush}, Slot{circuit, A::coil_holding},                    \
        Slot{contactor, A::coil_voltage}, Slot{contactor, A::coil_inrush}, Slot{contactor, A::coil_holding},        \
        LEVELSWAP_LINE_COIL_SLOTS, Slot{solenoid_valve, A::coil_inrush}, Slot{solenoid_valve, A::coil_holding},     \
        Slot{actuator, A::coil_inrush}, Slot{actuator, A::coil_holding}

#define LEVELSWAP_LOAD_SLOTS                                                                                    \
    LEVELSWAP_COIL_SLOTS, Slot{circuit, A::current_kind}, Slot{relay, A::coil_voltage}, Slot{relay, A::coil_inrush}, \
        Slot{relay, A::coil_holding}, Slot{output, A::acts}

// A coil that holds is an impedance: its current goes with the voltage, its volt-amperes with the square of it.
// That is physics, saturation left aside. That a plate states volt-amperes at the rated voltage, and that a supply
// may stand 10 % above it, is common practice, no source.
constexpr double high_voltage = 1.1;
constexpr double high_load = 1.21;  // 1.1²

/// Coils in parallel: what they draw adds up.
struct Load {
    ApparentPower inrush, holding;   ///< at rated voltage
    Interval amperes;                ///< held at rated voltage
    Interval amperes_per_volt;
    friend Load operator+(Load const& x, Load const& y) {
        return {x.inrush + y.inrush, x.holding + y.holding, x.amperes + y.amperes, x.amperes_per_volt + y.amperes_per_volt};
    }
};

Load coil(ApparentPower inrush, ApparentPower holding, Voltage rated) {
    Interval const volts = max(rated.si(), Interval{1});
    return {inrush, holding, holding.si() / volts, holding.si() / square(volts)};
}

/// The circuit's own coils. Their plates are not among the facts: they are rated somewhere in the band of their
/// supply (common practice, no source), so both ends of the band count.
template <class In>
Load own_coils(In const& in) {
    Voltage const rated{hull(in.template band_low<circuit, A::supply>().quanta, in.template band_high<circuit, A::supply>().quanta)};
    return coil(in.template measure<circuit, A::coil_inrush>(), in.template measure<circuit, A::coil_holding>(), rated);
}

/// The coils of what the circuit works in its feed line.
template <class In>
Load line_coils(In const& in) {
    Load all{{{0}}, {{0}}, {0}, {0}};
    if (works_solenoid(in))
        all = all + coil(in.template measure<solenoid_valve, A::coil_inrush>(), in.template measure<solenoid_valve, A::coil_holding>(),
                         in.template measure<solenoid_valve, A::coil_voltage>());
    if (works_actuator(in))
        all = all + coil(in.template measure<From::actuator, A::coil_inrush>(), in.template measure<From::actuator, A::coil_holding>(),
                         in.template measure<From::actuator, A::coil_voltage>());
    return all;
}

/// What the last contact before the load switches: the coils of contactor and feed line beside the circuit's own.
template <class In>
Load coils_of(In const& in, bool feeds = true) {
    Load const own = feeds ? own_coils(in) + line_coils(in) : own_coils(in);
    if (!in.template has<contactor, A::coil_inrush>()) return own;
    return own + coil(in.template measure<contactor, A::coil_inrush>(), in.template measure<contactor, A::coil_holding>(),
                      in.template measure<contactor, A::coil_voltage>());
}

/// What hangs on the output: the coil of the relay that is there, or else all that the relay would switch.
template <class In>
Load load_of(In const& in) {
    // Seen from a station, the feed line may be another circuit's: only a duty that feeds works it.
    bool const feeds = in.duty() == Duty::pump || in.duty() == Duty::make_up || in.duty() == Duty::modulating_feed;
    if (!in.template has<relay, A::coil_inrush>()) return coils_of(in, feeds);
    return coil(in.template measure<relay, A::coil_inrush>(), in.template measure<relay, A::coil_holding>(),
                in.template measure<relay, A::coil_voltage>());
}

/// How many times the coil load a contact or transformer is good for. No pack makes it less than once.
template <class In>
Interval margin_of(In const& in) {
    return max(in.template figure<Dimension::ratio>().si(), Interval{1});
}

template <class In>
bool carries_current(In const& in) {
    return (in.template cell<output, A::acts>().may & ~bits<A::acts>("proportional", "feeds_on_fall")) != 0;
}

struct Limits {
    ApparentPower make, break_;
    Current carry;
};

/// What a code allows at one supply voltage.
/// A code for alternating current says nothing of direct current, and the other way round.
Limits limits_at(std::string_view code, double millivolts, bool direct) {
    auto const duty = physics::pilot_duty(code, Voltage{{millivolts}});
    if (!duty || duty->direct_current != direct) return {{{0}}, {{0}}, {{0}}};
    Interval const volts{millivolts / 1000};
    return {ApparentPower::from_si(duty->make.si() * volts), ApparentPower::from_si(duty->break_.si() * volts),
            duty->carry};
}

Limits either(Limits const& x, Limits const& y) {
    return {{hull(x.make.quanta, y.make.quanta)}, {hull(x.break_.quanta, y.break_.quanta)}, {hull(x.carry.quanta, y.carry.quanta)}};
}

/// The voltages between which nothing turns: volt-amperes grow up to 120 V, stay, and end at the highest voltage of
/// the code's letter group (150, 300, 600 V). The ends of the range and the turns inside it bound everything.
std::array<double, 6> corners_of(Voltage supply) {
    auto inside = [&](double volts) { return std::clamp(volts * 1000, supply.quanta.lo, supply.quanta.hi); };
    return {supply.quanta.lo, supply.quanta.hi, inside(120), inside(150), inside(300), inside(600)};
}

/// Over all codes that the contact may have and both kinds of current that the supply may be.
Limits limits_of(Cell const& code, Cell const& current, Voltage supply) {
    std::optional<Limits> all;
    auto const& row = row_of(A::pilot_duty);
    for (int i = 0; i < choice_count(row); ++i)
        for (bool direct : {false, true}) {
            auto const kind = direct ? bits<A::current_kind>("dc") : bits<A::current_kind>("ac");
            if (!(code.may >> i & 1u) || !(current.may & kind)) continue;
            for (double volts : corners_of(supply)) {
                auto const one = limits_at(choice_word(row, i), volts, direct);
                all = all ? either(*all, one) : one;
            }
        }
    return all.value_or(Limits{{{0}}, {{0}}, {{0}}});
}

struct VoltageRule {
    using Scope = Reads<Slot{output, A::most_voltage}, Slot{circuit, A::supply}, Slot{output, A::acts}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!carries_current(in)) return t.not_applicable();
        t.at_least("highest voltage of the contact", in.measure<output, A::most_voltage>(),
                   in.measure<circuit, A::supply>());
    }
};

struct Carry {
    using Scope = Reads<LEVELSWAP_LOAD_SLOTS, Slot{output, A::pilot_duty}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const load = load_of(in);
        if (!carries_current(in) || load.holding.quanta.hi == 0) return t.not_applicable();
        auto const supply = in.measure<circuit, A::supply>();
        auto const limits = limits_of(in.cell<output, A::pilot_duty>(), in.cell<circuit, A::current_kind>(), supply);
        t.at_least("continuous current of the contact", limits.carry,
                   Current::from_si(margin_of(in) * Interval{high_voltage} * load.amperes));
    }
};

struct Make {
    using Scope = Reads<LEVELSWAP_LOAD_SLOTS, Slot{output, A::pilot_duty}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const load = load_of(in);
        if (!carries_current(in) || load.inrush.quanta.hi == 0) return t.not_applicable();
        t.at_least("make rating of the contact",
                   limits_of(in.cell<output, A::pilot_duty>(), in.cell<circuit, A::current_kind>(), in.measure<circuit, A::supply>()).make,
                   margin_of(in) * load.inrush);
    }
};

struct Break {
    using Scope = Reads<LEVELSWAP_LOAD_SLOTS, Slot{output, A::pilot_duty}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const load = load_of(in);
        if (!carries_current(in) || load.holding.quanta.hi == 0) return t.not_applicable();
        t.at_least("break rating of the contact",
                   limits_of(in.cell<output, A::pilot_duty>(), in.cell<circuit, A::current_kind>(), in.measure<circuit, A::supply>()).break_,
                   margin_of(in) * Interval{high_load} * load.holding);
    }
};

struct MinimumLoad {
    using Scope = Reads<LEVELSWAP_LOAD_SLOTS, Slot{output, A::least_current}, Slot{circuit, A::load_signal}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!carries_current(in)) return t.not_applicable();
        auto const load = load_of(in);
        auto const least = in.measure<output, A::least_current>();
        if (!in.none<circuit, A::load_signal>() && in.cell<circuit, A::load_signal>().hi > 0)
            return t.at_least("current of the logic input", in.measure<circuit, A::load_signal>(), least);
        if (load.holding.quanta.hi == 0) return t.not_applicable();
        t.at_least("current that holds the coil",
                   Current::from_si(load.amperes_per_volt * in.measure<circuit, A::supply>().si()), least);
    }
};

#define LEVELSWAP_MOTOR_SLOTS                                                                              \
    Slot{circuit, A::load_motor_running}, Slot{circuit, A::load_motor_locked}, Slot{circuit, A::load_motor_voltage}, \
        Slot{circuit, A::load_motor_phases}, Slot{circuit, A::load_motor_power}, Slot{circuit, A::load_motor_letter}

/// A single-phase motor needs one pole, a three-phase motor three.
template <class In>
Count poles_wanted(In const& in) {
    auto const phases = in.template measure<circuit, A::load_motor_phases>();
    return {{phases.quanta.lo < 2 ? 1.0 : 3.0, phases.quanta.hi < 2 ? 1.0 : 3.0}};
}

struct MotorCurrents {
    Current running, locked;
};

/// What the plate's code letter leaves of the locked-rotor current: it lies between the letter's ends. Where the two
/// lie apart they contradict each other, and the larger counts.
template <class In>
Interval with_code_letter(In const& in, Interval stated) {
    auto const& letter = in.template cell<circuit, A::load_motor_letter>();
    auto const& row = row_of(A::load_motor_letter);
    std::optional<Interval> kva;
    for (int i = 0; i < choice_count(row); ++i)
        if (letter.may >> i & 1u)
            if (auto const one = physics::code_letter_kva_per_hp(choice_word(row, i)[0])) kva = kva ? hull(*kva, *one) : *one;
    if (!kva) return stated;
    Interval const found = physics::locked_rotor_bounds(*kva, in.template measure<circuit, A::load_motor_power>(),
                                                        in.template measure<circuit, A::load_motor_phases>().quanta,
                                                        in.template measure<circuit, A::load_motor_voltage>());
    if (stated.lo > found.hi || stated.hi < found.lo) return max(stated, found);
    return {std::max(stated.lo, found.lo), std::min(stated.hi, found.hi)};
}

/// The larger of plate and table counts for the switch (NEC 430.6, from memory); locked, no less than 6 times the
/// full-load current (common practice, no source).
template <class In, class T>
MotorCurrents motor_currents(In const& in, T& t) {
    Interval const table = physics::full_load_bounds(in.template measure<circuit, A::load_motor_power>(),
                                                     in.template measure<circuit, A::load_motor_phases>().quanta,
                                                     in.template measure<circuit, A::load_motor_voltage>());
    if (table.lo > 0) t.note("full-load current by NEC 2023 Tables 430.248 and 430.250", Current::from_si(table));
    auto const running = max(in.template measure<circuit, A::load_motor_running>().quanta, Current::from_si(table).quanta);
    auto const stated = in.template measure<circuit, A::load_motor_locked>();
    auto const locked = Current::from_si(with_code_letter(in, stated.si())).quanta;
    return {{running}, {max(locked, Interval{6} * running)}};
}

/// Nothing is known of the motor, not even that there is one.
template <class In>
bool may_have_no_motor(In const& in) {
    auto const& phases = in.template cell<circuit, A::load_motor_phases>();
    return in.template cell<circuit, A::load_motor_power>().lo <= 0 && phases.lo < phases.hi;
}

template <class In>
bool may_have_a_motor(In const& in) {
    return !in.template none<circuit, A::load_motor_power>() && in.template cell<circuit, A::load_motor_power>().hi > 0;
}

/// Where there may be no motor at all, a rating that suits none is no refusal.
template <class Rule, class In, class T>
void judge_motor(In const& in, T& t) {
    if (!may_have_no_motor(in)) return Rule::compare(in, t);
    Silent probe;
    Rule::compare(in, probe);
    t.require("motor", probe.truth == Truth::fails ? Truth::undecided : probe.truth, "not known, nor whether there is one",
              "none, or one within the rating");
}

struct MotorDirect {
    using Scope = Reads<LEVELSWAP_MOTOR_SLOTS, Slot{contactor, A::poles}, Slot{relay, A::poles},
                        Slot{output, A::motor_running}, Slot{output, A::motor_locked}, Slot{output, A::motor_volts},
                        Slot{output, A::poles}, Slot{output, A::acts}>;
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
        t.at_least("poles", in.measure<output, A::poles>(), poles_wanted(in));
        t.at_least("motor full-load current the contact is rated for", in.measure<output, A::motor_running>(), needs.running);
        t.at_least("motor locked-rotor current the contact is rated for", in.measure<output, A::motor_locked>(), needs.locked);
        t.at_least("motor voltage the contact is rated for", in.measure<output, A::motor_volts>(),
                   in.measure<circuit, A::load_motor_voltage>());
    }
};

struct ContactorRule {
    using Scope = Reads<LEVELSWAP_MOTOR_SLOTS, Slot{contactor, A::poles}, Slot{contactor, A::motor_running},
                        Slot{contactor, A::motor_locked}, Slot{contactor, A::motor_volts}, Slot{contactor, A::overload}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!may_have_a_motor(in) || !in.has<contactor, A::poles>()) return t.not_applicable();
        judge_motor<ContactorRule>(in, t);
    }
    template <class T>
    static void compare(Scope const& in, T& t) {
        auto const needs = motor_currents(in, t);
        t.at_least("poles", in.measure<contactor, A::poles>(), poles_wanted(in));
        t.at_least("motor full-load current the contactor is rated for", in.measure<contactor, A::motor_running>(), needs.running);
        t.at_least("motor locked-rotor current the contactor is rated for", in.measure<contactor, A::motor_locked>(), needs.locked);
        t.at_least("motor voltage the contactor is rated for", in.measure<contactor, A::motor_volts>(),
                   in.measure<circuit, A::load_motor_voltage>());
        t.require("motor overload protection", in.is<contactor, A::overload>(bits<A::overload>("yes")),
                  Say(A::overload, in.cell<contactor, A::overload>().may), "yes");
    }
};

/// The relay's own contact carries what the output no longer does.
struct RelayContact {
    using Scope = Reads<LEVELSWAP_COIL_SLOTS, Slot{circuit, A::current_kind}, Slot{relay, A::pilot_duty},
                        Slot{relay, A::most_voltage}, Slot{relay, A::least_current}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<relay, A::most_voltage>()) return t.not_applicable();
        auto const supply = in.measure<circuit, A::supply>();
        t.at_least("highest voltage of the relay's contact", in.measure<relay, A::most_voltage>(), supply);
        auto const load = coils_of(in);
        if (load.holding.quanta.hi == 0) return;
        auto const limits = limits_of(in.cell<relay, A::pilot_duty>(), in.cell<circuit, A::current_kind>(), supply);
        auto const margin = margin_of(in);
        t.at_least("make rating of the relay's contact", limits.make, margin * load.inrush);
        t.at_least("break rating of the relay's contact", limits.break_, margin * Interval{high_load} * load.holding);
        t.at_least("continuous current of the relay's contact", limits.carry,
                   Current::from_si(margin * Interval{high_voltage} * load.amperes));
        t.at_least("current that holds the coil", Current::from_si(load.amperes_per_volt * supply.si()),
                   in.measure<relay, A::least_current>());
    }
};

struct TransformerRule {
    using Scope = Reads<Slot{transformer, A::capacity}, Slot{transformer, A::gives_voltage}, LEVELSWAP_COIL_SLOTS,
                        Slot{relay, A::coil_holding}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<transformer, A::capacity>()) return t.not_applicable();
        auto total = coils_of(in).holding;
        if (in.has<relay, A::coil_holding>()) total = total + in.measure<relay, A::coil_holding>();
        t.at_least("capacity of the transformer", in.measure<transformer, A::capacity>(),
                   margin_of(in) * Interval{high_load} * total);
        auto const gives = in.measure<transformer, A::gives_voltage>();
        t.at_most("secondary voltage", gives, in.band_high<circuit, A::supply>());
        t.at_least("secondary voltage", gives, in.band_low<circuit, A::supply>());
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
    using Scope = Reads<Slot{circuit, A::in_series}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!is_cut_off(in.duty())) return t.not_applicable();
        t.require("cut-off in the chain of limits", in.is<circuit, A::in_series>(bits<A::in_series>("yes")),
                  Say(A::in_series, in.cell<circuit, A::in_series>().may), "in series with the other limits");
    }
};

struct RelayInFuelChain {
    using Scope = Reads<Slot{relay, A::listed_for}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!is_cut_off(in.duty()) || !in.has<relay, A::listed_for>()) return t.not_applicable();
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
RuleFunctions motor_direct() { return functions_of<MotorDirect>(); }
RuleFunctions contactor() { return functions_of<ContactorRule>(); }
RuleFunctions relay_contact() { return functions_of<RelayContact>(); }
RuleFunctions transformer() { return functions_of<TransformerRule>(); }
RuleFunctions conductor() { return functions_of<Conductor>(); }
RuleFunctions in_series() { return functions_of<InSeries>(); }
RuleFunctions relay_in_fuel_chain() { return functions_of<RelayInFuelChain>(); }

}  // namespace levelswap::families::contacts
