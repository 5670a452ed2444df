#include "levelswap/rules/signal_level.hpp"

#include "families/wet_legs.hpp"

#include <algorithm>

namespace levelswap {

namespace {

using Signal = Reads<LEVELSWAP_LEG_SLOTS, Slot{From::vessel, Attribute::working_pressure}>;

/// How much higher the water stands than the transmitter shows it at a level: what one ranged for the vessel as it is
/// now would show of the vessel that this one is ranged for.
Interval moves(Signal const& in, double shown, GaugePressure now) {
    return families::over_legs(in, [&](bool leg_is_wet) {
        return families::shows_more(in, now, in.measure<From::station, Attribute::calibrated_pressure>(), leg_is_wet, {{shown}}).quanta;
    });
}

/// Water and steam change together: taken apart, the pressure in pieces, they change as they may.
Interval moves_between(Signal const& in, double shown, Interval pressure) {
    constexpr int pieces = 16;
    if (pressure.is_point()) return moves(in, shown, {pressure});
    Interval all = moves(in, shown, {{pressure.lo}});
    for (int i = 0; i < pieces; ++i) {
        auto at = [&](int n) { return n == pieces ? pressure.hi : pressure.lo + n * (pressure.width() / pieces); };
        all = hull(all, moves(in, shown, {{at(i), at(i + 1)}}));
    }
    return all;
}

}  // namespace

std::span<Slot const> signal_level_slots() { return Signal::slots; }

/// The higher it shows, the higher the water stands: the ends of what is calibrated are the ends of where it is.
SignalLevel signal_level(Operands const& operands, bool high_end) {
    Signal const in(operands);
    auto const shown = (high_end ? in.measure<From::station, Attribute::calibrated_high>() : in.measure<From::station, Attribute::calibrated_low>()).quanta;
    auto const& pressure = in.cell<From::vessel, Attribute::working_pressure>();
    Interval const between{pressure.lo, pressure.hi};
    SignalLevel level;
    level.at = {(shown.lo + moves_between(in, shown.lo, between)).lo, (shown.hi + moves_between(in, shown.hi, between)).hi};
    if (!pressure.varying) return level;
    auto difference = [&](double end) { return moves(in, end, {{pressure.hi}}) - moves(in, end, {{pressure.lo}}); };
    Interval const surely = hull(difference(shown.lo), difference(shown.hi));   // linear in the level
    level.strays = std::max(0.0, surely.lo / 2);   // it rises with the pressure; that of still water hardly moves
    level.at = {level.at.lo + level.strays, level.at.hi - level.strays};
    return level;
}

}  // namespace levelswap
