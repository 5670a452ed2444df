#pragma once

#include "levelswap/base/dimension.hpp"

#include <optional>
#include <string_view>

namespace levelswap::physics {

/// A motor current taken from a published table because the plate was not read.
struct TableCurrent {
    Current amperes;
    std::string_view source;
    bool remembered;  ///< rests on memory, not on a source that was read
};

/// One horsepower [W]: 550 ft·lbf/s.
inline constexpr double horsepower = 745.69987158227022;

/// Full-load current by NEC 430.248 (single phase) and 430.250 (three phase).
/// The columns serve system voltages of 110–120 (115 V), 220–240 (230 V),
/// 440–480 (460 V) and 550–600 (575 V); 200 and 208 V serve themselves. Between
/// two rows the next larger motor counts. Nothing outside the tables, or where
/// the voltage range does not sit in one column. A power within 0.1 % of a row
/// is that row: files round the horsepower.
std::optional<TableCurrent> full_load_current(Power power, int phases, Voltage nominal);

/// Locked-rotor current by NEC 430.251(A) and (B), from 1/2 hp.
std::optional<TableCurrent> locked_rotor_current(Power power, int phases, Voltage nominal);

/// Upper end of the plate's code letter, kVA per hp (NEC 430.7(B)); none for V,
/// which has no upper end, nor for I, O and Q, which are not used.
std::optional<Interval> code_letter_upper_kva_per_hp(char letter);

/// Locked-rotor current at the upper end of the code letter: kVA/hp × hp × 1000
/// / (V, or √3·V for three phases). The formula is remembered, the letters are not.
std::optional<TableCurrent> code_letter_locked_rotor_current(char letter, Power power, int phases, Voltage nominal);

/// Bounds of the full-load current by NEC 430.248 and 430.250 [A] over every power,
/// number of phases and voltage in the ranges. Where the tables say nothing, and for
/// motors smaller than their first row, it is 0: the plate alone counts there.
Interval full_load_bounds(Power power, Interval phases, Voltage nominal);

/// A figure of the tables [A] in whole quanta, as facts are: equality passes.
Current table_current(Interval amperes);

/// What a contact is rated for.
struct RatedCurrents {
    Current running, locked;
};

/// Currents that a rating by a power and a highest voltage alone stands for: those of the largest motor of the tables
/// that is no larger, NEC 430.248 or 430.250 and 430.251(A) or (B); where 430.251 has no figure, 6 times the full-load
/// current (common practice, no source). Where the voltage lies above those that a column serves, the current is less
/// as the voltage is more (UL 508 does so for 265 and 277 V; from memory). Nothing where the tables have no such motor.
std::optional<RatedCurrents> rated_currents(Power rated, Interval phases, Voltage highest);

/// kVA per hp that a code letter stands for (NEC 430.7(B)): from the upper end of the
/// letter before it. V ends at the highest figure that a plate could mean. Nothing for
/// I, O and Q.
std::optional<Interval> code_letter_kva_per_hp(char letter);

/// Locked-rotor current [A] that goes with so many kVA per hp, over the ranges given.
Interval locked_rotor_bounds(Interval kva_per_hp, Power power, Interval phases, Voltage nominal);

}  // namespace levelswap::physics
