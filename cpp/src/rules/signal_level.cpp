#include "levelswap/rules/signal_level.hpp"

#include "families/wet_legs.hpp"

#include <algorithm>
#include <array>

namespace levelswap {

namespace {

using Signal = Reads<LEVELSWAP_LEG_SLOTS, Slot{From::vessel, Attribute::working_pressure}>;

/// The vessel at a pressure, seen from what the transmitter is ranged for.
struct State {
    physics::WetLeg now;
    Density ranged_leg_gains;   ///< how much denser the leg is at the pressure that it is ranged for
};
State state_at(Signal const& in, Interval pressure, bool leg_is_wet) {
    auto const ranged = in.measure<From::station, Attribute::calibrated_pressure>();
    return {families::state_at(in, {pressure}, leg_is_wet), families::leg_gains(in, {pressure}, ranged, leg_is_wet)};
}

/// How much higher the water stands than the transmitter shows it, at its two ends: what one ranged for the vessel as it
/// is now would show of the vessel that this one is ranged for.
struct Moves {
    Interval low, high;
};
Moves joined(Moves const& x, Moves const& y) { return {hull(x.low, y.low), hull(x.high, y.high)}; }

/// Water and steam change together: taken apart, the pressure in pieces, they change as they may.
struct Between {
    Moves all, at_lowest, at_highest;
};
Between moves_of(Signal const& in, Interval shown, Interval pressure, bool leg_is_wet) {
    constexpr int pieces = 16;
    auto const ranged = families::state_at(in, in.measure<From::station, Attribute::calibrated_pressure>(), leg_is_wet);
    auto at = [&](Interval now) {
        auto const state = state_at(in, now, leg_is_wet);
        auto moves = [&](double end) { return physics::level_error(state.now, ranged, state.ranged_leg_gains, {{end}}).quanta; };
        return Moves{moves(shown.lo), moves(shown.hi)};
    };
    Between found;
    found.all = found.at_lowest = at(pressure.lo);
    found.at_highest = pressure.is_point() ? found.at_lowest : at(pressure.hi);
    for (int i = 0; i < pieces && !pressure.is_point(); ++i) {
        auto end = [&](int n) { return n == pieces ? pressure.hi : pressure.lo + n * (pressure.width() / pieces); };
        found.all = joined(found.all, at({end(i), end(i + 1)}));
    }
    return found;
}

bool same(Cell const& x, Cell const& y) {
    return x.missing == y.missing && x.none == y.none && x.varying == y.varying && x.lo == y.lo && x.hi == y.hi && x.may == y.may;
}

SignalLevel worked_out(Signal const& in, bool high_end) {
    auto const shown = (high_end ? in.measure<From::station, Attribute::calibrated_high>() : in.measure<From::station, Attribute::calibrated_low>()).quanta;
    auto const& pressure = in.cell<From::vessel, Attribute::working_pressure>();
    auto const may = in.cell<From::station, Attribute::low_leg>().may;
    auto of = [&](bool leg_is_wet) { return moves_of(in, shown, {pressure.lo, pressure.hi}, leg_is_wet); };
    auto found = of((may & families::wet_leg) != 0);
    if (may != families::wet_leg && (may & families::wet_leg) != 0) {
        auto const dry = of(false);
        found = {joined(found.all, dry.all), joined(found.at_lowest, dry.at_lowest), joined(found.at_highest, dry.at_highest)};
    }
    // The higher it shows, the higher the water stands: the ends of what is calibrated are the ends of where it is.
    SignalLevel level;
    level.at = {(shown.lo + found.all.low).lo, (shown.hi + found.all.high).hi};
    if (!pressure.varying) return level;
    Interval const surely = hull(found.at_highest.low - found.at_lowest.low, found.at_highest.high - found.at_lowest.high);
    level.strays = std::max(0.0, surely.lo / 2);   // it rises with the pressure; that of still water hardly moves
    level.at = {level.at.lo + level.strays, level.at.hi - level.strays};
    return level;
}

}  // namespace

std::span<Slot const> signal_level_slots() { return Signal::slots; }

/// A search asks for the same levels thousands of times while it moves other facts: the last ones are kept.
SignalLevel signal_level(Operands const& operands, bool high_end) {
    constexpr std::size_t count = Signal::slots.size();
    struct Kept {
        std::array<Cell, count> cells;
        bool high_end = false, filled = false;
        SignalLevel level;
    };
    thread_local std::array<Kept, 8> last;
    thread_local std::size_t next = 0;
    for (Kept const& k : last)
        if (k.filled && k.high_end == high_end && std::equal(k.cells.begin(), k.cells.end(), operands.cells.begin(), same)) return k.level;
    Kept& k = last[next++ % last.size()];
    std::copy_n(operands.cells.begin(), count, k.cells.begin());
    k.high_end = high_end;
    k.filled = true;
    return k.level = worked_out(Signal(operands), high_end);
}

}  // namespace levelswap
