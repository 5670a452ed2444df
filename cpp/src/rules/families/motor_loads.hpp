#pragma once

// What a motor asks of the contact or contactor that switches it.

#include "levelswap/physics/motor_tables.hpp"
#include "levelswap/rules/rule.hpp"

namespace levelswap::families::switching {

using enum From;
using A = Attribute;

#define LEVELSWAP_MOTOR_SLOTS                                                                              \
    Slot{circuit, A::load_motor_running}, Slot{circuit, A::load_motor_locked}, Slot{circuit, A::load_motor_voltage}, \
        Slot{circuit, A::load_motor_phases}, Slot{circuit, A::load_motor_power}, Slot{circuit, A::load_motor_letter}

/// A single-phase motor needs one pole, a three-phase motor three.
template <class In>
Count poles_wanted(In const& in) {
    auto const phases = in.template measure<circuit, A::load_motor_phases>();
    return {{phases.quanta.lo < 2 ? 1.0 : 3.0, phases.quanta.hi < 2 ? 1.0 : 3.0}};
}

/// The phases that the motor may have, in the words of a rating.
template <class In>
std::uint64_t phases_of_motor(In const& in) {
    auto const phases = in.template measure<circuit, A::load_motor_phases>();
    return (phases.quanta.lo < 2 ? bits<A::motor_rated_phases>("single") : 0) |
           (phases.quanta.hi >= 2 ? bits<A::motor_rated_phases>("three") : 0);
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
    Current const table = physics::table_current(physics::full_load_bounds(
        in.template measure<circuit, A::load_motor_power>(), in.template measure<circuit, A::load_motor_phases>().quanta,
        in.template measure<circuit, A::load_motor_voltage>()));
    if (table.quanta.lo > 0) t.note("full-load current by NEC 2023 Tables 430.248 and 430.250 (read)", table);
    auto const running = max(in.template measure<circuit, A::load_motor_running>().quanta, table.quanta);
    auto const stated = in.template measure<circuit, A::load_motor_locked>();
    auto const locked = Current::from_si(with_code_letter(in, stated.si())).quanta;
    return {{running}, {max(locked, Interval{6} * running)}};
}

/// What a contact is rated for. A plate that states a power and a voltage alone stands for the currents of such a motor.
template <From Owner, class In, class T>
physics::RatedCurrents rated_currents(In const& in, T& t) {
    physics::RatedCurrents rated{in.template measure<Owner, A::motor_running>(), in.template measure<Owner, A::motor_locked>()};
    if (!in.template none<Owner, A::motor_running>() || in.template none<Owner, A::motor_rated_power>()) return rated;
    auto const found = physics::rated_currents(in.template measure<Owner, A::motor_rated_power>(),
                                               in.template measure<circuit, A::load_motor_phases>().quanta,
                                               in.template measure<Owner, A::motor_volts>());
    constexpr auto& row = row_of(A::motor_running);
    rated.running = found ? found->running : Current::from_si(Interval{row.least, row.most});
    if (found) t.note("full-load current that the rated power stands for, by the same tables", rated.running);
    if (in.template none<Owner, A::motor_locked>()) rated.locked = found ? found->locked : Current{Interval{6} * rated.running.quanta};
    return rated;
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

}  // namespace levelswap::families::switching
