#pragma once

// What hangs on a contact, and what the code of a contact allows.

#include "line_coils.hpp"

#include "levelswap/physics/contact_codes.hpp"

#include <array>

namespace levelswap::families::switching {

using enum From;
using A = Attribute;

#define LEVELSWAP_COIL_SLOTS                                                                                    \
    Slot{circuit, A::supply}, Slot{circuit, A::coil_inrush}, Slot{circuit, A::coil_holding},                    \
        Slot{contactor, A::coil_voltage}, Slot{contactor, A::coil_inrush}, Slot{contactor, A::coil_holding},        \
        LEVELSWAP_LINE_COIL_SLOTS, Slot{solenoid_valve, A::coil_inrush}, Slot{solenoid_valve, A::coil_holding},     \
        Slot{actuator, A::coil_inrush}, Slot{actuator, A::coil_holding}

#define LEVELSWAP_LOAD_SLOTS                                                                                    \
    LEVELSWAP_COIL_SLOTS, Slot{circuit, A::load_resistive}, Slot{circuit, A::current_kind}, Slot{relay, A::coil_voltage}, Slot{relay, A::coil_inrush}, \
        Slot{relay, A::coil_holding}, Slot{output, A::acts}

// A coil that holds is an impedance: its current goes with the voltage, its volt-amperes with the square of it.
// That is physics, saturation left aside. That a plate states volt-amperes at the rated voltage, and that a supply
// may stand 10 % above it, is common practice, no source.
inline constexpr double high_voltage = 1.1;
inline constexpr double high_load = 1.21;  // 1.1²

/// Coils in parallel: what they draw adds up.
struct Load {
    ApparentPower inrush, holding;   ///< at rated voltage
    Interval inrush_amperes, amperes;   ///< at rated voltage; held
    Interval amperes_per_volt;
    friend Load operator+(Load const& x, Load const& y) {
        return {x.inrush + y.inrush, x.holding + y.holding, x.inrush_amperes + y.inrush_amperes, x.amperes + y.amperes,
                x.amperes_per_volt + y.amperes_per_volt};
    }
};

inline Load coil(ApparentPower inrush, ApparentPower holding, Voltage rated) {
    Interval const volts = max(rated.si(), Interval{1});
    return {inrush, holding, inrush.si() / volts, holding.si() / volts, holding.si() / square(volts)};
}

/// The plates of the circuit's own loads are not among the facts: they are rated somewhere in the band of their supply
/// (common practice, no source), so both ends of the band count.
template <class In>
Voltage rated_in_band(In const& in) {
    return {hull(in.template band_low<circuit, A::supply>().quanta, in.template band_high<circuit, A::supply>().quanta)};
}

template <class In>
Load own_coils(In const& in) {
    Voltage const rated = rated_in_band(in);
    return coil(in.template measure<circuit, A::coil_inrush>(), in.template measure<circuit, A::coil_holding>(), rated);
}

/// The coils of what the circuit works in its feed line.
template <class In>
Load line_coils(In const& in) {
    Load all{{{0}}, {{0}}, {0}, {0}, {0}};
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

/// Lamps and heaters [A], beside the coils on the last contact before the load: behind a relay, not on the output.
template <class In>
Interval lamps_on_output(In const& in) {
    return in.template has<relay, A::coil_inrush>() ? Interval{0} : in.template measure<circuit, A::load_resistive>().si();
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

/// What a contact makes and breaks: volt-amperes from a voltage up, below it the amperes that it has there. Only where
/// the supply may be so high, or so low.
struct Limits {
    std::optional<Interval> make, break_;            ///< VA
    std::optional<Interval> make_below, break_below;   ///< A
    Current carry;
};

/// Coils that hold, and lamps and heaters beside them, as the highest supply drives them. A firm's margin is of the coils.
inline Current held_current(Interval margin, Load const& load, Interval lamps) {
    return Current::from_si(Interval{high_voltage} * (margin * load.amperes + lamps));
}

inline std::optional<Interval> either(std::optional<Interval> const& x, std::optional<Interval> const& y) {
    return x && y ? std::optional{hull(*x, *y)} : x ? x : y;
}

/// What a code allows at one supply voltage. Volt-amperes count from 120 V up, of direct current from 125 V.
/// A code for alternating current says nothing of direct current, and the other way round.
inline Limits limits_at(std::string_view code, double millivolts, bool direct) {
    auto const duty = physics::pilot_duty(code, Voltage{{millivolts}});
    bool const suits = duty && duty->direct_current == direct, below = millivolts < (direct ? 125'000 : 120'000);
    Interval const make = suits ? duty->make.si() : 0, broken = suits ? duty->break_.si() : 0, volts{millivolts / 1000};
    Current const carry = suits ? duty->carry : Current{{0}};
    if (below) return {std::nullopt, std::nullopt, make, broken, carry};
    return {make * volts, broken * volts, std::nullopt, std::nullopt, carry};
}

inline Limits either(Limits const& x, Limits const& y) {
    return {either(x.make, y.make), either(x.break_, y.break_), either(x.make_below, y.make_below), either(x.break_below, y.break_below),
            {hull(x.carry.quanta, y.carry.quanta)}};
}

/// The voltages between which nothing turns: volt-amperes grow up to 120 V (direct current: 125 V), stay, and end at the
/// highest voltage of the code's letter group (150, 300, 600 V); of direct current they drop just above 300 V and grow
/// again. The ends of the range and the turns inside it bound everything.
inline std::array<double, 8> corners_of(Voltage supply) {
    auto inside = [&](double millivolts) { return std::clamp(millivolts, supply.quanta.lo, supply.quanta.hi); };
    return {supply.quanta.lo, supply.quanta.hi, inside(120'000), inside(125'000),
            inside(150'000),  inside(300'000),  inside(300'001), inside(600'000)};
}

/// Over all codes that the contact may have and both kinds of current that the supply may be.
inline Limits limits_of(Cell const& code, Cell const& current, Voltage supply) {
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
    return all.value_or(Limits{Interval{0}, Interval{0}, std::nullopt, std::nullopt, {{0}}});
}

/// The two comparisons of what a contact switches on and off, each where the supply may call for it.
template <class T>
void makes(T& t, Limits const& limits, Interval margin, Load const& load, char const* label, char const* label_below) {
    if (limits.make) t.at_least(label, ApparentPower::from_si(*limits.make), margin * load.inrush);
    if (limits.make_below) t.at_least(label_below, Current::from_si(*limits.make_below), Current::from_si(margin * load.inrush_amperes));
}
template <class T>
void breaks(T& t, Limits const& limits, Interval margin, Load const& load, char const* label, char const* label_below) {
    if (limits.break_) {
        t.note("holding load of the coils at their rated voltage, x 1.21 at +10 % volts", load.holding);
        t.at_least(label, ApparentPower::from_si(*limits.break_), margin * Interval{high_load} * load.holding);
    }
    if (!limits.break_below) return;
    t.note("current of the coils at their rated voltage, x 1.1 at +10 % volts", Current::from_si(load.amperes));
    t.at_least(label_below, Current::from_si(*limits.break_below), held_current(margin, load, {0}));
}

}  // namespace levelswap::families::switching
