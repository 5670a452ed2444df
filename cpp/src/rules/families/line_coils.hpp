#pragma once

// Which coil of a feed line hangs on a circuit. A pump, a solenoid valve and an actuator may stand in one line, each
// worked by a circuit of its own: what the circuit takes tells them apart.

#include "levelswap/rules/rule.hpp"

namespace levelswap::families {

/// A circuit that switches works the solenoid valve. Unknown: it may.
template <class In>
bool works_solenoid(In const& in) {
    return in.template has<From::solenoid_valve, Attribute::coil_voltage>() &&
           (in.template cell<From::circuit, Attribute::takes>().may & bits<Attribute::takes>("on_off")) != 0;
}

/// A circuit that carries a signal works the actuator. Unknown: it may.
template <class In>
bool works_actuator(In const& in) {
    return in.template has<From::actuator, Attribute::coil_voltage>() &&
           (in.template cell<From::circuit, Attribute::takes>().may & ~bits<Attribute::takes>("on_off")) != 0;
}

#define LEVELSWAP_LINE_COIL_SLOTS                                                                                     \
    Slot{From::circuit, Attribute::takes}, Slot{From::solenoid_valve, Attribute::coil_voltage},                       \
        Slot{From::actuator, Attribute::coil_voltage}

}  // namespace levelswap::families
